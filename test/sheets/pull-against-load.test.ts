import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import type { Sweep } from '../../src/assessment/finding.ts';
import { drawPullAgainstLoad, type PullAgainstLoad } from '../../src/sheets/pull-against-load.ts';
import { svg } from '../../src/sheets/svg.ts';
import { imperialUnits, kilogramForceUnits, metricUnits } from '../../src/units/display.ts';
import { assertDrawn } from './golden.ts';
import { inventedTravel, inventSweep } from './sweeps.ts';
import { textsOf, touchingTexts } from './touching.ts';

const good: PullAgainstLoad = { sweep: inventSweep(), travel: inventedTravel, endSwitchGap_mm: 1.2, gap_mm: 12.2 };
const bad: PullAgainstLoad = {
  sweep: inventSweep({ pull: 0.45, spring: 2 }),
  travel: { ...inventedTravel, leverStopGap_mm: 2.8 },
  endSwitchGap_mm: 1.2,
  gap_mm: 2,
};

test('golden: holds, fails, missing and binding, small, nothing known', () => {
  const { sweep } = good;
  assert.ok(sweep);
  const holes: Sweep = {
    ...sweep,
    pullNeeded_N: sweep.pullNeeded_N.map((force, i) => (i < 20 ? force : i > 50 ? Infinity : null)),
    returnForce_N: sweep.returnForce_N.map(() => null),
    returnDrive_N: sweep.returnDrive_N.map(() => null),
  };
  assertDrawn('pull-holds', svg(drawPullAgainstLoad(good)));
  assertDrawn('pull-fails-dark', svg(drawPullAgainstLoad(bad, { units: imperialUnits }), { colours: 'dark' }));
  assertDrawn('pull-holes', svg(drawPullAgainstLoad({ ...good, sweep: holes, gap_mm: null })));
  assertDrawn('pull-small', svg(drawPullAgainstLoad({ ...good, gap_mm: 29.2 }, { width: 120, height: 110 })));
  assertDrawn('pull-unknown', svg(drawPullAgainstLoad({ ...good, sweep: null })));
});

test('what fails is hatched and said in words; what holds is not', () => {
  const failing = drawPullAgainstLoad(bad);
  const hatched = (name: string): boolean =>
    failing.parts.some((part) => part.name === name && part.elements.some(({ kind }) => kind === 'hatch'));
  assert.ok(hatched('short'));
  assert.ok(hatched('stays'));
  const said = textsOf(failing).map(({ text }) => text);
  assert.ok(said.includes('fails: more needed than pull'));
  assert.ok(said.includes('fails: the plunger stays'));
  const holding = drawPullAgainstLoad(good);
  assert.ok(!textsOf(holding).some(({ text }) => text.startsWith('fails')));
  assert.ok(holding.parts.every(({ elements }) => elements.every(({ kind }) => kind !== 'hatch')));
});

test('curves lie where the axes say', () => {
  const { parts, gapAxis } = drawPullAgainstLoad(good);
  assert.ok(gapAxis);
  const curve = parts.find(({ name }) => name === 'need-high')?.elements[0];
  assert.ok(curve?.kind === 'polyline');
  const [first, last] = [curve.points[0], curve.points[curve.points.length - 1]];
  assert.ok(first && last);
  assert.equal(gapAxis.from_mm, 0);
  assert.ok(Math.abs(gapAxis.to_mm - 30) < 1e-9);
  assert.ok(Math.abs(first.x - gapAxis.left) < 1e-9 && Math.abs(last.x - gapAxis.right) < 1e-9);
  // 27 N and 19.5 N on an axis from 0 to 100 N.
  const axis = parts.find(({ name }) => name === 'pull-axes');
  const box = axis?.elements[0];
  assert.ok(box?.kind === 'polyline');
  const [bottom, top] = [box.points[0]?.y ?? 0, box.points[2]?.y ?? 0];
  assert.ok(Math.abs((first.y - bottom) / (top - bottom) - 0.27) < 1e-9);
  assert.ok(Math.abs((last.y - bottom) / (top - bottom) - 0.195) < 1e-9);
});

test('a null breaks the curve', () => {
  const { sweep } = good;
  assert.ok(sweep);
  const holed = { ...sweep, pullNeeded_N: sweep.pullNeeded_N.map((force, i) => (i === 30 ? null : force)) };
  const { parts } = drawPullAgainstLoad({ ...good, sweep: holed });
  assert.equal(parts.find(({ name }) => name === 'need-high')?.elements.length, 2);
});

test('kilograms-force and inches change the numbers and not the curves', () => {
  const heights = [metricUnits, kilogramForceUnits].map((units) => {
    const { parts, gapAxis } = drawPullAgainstLoad(good, { units });
    assert.ok(gapAxis);
    const cursor = parts.find(({ name }) => name === 'cursor')?.elements[0];
    assert.ok(cursor?.kind === 'line');
    return [cursor.from.x, gapAxis.to_mm].map((value) => value.toFixed(9));
  });
  assert.deepEqual(heights[0], heights[1]);
  assert.ok(
    textsOf(drawPullAgainstLoad(good, { units: kilogramForceUnits })).some(({ text }) => text.endsWith(' kgf')),
  );
});

test('any sweep at all: no text covers another, every attribute is a number', () => {
  const forces = fc.constantFrom(null, NaN, Infinity, -5, 0, 1e4);
  const names = [
    'pullLeast_N',
    'pullGreatest_N',
    'pullNeeded_N',
    'pullNeededLowFriction_N',
    'returnForce_N',
    'returnDrive_N',
  ] as const;
  fc.assert(
    fc.property(
      fc.record({
        pull: fc.integer({ min: 1, max: 40 }),
        spring: fc.integer({ min: -8, max: 20 }),
        stroke: fc.integer({ min: 3, max: 120 }),
        points: fc.integer({ min: 2, max: 70 }),
      }),
      fc.array(fc.tuple(fc.constantFrom(...names), fc.nat(70), forces), { maxLength: 6 }),
      fc.array(fc.option(fc.integer({ min: -2, max: 130 })), { minLength: 4, maxLength: 4 }),
      fc.constantFrom(
        {},
        { width: 120, height: 110 },
        { units: imperialUnits },
        { units: kilogramForceUnits, width: 160 },
      ),
      (
        { pull, ...rest },
        breaks,
        [gap_mm = null, endSwitchGap_mm = null, leverStopGap_mm = null, startGap_mm = null],
        options,
      ) => {
        const sweep = inventSweep({ ...rest, pull: pull / 20 });
        const broken: Record<string, (number | null)[]> = {};
        for (const name of names) broken[name] = [...sweep[name]];
        for (const [name, i, force] of breaks) {
          const values = broken[name];
          if (values && i < values.length) values[i] = force;
        }
        const travel = { ...inventedTravel, leverStopGap_mm, startGap_mm };
        const drawing = drawPullAgainstLoad(
          { sweep: { ...sweep, ...broken }, travel, endSwitchGap_mm, gap_mm },
          options,
        );
        assert.doesNotMatch(svg(drawing), /NaN|Infinity|undefined|null/);
        assert.deepEqual(touchingTexts(drawing), []);
      },
    ),
    { seed: 30, numRuns: 600 },
  );
});

test('of air nothing is said of current or plunger', () => {
  const { parts, sentences } = drawPullAgainstLoad({ ...bad, by: 'air' });
  const said = `${JSON.stringify(parts)} ${sentences.join(' ')}`;
  assert.doesNotMatch(said, /current|plunger/, said.slice(0, 400));
  assert.match(said, /rod/, 'the rod is named');
});
