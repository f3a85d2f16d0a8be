/**
 * Currents made up by formula, with the truth known: nothing here knows of the project's own motion solver. A rise as
 * of a resistance and an inductance, a notch of stated shape for the back-EMF of the plunger, a step for the change of
 * stage; then whatever spoils a recording. Shapes and sizes from memory of such recordings, no source.
 */
import type { Trace } from '../../../src/diagnosis/trace/trace.ts';

/** Numbers from a seed (Mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = (seed * 2654435761) >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 15), z | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return ((z ^ (z >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Course {
  /** Steady current of the heavy stage, A. */
  readonly heavy: number;
  /** Time constant of the rise, s. */
  readonly rise: number;
  /** From switch-on, s; null: never home. */
  readonly landing: number | null;
  /** When the notch begins, as a share of the time to landing. */
  readonly moves: number;
  /** Depth of the notch as a share of the current that would flow. */
  readonly depth: number;
  readonly power: number;
  readonly recovery: number;
  /** s from switch-on; null: none. */
  readonly stage: number | null;
  readonly hold: number;
  /** Time constant of the fall to hold, s. */
  readonly fall: number;
  readonly off: number;
  /** Time constant after switch-off, s. */
  readonly release: number;
  /** Share by which the supply sinks, with a time constant of 0.1 s. */
  readonly sag: number;
}

export function currentAt(course: Course, t: number): number {
  const { heavy, rise, landing, moves, depth, power, recovery, stage, hold, fall, off, release, sag } = course;
  if (t < 0) return 0;
  if (t > off) return currentAt(course, off) * Math.exp(-(t - off) / release);
  if (stage !== null && t > stage) {
    const before = currentAt(course, stage);
    return hold + (before - hold) * Math.exp(-(t - stage) / fall);
  }
  let i = heavy * (1 - Math.exp(-t / rise)) * (1 - sag * (1 - Math.exp(-t / 0.1)));
  if (landing !== null) {
    const begin = moves * landing;
    if (t > begin && t <= landing) i *= 1 - depth * ((t - begin) / (landing - begin)) ** power;
    else if (t > landing) i *= 1 - depth * Math.exp(-(t - landing) / recovery);
  }
  return i;
}

export interface Spoiling {
  /** What the supply makes of the current, by the time since switch-on; 1 leaves it. */
  readonly supply?: (sinceOn: number) => number;
  readonly rate: number;
  readonly before: number;
  readonly after: number;
  /** Of the heavy current. */
  readonly noise: number;
  readonly hum: number;
  readonly humFrequency: number;
  readonly offset: number;
  /** 0: none. */
  readonly bits: number;
  /** Level of clipping as a share of the heavy current; 0: none. */
  readonly clip: number;
  /** Times after switch-on at which a contact is open, s. */
  readonly open: readonly (readonly [number, number])[];
}

export const clean: Spoiling = {
  rate: 10_000,
  before: 0.05,
  after: 0.1,
  noise: 0,
  hum: 0,
  humFrequency: 50,
  offset: 0,
  bits: 0,
  clip: 0,
  open: [],
};

/** Time (0 at the first sample) and current. Switch-on stands at `before`. */
export function record(
  course: Course,
  spoiling: Spoiling,
  random: () => number,
): { time: Float64Array; current: Float32Array } {
  const { rate, before, after, noise, hum, humFrequency, offset, bits, clip, open } = spoiling;
  const n = Math.round((before + course.off + after) * rate);
  const time = new Float64Array(n);
  const current = new Float32Array(n);
  const phase = 2 * Math.PI * random();
  const range = 1.25 * course.heavy;
  let closedSince = 0;
  for (let k = 0; k < n; k++) {
    const t = k / rate;
    const sinceOn = t - before;
    const isOpen = open.some(([from, to]) => sinceOn >= from && sinceOn < to);
    for (const [, to] of open) if (sinceOn >= to) closedSince = Math.max(closedSince, to);
    // After a contact has closed again the current builds up anew, quickly because little was missing.
    const again = closedSince === 0 ? 1 : 1 - Math.exp(-(sinceOn - closedSince) / 0.002);
    let i = isOpen ? 0 : again * currentAt(course, sinceOn) * (spoiling.supply?.(sinceOn) ?? 1);
    i += course.heavy * (noise * gauss(random) + hum * Math.sin(2 * Math.PI * humFrequency * t + phase) + offset);
    if (clip > 0) i = Math.max(-clip * course.heavy, Math.min(i, clip * course.heavy));
    if (bits > 0) {
      const step = (2 * range) / 2 ** bits;
      i = step * Math.round(i / step);
    }
    time[k] = t;
    current[k] = i;
  }
  return { time, current };
}

function gauss(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** As a reader would have handed it over. */
export function traceOf({ time, current }: { time: Float64Array; current: Float32Array }): Trace {
  return {
    readAs: {
      separator: 'comma',
      decimal: 'point',
      headerLines: 1,
      timeColumn: 't',
      timeUnit: 's',
      currentColumn: 'i',
      currentUnit: 'A',
      ampsPerVolt: null,
    },
    time,
    current,
    samplesRead: time.length,
    interval_s: time[1] - time[0],
    gaps: [],
    cautions: [],
  };
}

export const between = (random: () => number, from: number, to: number): number => from + (to - from) * random();

/** A pull-in that comes home: single coil, two windings, or resistor. */
export function homeCourse(random: () => number, kind: 'single' | 'two windings' | 'resistor' | 'timed'): Course {
  const landing = between(random, 0.015, 0.08);
  const heavy = between(random, 2, 40);
  const stage =
    kind === 'single' ? null : kind === 'timed' ? between(random, 0.25, 0.6) : landing + between(random, 0.0003, 0.006);
  return {
    heavy,
    rise: between(random, 0.12, 0.5) * landing,
    landing,
    moves: between(random, 0.2, 0.6),
    depth: between(random, 0.15, 0.7),
    power: between(random, 1.6, 4),
    recovery: between(random, 0.004, 0.02),
    stage,
    hold: heavy * (kind === 'two windings' ? between(random, 0.03, 0.15) : between(random, 0.15, 0.5)),
    fall: kind === 'two windings' ? between(random, 0.00005, 0.0005) : between(random, 0.003, 0.015),
    off: kind === 'timed' ? 0.9 : between(random, 0.3, 0.8),
    release: between(random, 0.0002, 0.02),
    sag: random() < 0.3 ? between(random, 0.02, 0.12) : 0,
  };
}

export function stalledCourse(random: () => number, timed: boolean): Course {
  return { ...homeCourse(random, timed ? 'timed' : 'single'), landing: null };
}

/** What a usual clamp and a usual recorder do to it: noise of 1 % of the heavy current, at least 2 samples a millisecond. */
export function usualSpoiling(random: () => number): Spoiling {
  const rates = [2000, 5000, 10_000, 20_000, 50_000];
  return {
    rate: rates[Math.floor(random() * rates.length)],
    before: between(random, 0.02, 0.12),
    after: between(random, 0.02, 0.1),
    noise: 0.01,
    hum: random() < 0.4 ? between(random, 0, 0.015) : 0,
    humFrequency: random() < 0.5 ? 50 : 60,
    offset: between(random, -0.02, 0.02),
    bits: random() < 0.5 ? 8 : 0,
    clip: 0,
    open: random() < 0.2 ? [[0.001, 0.001 + between(random, 0.0003, 0.002)]] : [],
  };
}
