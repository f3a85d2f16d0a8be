/** A place and the value there. */
export interface Known {
  readonly at: number;
  readonly value: number;
}

const GOLDEN = (3 - Math.sqrt(5)) / 2;
/** Share of the interval to which a place is sought: the value beside a smooth dip then rises by less than it rounds. */
const CLOSE = 1e-4;

/**
 * Least value of a function with one dip between `from` and `to`, by Brent's method [1]: parabolas through the three best
 * places while they come closer quickly enough, golden section where they do not. A smooth dip takes about ten
 * evaluations to a ten-thousandth of the interval, fewer where the known place is near, a kink all of them.
 *
 * @param most   evaluations at most, one at least
 * @param known  a place that has been evaluated already; left out: none
 * @returns the least of all that was evaluated, `known` included
 *
 * [1] R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 5
 */
export function leastBetween(f: (x: number) => number, from: number, to: number, most = 20, known?: Known): Known {
  let [a, b] = [from, to];
  const tolerance = CLOSE * (to - from);
  let asked = 0;
  const first = known ?? evaluated(a + GOLDEN * (b - a));
  // The best place, the second best, and the one that was the second best before.
  let [best, second, third] = [first, first, first];
  let step = 0;
  let before = 0;
  while (asked < most) {
    const middle = (a + b) / 2;
    if (Math.abs(best.at - middle) <= 2 * tolerance - (b - a) / 2) break;
    const parabola = Math.abs(before) > tolerance ? stepToVertex(best, second, third) : NaN;
    const lands = best.at + parabola;
    const isTaken = lands > a && lands < b && Math.abs(parabola) < Math.abs(before) / 2;
    before = isTaken ? step : (best.at < middle ? b : a) - best.at;
    step = isTaken ? parabola : GOLDEN * before;
    if (isTaken && (lands - a < 2 * tolerance || b - lands < 2 * tolerance))
      step = best.at < middle ? tolerance : -tolerance;
    if (Math.abs(step) < tolerance) step = step < 0 ? -tolerance : tolerance;
    const tried = evaluated(best.at + step);
    if (tried.value <= best.value) {
      if (tried.at < best.at) b = best.at;
      else a = best.at;
      [best, second, third] = [tried, best, second];
      continue;
    }
    if (tried.at < best.at) a = tried.at;
    else b = tried.at;
    if (tried.value <= second.value || second.at === best.at) [second, third] = [tried, second];
    else if (tried.value <= third.value || third.at === best.at || third.at === second.at) third = tried;
  }
  return best;

  function evaluated(at: number): Known {
    asked++;
    return { at, value: f(at) };
  }
}

/** From the best of three places to the lowest point of the parabola through them; not finite where there is none. */
function stepToVertex(best: Known, second: Known, third: Known): number {
  const r = (best.at - second.at) * (best.value - third.value);
  const q = (best.at - third.at) * (best.value - second.value);
  return ((best.at - second.at) * r - (best.at - third.at) * q) / (2 * (q - r));
}
