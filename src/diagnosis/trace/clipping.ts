/** Whether the recording ran into the end of its range. */
import { slopeOver } from './signal.ts';

/**
 * The level at which the trace is cut off, or null. A trace is cut where the greatest reading repeats without any noise
 * for `least` points and the current ran into it at a slope that cannot have ended so abruptly by itself: over the same
 * number of points before, it rose by more than six times the noise and by three steps of the converter.
 */
export function clippedAt(
  x: Float64Array,
  from: number,
  to: number,
  noise: number,
  converterStep: number,
  least: number,
): number | null {
  let top = -Infinity;
  for (let k = from; k <= to; k++) if (x[k] > top) top = x[k];
  const same = Math.max(1e-6 * Math.abs(top), converterStep / 8);
  for (let k = from; k <= to; k++) {
    if (x[k] < top - same) continue;
    let end = k;
    while (end < to && x[end + 1] >= top - same) end++;
    const length = end - k + 1;
    if (length >= least && k - least >= from) {
      const rise = slopeOver(x, k - least, k - 1) * least;
      if (rise > Math.max(6 * noise, 3 * converterStep)) return top;
    }
    k = end;
  }
  return null;
}
