/** Currents of a plunger held fast, against closed forms; two windings and a resistor against plain integrations. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  motion,
  mostAmpereTurnsOf,
  type Motion,
  type MotionRequest,
  type Suppression,
} from '../../../src/physics/motion/motion.ts';
import {
  airGapMagnet,
  at,
  coilAlone,
  load,
  oneCoil,
  permeance,
  permeanceSlope,
  stuck,
  type AirGap,
} from './plungers.ts';

function near(found: number | null | undefined, expected: number, relative: number, what: string): void {
  assert.ok(
    typeof found === 'number' && Math.abs(found - expected) <= relative * Math.abs(expected),
    `${what}: ${found}, expected ${expected}`,
  );
}

const eventTime = ({ events }: Motion, kind: string): number | undefined =>
  events.find((event) => event.kind === kind)?.time;

// 0.2 H by 200 turns; 24 V behind 0.5 ohm, coil 4.5 ohm: 4.8 A, time constant 40 ms.
const [L, turns, V, loop, R] = [0.2, 200, 24, 0.5, 4.5];
const magnet = coilAlone(L / turns ** 2);
const steady = V / (loop + R);

test('growth: i = V/R (1 - exp(-R t/L)), with the volts at the terminals behind the loop', () => {
  const tau = L / (loop + R);
  const { trace, energy } = motion(stuck(magnet, oneCoil(V, R, turns, { loop }), { duration: 0.2, tracePoints: 1500 }));
  for (const when of [0.01, 0.04, 0.12]) {
    const amps = steady * (1 - Math.exp(-when / tau));
    // The trace is read on straight lines between its points: a few hundred-thousandths.
    near(at(trace.time, trace.supplyCurrent, when), amps, 5e-5, `current at ${when} s`);
    near(at(trace.time, trace.terminalVolts, when), V - loop * amps, 5e-5, `volts at ${when} s`);
    near(at(trace.time, trace.fluxLinkage, when), L * amps, 5e-5, `flux linkage at ${when} s`);
  }
  const last = steady * (1 - Math.exp(-0.2 / tau));
  near(energy.field, 0.5 * L * last * last, 1e-6, 'energy in the field');
  near(energy.copper / energy.loopAndResistor, R / loop, 1e-6, 'heat of coil and loop');
});

/** How long the current takes to come to nothing, by its closed form: L di/dt = -(R + r) i - E. */
const gone = (E: number, r: number): number => (L / (R + r)) * Math.log(1 + (steady * (R + r)) / E);

test('decay through each suppression: time, volts at the terminals and across the contact', () => {
  const cases: readonly (readonly [Suppression, time: number, terminals: number, contact: number])[] = [
    [{ kind: 'diode', drop: 0.7 }, gone(0.7, 0), 0.7, V + 0.7],
    [
      { kind: 'diode and resistor', drop: 0.7, resistance: 10 },
      gone(0.7, 10),
      0.7 + 10 * steady,
      V + 0.7 + 10 * steady,
    ],
    [{ kind: 'zener', volts: 36 }, gone(36, 0), 36, V + 36],
    // The arc is in the loop: L di/dt = V - arc - (R + loop) i.
    [{ kind: 'none', arcVolts: 300 }, gone(300 - V, loop), 300 - V + loop * steady, 300],
  ];
  for (const [suppression, time, terminals, contact] of cases) {
    const found = motion(
      stuck(magnet, oneCoil(V, R, turns, { loop, suppression }), { startAt: 'held at home', offAt: 0.01, duration: 1 }),
    );
    near(eventTime(found, 'current gone')! - 0.01, time, 1e-5, `${suppression.kind}: current gone`);
    near(found.peakVolts.terminals, Math.max(terminals, V - loop * steady), 1e-6, `${suppression.kind}: terminals`);
    near(found.peakVolts.contact, contact, 1e-6, `${suppression.kind}: contact`);
    assert.ok(found.energy.imbalance < 1e-5, `${suppression.kind}: imbalance ${found.energy.imbalance}`);
    near(found.energy.field, -0.5 * L * steady * steady, 1e-6, `${suppression.kind}: the field gave all it had`);
  }
});

test('a diode that drops nothing: plain exponential decay', () => {
  const suppression: Suppression = { kind: 'diode', drop: 0 };
  const { trace } = motion(
    stuck(magnet, oneCoil(V, R, turns, { loop, suppression }), {
      startAt: 'held at home',
      offAt: 0,
      duration: 0.2,
      tracePoints: 1500,
    }),
  );
  for (const when of [0.02, 0.1])
    near(at(trace.time, trace.windingCurrents[0], when), steady * Math.exp((-when * R) / L), 5e-5, `at ${when} s`);
});

test('a chopping economiser settles at the steady currents of its mean', () => {
  const share = 0.4;
  const found = motion(
    stuck(magnet, {
      ...oneCoil(V, R, turns, { loop }),
      stages: { kind: 'timed economiser', winding: { turns, resistance: R }, holdShare: share, delay: 0.3 },
    }),
  );
  const last = found.trace.time.length - 1;
  // The source gives the share s of the coil's current; the coil sees the share s of the volts (`circuit.ts`).
  const supply = (share * share * V) / (R + share * share * loop);
  near(found.trace.supplyCurrent[last], supply, 1e-5, 'drawn from the source');
  near(found.trace.windingCurrents[0][last], supply / share, 1e-5, 'in the coil');
  near(found.trace.terminalVolts[last], V - loop * supply, 1e-5, 'at the terminals');
  assert.equal(eventTime(found, 'stage change'), 0.3, 'at its time');
  assert.ok(found.energy.imbalance < 1e-5, `imbalance ${found.energy.imbalance}`);
});

// --- two windings and a resistor, moving: against a plain fixed-step integration ---

const air: AirGap = { p0: 4e-8, c: 1.2e-9, d: 8e-4 };
const airMagnet = airGapMagnet(air);
const [springForce, springRate, mass, outGap] = [3, 300, 0.12, 0.012];
const spring = (gap: number): number => springForce + springRate * (outGap - gap);
const rest = {
  magnet: airMagnet,
  load: load([
    [0, spring(0), spring(0), mass],
    [outGap, spring(outGap), spring(outGap), mass],
  ]),
  homeGap: 0,
  outGap,
  startGap: outGap,
  startAt: 'rest' as const,
  restitution: 0,
  offAt: null,
  duration: 0.1,
};

/** Classical Runge-Kutta of order 4 with a fixed step; stops when `until` says so. */
function plain(
  rates: (y: number[]) => number[],
  start: number[],
  h: number,
  until: (y: number[], t: number) => boolean,
): { time: number; state: number[] } {
  let y = start;
  let time = 0;
  const plus = (a: number[], k: number[], f: number): number[] => a.map((v, i) => v + f * k[i]);
  while (!until(y, time) && time < 1) {
    const k1 = rates(y);
    const k2 = rates(plus(y, k1, h / 2));
    const k3 = rates(plus(y, k2, h / 2));
    const k4 = rates(plus(y, k3, h));
    y = y.map((v, i) => v + (h / 6) * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]));
    time += h;
  }
  return { time, state: y };
}

test('a series resistor put in on the way: landing as by a plain integration in the current', () => {
  const [N, coil, resistor, worksAt] = [600, 3, 30, 0.004];
  const found = motion({
    ...rest,
    circuit: {
      source: V,
      loopResistance: loop,
      stages: { kind: 'series resistor', winding: { turns: N, resistance: coil }, resistor },
      suppression: { kind: 'diode', drop: 0.7 },
    },
    endSwitch: { worksAtGap: worksAt, reclosesAtGap: 0.006 },
  });
  let ohms = loop + coil;
  // N d(N i P)/dt = V - R i
  const rates = ([i, g, v]: number[]): number[] => {
    const slope = permeanceSlope(air, g);
    const pull = -0.5 * slope * (N * i) ** 2 - spring(Math.min(g, outGap));
    const moves = v > 0 || pull > 0;
    return [
      (V - ohms * i + N * N * i * slope * v) / (N * N * permeance(air, g)),
      moves ? -v : 0,
      moves ? pull / mass : 0,
    ];
  };
  const at4 = plain(rates, [0, outGap, 0], 1e-6, ([, g]) => g <= worksAt);
  near(eventTime(found, 'end switch works'), at4.time, 1e-3, 'end switch');
  ohms += resistor;
  const home = plain(rates, at4.state, 1e-6, ([, g]) => g <= 0);
  near(found.timeToHome, at4.time + home.time, 1e-3, 'time to home');
  near(found.landingSpeed, home.state[2], 2e-3, 'landing speed');
  near(found.events.find(({ kind }) => kind === 'comes home')?.current, home.state[0], 5e-3, 'current at landing');
  assert.ok(found.energy.imbalance < 1e-5, `imbalance ${found.energy.imbalance}`);
});

test('pull-in and hold windings: as by a plain integration in both currents, each with a little leakage', () => {
  // With leakage l each current is a state of its own: N_k d(P Θ)/dt + l di_k/dt = v - R_k i_k, so the end switch cannot
  // make a current jump there; ours is the limit of no leakage.
  const [pullIn, hold] = [{ turns: 300, resistance: 1.2 }, { turns: 700, resistance: 20 }] as const; // prettier-ignore
  const worksAt = 0.003;
  const request: MotionRequest = {
    ...rest,
    circuit: {
      source: V,
      loopResistance: loop,
      stages: { kind: 'pull-in and hold windings', pullIn, hold },
      suppression: { kind: 'diode', drop: 0.7 },
    },
    endSwitch: { worksAtGap: worksAt, reclosesAtGap: 0.006 },
  };
  const found = motion(request);
  const leakage = 4e-6;
  const step = 1e-6;
  const rates = ([ip, ih, g, v]: number[]): number[] => {
    const [p, slope] = [permeance(air, g), permeanceSlope(air, g)];
    const level = pullIn.turns * ip + hold.turns * ih;
    const volts = V - loop * (ip + ih);
    const pull = -0.5 * slope * level * level - spring(Math.min(g, outGap));
    const moves = v > 0 || pull > 0;
    // a11 ip' + a12 ih' = b1, and so on; the flux changes by p Θ' - slope v Θ.
    const b1 = volts - pullIn.resistance * ip + pullIn.turns * slope * v * level;
    const b2 = volts - hold.resistance * ih + hold.turns * slope * v * level;
    const a11 = pullIn.turns ** 2 * p + leakage;
    const a22 = hold.turns ** 2 * p + leakage;
    const a12 = pullIn.turns * hold.turns * p;
    const det = a11 * a22 - a12 * a12;
    return [(b1 * a22 - b2 * a12) / det, (b2 * a11 - b1 * a12) / det, moves ? -v : 0, moves ? pull / mass : 0];
  };
  const both = plain(rates, [0, 0, outGap, 0], step, ([, , g]) => g <= worksAt);
  const works = found.events.find(({ kind }) => kind === 'end switch works');
  near(works?.time, both.time, 2e-3, 'end switch');
  near(works?.speed, both.state[3], 5e-3, 'speed there');
  near(works?.current, both.state[0] + both.state[1], 1e-2, 'current there');
  // The flux is carried over: the hold winding takes all the ampere-turns at once.
  const level = pullIn.turns * both.state[0] + hold.turns * both.state[1];
  const alone = ([ih, g, v]: number[]): number[] => {
    const slope = permeanceSlope(air, g);
    const pull = -0.5 * slope * (hold.turns * ih) ** 2 - spring(g);
    return [
      (V - (loop + hold.resistance) * ih + hold.turns ** 2 * ih * slope * v) / (hold.turns ** 2 * permeance(air, g)),
      -v,
      pull / mass,
    ];
  };
  const home = plain(alone, [level / hold.turns, both.state[2], both.state[3]], step, ([, g]) => g <= 0);
  near(found.timeToHome, both.time + home.time, 2e-3, 'time to home');
  near(found.landingSpeed, home.state[2], 5e-3, 'landing speed');
  const last = found.trace.time.length - 1;
  assert.equal(found.trace.windingCurrents[0][last], 0, 'the pull-in winding is open');
  assert.ok(found.peakVolts.endSwitch > V, `across the end switch ${found.peakVolts.endSwitch} V`);
  assert.ok(found.energy.imbalance < 1e-5, `imbalance ${found.energy.imbalance}`);
});

test('two windings switched off together drive a current round between them when the diode has closed', () => {
  const [pullIn, hold] = [{ turns: 200, resistance: 2 }, { turns: 300, resistance: 10 }] as const; // prettier-ignore
  const found = motion(
    stuck(coilAlone(L / 4e4), {
      source: V,
      loopResistance: loop,
      stages: { kind: 'pull-in and hold windings', pullIn, hold },
      suppression: { kind: 'zener', volts: 40 },
    }, { offAt: 0.3, duration: 0.358 }),
  ); // prettier-ignore
  const { trace } = found;
  const last = trace.time.length - 1;
  const sum = trace.windingCurrents[0][last] + trace.windingCurrents[1][last];
  assert.ok(Math.abs(sum) < 1e-9, `no current round the terminals: ${sum}`);
  // Θ' = -Θ (R1 + R2)/((N2 - N1)² P): by hand for the loop that the two windings form.
  const rate = (pullIn.resistance + hold.resistance) / ((hold.turns - pullIn.turns) ** 2 * (L / 4e4));
  const k = trace.time.findIndex((time) => time > 0.352);
  const ratio = trace.windingCurrents[1][last] / trace.windingCurrents[1][k];
  near(ratio, Math.exp(-rate * (trace.time[last] - trace.time[k])), 1e-3, 'decay');
  assert.ok(found.energy.imbalance < 1e-5, `imbalance ${found.energy.imbalance}`);
});

test('the ampere-turns that a circuit can drive are those it settles at', () => {
  const circuit = oneCoil(V, R, turns, { loop });
  near(mostAmpereTurnsOf(circuit), steady * turns, 1e-12, 'single coil');
  const found = motion(stuck(magnet, circuit, { duration: 1 }));
  near(found.peakAmpereTurns, steady * turns, 1e-6, 'reached');
  assert.equal(found.isBeyondMagnet, false, 'within the magnet');
});
