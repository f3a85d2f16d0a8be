/**
 * Scrambled Sobol points beside plain pseudo-random numbers (xoroshiro128+ of pure-rand, 53 bits each): points per
 * second, and the error of a mean at equal N. Then what stands on them: draws of correlated quantities, sensitivity,
 * the search of combinations.
 *
 * Errors are root mean squares over 100 seeds, of the mean of a smooth function and of a probability, in eight
 * dimensions.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { beginSearch, combinations, leastOf, searchOn, type SearchProblem } from '../src/numerics/discrete-search.ts';
import { jointDistribution, jointDraws } from '../src/numerics/distribution-joint.ts';
import { normalCumulative } from '../src/numerics/distribution-normal.ts';
import { sobolPoints, sobolSequence } from '../src/numerics/quasi-random.ts';
import { oneRunIndices } from '../src/numerics/sensitivity-one-run.ts';

const SEEDS = 100;

export async function bench(print: (line: string) => void): Promise<void> {
  for (const dimensions of [8, 32]) {
    const sequence = sobolSequence(dimensions, 1);
    const plain = sobolSequence(dimensions, null);
    const random = xoroshiro128plus(1);
    const quasi = 1024 / median(() => sobolPoints(sequence, 0, 1024));
    const unscrambled = 1024 / median(() => sobolPoints(plain, 0, 1024));
    const pseudo = 1024 / median(() => Float64Array.from({ length: 1024 * dimensions }, () => uniformFloat64(random)));
    const filled = new Float64Array(1024 * dimensions);
    const loop =
      1024
      / median(() => {
        for (let i = 0; i < filled.length; i++) filled[i] = uniformFloat64(random);
        return filled;
      });
    const set = median(() => sobolSequence(dimensions, 1));
    print(
      `${dimensions} dimensions: ${millions(quasi)} scrambled points/s (${(quasi / loop).toFixed(2)} of pseudo-random in a loop, ${(quasi / pseudo).toFixed(2)} of pseudo-random by Float64Array.from), ${millions(unscrambled)} plain; a new scramble ${(1e6 * set).toFixed(0)} μs`,
    );
  }
  errors(print);
  draws(print);
  search(print);
}

function errors(print: (line: string) => void): void {
  const dimensions = 8;
  const smooth = (x: Float64Array) => x.reduce((product, u, i) => product * (1 + (u - 0.5) / (i + 1)), 1);
  /** Sum of eight shares above 5: about one in ten. */
  const above = (x: Float64Array) => (x.reduce((sum, u) => sum + u, 0) > 5 ? 1 : 0);
  const exact = irwinHallAbove5();
  for (const [name, f, truth] of [
    ['smooth mean', smooth, 1],
    ['probability', above, exact],
  ] as const) {
    const error = (points: (seed: number) => Float64Array) => {
      const squares = Array.from({ length: SEEDS }, (_, seed) => {
        const all = points(seed);
        let sum = 0;
        for (let i = 0; i < all.length; i += dimensions) sum += f(all.subarray(i, i + dimensions));
        return ((sum * dimensions) / all.length - truth) ** 2;
      });
      return Math.sqrt(squares.reduce((a, b) => a + b, 0) / SEEDS);
    };
    const ratios = [256, 1024, 4096].map((count) => {
      const quasi = error((seed) => sobolPoints(sobolSequence(dimensions, seed), 0, count));
      const pseudo = error((seed) => {
        const random = xoroshiro128plus(seed * 7919 + 1);
        for (let i = 0; i < 16; i++) random.next();
        return Float64Array.from({ length: count * dimensions }, () => uniformFloat64(random));
      });
      return `${count}: ${quasi.toExponential(1)} beside ${pseudo.toExponential(1)}, 1/${(pseudo / quasi).toFixed(1)}`;
    });
    print(`error of a ${name} at equal N, quasi-random beside pseudo-random: ${ratios.join('; ')}`);
  }
}

/** 1 - F(5) of the sum of eight shares: Σ (-1)^k C(8, k) (5 - k)^8 / 8!. */
function irwinHallAbove5(): number {
  const choose = [1, 8, 28, 56, 70];
  return 1 - choose.reduce((sum, c, k) => sum + (-1) ** k * c * (5 - k) ** 8, 0) / 40_320;
}

function draws(print: (line: string) => void): void {
  const count = 1024;
  const normal = { shape: 'normal', mean: 1, standardDeviation: 0.1 } as const;
  const quantities = Array.from({ length: 16 }, () => normal);
  const matrix = Array.from({ length: 16 }, (_, k) => (k % 5 === 0 ? 1 : 0.4));
  const free = jointDistribution(quantities);
  const bound = jointDistribution(quantities, { correlated: [{ members: [0, 1, 2, 3], matrix }] });
  const shares = sobolPoints(sobolSequence(16, 1), 0, count);
  const [independent, correlated] = [free, bound].map((joint) => count / median(() => jointDraws(joint, shares)));
  print(`16 normal quantities: ${millions(independent)} draws/s; four of them correlated: ${millions(correlated)}`);
  const sets = Array.from({ length: 8 }, (_, seed) => {
    const inputs = sobolPoints(sobolSequence(16, seed), 0, 128);
    return {
      inputs,
      results: Float64Array.from({ length: 128 }, (_, i) => normalCumulative(inputs[16 * i] + inputs[16 * i + 1])),
    };
  });
  print(`quick indices of 16 inputs from 8 × 128 draws: ${(1000 * median(() => oneRunIndices(sets))).toFixed(2)} ms`);
}

function search(print: (line: string) => void): void {
  const radices = [12, 10, 8, 10, 6];
  const margin = (axis: number, choices: readonly number[]) =>
    Math.sin(1 + axis + 3 * choices[axis]) + 0.4 * Math.cos(choices[axis] * (choices[axis - 1] ?? 1));
  const margins = (choices: readonly number[], fixed: number) =>
    Array.from({ length: fixed }, (_, axis) => () => margin(axis, choices));
  const all: SearchProblem = { radices, keep: 5, value: (choices) => leastOf(margins(choices, 5)) };
  const bounded: SearchProblem = {
    ...all,
    value: (choices, toBeat) => leastOf(margins(choices, 5), toBeat),
    bound: (choices, fixed, toBeat) => leastOf(margins(choices, fixed), toBeat),
  };
  const whole = (problem: SearchProblem) => searchOn(problem, beginSearch(problem), Infinity);
  const [without, within] = [all, bounded].map((problem) => median(() => whole(problem)));
  const { valued } = whole(bounded);
  print(
    `best 5 of ${combinations(radices)} combinations of five margins: ${(1000 * without).toFixed(1)} ms reckoning all, ${(1000 * within).toFixed(2)} ms with a bound (${valued} reckoned)`,
  );
}

const millions = (perSecond: number) => `${(perSecond / 1e6).toPrecision(3)} million`;

function median(run: () => unknown): number {
  for (let i = 0; i < 20; i++) run();
  const times: number[] = [];
  for (let batch = 0; batch < 11; batch++) {
    const began = performance.now();
    let runs = 0;
    do {
      run();
      runs++;
    } while (performance.now() - began < 20);
    times.push((performance.now() - began) / runs / 1000);
  }
  return times.sort((a, b) => a - b)[5];
}
