import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DormandPrince } from '../../../src/numerics/ode.ts';
import { DomainError } from '../../../src/physics/domain-error.ts';
import {
  layRoute,
  levelRun,
  reversed,
  turnedBy,
  type PlacedPiece,
  type Piece,
} from '../../../src/physics/cable/route.ts';
import { walkTension, type Sliding } from '../../../src/physics/cable/tension.ts';
import { between, corners, isGentle, laid } from './random-route.ts';

const seed = { seed: 20261125, numRuns: 100 };
const weightless = (friction: number): Sliding => ({ friction, weight: 0, bendingStiffness: 0, radialClearance: 0 });
const close = (a: number, b: number, relative: number, what: string) =>
  assert.ok(Math.abs(a - b) <= relative * Math.max(1e-6, Math.abs(a), Math.abs(b)), `${what}: ${a} and ${b}`);

const frictions = between(0, 0.5);
const pulls = between(0.1, 500);

test('without friction and weight the effort is the load, exactly, whatever the bends', () => {
  fc.assert(
    fc.property(corners(), pulls, (list, pull) => {
      const found = laid(list);
      if (found === null) return;
      assert.equal(walkTension(found.route.pieces, weightless(0), 'with the walk', pull).tension, pull);
      assert.equal(walkTension(found.route.pieces, weightless(0), 'against the walk', -pull).tension, -pull);
    }),
    seed,
  );
});

test('without weight it is the rope on a drum: pulled, let back, and pushed', () => {
  fc.assert(
    fc.property(corners(), pulls, frictions, (list, pull, friction) => {
      const found = laid(list);
      if (found === null) return;
      const { pieces } = found.route;
      const grown = Math.exp(friction * turnedBy(pieces));
      const walk = (motion: 'with the walk' | 'against the walk', start: number) =>
        walkTension(pieces, weightless(friction), motion, start);
      close(walk('with the walk', pull).tension, pull * grown, 1e-12, 'pulled');
      close(walk('against the walk', pull).tension, pull / grown, 1e-12, 'let back');
      close(walk('against the walk', -pull).tension, -pull * grown, 1e-12, 'pushed away from its end');
      close(walk('with the walk', -pull).tension, -pull / grown, 1e-12, 'pushed on');
      // The same run from its other end asks the same.
      close(
        walkTension(reversed(pieces), weightless(friction), 'with the walk', pull).tension,
        pull * grown,
        1e-12,
        'reversed',
      );
    }),
    seed,
  );
});

test('stretch: the integral of the tension in bends and straights has its closed form', () => {
  const [friction, pull, radius, angle] = [0.3, 40, 0.25, 2.2];
  const [a, b] = [1.5, 0.7];
  const straight = (length: number): Piece => levelRun(length, 0, 0, 1)[0];
  const bend: Piece = { ...straight(1), kind: 'bend', length: radius * angle, angle, radius, corner: 1 };
  const { integral } = walkTension([straight(a), bend, straight(b)], weightless(friction), 'with the walk', pull);
  const grown = Math.exp(friction * angle);
  close(integral, pull * a + (pull * radius * (grown - 1)) / friction + pull * grown * b, 1e-7, 'integral');
});

/** The same equation by another method, in space: unit vectors, and the load on the wall as a vector. */
function byOde(pieces: readonly PlacedPiece[], sliding: Sliding, way: 1 | -1, start: number): number {
  let state = start;
  for (const { kind, length, radius, tangent: t, normal: n } of pieces) {
    const run = new DormandPrince(
      {
        size: 1,
        rates(s, [tension], rates) {
          const phi = kind === 'bend' ? s / radius : 0;
          const [c, d] = [Math.cos(phi), Math.sin(phi)];
          const along = [t.x * c + n.x * d, t.y * c + n.y * d, t.z * c + n.z * d];
          const inward = [n.x * c - t.x * d, n.y * c - t.y * d, n.z * c - t.z * d];
          const weight = [0, 0, -sliding.weight];
          const weightAlong = along.reduce((sum, one, k) => sum + one * weight[k], 0);
          const wall = along.map((one, k) => {
            const curving = kind === 'bend' ? (tension / radius) * inward[k] : 0;
            return curving + weight[k] - weightAlong * one;
          });
          rates[0] = -weightAlong + way * sliding.friction * Math.hypot(...wall);
        },
        events: 0,
        eventValues() {},
      },
      { relativeTolerance: 1e-11, absoluteTolerance: Float64Array.of(1e-11) },
    );
    const y = Float64Array.of(state);
    const result = run.run(0, length, y);
    assert.equal(result.reason, 'end');
    state = y[0];
  }
  return state;
}

test('with weight, in any direction of space, it is what an integration of the free body says', () => {
  let checked = 0;
  fc.assert(
    fc.property(
      corners(5),
      between(0, 50),
      frictions,
      between(0, 5),
      fc.constantFrom(1 as const, -1 as const),
      fc.boolean(),
      (list, force, friction, weight, way, isPull) => {
        const found = laid(list);
        if (found === null || !isGentle(found.route)) return;
        const sliding: Sliding = { friction, weight, bendingStiffness: 0, radialClearance: 0 };
        const start = isPull ? force : -force;
        const motion = way === 1 ? 'with the walk' : 'against the walk';
        const { tension } = walkTension(found.route.pieces, sliding, motion, start);
        const expected = byOde(found.route.pieces, sliding, way, start);
        // Where the core hardly touches the wall the rate has a corner; the steps of 5° see it to this.
        assert.ok(Math.abs(tension - expected) <= 2e-3 + 1e-5 * Math.abs(expected), `${tension}, expected ${expected}`);
        checked++;
      },
    ),
    seed,
  );
  assert.ok(checked > 70, `${checked} routes`);
});

test('a core that hangs down a plumb straight adds its weight for the rise, and one on a slope rubs with the rest', () => {
  const outcome = layRoute([
    { x: 0, y: 0, z: 0, radius: NaN },
    { x: 3, y: 0, z: 4, radius: NaN },
  ]);
  assert.ok(outcome.fits, 'a straight fits');
  const sliding: Sliding = { friction: 0.2, weight: 2, bendingStiffness: 0, radialClearance: 0 };
  const up = walkTension(outcome.route.pieces, sliding, 'with the walk', 10).tension;
  close(up, 10 + 2 * 4 + 0.2 * 2 * 3, 1e-12, 'drawn up');
  const down = walkTension(outcome.route.pieces, sliding, 'against the walk', 10).tension;
  close(down, 10 + 2 * 4 - 0.2 * 2 * 3, 1e-12, 'let down');
});

test('splitting a bend into two halves changes nothing', () => {
  fc.assert(
    fc.property(corners(), pulls, frictions, (list, pull, friction) => {
      const found = laid(list);
      if (found === null || !isGentle(found.route)) return;
      const whole = found.route.pieces;
      const split = whole.flatMap((piece): Piece[] => {
        if (piece.kind === 'straight') return [piece];
        const { length, angle, tangentZ: t, normalZ: n } = piece;
        const half = angle / 2;
        const first = { ...piece, length: length / 2, angle: half };
        return [
          first,
          {
            ...first,
            tangentZ: t * Math.cos(half) + n * Math.sin(half),
            normalZ: n * Math.cos(half) - t * Math.sin(half),
          },
        ];
      });
      const sliding: Sliding = { friction, weight: 0.3, bendingStiffness: 0, radialClearance: 0 };
      for (const start of [pull, -pull]) {
        const a = walkTension(whole, sliding, 'with the walk', start);
        const b = walkTension(split, sliding, 'with the walk', start);
        close(a.tension, b.tension, 1e-6, 'tension');
        close(a.integral, b.integral, 1e-5, 'integral');
      }
    }),
    seed,
  );
});

test('more friction never makes a pull easier, nor leaves more of what comes back', () => {
  fc.assert(
    fc.property(corners(), pulls, frictions, (list, pull, friction) => {
      const found = laid(list);
      if (found === null) return;
      const at = (mu: number, motion: 'with the walk' | 'against the walk') =>
        walkTension(found.route.pieces, { ...weightless(mu), weight: 0.4 }, motion, pull).tension;
      assert.ok(at(friction + 0.01, 'with the walk') >= at(friction, 'with the walk'), 'pulled');
      assert.ok(at(friction + 0.01, 'against the walk') <= at(friction, 'against the walk'), 'let back');
    }),
    seed,
  );
});

test('a drag is carried through the bends that follow it, and not through those before', () => {
  const pieces = levelRun(3, 2, Math.PI, 0.2);
  const friction = 0.2;
  const quarter = Math.exp((friction * Math.PI) / 2);
  const at = (distance: number) =>
    walkTension(pieces, weightless(friction), 'with the walk', 10, [{ at: distance, force: 4 }]).tension;
  close(at(0), (10 + 4) * quarter ** 2, 1e-12, 'at the lever');
  close(at(1.5), (10 * quarter + 4) * quarter, 1e-12, 'half way');
  close(at(3), 10 * quarter ** 2 + 4, 1e-12, 'at the handle');
  close(at(99), 10 * quarter ** 2 + 4, 1e-12, 'beyond the end: at it');
  // Let back, each takes away instead.
  const back = walkTension(pieces, weightless(friction), 'against the walk', 10, [{ at: 0, force: 4 }]).tension;
  close(back, 6 / quarter ** 2, 1e-12, 'let back');
  // In the middle of a bend.
  const bend = [{ ...pieces[1], length: 1, radius: 1 / pieces[1].angle }];
  const middle = walkTension(bend, weightless(friction), 'with the walk', 10, [{ at: 0.5, force: 4 }]).tension;
  close(middle, (10 * Math.sqrt(quarter) + 4) * Math.sqrt(quarter), 1e-12, 'in a bend');
});

test('a pushed core that lies as a helix: the closed form of its friction, and where nothing gets through', () => {
  // Plumb, so that no weight presses: dP/ds = μ r P²/(4 E I), P(s) = P₀/(1 - b P₀ s).
  const outcome = layRoute([
    { x: 0, y: 0, z: 0, radius: NaN },
    { x: 0, y: 0, z: -2, radius: NaN },
  ]);
  assert.ok(outcome.fits, 'a straight fits');
  const sliding: Sliding = { friction: 0.15, weight: 0, bendingStiffness: 0.02, radialClearance: 0.001 };
  const b = (sliding.friction * sliding.radialClearance) / (4 * sliding.bendingStiffness);
  for (const push of [5, 50, 150]) {
    // Against the walk: from the lever, where the push is known, back to the handle that makes it.
    const { tension, stuckAt } = walkTension(outcome.route.pieces, sliding, 'against the walk', -push);
    close(tension, -push / (1 - b * push * 2), 1e-6, `push of ${push} N`);
    assert.equal(stuckAt, null);
  }
  const most = 1 / (b * 2);
  const { tension, stuckAt } = walkTension(outcome.route.pieces, sliding, 'against the walk', -1.3 * most);
  assert.equal(tension, -Infinity);
  close(stuckAt ?? NaN, 2 / 1.3, 0.01, 'stuck where the closed form has no more');
  // Pushed from the near end: what is left at the far end never rises above 1/(b s).
  close(
    walkTension(outcome.route.pieces, sliding, 'with the walk', -1e5).tension,
    -1 / (b * 2),
    0.01,
    'what gets through',
  );
});

test('on a level straight the helix begins at its onset, where the closed form takes over', () => {
  const [friction, weight, EI, r, length] = [0.2, 0.4, 0.05, 0.0005, 4];
  const sliding: Sliding = { friction, weight, bendingStiffness: EI, radialClearance: r };
  const onset = 2 * Math.SQRT2 * Math.sqrt((EI * weight) / r);
  const [pieces] = [levelRun(length, 0, 0, 1)];
  // Starting just below: first the plain friction of the weight, then P' = a + b P².
  const start = onset - 0.1;
  const [a, b] = [friction * weight, (friction * r) / (4 * EI)];
  const left = length - 0.1 / a;
  const expected = Math.sqrt(a / b) * Math.tan(Math.atan(onset * Math.sqrt(b / a)) + Math.sqrt(a * b) * left);
  close(-walkTension(pieces, sliding, 'against the walk', -start).tension, expected, 1e-6, 'through the onset');
  // And out of it again.
  const back = walkTension(pieces, sliding, 'with the walk', -expected).tension;
  close(-back, start, 1e-4, 'and back');
});

test('two hundred bends are no trouble', () => {
  const pieces = levelRun(60, 200, 200 * (Math.PI / 6), 0.1);
  close(
    walkTension(pieces, weightless(0.03), 'with the walk', 10).tension,
    10 * Math.exp(0.03 * 200 * (Math.PI / 6)),
    1e-10,
    'two hundred bends',
  );
});

test('what has no meaning is refused with its value', () => {
  const pieces = levelRun(1, 1, 1, 0.2);
  const cases: readonly (readonly [Sliding, number, number, RegExp])[] = [
    [weightless(-0.1), 1, 0, /friction -0.1/],
    [{ ...weightless(0.1), weight: NaN }, 1, 0, /weight NaN/],
    [weightless(0.1), NaN, 0, /tension of NaN/],
    [weightless(0.1), 1, -1, /drag of -1/],
  ];
  for (const [sliding, start, drag, words] of cases) {
    assert.throws(
      () => walkTension(pieces, sliding, 'with the walk', start, [{ at: 0, force: drag }]),
      (error) => error instanceof DomainError && error.code === 'SW-D092' && words.test(error.message),
    );
  }
});
