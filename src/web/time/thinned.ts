/** A recorded current with so few points that it can be drawn, and nothing lost that the eye would see. */

export interface Thinned {
  readonly time_s: readonly number[];
  readonly supplyCurrent_A: readonly number[];
}

/**
 * The lowest and the highest sample of each of `pieces` equal stretches of time between `from` and `to`, in the order in which
 * they came; all samples where there are no more than two for each stretch.
 */
export function thinned(
  time: ArrayLike<number>,
  current: ArrayLike<number>,
  from: number,
  to: number,
  pieces: number,
): Thinned {
  const first = firstAt(time, from);
  const end = firstAt(time, to + Number.EPSILON * Math.abs(to));
  const kept: number[] = [];
  if (end - first <= 2 * pieces) for (let i = first; i < end; i++) kept.push(i);
  else {
    let low = first;
    let high = first;
    let piece = 0;
    const finish = (): void => {
      if (low === high) kept.push(low);
      else kept.push(Math.min(low, high), Math.max(low, high));
    };
    for (let i = first; i < end; i++) {
      const now = Math.floor((((time[i] ?? 0) - from) / (to - from)) * pieces);
      if (now !== piece && i > first) {
        finish();
        [low, high] = [i, i];
      }
      piece = now;
      if ((current[i] ?? 0) < (current[low] ?? 0)) low = i;
      if ((current[i] ?? 0) > (current[high] ?? 0)) high = i;
    }
    finish();
  }
  return { time_s: kept.map((i) => time[i] ?? 0), supplyCurrent_A: kept.map((i) => current[i] ?? 0) };
}

/** The first sample at or after a time; times never fall. */
function firstAt(time: ArrayLike<number>, wanted: number): number {
  let [low, high] = [0, time.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((time[middle] ?? 0) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}
