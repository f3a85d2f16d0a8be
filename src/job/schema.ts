/**
 * The job document: one installation, from survey to return spring, as one immutable value.
 *
 * This schema is the single source of the TypeScript types, of validation and of the published JSON Schema
 * (`schema/job.schema.json`). Quantities are text as typed (`fields.ts`). Optional fields have a stated default in
 * `defaults.ts`; a required reading that was not taken holds `not measured`.
 *
 * Frame (one view for the whole document): looked at along the lever's shaft, shaft centre O at the origin, x to the
 * right, y up on the drawing, angles counter-clockwise from x. `shaft angle` is the angle of the lever's shaft; the arm
 * stands at shaft angle + arm offset + hub position × 360° / hub positions.
 *
 * Longer than 300 lines: one reason, that the document is read top to bottom in one place.
 */
import { z } from 'zod';
import { air, airCylinder } from './air-cylinder.ts';
import { defaulted, reading } from './fields.ts';
import { handCable } from './hand-cable.ts';
import {
  angle,
  clearance,
  force,
  friction,
  length,
  place,
  point,
  temperature,
  text,
  turns,
} from './kinds-of-reading.ts';

export const FORMAT = 'stopwright job';
export const VERSION = 3;

const effortReading = z.strictObject({
  engine: z
    .literal(['standing', 'idling', 'rated'])
    .meta({ description: 'state of the engine while the balance was read' }),
  angle: angle('shaft angle at the reading'),
  radius: length('distance from the shaft centre to the hook of the balance'),
  pull: force('balance while the lever is moved slowly on'),
  easingBack: force('balance while the lever is let slowly back'),
  offSquare: defaulted('angle', 'how far the balance stood off square to the arm; default 0°', turns),
});

const survey = z.strictObject({
  lever: z.strictObject({
    runAngle: angle('shaft angle at which the engine is free to run'),
    noFuelAngle: angle('shaft angle from which fuel is fully off'),
    hardStopAngle: angle('shaft angle at the hard stop on the stop side'),
    runStopAngle: angle('shaft angle at the stop on the run side'),
    hubPositions: z
      .int()
      .min(1)
      .max(360)
      .meta({ description: 'how many index positions the toothed or slotted hub has; 1 for a keyed arm' }),
    armOffset: angle('arm angle minus shaft angle at hub position 0'),
    lash: reading('angle', 'rocking play of the lever on its shaft, pins and old linkage', { least: 0, most: 1 }),
    bears: defaulted(
      'torque',
      'moment that lever and hard stop bear, from the maker of the pump; left out: not judged',
      {
        above: 0,
        most: 1e4,
      },
    ),
    mass: defaulted('mass', 'lever and rack together, as felt at massRadius; default 0.3 kg', { above: 0, most: 100 }),
    massRadius: defaulted('length', 'distance from the shaft centre at which that mass is felt; default 40 mm', {
      above: 0,
      most: 1,
    }),
  }),
  effort: z.strictObject({
    towards: z.literal(['stop', 'run']).meta({ description: 'which way the balance moved the lever' }),
    balanceZero: defaulted('force', 'what the balance shows with nothing on it; default 0 N', {
      least: -1e3,
      most: 1e3,
    }),
    readings: z.array(effortReading).max(200),
    firstPull: z
      .strictObject({
        radius: length('distance from the shaft centre to the hook of the balance'),
        pull: force('balance at the moment the lever first moves after standing'),
      })
      .meta({ description: 'breakaway of the lever after standing, read at the rest position' })
      .optional(),
    coldOil: defaulted('ratio', 'friction of the lever with cold oil over friction as read; default 1.25', {
      least: 1,
      most: 20,
    }),
    existingReturn: text('which spring already brings the lever back', 400),
  }),
  run: z.strictObject({
    distance: reading('length', 'length of cable or wire run from the place of control to the lever', {
      least: 0,
      most: 1e4,
    }),
    bends: z.int().min(0).max(200).meta({ description: 'bends that a hand cable would have' }),
    bendTotal: defaulted('angle', 'sum of the bend angles, each taken positive', { least: 0, most: 100 }),
    stations: z.array(text('who must be able to stop the engine, and from where', 200)).max(20),
    otherUses: text('who else moves this lever: hand stop, excess fuel, throttle, shut-down trips', 400),
  }),
  air,
  runDown: defaulted('time', 'from no-fuel until the engine stands still; default 10 s', { above: 0, most: 3600 }),
});

const forceTable = z.strictObject({
  source: z
    .literal(['read on a balance', 'data sheet', 'field solve'])
    .meta({ description: 'where the pulls come from; left out: read on a balance' })
    .optional(),
  stage: z.literal(['pull-in', 'hold']).meta({ description: 'which state of the coil the table was read in' }),
  drive: z.discriminatedUnion('by', [
    z.strictObject({
      by: z.literal('voltage'),
      voltage: reading('voltage', 'volts at the coil while the pulls were read', { above: 0, most: 1000 }),
      coilTemperature: temperature('temperature of the coil while the pulls were read'),
    }),
    z.strictObject({
      by: z.literal('current'),
      current: reading('current', 'amps in the coil while the pulls were read', { above: 0, most: 1000 }),
    }),
  ]),
  rows: z
    .array(
      z.strictObject({
        gap: clearance('gap from home'),
        force: reading('force', 'pull read at this gap', { above: 0, most: 1e5 }),
      }),
    )
    .min(1)
    .max(500),
});

const resistance = (description: string) => reading('resistance', description, { above: 0, most: 1e5 });
const coilReadAt = temperature('temperature of the coil when its ohms were read');

const coil = z.discriminatedUnion('stages', [
  z.strictObject({ stages: z.literal('single coil'), resistance: resistance('ohms of the coil'), readAt: coilReadAt }),
  z.strictObject({
    stages: z.literal('pull-in and hold windings'),
    pullInResistance: resistance('ohms of the pull-in winding'),
    holdResistance: resistance('ohms of the hold winding'),
    turnsRatio: defaulted('ratio', 'turns of the hold winding over those of the pull-in winding', {
      above: 0,
      most: 1000,
    }),
    readAt: coilReadAt,
  }),
  z.strictObject({
    stages: z.literal('series resistor'),
    resistance: resistance('ohms of the coil'),
    readAt: coilReadAt,
    resistor: resistance('ohms of the resistor that the end switch puts in series'),
    resistorRating: reading('power', 'watts that the resistor may shed where it is mounted', { above: 0, most: 1e4 }),
  }),
  z.strictObject({
    stages: z.literal('timed economiser'),
    resistance: resistance('ohms of the coil'),
    readAt: coilReadAt,
    holdShare: reading('ratio', 'mean coil volts in hold over coil volts in pull-in', { above: 0, most: 1 }),
    delay: reading('time', 'seconds until the economiser reduces the current', { above: 0, most: 3600 }),
  }),
]);

const finite = (description: string) => z.array(z.number()).min(3).max(64).meta({ description });

/** What a field solve left behind, so that no reader of the job has to solve again. Computed numbers, SI, not readings. */
export const coEnergyMap = z
  .strictObject({
    turns: z
      .array(z.number().positive().max(1e6))
      .min(1)
      .max(2)
      .meta({ description: 'turns of the winding; of two windings the pull-in winding first' }),
    lines: z
      .array(
        z.strictObject({
          gap_m: z.number().min(0).max(1),
          ampereTurns: finite('ampere-turns, rising, the first one next to nothing'),
          coEnergy_J: finite('magnetic co-energy'),
          fluxLinkage_Wb: finite('flux linkage of one turn'),
          force_N: finite('pull towards home'),
        }),
      )
      .min(2)
      .max(64)
      .meta({ description: 'one line for each gap, gaps rising; all from the same lowest to the same highest level' }),
  })
  .meta({ description: 'co-energy of the magnetic circuit from a field solve of the solenoid from its dimensions' });

const thermalClass = z
  .literal(['Y 90', 'A 105', 'E 120', 'B 130', 'F 155', 'H 180', 'N 200', 'R 220', '250', 'not measured'])
  .meta({ description: 'thermal class of the insulation (IEC 60085), from plate or data sheet' });

/** What the heat of the coil rests on. */
const body = z
  .strictObject({
    diameter: length('outside diameter of the can'),
    length: length('length of the can'),
    mass: reading('mass', 'solenoid without its plunger, weighed', { above: 0, most: 100 }),
    wireDiameter: reading('length', 'bare diameter of the wire that carries the pull-in current', {
      above: 0,
      most: 0.02,
    }),
    thermalClass,
    hotSpot: defaulted('temperatureDifference', 'hottest place of the winding over its mean; default 10 K', {
      least: 0,
      most: 100,
    }),
    standsOn: z
      .literal(['bare metal', 'painted metal', 'a gasket', 'nothing'])
      .meta({ description: 'what the foot of the solenoid touches; left out: painted metal' })
      .optional(),
    mountingTemperature: defaulted('temperature', 'what it stands on, engine hot; default: the hottest surroundings', {
      least: 173.15,
      most: 773.15,
    }),
  })
  .meta({ description: 'the can and its winding, as far as heat goes' });

export const solenoid = z.strictObject({
  kind: z.literal('solenoid'),
  works: z.literal(['energise to stop', 'energise to run']),
  action: z
    .literal(['pull', 'push'])
    .meta({ description: 'whether the plunger draws in or a rod pushes out when current flows' }),
  plunger: z.strictObject({
    stroke: length('travel of the plunger from home to its outer stop'),
    mass: reading('mass', 'plunger with clevis and what hangs on it', { above: 0, most: 50 }),
    diameter: length('diameter of the plunger in its guide'),
    guideLength: length('length of plunger inside the guide at home'),
    overhang: clearance('from the mouth of the guide to the pin, at home (push: at the outer stop)'),
    boreClearance: clearance('bore minus plunger diameter'),
    planeOffset: defaulted('length', 'how far the lever plane lies beside the axis of the plunger; default 0 mm', {
      least: 0,
      most: 1,
    }),
  }),
  force: z.array(forceTable).max(20),
  stickingForce: force('pull that frees the plunger from home without current'),
  stickingGap: defaulted('length', 'residual gap at home over which sticking falls to a quarter; default 0.1 mm', {
    above: 0,
    most: 0.01,
  }),
  coil,
  dropOut: defaulted('voltage', 'volts at the coil, turned down slowly, at which the plunger leaves home', {
    above: 0,
    most: 100,
  }),
  openInductance: defaulted('inductance', 'of the coil (its pull-in winding) with the plunger out, by an LCR meter', {
    above: 0,
    most: 1000,
  }),
  map: coEnergyMap.optional(),
  body,
  continuousPower: reading('power', 'watts that the coil may shed for ever, from its plate or a heat run', {
    above: 0,
    most: 1e4,
  }),
  riseInHold: defaulted('temperatureDifference', 'how far above its surroundings the coil runs in hold; default 60 K', {
    least: 0,
    most: 300,
  }),
  endSwitch: z.union([
    z.literal('none'),
    z.strictObject({
      worksAtGap: clearance('gap at which the end switch changes over on the way home'),
      operatingForce: force('push that the end switch needs over its last travel'),
      rating: reading('current', 'current that the end switch may break', { above: 0, most: 1000 }),
      recloses: defaulted('length', 'how much further out it changes back; default 0.3 mm', { least: 0, most: 1 }),
    }),
  ]),
});

const connection = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('slotted lever'),
    slotFrom: length('inner end of the slot from the shaft centre'),
    slotTo: length('outer end of the slot from the shaft centre'),
    pinDiameter: length('diameter of the pin in the slot'),
    sideClearance: clearance('slot width minus pin diameter'),
  }),
  z.strictObject({
    kind: z.literal('pinned link'),
    length: length('between the two pin centres'),
    armRadius: length('from the shaft centre to the hole in the arm'),
    pinDiameter: length('diameter of both pins'),
  }),
  z.strictObject({
    kind: z.literal('short chain'),
    length: length('between the two pin centres, taut'),
    armRadius: length('from the shaft centre to the hole in the arm'),
  }),
  z.strictObject({
    kind: z.literal('plain pin'),
    armRadius: length('from the shaft centre to the hole in the arm'),
    pinDiameter: length('diameter of the pin'),
    holeDiameter: length('diameter of the hole in the arm'),
    sideFreedom: defaulted(
      'length',
      'how far the pin can be moved sideways, each way, before it grips; default from the clearance',
      { least: 0, most: 1 },
    ),
  }),
]);

const layout = z.strictObject({
  homePin: point('centre of the plunger pin when the plunger is home'),
  pullDirection: angle('direction in which the plunger moves towards home'),
  hubPosition: z.int().min(0).max(359).meta({ description: 'index position of the arm on its hub, counter-clockwise' }),
  connection,
  overTravel: z.union([
    z.literal('none'),
    z.strictObject({
      preload: reading('force', 'force at which the over-travel spring begins to give', { above: 0, most: 1e5 }),
      rate: reading('springRate', 'rate of the over-travel spring', { above: 0, most: 1e7 }),
      travel: length('how far it can give before it is solid'),
    }),
  ]),
  adjuster: z.union([
    z.literal('none'),
    z.strictObject({
      range: length('travel left in the adjuster in the tightening direction'),
      pitch: length('travel of one whole turn'),
    }),
  ]),
  bracketGive: clearance('how far the bracket gives at full pull'),
  down: defaulted('angle', 'direction of the ground in the plane of the lever; default 270°', turns),
  tilt: defaulted('angle', 'how far the plane of the lever leans from upright: 90° when it lies flat; default 0°', {
    least: 0,
    most: Math.PI / 2,
  }),
  friction: z
    .strictObject({
      slot: friction('pin in slot; default 0.15 ± 0.05'),
      pins: friction('pins in their holes; default 0.15 ± 0.05'),
      guide: friction('plunger in its guide; default 0.15 ± 0.05'),
    })
    .optional(),
});

const springByRate = z.strictObject({
  by: z.literal('rate'),
  rate: reading('springRate', 'force per millimetre', { above: 0, most: 1e7 }),
  freeLength: length('length with nothing on it'),
  initialTension: defaulted('force', 'extension springs: force at which the coils part; default 0 N', {
    least: 0,
    most: 1e5,
  }),
  limitLength: length('extension: the longest it may be stretched; compression: the shortest it may be pressed'),
});

export const springWire = z.literal([
  'EN 10270-1 SL',
  'EN 10270-1 SM',
  'EN 10270-1 SH',
  'EN 10270-3 1.4310',
  'EN 10270-1 DM',
  'EN 10270-1 DH',
]);

const springByDimensions = z.strictObject({
  by: z.literal('dimensions'),
  wire: springWire,
  wireDiameter: length('diameter of the wire'),
  outsideDiameter: length('outside diameter of the coil'),
  activeTurns: reading('ratio', 'turns that give way', { above: 0, most: 1000 }),
  freeLength: length('length with nothing on it (extension: inside the hooks)'),
  initialTension: defaulted('force', 'extension springs: force at which the coils part; default 0 N', {
    least: 0,
    most: 1e5,
  }),
  ends: z
    .literal(['closed and ground', 'closed', 'hooks'])
    .meta({ description: 'closed ends for compression, hooks for extension' }),
});

const springReading = (description: string) =>
  z
    .strictObject({ length: length('of the spring at this reading'), force: force('that it holds there') })
    .meta({ description });

/** A spring in the hand: two weights or two pulls of a balance, and no need of its dimensions. */
const springByReadings = z.strictObject({
  by: z.literal('two readings'),
  first: springReading('one length and the force there'),
  second: springReading('another length, as far from the first as the spring works, and the force there'),
  freeLength: defaulted(
    'length',
    'length with nothing on it; left out: where the line through the two readings meets no force',
    { above: 0, most: 10 },
  ),
  limitLength: length('extension: the longest it may be stretched; compression: the shortest it may be pressed'),
});

/** A spring that is drawn or pressed, as a job and a drawer describe it. */
export const linearSpring = z.discriminatedUnion('by', [springByRate, springByDimensions, springByReadings]);

const torque = (description: string) => reading('torque', description, { least: 0, most: 1e4 });
const torsionReading = (description: string) =>
  z
    .strictObject({
      angle: angle('shaft angle at this reading'),
      moment: torque('that the spring gives the shaft there'),
    })
    .meta({ description });
const freeAngle = () => angle('shaft angle at which its legs are at rest, with no moment');
const limitAngle = () => angle('shaft angle to which it may be wound at most');

/** A torsion spring by the shape it is wound to, wherever its legs rest. */
export const torsionByDimensions = {
  by: z.literal('dimensions'),
  wire: springWire,
  wireDiameter: length('diameter of the wire'),
  outsideDiameter: length('outside diameter of the coil'),
  activeTurns: reading('ratio', 'turns that give way; straight legs count as turns too: both lengths over 9.4 D', {
    above: 0,
    most: 1000,
  }),
};

const torsionSpring = z.discriminatedUnion('by', [
  z.strictObject({
    by: z.literal('rate'),
    rate: reading('torsionRate', 'moment for each degree', { above: 0, most: 1e5 }),
    freeAngle: freeAngle(),
    limitAngle: limitAngle(),
  }),
  z.strictObject({ ...torsionByDimensions, freeAngle: freeAngle() }),
  z.strictObject({
    by: z.literal('two readings'),
    first: torsionReading('one shaft angle and the moment there'),
    second: torsionReading('another shaft angle, as far from the first as the lever swings, and the moment there'),
    limitAngle: limitAngle(),
  }),
]);

const returnSpring = z.discriminatedUnion('on', [
  z.strictObject({
    on: z.literal('lever'),
    name: text('what it is called', 80),
    kind: z.literal(['extension', 'compression']),
    anchor: point('where the fixed end is hooked'),
    radius: length('from the shaft centre to where it acts on the lever'),
    angle: angle('direction of that point from the shaft centre, minus shaft angle'),
    spring: linearSpring,
  }),
  z.strictObject({
    on: z.literal('plunger'),
    name: text('what it is called', 80),
    kind: z.literal('compression'),
    lengthAtHome: length('length of the spring when the plunger is home'),
    spring: linearSpring,
  }),
  z.strictObject({
    on: z.literal('shaft'),
    name: text('what it is called', 80),
    kind: z.literal('torsion'),
    towards: z.literal(['run', 'stop']).meta({ description: 'which way it drives the lever' }),
    spring: torsionSpring,
  }),
]);

const conductor = z.strictObject({
  section: reading('area', 'copper section of the conductor', { above: 0, most: 1e-2 }),
  length: reading('length', 'length of the conductor, one way', { least: 0, most: 1e4 }),
});

const volts = (description: string) => defaulted('voltage', description, { above: 0, most: 100 });

const contact = z.strictObject({
  name: text('what people call it', 80),
  kind: z.literal(['switch', 'relay', 'fuse', 'connector', 'earth strap', 'other']),
  resistance: reading('resistance', 'of this contact', { least: 0, most: 100 }),
  ageing: defaulted('ratio', 'its resistance when old, over as read; default 2', { least: 1, most: 1000 }),
  rating: defaulted('current', 'current that it may carry; leave out where it has none', { above: 0, most: 1e4 }),
  breaks: defaulted('current', 'inductive current that it may break; left out: its rating', { above: 0, most: 1e4 }),
});

/** Another place from which the same coil is worked. */
const station = z.strictObject({
  name: text('who works it, and where', 80),
  out: conductor,
  contacts: z.array(contact).max(40),
  diode: z.literal(['none', 'in series']).meta({
    description: 'whether a diode lets current out of this station only',
  }),
  alsoFeeds: text(
    'what else is joined to the same wire: a lamp, another engine, an alarm; empty where nothing is',
    200,
  ),
});

const polarity = z
  .literal(['cathode to plus', 'anode to plus', 'not measured'])
  .meta({ description: 'how the diode lies: the ring marks the cathode' });

const supply = z.strictObject({
  nominal: z.literal([12, 24, 32]).meta({ description: 'nominal volts' }),
  resting: volts('volts at the source at rest, charged, nothing running; default by nominal volts'),
  charging: volts('highest volts at the source, charging; default by nominal volts'),
  low: volts('lowest volts at the source with the engine running or just stopped; default by nominal volts'),
  cranking: volts('lowest volts at the source while the starter turns; default by nominal volts'),
  internalResistance: reading('resistance', 'of the source: open-circuit volts minus loaded volts, over amps', {
    least: 0,
    most: 100,
  }),
  out: conductor,
  back: z.discriminatedUnion('by', [
    z.strictObject({ by: z.literal('conductor'), ...conductor.shape }),
    z.strictObject({
      by: z.literal('earth'),
      resistance: reading('resistance', 'of the earth path with its straps', { least: 0, most: 100 }),
    }),
  ]),
  insulation: defaulted('temperature', 'temperature that the insulation of the conductors bears; default 70 °C', {
    least: 273.15,
    most: 773.15,
  }),
  contacts: z.array(contact).max(40),
  stations: z.array(station).max(20).meta({ description: 'further places of control, beside the one described above' }),
  fuse: z.union([
    z.literal(['none', 'not measured']),
    z.strictObject({
      type: z.literal(['blade', 'large blade', 'other']).meta({
        description: 'blade: ISO 8820-3 type C; large blade: type E; other: time to open not known here',
      }),
      rating: reading('current', 'what stands on the fuse', { above: 0, most: 1000 }),
    }),
  ]),
  cutOut: z.union([
    z.literal(['none', 'not measured']),
    z.strictObject({
      after: reading('time', 'seconds after which a timer or thermal cut-out ends the pull-in current', {
        above: 0,
        most: 3600,
      }),
    }),
  ]),
  suppression: z.union([
    z.literal(['none', 'not measured']),
    z.strictObject({ kind: z.literal('diode'), polarity }),
    z.strictObject({
      kind: z.literal('diode and resistor'),
      polarity,
      resistance: reading('resistance', 'of the resistor beside the diode', { above: 0, most: 1e5 }),
    }),
    z.strictObject({
      kind: z.literal('zener'),
      voltage: reading('voltage', 'at which it lets go', { above: 0, most: 1000 }),
    }),
  ]),
  command: z
    .union([
      z.literal(['held by hand', 'not measured']),
      z.strictObject({
        holds: reading('time', 'seconds for which the current stays on after the command', { above: 0, most: 3600 }),
      }),
    ])
    .meta({ description: 'how long the current stays on after the command to stop (energise to run: not of use)' }),
  starterInterlock: z
    .literal(['fitted', 'none', 'not known'])
    .meta({ description: 'whether the starter is locked out until the engine stands still' }),
  backFeed: defaulted('voltage', 'volts read at the coil, engine turning, switch off (energise to run)', {
    least: 0,
    most: 100,
  }),
});

const surroundings = z.strictObject({
  coldest: temperature('coldest the engine space gets'),
  hottest: temperature('hottest the engine space gets'),
  vibration: reading('acceleration', 'peak acceleration along the plunger', { least: 0, most: 1000 }),
  engineMoves: clearance(
    'how far the lever moves against the bracket when the engine moves on its mounts; 0 mm when both sit on one frame',
  ),
  vapour: z
    .literal(['none', 'may gather', 'not known'])
    .meta({ description: 'whether flammable vapour may gather: then a competent person decides' }),
  spray: text('water, salt, dust, oil', 400),
});

const share = (description: string) => defaulted('ratio', description, { least: 0, most: 20 });
const wanted = z
  .strictObject({
    pull: share('pull over need, minus one; default 0.25'),
    hold: share('hold over need, minus one; default 0.25'),
    return: share('return over what holds it back, minus one; default 0.3, energise to run 0.5'),
    lockRatio: defaulted('ratio', 'lock ratio on the way out; default 1.2', { least: 1, most: 20 }),
    noFuel: defaulted('angle', 'past no-fuel; default 1.5°', turns),
    hardStop: defaulted('angle', 'short of the hard stop; default 1°', turns),
    run: defaulted('angle', 'past the run angle; default 0.5°', turns),
    endSwitch: defaulted('length', 'travel after the end switch has worked; default 0.3 mm', { least: 0, most: 1 }),
    sideShare: share('side force over pull; default 0.5'),
    landingSpeed: defaulted('velocity', 'speed borne at landing; default 4 m/s', { above: 0, most: 100 }),
    releaseTime: defaulted('time', 'from switching off to rest; default 1 s', { above: 0, most: 3600 }),
    stopTime: defaulted('time', 'from letting air in to no-fuel; default 1 s', { above: 0, most: 3600 }),
    holdDrop: share('voltage drop in hold over nominal; default 0.03'),
  })
  .meta({ description: 'wanted margins where they differ from the defaults' });

const within = (description: string, limit: (description: string) => z.ZodType<string>) =>
  z.strictObject({ from: limit('least'), to: limit('greatest') }).meta({ description });

const space = z
  .strictObject({
    bracket: z
      .strictObject({
        x: within('how far left and right the home pin may stand', place),
        y: within('how far down and up the home pin may stand', place),
      })
      .meta({ description: 'where the bracket may be put, as the place of the home pin; left out: 40 mm round it' })
      .optional(),
    direction: within('which way the plunger may pull; left out: 20° either way', angle).optional(),
    connections: z
      .array(z.literal(['slotted lever', 'pinned link', 'short chain', 'plain pin']))
      .min(1)
      .max(4)
      .meta({ description: 'connections that can be made; left out: all four' })
      .optional(),
    armHoles: z
      .array(length('from the shaft centre to a hole that the arm has'))
      .min(1)
      .max(40)
      .meta({ description: 'holes that the arm has; left out: a hole may be drilled where it is wanted' })
      .optional(),
    links: z
      .array(length('between pin centres'))
      .min(1)
      .max(40)
      .meta({ description: 'links and chains at hand; left out: one may be made as long as wanted' })
      .optional(),
    keepOut: z
      .array(
        z.discriminatedUnion('shape', [
          z.strictObject({
            shape: z.literal('circle'),
            name: text('what is there', 120),
            centre: point('centre of the circle'),
            radius: length('radius of the circle'),
          }),
          z.strictObject({
            shape: z.literal('rectangle'),
            name: text('what is there', 120),
            from: point('one corner'),
            to: point('the corner across'),
          }),
        ]),
      )
      .max(40)
      .meta({ description: 'what is in the way, in the plane of the lever' })
      .optional(),
  })
  .meta({ description: 'what a proposal may change, and what is in its way' });

/** A hand cable on the lever that the means above works. */
const handStop = z
  .strictObject({
    ...handCable.shape,
    whileEffortWasRead: z
      .literal(['connected', 'apart', 'not measured'])
      .meta({ description: 'whether this cable hung on the lever while its effort was read with the balance' }),
  })
  .meta({ description: 'hand cable on the same lever, beside the means above' });

const means = z.discriminatedUnion('kind', [solenoid, handCable, airCylinder]);
const springs = z.array(returnSpring).max(8);

/** Another means, held beside the chosen one on the same survey. */
const considered = z.strictObject({
  name: text('what it is called', 80),
  means,
  layout: layout.optional(),
  springs: springs.optional(),
});

export const jobSchema = z
  .strictObject({
    format: z.literal(FORMAT),
    version: z.literal(VERSION),
    name: z.string().min(1).max(120).meta({ description: 'what people call this installation' }),
    survey,
    means,
    handStop: handStop.optional(),
    layout,
    return: z.strictObject({ springs }),
    supply,
    surroundings,
    space: space.optional(),
    considered: z
      .array(considered)
      .max(6)
      .meta({
        description:
          'other means to hold beside the chosen one; layout or return springs left out: those of this installation',
      })
      .optional(),
    wanted: wanted.optional(),
    notes: text('anything else', 20000),
  })
  .meta({
    title: 'Stopwright job document',
    description: 'One installation of a stop control: survey, means, layout, return, supply, surroundings, notes.',
  });

export type Job = DeepReadonly<z.infer<typeof jobSchema>>;
export type Solenoid = Extract<Job['means'], { kind: 'solenoid' }>;
export type HandCable = DeepReadonly<z.infer<typeof handCable>>;
export type HandStop = DeepReadonly<z.infer<typeof handStop>>;
export type AirCylinder = DeepReadonly<z.infer<typeof airCylinder>>;
export type Considered = NonNullable<Job['considered']>[number];
export type Connection = Job['layout']['connection'];
export type ReturnSpring = Job['return']['springs'][number];
/** A spring that is drawn or pressed, on the lever or on the plunger. */
export type LinearReturnSpring = Exclude<ReturnSpring, { on: 'shaft' }>;
export type ShaftReturnSpring = Extract<ReturnSpring, { on: 'shaft' }>;
export type Coil = Solenoid['coil'];

export type DeepReadonly<T> = T extends readonly (infer Item)[]
  ? readonly DeepReadonly<Item>[]
  : T extends object
    ? { readonly [Key in keyof T]: DeepReadonly<T[Key]> }
    : T;
