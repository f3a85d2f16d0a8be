/**
 * Blade fuses of road vehicles: when they open at the soonest and at the latest, by multiples of their rating.
 *
 * [1] ISO 8820-3:2015 types C (medium blade) and E (large blade). Gates of the blade at 1.6 and 2 times seen quoted from a
 *     data sheet, those at 1.35, 2, 3.5 and 6 times for 35 and 40 A seen in notes on another; 1.1 times seen quoted for a
 *     smaller blade; the rest of its column, 3.5 and 6 times up to 30 A, from memory. Large blade: whole table seen in
 *     notes on a data sheet, its 100 A rating from memory. Makers' own curves lie inside and go before these.
 */
import { DomainError, requireAboveZero } from './domain-error.ts';

/** [multiple of the rating; soonest, s; latest, s]; null where the table says nothing. */
export type Gate = readonly [multiple: number, soonest: number | null, latest: number | null];

export interface FuseBand {
  readonly ratings: readonly number[];
  readonly gates: readonly Gate[];
}

export type FuseSeries = 'blade' | 'large blade';

/** As printed [1]. 360,000 s are the 100 h that a fuse must carry the first multiple for. */
export const fuseBands: Readonly<Record<FuseSeries, readonly FuseBand[]>> = {
  blade: [
    {
      ratings: [3, 4, 5, 7.5, 10, 15, 20, 25, 30],
      gates: [
        [1.1, 360_000, null],
        [1.35, 0.75, 600],
        [1.6, 0.25, 50],
        [2, 0.15, 5],
        [3.5, 0.04, 0.5],
        [6, 0.02, 0.1],
      ],
    },
    {
      ratings: [35, 40],
      gates: [
        [1, 360_000, null],
        [1.35, 0.75, 600],
        [2, 0.15, 5],
        [3.5, 0.08, 0.5],
        [6, null, 0.15],
      ],
    },
  ],
  'large blade': [
    {
      ratings: [20, 30, 40, 50, 60, 70, 80, 100],
      gates: [
        [1, 360_000, null],
        [1.35, 60, 1800],
        [2, 2, 50],
        [3.5, 0.2, 7],
        [6, 0.04, 1],
      ],
    },
  ],
};

/** Greatest current that these fuses break, A, at 32 V: seen in notes on two data sheets. */
export const breakingCapacity = 1000;

export interface Fuse {
  readonly series: FuseSeries;
  /** Rated current, A. */
  readonly rating: number;
}

/** Every rating sold in a series, rising. */
export function fusesOf(series: FuseSeries): readonly Fuse[] {
  return fuseBands[series].flatMap(({ ratings }) => ratings.map((rating) => ({ series, rating })));
}

/** [ambient, K; share of the rated current]: 40, 34, 30, 25, 22 A of a 40 A large blade at 20, 65, 85, 110, 125 °C. */
const derating = [
  [293.15, 1],
  [338.15, 0.85],
  [358.15, 0.75],
  [383.15, 0.625],
  [398.15, 0.55],
] as const;

/**
 * Share of its rated current that a fuse carries at an ambient temperature, K: straight between the readings above (seen
 * in notes on a data sheet), whole below 20 °C, and 0 above 125 °C, where no fuse of these tables belongs. Measured on one
 * large blade; taken for the others too, for want of a figure of their own.
 *
 * @throws DomainError SW-D069 the ambient is no finite number
 */
export function fuseDerating(ambient: number): number {
  if (!Number.isFinite(ambient)) throw new DomainError('SW-D069', `an ambient of ${ambient} K`);
  const above = derating.findIndex(([kelvin]) => ambient <= kelvin);
  if (above === 0) return 1;
  if (above < 0) return 0;
  const [t0, share0] = derating[above - 1];
  const [t1, share1] = derating[above];
  return share0 + ((share1 - share0) * (ambient - t0)) / (t1 - t0);
}

/** What is known of the time at which a fuse opens. */
export interface OpeningTime {
  /** Seconds: the curve drawn straight on logarithmic paper between two gates, or a bound beyond the last. */
  readonly seconds: number;
  /** Seconds that the gates alone promise, whatever the curve does between them. */
  readonly assured: number;
  /** `read` between two gates; `bound` outside them, where the curve itself is not known. */
  readonly basis: 'read' | 'bound';
}

/** The curve between gates, and nothing outside them: s, or null. `share`: of the rating that the ambient leaves. */
export function timeToOpen(
  fuse: Fuse,
  current: number,
  share = 1,
): { readonly fastest: number | null; readonly slowest: number | null } {
  const multiple = multipleOf(fuse, current, share);
  const at = (points: readonly Point[]) => {
    const right = points.findIndex(([x]) => multiple <= x);
    return right < 0 || multiple < points[0][0] ? null : between(points, right, multiple);
  };
  return { fastest: at(soonestPoints(fuse)), slowest: at(latestPoints(fuse)) };
}

/**
 * The fuse does not open before this, s. Below the first gate it is the time of that gate, beyond the last one nothing is
 * promised: 0.
 *
 * @throws DomainError SW-D069 a rating above those of the series, a current not finite and above zero, a share outside 0 to 1
 */
export function opensNotBefore(fuse: Fuse, current: number, share = 1): OpeningTime {
  const multiple = multipleOf(fuse, current, share);
  const points = soonestPoints(fuse);
  const right = points.findIndex(([x]) => multiple <= x);
  if (right < 0) return { seconds: 0, assured: 0, basis: 'bound' };
  // A greater current opens it sooner: the gate above is a promise for every current below.
  const assured = points[right][1];
  if (multiple < points[0][0]) return { seconds: assured, assured, basis: 'bound' };
  return { seconds: between(points, right, multiple), assured, basis: 'read' };
}

/**
 * The fuse has opened by this, s. Below the first gate with a latest time it may never open: Infinity. Beyond the last gate
 * the current² × time of that gate is not exceeded, because a faster melting loses less heat; the arc of a circuit with much
 * inductance is not in it.
 *
 * @throws DomainError SW-D069 as for `opensNotBefore`
 */
export function opensNotAfter(fuse: Fuse, current: number, share = 1): OpeningTime {
  const multiple = multipleOf(fuse, current, share);
  const points = latestPoints(fuse);
  const left = points.findLastIndex(([x]) => x <= multiple);
  if (left < 0) return { seconds: Infinity, assured: Infinity, basis: 'bound' };
  const [x, assured] = points[left];
  if (left === points.length - 1)
    return { seconds: assured * (x / multiple) ** 2, assured, basis: multiple === x ? 'read' : 'bound' };
  return { seconds: between(points, left + 1, multiple), assured, basis: 'read' };
}

type Point = readonly [multiple: number, seconds: number];

/** Greatest rating of a series, A: above it nothing here is known. */
export function greatestRating(series: FuseSeries): number {
  return Math.max(...fuseBands[series].flatMap(({ ratings }) => ratings));
}

/** The band of a rating; one that is not in the list, as a fitted fuse may have, goes with the next greater. */
function bandOf({ series, rating }: Fuse): FuseBand {
  requireAboveZero('SW-D069', 'rating', rating);
  const band = fuseBands[series].find(({ ratings }) => rating <= Math.max(...ratings));
  if (band === undefined) throw new DomainError('SW-D069', `no ${series} fuse is rated ${rating} A`);
  return band;
}

const soonestPoints = (fuse: Fuse): readonly Point[] =>
  bandOf(fuse).gates.flatMap(([multiple, soonest]) => (soonest === null ? [] : [[multiple, soonest] as const]));

const latestPoints = (fuse: Fuse): readonly Point[] =>
  bandOf(fuse).gates.flatMap(([multiple, , latest]) => (latest === null ? [] : [[multiple, latest] as const]));

/** Current over what the fuse carries at its ambient; Infinity where it carries nothing. */
function multipleOf(fuse: Fuse, current: number, share: number): number {
  requireAboveZero('SW-D069', 'current', current);
  if (!(share >= 0 && share <= 1)) throw new DomainError('SW-D069', `a fuse cannot carry ${share} of its rating`);
  return current / (fuse.rating * share);
}

/** Straight on logarithmic paper between the point `right` and the one before it. */
function between(points: readonly Point[], right: number, multiple: number): number {
  const [x1, t1] = points[right];
  if (multiple === x1) return t1;
  const [x0, t0] = points[right - 1];
  return t0 * (t1 / t0) ** (Math.log(multiple / x0) / Math.log(x1 / x0));
}
