/** Runs and heat courses drawn by hand for the sheets: shapes that a solenoid makes, from no solver of ours. */
import type {
  HeatCourse,
  HeatPicture,
  MeasuredTrace,
  ReleaseRun,
  TimePicture,
  TimeRun,
} from '../../../src/assessment/time/picture.ts';

const steps = (count: number, to: number): number[] => Array.from({ length: count + 1 }, (_, i) => (i * to) / count);

interface Shape {
  readonly amps: number;
  readonly rise: number;
  readonly moves: number;
  readonly lands: number;
  readonly switches: number;
  readonly hold: number;
  readonly volts: number;
  readonly stroke: number;
  readonly end: number;
}

/** Rise of an RL circuit with a dip that is deepest at landing, then the hold current. */
function current(at: number, { amps, rise, moves, lands, switches, hold }: Shape): number {
  if (at >= switches) return hold + (amps * 0.6 - hold) * Math.exp(-(at - switches) / (rise / 6));
  const risen = amps * (1 - Math.exp(-at / rise));
  if (at <= moves) return risen;
  const dip = 0.38 * amps * ((Math.min(at, lands) - moves) / (lands - moves)) ** 3;
  return Math.max(0, at <= lands ? risen - dip : risen - dip * Math.exp(-(at - lands) / (rise / 4)));
}

function gap(at: number, { moves, lands, stroke }: Shape): number {
  if (at <= moves) return stroke;
  if (at >= lands) return 0;
  return stroke * (1 - ((at - moves) / (lands - moves)) ** 2.5);
}

function pullIn(name: string, words: string, conditions: string, shape: Shape): TimeRun {
  const time_s = steps(240, shape.end);
  const amps = time_s.map((at) => current(at, shape));
  return {
    name,
    words,
    conditions,
    time_s,
    supplyCurrent_A: amps,
    gap_m: time_s.map((at) => gap(at, shape)),
    terminal_V: amps.map((i) => shape.volts - 0.12 * i),
    coilTemperature_K: time_s.map((at) => 363 + at * 20),
    events: [
      { kind: 'starts moving', time_s: shape.moves, gap_m: shape.stroke, supplyCurrent_A: current(shape.moves, shape) },
      { kind: 'comes home', time_s: shape.lands, gap_m: 0, supplyCurrent_A: current(shape.lands, shape) },
      { kind: 'bounces', time_s: shape.lands + 0.0006, gap_m: 0, supplyCurrent_A: null },
      { kind: 'bounces', time_s: shape.lands + 0.0012, gap_m: 0, supplyCurrent_A: null },
      { kind: 'end switch works', time_s: shape.switches, gap_m: 0, supplyCurrent_A: null },
    ],
    outcome: 'comes home',
    cautions: [],
  };
}

const stroke = 0.0362;
const weakShape: Shape = {
  amps: 21.4,
  rise: 0.012,
  moves: 0.0231,
  lands: 0.0582,
  switches: 0.0611,
  hold: 0.9,
  volts: 20.9,
  stroke,
  end: 0.12,
};
export const weakest = pullIn('weakest', 'weakest', 'low battery, hot coil, high friction', weakShape);
export const strongest = pullIn('strongest', 'strongest', 'charging, cold coil, low friction', {
  amps: 34.8,
  rise: 0.014,
  moves: 0.0112,
  lands: 0.0346,
  switches: 0.0358,
  hold: 1.4,
  volts: 28.1,
  stroke,
  end: 0.12,
});

/** Never gets home: the gap stays where need and pull meet. */
export const stalled: TimeRun = {
  ...weakest,
  supplyCurrent_A: weakest.time_s.map((at) => 21.4 * (1 - Math.exp(-at / 0.02))),
  gap_m: weakest.time_s.map((at) => stroke - (stroke - 0.0041) * Math.min(1, Math.max(0, (at - 0.0231) / 0.03)) ** 2),
  events: [
    { kind: 'starts moving', time_s: 0.0231, gap_m: stroke, supplyCurrent_A: 14 },
    { kind: 'stalls', time_s: 0.0531, gap_m: 0.0041, supplyCurrent_A: 19.9 },
  ],
  outcome: 'stalls',
};

/** A recorded current with the noise of a clamp, from a small generator of its own. */
export const measured: MeasuredTrace = (() => {
  const time_s = steps(1200, 0.12);
  let seed = 7;
  const noise = (): number => {
    seed = (seed * 16807) % 2147483647;
    return seed / 2147483647 - 0.5;
  };
  const shape = { ...weakShape, lands: 0.0493, switches: 0.0524, moves: 0.0191, amps: 23.1 };
  return {
    words: 'stop-coil.csv',
    time_s,
    supplyCurrent_A: time_s.map((at) => current(at, shape) + 0.5 * noise()),
    events: [
      { kind: 'comes home', time_s: 0.0493, confidence: 0.97 },
      { kind: 'end switch works', time_s: 0.0524, confidence: 0.72 },
    ],
    findings: ['Came home at 49.3 ms, end switch worked at 52.4 ms.'],
    cautions: [],
  };
})();

function release(name: string, words: string, isFitted: boolean, fall: number, peak: number): ReleaseRun {
  const [leaves, rests, end] = [fall * 2.2, fall * 2.2 + 0.05, 0.16];
  const time_s = steps(200, end);
  return {
    name,
    words,
    conditions: 'high supply, cold coil, high friction',
    time_s,
    supplyCurrent_A: time_s.map((at) => (name === 'none' ? (at === 0 ? 1.4 : 0) : 1.4 * Math.exp(-at / fall))),
    gap_m: time_s.map((at) => (at <= leaves ? 0 : stroke * Math.min(1, (at - leaves) / (rests - leaves)) ** 2)),
    terminal_V: time_s.map((at) => (at > fall * 3 ? 0 : -peak * Math.exp(-at / fall))),
    coilTemperature_K: time_s.map(() => 293.15),
    events: [
      { kind: 'current off', time_s: 0, gap_m: 0, supplyCurrent_A: 1.4 },
      { kind: 'leaves home', time_s: leaves, gap_m: 0, supplyCurrent_A: null },
      { kind: 'at rest', time_s: rests, gap_m: stroke, supplyCurrent_A: 0 },
    ],
    outcome: 'comes out',
    cautions: [],
    isFitted,
    releaseTime_s: leaves,
    returnTime_s: rests,
    peakTerminal_V: peak,
    peakContact_V: peak + 28,
  };
}

export const releases: readonly ReleaseRun[] = [
  release('none', 'none', false, 0.004, 80),
  release('diode', 'diode', true, 0.031, 0.8),
  release('resistor', 'diode and resistor', false, 0.016, 42),
  release('zener', 'zener', false, 0.007, 36),
];

export const timePicture: TimePicture = {
  runs: [weakest, strongest],
  releases,
  measured,
  holdTime: {
    runDown_s: 10,
    isRunDownDefault: true,
    home_s: 0.0582,
    holds_s: null,
    needed_s: 12.1,
    words: 'Hold the stop for 12 s at least: 58.2 ms to home, 10 s of run-down, and a margin of a fifth.',
  },
  missing: [],
};

const logSteps = (from: number, to: number, count: number): number[] => [
  0,
  ...Array.from({ length: count + 1 }, (_, i) => from * (to / from) ** (i / count)),
];

function heat(
  name: string,
  words: string,
  conditions: string,
  start: number,
  rise: number,
  winding: number,
  body: number,
): HeatCourse {
  const time_s = logSteps(0.5, 21600, 160);
  const slow = (at: number): number => 1 - Math.exp(-at / body);
  return {
    name,
    words,
    conditions,
    time_s,
    winding_K: time_s.map((at) => start + rise * (0.55 * (1 - Math.exp(-at / winding)) + 0.45 * slow(at))),
    case_K: time_s.map((at) => start + rise * 0.5 * slow(at)),
  };
}

export const heatPicture: HeatPicture = {
  courses: [
    heat('held-off', 'held off home', 'pull-in current, charging, hot day', 318, 620, 80, 2400),
    heat('hold', 'hold for ever', 'hold current, charging, hot day', 318, 52, 240, 2600),
    heat('repeated', 'a stop every minute', '20 s on, charging, hot day', 318, 96, 160, 2500),
  ],
  limits: [
    { name: 'class-a', words: 'class A 105', class_K: 378.15, hotSpot_K: 10, isOwn: false },
    { name: 'class-b', words: 'class B 130', class_K: 403.15, hotSpot_K: 10, isOwn: true },
    { name: 'class-f', words: 'class F 155', class_K: 428.15, hotSpot_K: 10, isOwn: false },
  ],
  crossings: [
    { course: 'held-off', limit: 'class-a', time_s: 13.6 },
    { course: 'held-off', limit: 'class-b', time_s: 19.6 },
    { course: 'held-off', limit: 'class-f', time_s: 26.4 },
    { course: 'repeated', limit: 'class-a', time_s: 361 },
  ],
  marks: [
    { name: 'cut-out', words: 'cut-out', from_s: 8, to_s: 8 },
    { name: 'fuse', words: 'fuse opens', from_s: 2.1, to_s: 60 },
  ],
  touch: { temperature_K: 328.15, contact_s: 10 },
  cautions: [],
  missing: [],
};
