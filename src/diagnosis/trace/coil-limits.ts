/** What the current of a coil at rest can and cannot do: limits by which dips are judged. */
import type { Context } from './context.ts';
import type { Fall } from './falls.ts';
import { slopeOver } from './signal.ts';

/** The steepest return of the current after the low, over the steepest of its first rise. */
export function comesBackFaster({ bottom }: Fall, { y, step, width, residue, from, last }: Context): number {
  const reach = Math.max(2, width, Math.round(0.001 / step));
  const steepest = (first: number, end: number): number => {
    let most = 0;
    for (let k = Math.max(0, first); k <= Math.min(end, last) - reach; k++) most = Math.max(most, y[k + reach] - y[k]);
    return most;
  };
  const rise = steepest(from - reach, from + reach + Math.round(0.02 / step));
  const back = steepest(bottom - reach, bottom + 3 * reach) - 3 * residue;
  return back / Math.max(rise, 1e-30);
}

/** How long a current has to have stood still for a dip after it to be late, s. */
const STOOD_STILL_S = 0.06;

/** Whether the current had long come to rest before it fell: a plunger is off before that, as a rule. */
export function isLate({ top }: Fall, { y, step, peak, residue, from }: Context): boolean {
  const first = top - Math.round(STOOD_STILL_S / step);
  if (first <= from) return false;
  let [low, high] = [Infinity, -Infinity];
  for (let k = first; k <= top; k++) {
    if (y[k] < low) low = y[k];
    if (y[k] > high) high = y[k];
  }
  return high - low < Math.max(0.03 * peak, 6 * residue);
}

/**
 * Where the current of a rise without a fall bends upward most, or null where nothing stands out of the noise. The rise
 * of a coil at rest only ever bends downward; a soft or slow landing may leave no more than such a bend.
 */
export function bendUpward(context: Context): number | null {
  const { y, x, step, noise, from, last, seconds } = context;
  const w = Math.max(4, Math.round(0.004 / step));
  const end = Math.min(last, from + Math.round(0.4 / step)) - w;
  const first = Math.max(...y.subarray(from, Math.min(last, from + 2 * w))) / (2 * w);
  let [most, best] = [0, 0];
  const stride = Math.max(1, Math.floor(w / 12));
  for (let k = from + w + Math.round(0.008 / step); k <= end; k += stride) {
    const bend = slopeOver(x, k, k + w) - slopeOver(x, k - w, k);
    if (bend > most) [most, best] = [bend, k];
  }
  const uncertain = noise * Math.sqrt(24 / w ** 3);
  return most > Math.max(7 * uncertain, 0.06 * first) ? seconds(best) : null;
}
