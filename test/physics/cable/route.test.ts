import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../../src/physics/domain-error.ts';
import {
  layRoute,
  levelRun,
  placeAlong,
  reversed,
  turnedBy,
  type Corner,
  type Point3,
  type Route,
} from '../../../src/physics/cable/route.ts';
import { corners, laid } from './random-route.ts';

const at = (x: number, y: number, z: number, radius = NaN): Corner => ({ x, y, z, radius });
const apart = (a: Point3, b: Point3) => Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
const seed = { seed: 20261125, numRuns: 100 };

function laidOut(list: readonly Corner[]): Route {
  const outcome = layRoute(list);
  assert.ok(outcome.fits, 'the route fits');
  return outcome.route;
}

test('a quarter turn: two straights, and an arc a quarter of the circle long', () => {
  const { pieces, length, turned, rise } = laidOut([at(0, 0, 0), at(2, 0, 0, 0.5), at(2, 1, 0)]);
  assert.deepEqual(
    pieces.map(({ kind }) => kind),
    ['straight', 'bend', 'straight'],
  );
  const expected = [1.5, (Math.PI / 2) * 0.5, 0.5];
  pieces.forEach((piece, i) => assert.ok(Math.abs(piece.length - expected[i]) < 1e-12, `piece ${i}: ${piece.length}`));
  assert.ok(Math.abs(length - (2 + Math.PI / 4)) < 1e-12, `${length}`);
  assert.ok(Math.abs(turned - Math.PI / 2) < 1e-12, `${turned}`);
  assert.equal(rise, 0);
});

test('a corner on a straight line is no bend, and a straight that bends use up wholly is left out', () => {
  assert.equal(laidOut([at(0, 0, 0), at(1, 1, 1, 0.2), at(2, 2, 2)]).turned, 0);
  const { pieces } = laidOut([at(0, 0, 0), at(1, 0, 0, 0.5), at(1, 1, 0, 0.5), at(0, 1, 0)]);
  assert.deepEqual(
    pieces.map(({ kind }) => kind),
    ['straight', 'bend', 'bend', 'straight'],
  );
});

test('pieces join without a gap or a kink, and are as long as the line that is walked along them', () => {
  let checked = 0;
  fc.assert(
    fc.property(corners(), (list) => {
      const found = laid(list);
      if (found === null) return;
      const { pieces, length } = found.route;
      let walked = 0;
      pieces.forEach((piece, i) => {
        const steps = piece.kind === 'bend' ? 400 : 1;
        const places = Array.from({ length: steps + 1 }, (_, k) => placeAlong(piece, k / steps));
        assert.ok(apart(places[0], piece.from) < 1e-9, 'begins where it should');
        // Near half a circle the middle of the bend lies far off, and so does what rounding makes of it.
        assert.ok(apart(places[steps], piece.to) < 1e-6 * (1 + piece.radius), 'ends where it should');
        for (let k = 0; k < steps; k++) walked += apart(places[k], places[k + 1]);
        const next = pieces[i + 1];
        if (next === undefined) return;
        assert.ok(apart(piece.to, next.from) < 1e-9, 'no gap');
        const { angle, tangent: t, normal: n } = piece;
        const end = {
          x: t.x * Math.cos(angle) + n.x * Math.sin(angle),
          y: t.y * Math.cos(angle) + n.y * Math.sin(angle),
          z: t.z * Math.cos(angle) + n.z * Math.sin(angle),
        };
        assert.ok(apart(end, next.tangent) < 1e-6, 'no kink');
      });
      assert.ok(Math.abs(walked - length) < 1e-4 * length, `${walked} m walked of ${length} m`);
      checked++;
    }),
    seed,
  );
  assert.ok(checked > 80, `${checked} routes`);
});

test('where bends do not fit, each is named, and with the radii that are offered all fit to the last hair', () => {
  const outcome = layRoute([at(0, 0, 0), at(1, 0, 0, 0.4), at(1, 0.5, 0, 0.4), at(2, 0.5, 0)]);
  assert.ok(!outcome.fits, 'two bends of 400 mm on 500 mm do not fit');
  assert.deepEqual(
    outcome.misfits.map(({ corner, why }) => [corner, why]),
    [
      [1, 'no room'],
      [2, 'no room'],
    ],
  );
  for (const { radiusThatFits } of outcome.misfits)
    assert.ok(Math.abs(radiusThatFits - 0.25) < 1e-12, `${radiusThatFits}`);
  const with_ = (radius: number) => layRoute([at(0, 0, 0), at(1, 0, 0, radius), at(1, 0.5, 0, radius), at(2, 0.5, 0)]);
  assert.ok(with_(0.25).fits, 'just fits');
  assert.ok(!with_(0.2501).fits, 'does not fit');
  let tight = 0;
  fc.assert(
    fc.property(corners(), (list) => {
      const wide = list.map((corner) => ({ ...corner, radius: corner.radius * 6 }));
      if (!layRoute(wide).fits) tight++;
      laid(wide);
    }),
    seed,
  );
  assert.ok(tight > 30, `${tight} routes were too tight`);
});

test('a run that turns back at one point, or stands still, is refused plainly', () => {
  const why = (list: readonly Corner[]) => {
    const outcome = layRoute(list);
    return outcome.fits ? [] : outcome.misfits.map((misfit) => [misfit.corner, misfit.why, misfit.radiusThatFits]);
  };
  assert.deepEqual(why([at(0, 0, 0), at(1, 0, 0, 0.1), at(0, 0, 0)]), [[1, 'turns back', 0]]);
  assert.deepEqual(why([at(0, 0, 0), at(0, 0, 0, 0.1), at(1, 0, 0)]), [[1, 'same place', 0]]);
});

test('what has no meaning is refused with its value', () => {
  const cases: readonly (readonly [readonly Corner[], RegExp])[] = [
    [[at(0, 0, 0)], /two ends, not 1/],
    [[at(0, 0, 0), at(1, NaN, 0)], /corner 1 stands at 1, NaN, 0/],
    [[at(0, 0, 0), at(1, 0, 0, -0.1), at(1, 1, 0)], /radius at corner 1 .* not -0.1/],
    [[at(0, 0, 0), at(1, 0, 0), at(1, 1, 0)], /radius at corner 1 .* not NaN/],
  ];
  for (const [list, words] of cases) {
    assert.throws(
      () => layRoute(list),
      (error) => error instanceof DomainError && error.code === 'SW-D090' && words.test(error.message),
    );
  }
});

test('walked from its other end a run has the same pieces, and twice reversed it is itself', () => {
  fc.assert(
    fc.property(corners(), (list) => {
      const found = laid(list);
      if (found === null) return;
      const { route } = found;
      const back = reversed(route.pieces);
      const other = layRoute([...found.corners].reverse());
      assert.ok(other.fits, 'fits from its other end too');
      other.route.pieces.forEach((piece, i) => {
        assert.ok(Math.abs(piece.length - back[i].length) < 1e-9, 'length');
        assert.ok(
          Math.abs(piece.tangentZ - back[i].tangentZ) < 1e-6,
          `direction ${piece.tangentZ} ${back[i].tangentZ}`,
        );
        assert.ok(Math.abs(piece.normalZ - back[i].normalZ) < 1e-5, `bend ${piece.normalZ} ${back[i].normalZ}`);
      });
      reversed(back).forEach((piece, i) => {
        assert.ok(Math.abs(piece.tangentZ - route.pieces[i].tangentZ) < 1e-12, 'twice reversed');
        assert.ok(Math.abs(piece.normalZ - route.pieces[i].normalZ) < 1e-12, 'twice reversed');
      });
    }),
    seed,
  );
});

test('a run of which only length and bends are known has that length and those bends', () => {
  for (const [length, bends, turned] of [
    [6.5, 5, 5.4],
    [2, 0, 0],
    [0.5, 3, 9],
    [100, 200, 100],
  ] as const) {
    const pieces = levelRun(length, bends, turned, 0.2);
    assert.ok(Math.abs(pieces.reduce((sum, piece) => sum + piece.length, 0) - length) < 1e-9, `length of ${length} m`);
    assert.ok(Math.abs(turnedBy(pieces) - turned) < 1e-9, `angle of ${turned}`);
    assert.equal(pieces.filter(({ kind }) => kind === 'bend').length, bends);
    assert.ok(
      pieces.every((piece) => piece.length > 0),
      'no piece without length',
    );
  }
});
