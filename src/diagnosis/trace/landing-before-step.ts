/**
 * A landing that the stage change follows so closely that the current has no time to rise between the two.
 *
 * Three pieces are fitted together to the points around the fall:
 *
 *     i = c + a1 u + a2 u²              before the landing t_c, u = t - t_c
 *     i = c + m u                       between landing and stage change t_s
 *     i = h + (i(t_s) - h) e^(-(t - t_s)/τ)   after it, h the hold current
 *
 * c, a1, a2, m by least squares, t_c, t_s and τ by search. Against it stands the same without a landing (one parabola up
 * to t_s): what the sum of squares gains, in units of σ², says whether a cusp is there. Own method, no source.
 */
export interface ThreePieces {
  /** Points, with fractions; landing null where the parabola alone is as good. */
  readonly landing: number | null;
  readonly landingPlusMinus: number;
  readonly step: number;
  readonly stepPlusMinus: number;
  /** Gain of the cusp over the parabola, in σ². */
  readonly gain: number;
  readonly level: number;
  /** A per point, just before the landing (or the step, where there is none). */
  readonly slopeBefore: number;
  /** A per point²: below zero the current fell faster and faster. */
  readonly bend: number;
}

interface Fit {
  readonly squares: number;
  readonly landing: number;
  readonly step: number;
  readonly decay: number;
  readonly level: number;
  readonly slope: number;
  readonly bend: number;
}

const MOST_POINTS = 100;
/**
 * That the plunger lands before its end switch works is known beforehand, so a cusp need not prove itself against mere
 * noise, only be better than none by three standard deviations. How sure it is, is said by the gain.
 */
const WORTH = 9;

/**
 * `from` to `to` in points; the stage change is looked for between `stepFrom` and `stepTo`, τ around `decay` points, and
 * near nothing.
 */
export function threePieces(
  x: Float64Array,
  from: number,
  to: number,
  stepFrom: number,
  stepTo: number,
  hold: number,
  decay: number,
  noise: number,
): ThreePieces | null {
  const stride = Math.max(1, Math.ceil((to - from + 1) / MOST_POINTS));
  const n = Math.floor((to - from + 1) / stride);
  if (n < 8) return null;
  const values = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    for (let j = 0; j < stride; j++) values[k] += x[from + k * stride + j] / stride;
  }
  const place = (point: number): number => (point - from - (stride - 1) / 2) / stride;
  const [first, last] = [Math.max(3.5, place(stepFrom)), Math.min(n - 2, place(stepTo))];
  if (last < first) return null;
  const search = searchIn(values, hold, decay / stride, first, last);
  const plain = search(true);
  if (plain === null) return null;
  const broken = search(false);
  const variance = Math.max(noise * noise, 1e-18) / stride;
  const gain = broken === null ? 0 : (plain.squares - broken.squares) / variance;
  const isBroken = broken !== null && gain > WORTH && broken.slope < 0;
  const best = isBroken ? broken : plain;
  const back = (at: number): number => from + at * stride + (stride - 1) / 2;
  return {
    landing: isBroken ? back(broken.landing) : null,
    landingPlusMinus: stride * Math.max(0.5, isBroken ? search.spread(broken, variance) : 1),
    step: back(best.step),
    stepPlusMinus: stride * 0.75,
    gain,
    level: best.level,
    slopeBefore: best.slope / stride,
    bend: best.bend / stride ** 2,
  };
}

function searchIn(values: Float64Array, hold: number, decay: number, first: number, last: number) {
  const n = values.length;
  const decays = [0.05, 0.5, 1.2, ...[0.7, 0.84, 1, 1.19, 1.42].map((factor) => factor * decay)];
  const better = (a: Fit | null, b: Fit | null): Fit | null =>
    b !== null && (a === null || b.squares < a.squares) ? b : a;
  const coarse = Math.min(0.75, Math.max(0.4, (last - first) / 24));

  function search(isPlain: boolean): Fit | null {
    const gapOf = (step: number): number => Math.max(0.5, step / 24);
    const rough: (Fit | null)[] = [];
    for (let step = first; step <= last; step += coarse) {
      for (let at = isPlain ? step : Math.max(2.5, step * 0.15); at <= step - (isPlain ? 0 : 0.5); at += gapOf(step))
        for (const decay of decays) rough.push(fitPieces(values, hold, at, step, decay));
    }
    let best = rough.reduce(better, null);
    for (const finer of best === null ? [] : [0.5, 0.25, 0.12]) {
      const { landing, step, decay }: Fit = best!;
      for (let a = -2; a <= 2; a++) {
        for (let b = -2; b <= 2; b++) {
          for (const factor of [1 - 0.3 * finer, 1, 1 + 0.3 * finer]) {
            const at = step + b * coarse * finer;
            const lands = isPlain ? at : Math.min(at - 0.25, landing + a * gapOf(step) * finer);
            if (at >= 3 && at <= n - 1.5 && lands > 2)
              best = better(best, fitPieces(values, hold, lands, at, decay * factor));
          }
        }
      }
    }
    return best;
  }
  /** How far the landing can be moved before the fit is worse by 4 σ². */
  search.spread = ({ landing, step, decay, squares }: Fit, variance: number): number => {
    let widest = 0;
    for (let away = 0.25; away < 12; away += 0.25) {
      const near = [landing - away, Math.min(landing + away, step - 0.1)].some((at) => {
        const fit = at > 2 ? fitPieces(values, hold, at, step, decay) : null;
        return fit !== null && fit.squares <= squares + 4 * variance;
      });
      if (!near) break;
      widest = away;
    }
    return widest;
  };
  return search;
}

const normal = new Float64Array(16);
const right = new Float64Array(4);
const row = new Float64Array(4);
const solution = new Float64Array(4);

function fitPieces(values: Float64Array, hold: number, landing: number, step: number, decay: number): Fit | null {
  const isPlain = landing === step;
  normal.fill(0);
  right.fill(0);
  const size = isPlain ? 3 : 4;
  const scale = 1 / values.length;
  const flat = (step - landing) * scale;
  let whole = 0;
  for (let k = 0; k < values.length; k++) {
    const u = (k - landing) * scale;
    const value = values[k] - hold;
    if (k <= landing) {
      row[0] = 1;
      row[1] = u;
      row[2] = u * u;
      row[3] = 0;
    } else {
      const left = k <= step ? 1 : Math.exp(-(k - step) / decay);
      row[0] = left;
      row[1] = row[2] = 0;
      row[3] = left * (k <= step ? u : flat);
    }
    for (let i = 0; i < size; i++) {
      right[i] += row[i] * value;
      for (let j = 0; j <= i; j++) normal[i * size + j] += row[i] * row[j];
    }
    whole += value * value;
  }
  for (let i = 0; i < size; i++) normal[i * size + i] += 1e-12;
  if (!solveInPlace(size)) return null;
  const fit = solution;
  let squares = whole;
  for (let i = 0; i < size; i++) squares -= fit[i] * right[i];
  return { squares, landing, step, decay, level: hold + fit[0], slope: fit[1] * scale, bend: fit[2] * scale * scale };
}

/**
 * Cholesky in the scratch arrays, without an allocation: it runs thousands of times for one trace. The lower triangle of
 * `normal` is overwritten, `right` is kept.
 */
function solveInPlace(size: number): boolean {
  for (let i = 0; i < size; i++) {
    let sum = right[i];
    for (let j = 0; j <= i; j++) {
      let value = normal[i * size + j];
      for (let k = 0; k < j; k++) value -= normal[i * size + k] * normal[j * size + k];
      if (j < i) normal[i * size + j] = value / normal[j * size + j];
      else if (value > 0) normal[i * size + i] = Math.sqrt(value);
      else return false;
    }
    for (let k = 0; k < i; k++) sum -= normal[i * size + k] * solution[k];
    solution[i] = sum / normal[i * size + i];
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) solution[i] -= normal[k * size + i] * solution[k];
    solution[i] /= normal[i * size + i];
  }
  return true;
}
