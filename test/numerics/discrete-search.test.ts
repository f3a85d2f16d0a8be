/** The search of combinations against reckoning all of them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  beginSearch,
  combination,
  combinations,
  joinSearches,
  leastOf,
  searchOn,
  type SearchProblem,
  type SearchState,
} from '../../src/numerics/discrete-search.ts';

/**
 * Random problems: a table of margins for each pair of neighbouring axes, so that a first part of the choices bounds
 * the rest.
 */
const problems = fc
  .record({
    radices: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 5 }),
    numbers: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 80, maxLength: 80 }),
    keep: fc.integer({ min: 0, max: 4 }),
    kinds: fc.integer({ min: 1, max: 5 }),
    without: fc.boolean(),
  })
  .map(({ radices, numbers, keep, kinds, without }) => {
    const margin = (axis: number, choices: readonly number[]) => {
      const found = numbers[(axis * 16 + choices[axis] * 4 + (choices[axis - 1] ?? 0)) % 80];
      return found === -9 ? -Infinity : found;
    };
    const margins = (choices: readonly number[], fixed: number) =>
      Array.from({ length: fixed }, (_, axis) => () => margin(axis, choices));
    const problem: SearchProblem = {
      radices,
      keep,
      value: (choices, toBeat) => leastOf(margins(choices, radices.length), toBeat),
      kind: (choices) => String(choices.reduce((sum, choice) => sum + choice, 0) % kinds),
      ...(without ? {} : { bound: (choices, fixed, toBeat) => leastOf(margins(choices, fixed), toBeat) }),
    };
    return problem;
  });

/** Everything reckoned, nothing cut: the best of each kind, best first, the lower number first of equals. */
function bruteForce(problem: SearchProblem) {
  const all = Array.from({ length: combinations(problem.radices) }, (_, number) => {
    const choices = combination(problem.radices, number);
    return { number, choices, value: problem.value(choices, -Infinity), kind: problem.kind!(choices) };
  }).filter(({ value }) => value > -Infinity);
  all.sort((a, b) => b.value - a.value || a.number - b.number);
  return all.filter((one, i) => all.findIndex(({ kind }) => kind === one.kind) === i).slice(0, problem.keep);
}

function toTheEnd(problem: SearchProblem, state: SearchState, block: number): SearchState {
  let now = state;
  while (now.next < now.until) {
    const then = searchOn(problem, now, block);
    assert.ok(then.next > now.next, 'every block gets on');
    assert.equal(then.cutOff + then.valued, then.next - then.from, 'counts say how far it is');
    // A state survives being written down.
    now = JSON.parse(JSON.stringify(then)) as SearchState;
  }
  return now;
}

test('finds what brute force finds, in one go, in blocks, and shared out among several', () => {
  fc.assert(
    fc.property(problems, fc.integer({ min: 1, max: 50 }), fc.integer({ min: 1, max: 4 }), (problem, block, shares) => {
      const expected = bruteForce(problem);
      const total = combinations(problem.radices);
      assert.deepEqual(toTheEnd(problem, beginSearch(problem), Infinity).kept, expected);
      assert.deepEqual(toTheEnd(problem, beginSearch(problem), block).kept, expected);
      const parts = Array.from({ length: shares }, (_, k) =>
        toTheEnd(
          problem,
          beginSearch(problem, Math.floor((k * total) / shares), Math.floor(((k + 1) * total) / shares)),
          block,
        ),
      );
      // Each told what the ones before it keep: nothing is lost by that.
      let kept = joinSearches([beginSearch(problem, 0, 0)], problem.keep);
      for (const { from, until } of parts) {
        const floor = kept.kept.length < problem.keep ? -Infinity : (kept.kept.at(-1)?.value ?? Infinity);
        const part = toTheEnd(problem, beginSearch(problem, from, until, floor), block);
        assert.ok(
          part.kept.every(({ value }) => value > floor),
          'only what beats the floor',
        );
        kept = joinSearches([kept, part], problem.keep);
      }
      assert.deepEqual(kept.kept, expected);
      const joined = joinSearches(parts.reverse(), problem.keep);
      assert.deepEqual(joined.kept, expected);
      assert.deepEqual([joined.from, joined.next, joined.until], [0, total, total]);
      assert.equal(joined.cutOff + joined.valued, total);
    }),
    { numRuns: 1500, seed: 1 },
  );
});

test('numbers and choices, the last axis fastest', () => {
  const radices = [2, 3, 4];
  assert.equal(combinations(radices), 24);
  assert.deepEqual(
    [0, 1, 4, 23].map((n) => combination(radices, n)),
    [
      [0, 0, 0],
      [0, 0, 1],
      [0, 1, 0],
      [1, 2, 3],
    ],
  );
  assert.equal(combinations([]), 1);
  assert.throws(() => combinations([2, 0]), RangeError);
  assert.throws(() => combinations([2 ** 27, 2 ** 27]), /cannot be numbered/);
});

test('a bound on the first choices cuts off whole rows: a queen on each line of a board without a clash', () => {
  const n = 8;
  const clash = (choices: readonly number[], fixed: number) => {
    for (let i = 0; i < fixed; i++) {
      for (let j = 0; j < i; j++) {
        if (choices[i] === choices[j] || Math.abs(choices[i] - choices[j]) === i - j) return -Infinity;
      }
    }
    return 1;
  };
  const state = toTheEnd(
    {
      radices: Array.from({ length: n }, () => n),
      keep: 1000,
      bound: (choices, fixed) => clash(choices, fixed),
      value: (choices) => clash(choices, n),
    },
    beginSearch({ radices: Array.from({ length: n }, () => n), keep: 1, value: () => 0 }),
    100,
  );
  assert.equal(state.kept.length, 92, 'the eight queens have 92 places');
  assert.equal(state.valued, 92);
  assert.equal(state.cutOff + state.valued, 8 ** 8);
});

test('a margin that cannot matter is not reckoned', () => {
  const asked: number[] = [];
  const margin = (value: number) => () => {
    asked.push(value);
    return value;
  };
  assert.equal(leastOf([margin(5), margin(2), margin(-1)], 3), 2);
  assert.deepEqual(asked, [5, 2]);
  assert.equal(leastOf([margin(5), margin(2), margin(3)]), 2);
  assert.equal(leastOf([]), Infinity);
});

test('misuse is refused', () => {
  const problem: SearchProblem = { radices: [3], keep: 1, value: () => Number.NaN };
  assert.throws(() => searchOn(problem, beginSearch(problem), 5), /not a number/);
  assert.throws(() => beginSearch(problem, 2, 1), RangeError);
  assert.throws(() => beginSearch(problem, 0, 4), RangeError);
});
