/**
 * Random installations that can be put together: every kind of connection, coil and spring, both ways of working, pull and
 * push, levers that swing either way and stand anywhere. Most work more or less, many fail somewhere, a few not at all.
 *
 * Dimensions are those of engines that a person can lift a cover from; nothing is measured from any real one.
 *
 * Longer than 300 lines: one reason, that what is drawn and the document made of it are read side by side.
 */
import * as fc from 'fast-check';
import type { Job } from '../../src/job/schema.ts';
import { readable } from '../job/jobs.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined, freq: 2 });
const mm = (metresTimesThousand: number) => `${metresTimesThousand.toFixed(3)} mm`;
const degrees = (angle: number) => `${angle.toFixed(4)}°`;
const newtons = (force: number) => `${force.toFixed(3)} N`;
const RADIAN = Math.PI / 180;

const lever = fc.record({
  way: fc.constantFrom(1, -1),
  run: between(-180, 180),
  swing: between(22, 42),
  pastNoFuel: between(4, 14),
  pastRun: between(0.5, 5),
  hubPositions: fc.constantFrom(1, 24, 36, 60),
  place: fc.nat(359),
  armOffset: between(-90, 90),
  lash: between(0, 1.2),
});

const effort = fc.record({
  towards: fc.constantFrom('stop', 'run'),
  /** N m. */
  moment: between(0.15, 0.9),
  rise: between(0.8, 1.8),
  /** Friction over the steady part. */
  rub: between(0.05, 0.45),
  states: fc.subarray(['standing', 'idling', 'rated'], { minLength: 1 }),
  rows: fc.integer({ min: 1, max: 4 }),
  radius: between(35, 70),
  firstPull: maybe(between(1, 1.6)),
  coldOil: maybe(between(1, 1.6)),
});

const geometry = fc.record({
  kind: fc.constantFrom('slotted lever', 'pinned link', 'short chain', 'plain pin'),
  arm: between(32, 65),
  link: between(30, 80),
  /** How far past no-fuel (energise to run: past run) the arm stands at home, over the way from there to its stop. */
  home: between(0.1, 1.15),
  /** The stroke over the chord of the swing. */
  stroke: between(0.98, 1.25),
  /** The pull off the chord, degrees, and the link off the pull. */
  off: between(-9, 9),
  lean: between(-12, 12),
  pin: between(5, 9),
  clearance: between(0.3, 12),
  slotRoom: between(3, 9),
  /** The bracket in a wrong place, mm, or pulling the wrong way. */
  misplaced: fc.option(fc.tuple(between(-30, 30), between(-30, 30)), { nil: [0, 0] as const, freq: 12 }),
  reversed: fc.integer({ min: 0, max: 19 }).map((one) => one === 7),
});

const solenoid = fc.record({
  works: fc.constantFrom('energise to stop', 'energise to run'),
  action: fc.constantFrom('pull', 'push'),
  diameter: between(12, 28),
  guide: between(1.8, 3),
  overhang: between(4, 18),
  bore: between(0.1, 0.4),
  mass: between(80, 300),
  planeOffset: maybe(between(0, 6)),
  coil: fc.constantFrom('single coil', 'pull-in and hold windings', 'series resistor', 'timed economiser'),
  byVoltage: fc.boolean(),
  /** Pull at full stroke over a rough guess of what is asked there. */
  strength: between(0.8, 4.5),
  steepness: between(0.4, 0.9),
  levels: fc.integer({ min: 1, max: 2 }),
  sticking: between(0, 6),
  hold: between(0.2, 0.7),
  endSwitch: fc.record({ at: between(0.2, 2), push: between(0, 3), rating: between(15, 80) }),
  /** A coil that asks for an end switch mostly has one. */
  switchLeftOut: fc.nat(9),
});

const spring = fc.record({
  on: fc.constantFrom('lever', 'plunger'),
  kind: fc.constantFrom('extension', 'compression'),
  byDimensions: fc.boolean(),
  force: between(4, 30),
  length: between(55, 95),
  radius: between(22, 40),
  angle: between(-180, 180),
  softness: between(0.3, 1.2),
});

const layout = fc.record({
  overTravel: maybe(
    fc.record({ preload: between(25, 140), rate: between(1, 6), travel: between(2, 9), homeFurther: between(0, 6) }),
  ),
  adjuster: fc.option(fc.record({ range: between(2, 9), pitch: between(0.7, 1.75) }), { nil: undefined, freq: 8 }),
  give: between(0, 0.6),
  down: maybe(between(0, 360)),
  tilt: maybe(between(0, 90)),
  friction: maybe(between(0, 0.3)),
  moves: fc.option(between(0.3, 2.5), { nil: 0, freq: 1 }),
  vibration: between(0, 20),
});

const supply = fc.record({
  nominal: fc.constantFrom(12, 24, 32),
  low: between(0.75, 0.95),
  high: between(1.1, 1.2),
  inside: between(5, 40),
  section: fc.constantFrom(1.5, 2.5, 4, 6, 10, 16),
  length: between(0.5, 30),
  earth: fc.boolean(),
  contacts: fc.array(fc.record({ resistance: between(1, 20), rating: maybe(between(15, 80)) }), { maxLength: 4 }),
  amps: between(8, 30),
  coldest: between(-20, 10),
  hottest: between(20, 60),
});

/** The can and its winding, and what guards coil and conductors: often enough, and as often not. */
const protection = fc.record({
  can: between(45, 80),
  slenderness: between(1.1, 1.9),
  mass: between(0.9, 2.8),
  /** mm, bare. */
  wire: between(0.5, 1.2),
  thermalClass: fc.constantFrom('A 105', 'B 130', 'F 155', 'H 180'),
  fuse: fc.oneof(
    fc.constantFrom(7.5, 10, 15, 20, 25, 30).map((amps) => ['blade', amps] as const),
    fc.constantFrom(20, 30, 40, 60).map((amps) => ['large blade', amps] as const),
    fc.constant(null),
  ),
  cutOut: fc.option(between(0.1, 40), { nil: null, freq: 3 }),
  suppression: fc.constantFrom('none', 'diode', 'diode and resistor', 'zener'),
  wrongWay: fc.integer({ min: 0, max: 9 }).map((one) => one === 4),
  command: fc.option(between(4, 30), { nil: null, freq: 3 }),
  breaks: maybe(between(5, 60)),
  landingSpeed: between(0.8, 5),
  releaseTime: between(0.03, 1),
});

/** Unbiased: values at the very ends of their ranges are no more frequent than others. */
export const randomInstallation: fc.Arbitrary<Job> = fc.noBias(
  fc
    .record({
      lever,
      effort,
      geometry,
      solenoid,
      springs: fc.array(spring, { maxLength: 2 }),
      layout,
      supply,
      protection,
    })
    .map((drawn) => readable(documentOf(drawn))),
);

/** The first so many of one row of random installations, the same at every run. */
export function randomInstallations(count: number, seed: number): Job[] {
  return fc.sample(randomInstallation, { numRuns: count, seed });
}

interface Drawn {
  readonly lever: Parameters<Parameters<typeof lever.map>[0]>[0];
  readonly effort: Parameters<Parameters<typeof effort.map>[0]>[0];
  readonly geometry: Parameters<Parameters<typeof geometry.map>[0]>[0];
  readonly solenoid: Parameters<Parameters<typeof solenoid.map>[0]>[0];
  readonly springs: readonly Parameters<Parameters<typeof spring.map>[0]>[0][];
  readonly layout: Parameters<Parameters<typeof layout.map>[0]>[0];
  readonly supply: Parameters<Parameters<typeof supply.map>[0]>[0];
  readonly protection: Parameters<Parameters<typeof protection.map>[0]>[0];
}

function documentOf(drawn: Drawn): unknown {
  const swing = swingOf(drawn);
  return {
    format: 'stopwright job',
    version: 2,
    name: `Random, ${drawn.geometry.kind}`,
    survey: surveyOf(drawn, swing),
    means: meansOf(drawn, swing),
    layout: layoutOf(drawn, swing),
    return: { springs: drawn.springs.map((one, i) => springOf(one, i, swing)) },
    supply: supplyOf(drawn),
    surroundings: {
      coldest: `${drawn.supply.coldest.toFixed(1)} °C`,
      hottest: `${drawn.supply.hottest.toFixed(1)} °C`,
      vibration: `${drawn.layout.vibration.toFixed(2)} m/s²`,
      engineMoves: mm(drawn.layout.moves),
      vapour: 'none',
      spray: 'none',
    },
    wanted: {
      landingSpeed: `${drawn.protection.landingSpeed.toFixed(2)} m/s`,
      releaseTime: `${drawn.protection.releaseTime.toFixed(3)} s`,
    },
    notes: '',
  };
}

interface Swing {
  readonly noFuel: number;
  readonly hardStop: number;
  readonly runStop: number;
  /** Shaft and arm angles wanted at home and at rest, degrees. */
  readonly shaftHome: number;
  readonly armHome: number;
  readonly shaftRest: number;
  /** +1 where the way home is counter-clockwise. */
  readonly sense: number;
  /** Unit direction of the pull, and its angle, degrees. */
  readonly ux: number;
  readonly uy: number;
  readonly pull: number;
  /** mm. */
  readonly stroke: number;
  readonly homeX: number;
  readonly homeY: number;
}

function swingOf({ lever: l, geometry: g, solenoid: s, layout: { overTravel } }: Drawn): Swing {
  const noFuel = l.run + l.way * l.swing;
  const hardStop = noFuel + l.way * l.pastNoFuel;
  const runStop = l.run - l.way * l.pastRun;
  const toStop = s.works === 'energise to stop';
  const shaftHome = toStop ? noFuel + g.home * (hardStop - noFuel) : l.run + g.home * (runStop - l.run);
  const shaftRest = toStop ? l.run - 1.9 * l.way : noFuel + 0.3 * (hardStop - noFuel);
  const sense = Math.sign(shaftHome - shaftRest);
  const offset = l.armOffset + ((l.place % l.hubPositions) * 360) / l.hubPositions;
  const at = (shaft: number) => [
    g.arm * Math.cos((shaft + offset) * RADIAN),
    g.arm * Math.sin((shaft + offset) * RADIAN),
  ];
  const [hx = 0, hy = 0] = at(shaftHome);
  const [rx = 0, ry = 0] = at(shaftRest);
  const pull = Math.atan2(hy - ry, hx - rx) + (g.off + (g.reversed ? 180 : 0)) * RADIAN;
  const reach = g.kind === 'plain pin' ? g.clearance / 2 : g.kind === 'slotted lever' ? 0 : g.link;
  const further = overTravel?.homeFurther ?? 0;
  const leaning = g.kind === 'pinned link' || g.kind === 'short chain' ? pull + g.lean * RADIAN : pull;
  return {
    noFuel,
    hardStop,
    runStop,
    shaftHome,
    armHome: shaftHome + offset,
    shaftRest,
    sense,
    ux: Math.cos(pull),
    uy: Math.sin(pull),
    pull: pull / RADIAN,
    stroke: Math.hypot(hx - rx, hy - ry) * g.stroke + further,
    homeX: hx + reach * Math.cos(leaning) + further * Math.cos(pull) + g.misplaced[0],
    homeY: hy + reach * Math.sin(leaning) + further * Math.sin(pull) + g.misplaced[1],
  };
}

function surveyOf({ lever: l, effort: e }: Drawn, swing: Swing): unknown {
  const row = (engine: string, i: number) => {
    const share = e.rows === 1 ? 0 : i / (e.rows - 1);
    const moment = e.moment * (1 + (e.rise - 1) * share) * (engine === 'standing' ? 1 : 1.15);
    const balance = (moment * 1000) / e.radius;
    return {
      engine,
      angle: degrees(swing.runStop + share * (swing.hardStop - swing.runStop)),
      radius: mm(e.radius),
      pull: newtons(balance * (1 + e.rub)),
      easingBack: newtons(balance * (1 - e.rub)),
    };
  };
  return {
    lever: {
      runAngle: degrees(l.run),
      noFuelAngle: degrees(swing.noFuel),
      hardStopAngle: degrees(swing.hardStop),
      runStopAngle: degrees(swing.runStop),
      hubPositions: l.hubPositions,
      armOffset: degrees(l.armOffset),
      lash: degrees(l.lash),
    },
    effort: {
      towards: e.towards,
      readings: e.states.flatMap((engine) => Array.from({ length: e.rows }, (_, i) => row(engine, i))),
      ...(e.firstPull === undefined
        ? {}
        : {
            firstPull: {
              radius: mm(e.radius),
              pull: newtons(((e.moment * 1000) / e.radius) * (1 + e.rub) * e.firstPull),
            },
          }),
      ...(e.coldOil === undefined ? {} : { coldOil: e.coldOil.toFixed(3) }),
      existingReturn: 'Spring of the pump',
    },
    run: { distance: '3 m', bends: 2, stations: ['Cab'], otherUses: 'none' },
  };
}

function meansOf(
  { solenoid: s, effort: e, geometry: g, supply: u, protection: p, springs }: Drawn,
  swing: Swing,
): unknown {
  const asked = (e.moment * 1000 * (1 + e.rub)) / g.arm + springs.reduce((sum, { force }) => sum + 0.6 * force, 0) + 4;
  const ohms = u.nominal / u.amps;
  const forces = (share: number) =>
    [0, 0.03, 0.1, 0.3, 0.6, 1].map((part) => ({
      gap: mm(part * swing.stroke),
      force: newtons(s.strength * asked * share * ((1 + 0.08) / (part + 0.08)) ** s.steepness),
    }));
  const drive = (share: number) =>
    s.byVoltage
      ? { by: 'voltage', voltage: `${(u.nominal * share).toFixed(3)} V`, coilTemperature: '20 °C' }
      : { by: 'current', current: `${(u.amps * share).toFixed(4)} A` };
  const holdAmps = s.coil === 'pull-in and hold windings' ? u.amps * 0.05 : u.amps * s.hold;
  const holdDrive =
    s.byVoltage && s.coil === 'pull-in and hold windings'
      ? { by: 'voltage', voltage: `${(0.9 * u.nominal).toFixed(3)} V`, coilTemperature: '60 °C' }
      : { by: 'current', current: `${(0.8 * holdAmps).toFixed(4)} A` };
  const coil = {
    'single coil': { resistance: `${ohms.toFixed(5)} Ω` },
    'pull-in and hold windings': {
      pullInResistance: `${ohms.toFixed(5)} Ω`,
      holdResistance: `${(20 * ohms).toFixed(4)} Ω`,
    },
    'series resistor': {
      resistance: `${ohms.toFixed(5)} Ω`,
      resistor: `${(ohms * (1 / s.hold - 1)).toFixed(5)} Ω`,
      resistorRating: '90 W',
    },
    'timed economiser': { resistance: `${ohms.toFixed(5)} Ω`, holdShare: s.hold.toFixed(4), delay: '1 s' },
  }[s.coil];
  return {
    kind: 'solenoid',
    works: s.works,
    action: s.action,
    plunger: {
      stroke: mm(swing.stroke),
      mass: `${s.mass.toFixed(1)} g`,
      diameter: mm(s.diameter),
      guideLength: mm(s.guide * swing.stroke),
      overhang: mm(s.overhang),
      boreClearance: mm(s.bore),
      ...(s.planeOffset === undefined ? {} : { planeOffset: mm(s.planeOffset) }),
    },
    force: [
      { stage: 'pull-in', drive: drive(1), rows: forces(1) },
      ...(s.levels === 2 ? [{ stage: 'pull-in', drive: drive(0.66), rows: forces(0.6) }] : []),
      { stage: 'hold', drive: holdDrive, rows: [{ gap: '0 mm', force: newtons(1.6 * asked * s.strength) }] },
    ],
    stickingForce: newtons(s.sticking),
    coil: { stages: s.coil, ...coil, readAt: '20 °C' },
    dropOut: '1.2 V',
    body: {
      diameter: mm(p.can),
      length: mm(p.can * p.slenderness),
      mass: `${p.mass.toFixed(3)} kg`,
      wireDiameter: mm(p.wire),
      thermalClass: p.thermalClass,
    },
    continuousPower: '60 W',
    endSwitch:
      s.switchLeftOut < (s.coil === 'single coil' || s.coil === 'timed economiser' ? 7 : 1)
        ? 'none'
        : {
            worksAtGap: mm(s.endSwitch.at),
            operatingForce: newtons(s.endSwitch.push),
            rating: `${s.endSwitch.rating.toFixed(2)} A`,
          },
  };
}

function layoutOf({ lever: l, geometry: g, layout: y }: Drawn, swing: Swing): unknown {
  const connection = {
    'slotted lever': {
      slotFrom: mm(g.arm - g.slotRoom - g.pin / 2),
      slotTo: mm(g.arm + g.slotRoom + g.pin / 2),
      pinDiameter: mm(g.pin),
      sideClearance: '0.2 mm',
    },
    'pinned link': { length: mm(g.link), armRadius: mm(g.arm), pinDiameter: mm(g.pin) },
    'short chain': { length: mm(g.link), armRadius: mm(g.arm) },
    'plain pin': { armRadius: mm(g.arm), pinDiameter: mm(g.pin), holeDiameter: mm(g.pin + g.clearance) },
  }[g.kind];
  return {
    homePin: { x: mm(swing.homeX), y: mm(swing.homeY) },
    pullDirection: degrees(swing.pull),
    hubPosition: l.place % l.hubPositions,
    connection: { kind: g.kind, ...connection },
    overTravel:
      y.overTravel === undefined
        ? 'none'
        : {
            preload: newtons(y.overTravel.preload),
            rate: `${y.overTravel.rate.toFixed(3)} N/mm`,
            travel: mm(y.overTravel.travel),
          },
    adjuster: y.adjuster === undefined ? 'none' : { range: mm(y.adjuster.range), pitch: mm(y.adjuster.pitch) },
    bracketGive: mm(y.give),
    ...(y.down === undefined ? {} : { down: degrees(y.down) }),
    ...(y.tilt === undefined ? {} : { tilt: degrees(y.tilt) }),
    ...(y.friction === undefined
      ? {}
      : { friction: { slot: y.friction.toFixed(3), guide: `${y.friction.toFixed(3)} ± 0.02` } }),
  };
}

/** A spring that drives the lever, or the plunger, away from home. */
function springOf(one: Drawn['springs'][number], i: number, swing: Swing): unknown {
  const rate = (one.force / swing.stroke) * one.softness;
  if (one.on === 'plunger') {
    const lengthAtHome = 1.3 * swing.stroke;
    return {
      on: 'plunger',
      name: `Spring ${i + 1}`,
      kind: 'compression',
      lengthAtHome: mm(lengthAtHome),
      spring: one.byDimensions
        ? wireSpring('closed and ground', lengthAtHome + one.length)
        : {
            by: 'rate',
            rate: `${rate.toFixed(4)} N/mm`,
            freeLength: mm(lengthAtHome + one.force / rate),
            limitLength: mm(0.8 * swing.stroke),
          },
    };
  }
  const at = (swing.shaftHome + one.angle) * RADIAN;
  const x = one.radius * Math.cos(at);
  const y = one.radius * Math.sin(at);
  // The spring acts square to its radius at home, against the sense of the way home.
  const way = (one.kind === 'extension' ? -1 : 1) * swing.sense;
  const isStretched = one.kind === 'extension';
  return {
    on: 'lever',
    name: `Spring ${i + 1}`,
    kind: one.kind,
    anchor: { x: mm(x - way * one.length * Math.sin(at)), y: mm(y + way * one.length * Math.cos(at)) },
    radius: mm(one.radius),
    angle: degrees(one.angle),
    spring: one.byDimensions
      ? wireSpring(isStretched ? 'hooks' : 'closed', isStretched ? 0.6 * one.length : 1.5 * one.length)
      : {
          by: 'rate',
          rate: `${rate.toFixed(4)} N/mm`,
          freeLength: mm(isStretched ? 0.55 * one.length : one.length + one.force / rate),
          ...(isStretched ? { initialTension: newtons(0.4 * one.force) } : {}),
          limitLength: mm(isStretched ? 1.8 * one.length : 0.3 * one.length),
        },
  };
}

function wireSpring(ends: string, freeLength: number): unknown {
  return {
    by: 'dimensions',
    wire: ends === 'hooks' ? 'EN 10270-1 SM' : 'EN 10270-3 1.4310',
    wireDiameter: '1.2 mm',
    outsideDiameter: '12 mm',
    activeTurns: '22',
    freeLength: mm(freeLength),
    ...(ends === 'hooks' ? { initialTension: '4 N' } : {}),
    ends,
  };
}

function suppressionOf({ suppression, wrongWay }: Drawn['protection'], nominal: number): unknown {
  const polarity = wrongWay ? 'anode to plus' : 'cathode to plus';
  switch (suppression) {
    case 'diode':
      return { kind: suppression, polarity };
    case 'diode and resistor':
      return { kind: suppression, polarity, resistance: '3 Ω' };
    case 'zener':
      return { kind: suppression, voltage: `${2 * nominal} V` };
    case 'none':
      return suppression;
  }
}

function otherStation(alsoFeeds: string, length: number): unknown {
  const out = { section: '1.5 mm²', length: `${(1.5 * length).toFixed(2)} m` };
  return { name: 'Second station', out, contacts: [], diode: 'none', alsoFeeds };
}

function supplyOf({ supply: u, protection: p }: Drawn): unknown {
  const conductor = { section: `${u.section} mm²`, length: `${u.length.toFixed(2)} m` };
  return {
    nominal: u.nominal,
    low: `${(u.nominal * u.low).toFixed(3)} V`,
    cranking: `${(u.nominal * u.low).toFixed(3)} V`,
    charging: `${(u.nominal * u.high).toFixed(3)} V`,
    internalResistance: `${u.inside.toFixed(2)} mΩ`,
    out: conductor,
    back: u.earth ? { by: 'earth', resistance: '5 mΩ' } : { by: 'conductor', ...conductor },
    contacts: u.contacts.map(({ resistance, rating }, i) => ({
      name: `Contact ${i + 1}`,
      kind: 'other',
      resistance: `${resistance.toFixed(2)} mΩ`,
      ...(rating === undefined ? {} : { rating: `${rating.toFixed(2)} A` }),
      ...(i > 0 || p.breaks === undefined ? {} : { breaks: `${p.breaks.toFixed(2)} A` }),
    })),
    stations: u.length < 6 ? [] : [otherStation(u.length > 12 ? 'a lamp' : '', u.length)],
    fuse: p.fuse === null ? 'none' : { type: p.fuse[0], rating: `${p.fuse[1]} A` },
    cutOut: p.cutOut === null ? 'none' : { after: `${p.cutOut.toFixed(2)} s` },
    suppression: suppressionOf(p, u.nominal),
    command: p.command === null ? 'held by hand' : { holds: `${p.command.toFixed(1)} s` },
    starterInterlock: 'none',
    backFeed: `${(u.inside / 20).toFixed(3)} V`,
  };
}
