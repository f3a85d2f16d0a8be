/** What would mend an air cylinder: every remedy is applied, read and assessed anew, and the usual failures have one. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Job } from '../../src/job/schema.ts';
import { changed } from '../job/jobs.ts';
import { cylinders } from '../assessment/air/cylinders.ts';
import { assertRemedies, mended } from './remedies-hold.ts';

const [bySpring, byAir, , toRun] = cylinders.map(({ job }) => job);

for (const { name, job } of cylinders)
  test(`${name}: every remedy does what it says and no more`, () => {
    assertRemedies(job);
  });

test('the usual failures are mended by what a fitter would take', () => {
  const cases: readonly (readonly [string, Job, string, RegExp])[] = [
    [
      'too little air',
      changed(bySpring, { 'survey.air.low': '1.2 bar' }),
      'carries-home',
      /^Never let the air fall under|cylinder of 32 mm bore/,
    ],
    [
      'too narrow a bore',
      changed(bySpring, { 'means.bore': '12 mm', 'means.rod': '6 mm' }),
      'carries-home',
      /^Take a cylinder of (16|20) mm bore/,
    ],
    [
      'a spring that is too strong',
      changed(bySpring, { 'means.returns.preload': '150 N' }),
      'carries-home',
      /softer spring inside/,
    ],
    [
      'a spring that is too weak',
      changed(bySpring, { 'means.returns.preload': '4 N', 'means.returns.rate': '0.05 N/mm' }),
      'returns-from-every-gap',
      /stiffer spring inside/,
    ],
    ['too hard a landing', bySpring, 'landing-speed', /^Throttle the way in/],
    [
      'too slow a pipe',
      changed(bySpring, { 'means.line': { bore: '2.5 mm', length: '60 m' } }),
      'time-to-no-fuel',
      /^Lay a pipe with a bore of|^Put the valve nearer/,
    ],
    [
      'too slow a way out',
      changed(toRun, { 'means.exhaust': '0.1 L/(s bar)' }),
      'time-to-no-fuel',
      /^Open the way out/,
    ],
    ['no way back without air', byAir, 'air-lost', /spring inside|spring/],
    [
      'too small a vessel',
      changed(bySpring, { 'survey.air.low': '2 bar', 'survey.air.reservoir': '0.5 L' }),
      'stops-per-vessel',
      /vessel|Never let/,
    ],
  ];
  for (const [what, job, id, wanted] of cases) {
    const { verdict, words } = mended(job, id);
    assert.ok(verdict === 'fails' || verdict === 'thin', `${what}: ${id} ${verdict}`);
    assert.ok(
      words.some((one) => wanted.test(one)),
      `${what}: ${words.join('; ') || 'nothing mends it'}`,
    );
  }
});
