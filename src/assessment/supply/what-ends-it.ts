/** What ends the pull-in current of a plunger that never comes home, and after how long at the latest. */
import {
  fuseDerating,
  fusesOf,
  greatestRating,
  opensNotAfter,
  type Fuse,
  type FuseSeries,
} from '../../physics/fuse.ts';
import { valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';

export interface End {
  readonly by: 'cut-out' | 'economiser' | 'fuse';
  readonly words: string;
  readonly seconds: number;
}

/** The fuse as fitted, where its time to open is known. One that is not sold is taken with the next greater that is. */
export function fittedFuse({ job }: Rig): Fuse | null {
  const { fuse } = job.supply;
  if (typeof fuse === 'string' || fuse.type === 'other') return null;
  const rating = valueOf(fuse.rating, 'current');
  const sold = soldFuse(fuse.type, rating);
  if (sold !== null) return sold;
  return rating <= greatestRating(fuse.type) ? { series: fuse.type, rating } : null;
}

/** The fuse of the list that has this rating, A. */
export function soldFuse(series: FuseSeries, rating: number): Fuse | null {
  return fusesOf(series).find((one) => Math.abs(one.rating - rating) < 1e-6) ?? null;
}

/** "30 A blade fuse". */
export function fuseName({ rating, series }: Fuse): string {
  return `${Number(rating.toPrecision(3))} A ${series} fuse`;
}

/** Share of its rating that a fuse carries where it sits: a cold one opens last. */
export function coldShare({ job }: Rig): number {
  return fuseDerating(valueOf(job.surroundings.coldest, 'temperature'));
}

/** Soonest first; a fuse that may never open at this current is left out. */
export function endsOf(rig: Rig, current: number): readonly End[] {
  const { means, supply } = rig.job;
  const ends: End[] = [];
  if (typeof supply.cutOut !== 'string')
    ends.push({ by: 'cut-out', words: 'the cut-out', seconds: valueOf(supply.cutOut.after, 'time') });
  if (means.coil.stages === 'timed economiser')
    ends.push({ by: 'economiser', words: 'the economiser', seconds: valueOf(means.coil.delay, 'time') });
  const fuse = fittedFuse(rig);
  if (fuse !== null) {
    const { seconds } = opensNotAfter(fuse, current, coldShare(rig));
    if (seconds < Infinity) ends.push({ by: 'fuse', words: `the ${fuseName(fuse)}`, seconds });
  }
  return ends.sort((a, b) => a.seconds - b.seconds);
}
