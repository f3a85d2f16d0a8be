/**
 * Springs known by two readings: two lengths and two forces, or two shaft angles and two moments. No dimension is needed.
 *
 * Straight line through the two; the ± of the readings is carried to the worst, every reading at either end of its ±.
 */

/** A reading with the ends of its ±; all three alike where none was written. */
export interface Band {
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

export interface Reading {
  readonly at: Band;
  readonly load: Band;
}

export type Contradiction =
  | 'both readings at one place'
  | 'rate not above zero'
  | 'loaded at its free length'
  | 'slack before its free length';

export type MeasuredCaution = 'readings too close together for their ±' | 'initial tension not known';

export interface MeasuredSpring {
  /** N/m, or N m/rad. */
  readonly rate: Band;
  /** Where the load ends: m, or rad. */
  readonly free: Band;
  /** Load with which it starts there, N; zero but for an extension spring whose free length was read. */
  readonly initialTension: Band;
  readonly cautions: readonly MeasuredCaution[];
}

export type Measured =
  | { readonly ok: true; readonly spring: MeasuredSpring }
  | { readonly ok: false; readonly contradiction: Contradiction };

export const exact = (value: number): Band => ({ low: value, value, high: value });

/**
 * A spring drawn or pressed, from its force at two lengths.
 *
 *     R = ± (F2 - F1)/(L2 - L1),   drawn +, pressed -;   F0 = F1 - R (L1 - L0) for a drawn one whose L0 was read
 *
 * Without a free length the line is taken down to no force. A drawn spring may have initial tension that it does not show:
 * below the shorter reading its force is then less certain, and a caution says so.
 *
 * @param freeLength length with nothing on it, m, or null. For a pressed spring it only serves as a check: the line may meet
 *   no force within a tenth of the greatest travel of it (common practice, no source), or within its ±
 */
export function measuredSpring(
  kind: 'extension' | 'compression',
  first: Reading,
  second: Reading,
  freeLength: Band | null,
): Measured {
  const sign = kind === 'extension' ? 1 : -1;
  const line = lineThrough(sign, first, second);
  if (typeof line === 'string') return { ok: false, contradiction: line };
  if (freeLength === null) {
    const cautions = kind === 'extension' ? [...line.cautions, 'initial tension not known' as const] : line.cautions;
    return { ok: true, spring: { ...line, initialTension: exact(0), cautions } };
  }
  const atFree = overCorners([first.at, first.load, second.at, second.load, freeLength], ([l1, f1, l2, f2, l0]) => {
    const slope = (f2 - f1) / (l2 - l1);
    return f1 + slope * (l0 - l1);
  });
  if (kind === 'extension') {
    const shorter = Math.min(first.at.high, second.at.high);
    if (freeLength.low > shorter) return { ok: false, contradiction: 'loaded at its free length' };
    if (atFree.high < 0) return { ok: false, contradiction: 'slack before its free length' };
    // Within its ± the line may pass just under zero: no spring pushes when drawn.
    const initialTension = { low: Math.max(0, atFree.low), value: Math.max(0, atFree.value), high: atFree.high };
    return { ok: true, spring: { ...line, free: freeLength, initialTension } };
  }
  const longer = Math.max(first.at.low, second.at.low);
  const shortest = Math.min(first.at.value, second.at.value);
  if (freeLength.high < longer) return { ok: false, contradiction: 'loaded at its free length' };
  const slackTooEarly = (freeLength.value - line.free.value) / (freeLength.value - shortest) > 0.1;
  if (slackTooEarly && atFree.high < 0) return { ok: false, contradiction: 'slack before its free length' };
  return { ok: true, spring: { ...line, initialTension: exact(0) } };
}

/**
 * A torsion spring on a shaft, from its moment at two shaft angles.
 *
 * @param drives +1 where it drives the shaft counter-clockwise, so that its moment grows as the shaft is turned clockwise
 */
export function measuredShaftSpring(drives: 1 | -1, first: Reading, second: Reading): Measured {
  const line = lineThrough(-drives, first, second);
  return typeof line === 'string'
    ? { ok: false, contradiction: line }
    : { ok: true, spring: { ...line, initialTension: exact(0) } };
}

interface Line {
  readonly rate: Band;
  readonly free: Band;
  readonly cautions: readonly MeasuredCaution[];
}

/** @param sign +1 where the load grows with the place, -1 where it falls */
function lineThrough(sign: number, first: Reading, second: Reading): Line | Contradiction {
  if (first.at.value === second.at.value) return 'both readings at one place';
  const four = [first.at, first.load, second.at, second.load];
  const rate = overCorners(four, ([l1, f1, l2, f2]) => (sign * (f2 - f1)) / (l2 - l1));
  if (rate.value <= 0) return 'rate not above zero';
  const far = first.at.value < second.at.value ? [first.at, second.at] : [second.at, first.at];
  // Where the ± of the two places meet, or those of the loads, the line may stand at any slope.
  const isLoose = far[0].high >= far[1].low || rate.low <= 0;
  const free = overCorners(four, ([l1, f1, l2, f2]) => l1 - (f1 * (l2 - l1)) / (f2 - f1));
  return isLoose
    ? {
        rate: { low: 0, value: rate.value, high: Infinity },
        free: { low: -Infinity, value: free.value, high: Infinity },
        cautions: ['readings too close together for their ±'],
      }
    : { rate, free, cautions: [] };
}

/** The function at the values, and its least and greatest over every end of the bands; right where it is monotone in each. */
function overCorners(bands: readonly Band[], of: (values: readonly number[]) => number): Band {
  const value = of(bands.map((band) => band.value));
  let [low, high] = [value, value];
  for (let corner = 0; corner < 2 ** bands.length; corner++) {
    const at = of(bands.map((band, i) => ((corner >> i) & 1 ? band.high : band.low)));
    // A missing reading is NaN everywhere.
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  return { low, value, high };
}
