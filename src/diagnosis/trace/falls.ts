/**
 * The falls of the current while it is on. A fall is a stretch from a high to the next low, both standing out of the
 * noise. Its shape tells what made it: a plunger that runs home pulls the current down faster and faster and stops it
 * with a cusp (the back-EMF grows with speed); a switch, a resistor put in, a loose contact or a sinking supply lets it
 * go quickly at first and then slower and slower, as any current in a coil dies away.
 */
import { slopeOver } from './signal.ts';

export interface Fall {
  /** Points of the high and of the low. */
  readonly top: number;
  readonly bottom: number;
  readonly high: number;
  readonly low: number;
  readonly drop: number;
  /** Points, with fractions, where a tenth, half and nine tenths of the drop were done. */
  readonly tenth: number;
  readonly half: number;
  readonly ninety: number;
  /** (half - tenth) / (ninety - tenth): above a half it falls faster and faster, below slower and slower. */
  readonly bend: number;
  /** How much of the drop comes back before the next fall. */
  readonly rise: number;
  /** Point of the next high. */
  readonly next: number;
}

/** Highs and lows that differ by at least `least` from both neighbours. */
export function fallsOf(y: Float64Array, from: number, to: number, least: number): Fall[] {
  const falls: Fall[] = [];
  let high = from;
  let low = from;
  let isFalling = false;
  const finish = (next: number): void => {
    const fall = fallBetween(y, high, low, next);
    if (fall !== null) falls.push(fall);
  };
  let top = from;
  for (let k = from; k <= to; k++) {
    if (!isFalling) {
      if (y[k] > y[top]) top = k;
      if (y[top] - y[k] > least) {
        high = top;
        low = k;
        isFalling = true;
      }
    } else {
      if (y[k] < y[low]) low = k;
      if (y[k] - y[low] > least) {
        // The next high is not known yet: it is filled in when the next fall begins.
        finish(k);
        top = k;
        isFalling = false;
      }
    }
    if (!isFalling && falls.length > 0) falls[falls.length - 1] = withNext(falls[falls.length - 1], y, top);
  }
  if (isFalling) finish(low);
  return falls;
}

function withNext(fall: Fall, y: Float64Array, next: number): Fall {
  return next === fall.next ? fall : { ...fall, next, rise: y[next] - fall.low };
}

function fallBetween(y: Float64Array, top: number, bottom: number, next: number): Fall | null {
  const [high, low] = [y[top], y[bottom]];
  const drop = high - low;
  if (!(drop > 0)) return null;
  const lastAbove = (level: number): number => {
    let k = bottom;
    while (k > top && y[k] < level) k--;
    return between(y, k, level);
  };
  const firstBelow = (level: number): number => {
    let k = top;
    while (k < bottom && y[k] > level) k++;
    return between(y, k - 1, level);
  };
  const tenth = lastAbove(high - 0.1 * drop);
  const ninety = Math.max(tenth, firstBelow(low + 0.1 * drop));
  const half = Math.min(ninety, Math.max(tenth, (lastAbove(high - 0.5 * drop) + firstBelow(high - 0.5 * drop)) / 2));
  const bend = ninety > tenth ? (half - tenth) / (ninety - tenth) : 0.5;
  return { top, bottom, high, low, drop, tenth, half, ninety, bend, rise: y[next] - low, next };
}

function between(y: Float64Array, k: number, level: number): number {
  if (k < 0) return 0;
  const step = (y[k + 1] ?? y[k]) - y[k];
  return k + (step < 0 ? Math.min(1, Math.max(0, (level - y[k]) / step)) : 0);
}

/**
 * The point inside a fall where the slope breaks downward most: where a switch opened while the current was already
 * sinking. Straight lines over `width` points on both sides.
 */
export function breakInside(y: Float64Array, { top, bottom }: Fall, width: number): number {
  let best = top;
  let most = 0;
  for (let k = Math.max(top, width); k <= Math.min(bottom, y.length - 1 - width); k++) {
    const breaks = slopeOver(y, k - width, k) - slopeOver(y, k, k + width);
    if (breaks > most) {
      most = breaks;
      best = k;
    }
  }
  return best;
}
