import assert from 'node:assert/strict';
import { test } from 'node:test';
import { DormandPrince, type OdeSystem } from '../../src/numerics/ode.ts';

function solver(
  system: OdeSystem,
  tolerance: number,
  more: { longestStep?: number; mostSteps?: number } = {},
): DormandPrince {
  return new DormandPrince(system, {
    relativeTolerance: tolerance,
    absoluteTolerance: new Float64Array(system.size).fill(tolerance),
    ...more,
  });
}

const circle: OdeSystem = {
  size: 2,
  events: 2,
  rates(_time, y, rates) {
    rates[0] = y[1];
    rates[1] = -y[0];
  },
  eventValues(_time, y, values) {
    values[0] = y[0];
    values[1] = y[0] + 0.5;
  },
};
const quiet: OdeSystem = { ...circle, events: 0, eventValues() {} };

/** Greatest error of cos over steps of equal length, at their ends and between them. */
function errors(steps: number): { ends: number; between: number } {
  const state = Float64Array.of(1, 0);
  const found = new Float64Array(2);
  let [ends, between] = [0, 0];
  solver(quiet, 1e12, { longestStep: 2 / steps }).run(0, 2, state, (step) => {
    ends = Math.max(ends, Math.abs(step.end[0] - Math.cos(step.to)));
    for (const share of [0.25, 0.5, 0.75]) {
      step.interpolate(share, found);
      between = Math.max(between, Math.abs(found[0] - Math.cos(step.from + share * (step.to - step.from))));
    }
  });
  return { ends, between };
}

test('steps are of order five, and what lies between them of order four', () => {
  const [rough, fine] = [errors(8), errors(16)];
  const order = (a: number, b: number): number => Math.log2(a / b);
  assert.ok(Math.abs(order(rough.ends, fine.ends) - 5) < 0.4, `ends ${order(rough.ends, fine.ends)}`);
  // Over one step the extension errs as the fifth power of its length, the steps before it no less.
  assert.ok(order(rough.between, fine.between) > 4.5, `between ${order(rough.between, fine.between)}`);
});

test('a tenth of the tolerance leaves about a tenth of the error', () => {
  const found = [1e-5, 1e-6, 1e-7, 1e-8, 1e-9].map((tolerance) => {
    const state = Float64Array.of(1, 0);
    const result = solver(quiet, tolerance).run(0, 20, state);
    assert.equal(result.reason, 'end', 'comes to its end');
    assert.ok(result.residual <= 1, `residual ${result.residual}`);
    return Math.abs(state[0] - Math.cos(20)) + Math.abs(state[1] + Math.sin(20));
  });
  found.forEach((error, i) => {
    if (i > 0) assert.ok(error < 0.3 * found[i - 1], `error ${error} after ${found[i - 1]}`);
  });
  assert.ok(found[4] < 1e-7, `error ${found[4]} at 1e-9`);
});

test('the earliest fall through zero ends the run where it happens, as exactly as the tolerance', () => {
  for (const tolerance of [1e-6, 1e-9]) {
    const state = Float64Array.of(1, 0);
    const { reason, event, time } = solver(circle, tolerance).run(0, 10, state);
    assert.deepEqual([reason, event], ['event', 0], 'the first event');
    assert.ok(Math.abs(time - Math.PI / 2) < 3 * tolerance, `at ${time}`);
    assert.ok(Math.abs(state[0]) < 3 * tolerance, `there ${state[0]}`);
  }
});

test('a value that begins at zero and rises does not end the run at once; one that begins at zero and falls does', () => {
  const rising = Float64Array.of(0, 1);
  const { reason, time } = solver(circle, 1e-9).run(0, 10, rising);
  assert.equal(reason, 'event', 'falls after half a turn');
  assert.ok(Math.abs(time - Math.PI) < 1e-8, `at ${time}`);
  const falling = Float64Array.of(0, -1);
  const at = solver({ ...circle, events: 1 }, 1e-9).run(0, 10, falling);
  assert.deepEqual([at.reason, at.time, [...falling]], ['event', 0, [0, -1]], 'nothing moved');
});

test('the restricted three-body orbit closes after its published period', () => {
  // Source: E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential Equations I, II.0 (from memory): the
  // Arenstorf orbit, its initial values and its period.
  const mu = 0.012277471;
  const orbit: OdeSystem = {
    size: 4,
    events: 0,
    eventValues() {},
    rates(_time, y, rates) {
      const [x, z, vx, vz] = y;
      const d1 = ((x + mu) ** 2 + z * z) ** 1.5;
      const d2 = ((x - (1 - mu)) ** 2 + z * z) ** 1.5;
      rates[0] = vx;
      rates[1] = vz;
      rates[2] = x + 2 * vz - ((1 - mu) * (x + mu)) / d1 - (mu * (x - (1 - mu))) / d2;
      rates[3] = z - 2 * vx - ((1 - mu) * z) / d1 - (mu * z) / d2;
    },
  };
  const state = Float64Array.of(0.994, 0, 0, -2.001585106379082);
  const { accepted } = solver(orbit, 1e-12).run(0, 17.065216560157964, state);
  assert.ok(Math.hypot(state[0] - 0.994, state[1]) < 1e-6, `comes back to ${state[0]}, ${state[1]}`);
  assert.ok(accepted < 3000, `${accepted} steps`);
});

test('what cannot be integrated is said, with where it stopped', () => {
  const grows: OdeSystem = {
    size: 1,
    events: 0,
    eventValues() {},
    rates: (_t, y, rates) => void (rates[0] = y[0] ** 2),
  };
  const blown = Float64Array.of(1);
  const short = solver(grows, 1e-8).run(0, 2, blown);
  assert.notEqual(short.reason, 'end', 'the solution ends at 1');
  assert.ok(short.time > 0.99 && short.time <= 1.0001, `stopped at ${short.time}`);
  assert.ok(!(short.residual <= 1), `residual ${short.residual}`);
  const empty: OdeSystem = { ...grows, rates: (_t, _y, rates) => void (rates[0] = NaN) };
  assert.equal(solver(empty, 1e-8).run(0, 1, Float64Array.of(1)).reason, 'not a number', 'no number');
  const few = solver(quiet, 1e-10, { mostSteps: 5 }).run(0, 50, Float64Array.of(1, 0));
  assert.equal(few.reason, 'too many steps', 'five are too few');
  assert.ok(few.time > 0 && few.time < 50, `stopped at ${few.time}`);
});

test('entries left out of the error control are integrals as good as the rest', () => {
  const withArea: OdeSystem = {
    size: 3,
    events: 0,
    eventValues() {},
    rates(_time, y, rates) {
      rates[0] = y[1];
      rates[1] = -y[0];
      rates[2] = y[0] * y[0];
    },
  };
  const state = Float64Array.of(1, 0, 0);
  new DormandPrince(withArea, {
    relativeTolerance: 1e-9,
    absoluteTolerance: Float64Array.of(1e-9, 1e-9, Infinity),
  }).run(0, Math.PI, state);
  assert.ok(Math.abs(state[2] - Math.PI / 2) < 1e-8, `∫cos² = ${state[2]}`);
});

test('entries told to be integrals come out the same, and so does what lies between the steps', () => {
  const withArea: OdeSystem = {
    size: 3,
    events: 1,
    eventValues: (_time, y, values) => void (values[0] = y[0]),
    rates(_time, y, rates) {
      rates[0] = y[1];
      rates[1] = -y[0];
      rates[2] = y[0] * y[0];
    },
  };
  const run = (system: OdeSystem): number[] => {
    const state = Float64Array.of(1, 0, 0);
    const half = new Float64Array(3);
    const seen: number[] = [];
    const { time } = solver(system, 1e-8).run(0, 10, state, (step) => {
      step.interpolate(0.5, half);
      const middle = (step.from + step.to) / 2;
      const area = middle / 2 + Math.sin(2 * middle) / 4;
      assert.ok(Math.abs((half[2] ?? NaN) - area) < 1e-7, `∫cos² up to ${middle} is ${half[2]}`);
      seen.push(...half, ...step.end);
    });
    return [time, ...state, ...seen];
  };
  assert.deepEqual(run({ ...withArea, integrals: 1 }), run(withArea), 'to the last digit');
  assert.ok(Math.abs((run({ ...withArea, integrals: 1 })[3] ?? NaN) - Math.PI / 4) < 1e-7, 'a quarter turn of cos²');
});
