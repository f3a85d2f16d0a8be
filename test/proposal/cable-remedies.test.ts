/** What would mend a hand cable: every remedy is applied, read and assessed anew, and the usual failures have one. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { cableStudy } from '../../src/assessment/cable/study.ts';
import { apply } from '../../src/job/change.ts';
import type { Job } from '../../src/job/schema.ts';
import { withRemedies } from '../../src/proposal/remedy.ts';
import { byLining, cables } from '../assessment/cable/cables.ts';
import { changed } from '../job/jobs.ts';
import { assertRemedies, mended } from './remedies-hold.ts';

for (const { name, job } of cables)
  test(`${name}: every remedy does what it says and no more`, () => {
    assertRemedies(job);
  });

const pushedBack = changed(byLining, {
  'means.towardsStop': 'pushed',
  'means.leverEnd.conduitEnd': { x: '85 mm', y: '-52 mm' },
});

const cases: readonly (readonly [string, Job, string, RegExp])[] = [
  [
    'a bend tighter than the core bears',
    changed(byLining, { 'means.route[3].radius': '120 mm' }),
    'bend-radius',
    /^Give the bend at "Round the casing" a radius of 2\d\d mm$/,
  ],
  [
    'bends that run into each other',
    changed(byLining, { 'means.route[2].radius': '1200 mm' }),
    'bends-fit',
    /^Give the bend at "Along the beam" a radius of only \d+ mm$/,
  ],
  ['a core of strand that is to push', pushedBack, 'may-be-pushed', /^Bring the conduit to the other side|solid wire/],
  [
    'a core that pulls the lever the wrong way',
    changed(pushedBack, { 'means.towardsStop': 'pulled' }),
    'core-turns-lever',
    /^Bring the conduit to the other side/,
  ],
  [
    'a lever that does not come back against the cable',
    byLining,
    'comes-back-on-cable',
    /^(Lay the conduit straight past|Free seals|Renew the cable|Fit a torsion spring)/,
  ],
  [
    'a handle that is hard to pull',
    changed(byLining, { 'means.friction': '0.15' }),
    'handle-pull',
    /^(Take a handle whose hand|Renew the cable|Fit a new cable)/,
  ],
  [
    'a handle that is too short',
    changed(byLining, { 'means.handle.travel': '30 mm' }),
    'handle-travel',
    /^(Take a handle with|Fasten the core|Take up slack)/,
  ],
  ['a thin core', changed(byLining, { 'means.core.diameter': '0.8 mm' }), 'core-strength', /^Take a core of 1\.\d mm$/],
  [
    'a core off the axis of its conduit',
    changed(byLining, { 'means.leverEnd.fitting': 'clamp', 'means.leverEnd.conduitDirection': '121°' }),
    'core-on-axis',
    /^Let the conduit end turn with the core: fit a swivel$/,
  ],
];

for (const [name, job, id, words] of cases)
  test(`${name} has a remedy`, () => {
    const found = mended(job, id);
    assert.notEqual(found.verdict, 'holds', `${id} does not hold`);
    assert.ok(
      found.words.some((one) => words.test(one)),
      `${id}: ${found.words.join('; ')}`,
    );
  });

test('what readings at the handle said of a cable is kept when its lever end or its route is changed', () => {
  const job = cables[0].job;
  assert.ok(job.means.readings !== undefined, 'there are readings');
  const friction = (one: Job) => {
    const { means } = one;
    assert.ok(means.kind === 'hand cable', 'a cable');
    return cableStudy(one, means).friction;
  };
  const known = friction(job);
  assert.ok(known !== null, 'friction is known');
  let kept = 0;
  for (const { remedies } of withRemedies(job, assess(job)).findings) {
    for (const { changes, words } of remedies) {
      if (!changes.some(({ path }) => path === 'means.route' || path.startsWith('means.leverEnd'))) continue;
      const now = friction(apply(job, changes));
      assert.ok(now !== null && Math.abs(now.high - known.high) < 1e-4, `${words}: ${now?.high} for ${known.high}`);
      assert.equal(now.from, 'a reading');
      kept++;
    }
  }
  assert.ok(kept >= 2, `${kept} remedies looked at`);
});
