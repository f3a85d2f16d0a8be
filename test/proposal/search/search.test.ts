/** What the search offers: margins as claimed, really different, the same again, mending what is bad, or saying why not. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import { apply } from '../../../src/job/change.ts';
import { readJob, writeJob } from '../../../src/job/read.ts';
import { isAllowed } from '../../../src/proposal/search/problem.ts';
import {
  beginRun,
  doTask,
  ownHands,
  proposalsOf,
  runOn,
  searchWith,
  toLookAt,
  type Offer,
  type Problem,
  type Proposals,
  type SearchHands,
} from '../../../src/proposal/search/search.ts';
import type { SolenoidJob } from '../../../src/assessment/rig.ts';
import { demo } from '../../job/jobs.ts';
import { finished, narrowDemo, problemFor, solenoidJob } from './spaces.ts';

const never = () => false;
const narrow = { millimetres: 15, degrees: 5 };

/** Written to a file and given to `assess`. */
function asWritten(job: SolenoidJob, { changes }: Offer): ReturnType<typeof assess> {
  const read = readJob(writeJob(apply(job, changes)));
  assert.ok(read.ok, JSON.stringify(read));
  return assess(read.job);
}

function assertClaims(problem: Problem, { offers, nearest }: Proposals): void {
  for (const offer of [...offers, ...(nearest === null ? [] : [nearest])]) {
    const { findings, verdict } = asWritten(problem.job, offer);
    assert.equal(offer.verdict, verdict, offer.name);
    assert.deepEqual(
      offer.margins.map(({ id, margin, verdict: own }) => ({ id, margin, own })),
      findings.map(({ id, margin, verdict: own }) => ({ id, margin, own })),
      offer.name,
    );
    const read = readJob(writeJob(apply(problem.job, offer.changes)));
    assert.ok(read.ok && isAllowed(problem, solenoidJob(read.job)), `${offer.name} leaves the space`);
    assert.ok(offer.words.length > 0 && offer.changes.length > 0, offer.name);
    assert.doesNotMatch(offer.words.join(' '), /NaN|undefined|Infinity|not known/);
  }
}

for (const name of ['short-stroke', 'binding-pin'] as const) {
  test(`${name} is mended: by every proposal, and by fewer changes than the search makes`, () => {
    const problem = problemFor(narrowDemo(name, narrow));
    const found = proposalsOf(problem, finished(problem));
    assert.equal(found.before.verdict, 'fails');
    assert.ok(found.finished);
    assert.ok(found.offers.length >= 3, `${found.offers.length} proposals`);
    assertClaims(problem, found);
    for (const offer of found.offers) assert.equal(offer.verdict, 'holds', `${offer.name}: ${offer.words.join('; ')}`);
    const { nearest } = found;
    assert.ok(nearest !== null && nearest.verdict === 'holds', 'there is no nearest answer');
    assert.ok(
      found.offers.every(({ cost }) => cost >= nearest.cost),
      `nearest costs ${nearest.cost}, proposals ${found.offers.map(({ cost }) => cost).join(', ')}`,
    );
    assert.ok(found.singles.length > 0);
    assert.equal(found.closed, null);
    const joints = found.offers.map(({ changes }) => apply(problem.job, changes).layout.connection);
    joints.forEach((a, i) =>
      joints.slice(i + 1).forEach((b) => {
        const hole = (one: typeof a) =>
          one.kind === 'slotted lever' ? `${one.slotFrom} ${one.slotTo}` : one.armRadius;
        assert.ok(a.kind !== b.kind || hole(a) !== hole(b), `two proposals have ${a.kind} and ${hole(a)}`);
      }),
    );
  });
}

test('a job that works: margins as claimed, none worse than what is there', () => {
  for (const name of ['railcar', 'pump-house']) {
    const problem = problemFor(narrowDemo(name, narrow));
    const found = proposalsOf(problem, finished(problem));
    assertClaims(problem, found);
    assert.equal(found.nearest, null);
    assert.match(found.noNearest ?? '', /nothing needs to change/);
    assert.ok(
      found.offers.some(({ value }) => value! >= found.before.value! - 1e-9),
      name,
    );
  }
});

test('the same seed finds the same, put down and taken up again between blocks; another seed looks elsewhere', () => {
  const job = narrowDemo('short-stroke', { ...narrow, connections: ['pinned link'] });
  const once = proposalsOf(problemFor(job), finished(problemFor(job)));
  let run = beginRun(problemFor(job));
  while (run.phase !== 'done') run = runOn(problemFor(job), JSON.parse(JSON.stringify(run)) as typeof run);
  const again = proposalsOf(problemFor(job), run);
  assert.deepEqual(again, once);
  assert.equal(once.counts.lookedAt, once.counts.combinations);
  const other = problemFor(job, 2);
  assert.notDeepEqual(other.screens[0].axes.directions, problemFor(job).screens[0].axes.directions);
  assertClaims(other, proposalsOf(other, finished(other)));
});

test('done by many hands in any order it is the same, to the last digit', async () => {
  const problem = problemFor(narrowDemo('short-stroke', { ...narrow, connections: ['pinned link', 'plain pin'] }));
  const alone = proposalsOf(problem, finished(problem));
  // Hands that each have a problem of their own, and hand in the last task first.
  const others = [problemFor(problem.job), problemFor(problem.job), problemFor(problem.job)];
  const backwards: SearchHands = {
    run(tasks, take) {
      for (let i = tasks.length - 1; i >= 0; i--) take(i, structuredClone(doTask(others[i % 3], tasks[i])));
      return Promise.resolve(true);
    },
  };
  const shares: number[] = [];
  const { run, isStopped } = await searchWith(problem, backwards, ({ share }) => shares.push(share));
  assert.equal(isStopped, false);
  assert.deepEqual(proposalsOf(problem, run), alone);
  assert.ok(shares.every((share, i) => share >= 0 && share <= 1 && (i === 0 || share >= shares[i - 1] - 1e-12)));
});

test('broken off within a stage it keeps what was handed in', async () => {
  const problem = problemFor(narrowDemo('short-stroke', { ...narrow, connections: ['pinned link'] }));
  const own = ownHands(problem, () => Promise.resolve(), never);
  for (const phase of ['assessing', 'refining'] as const) {
    const stopping: SearchHands = {
      async run(tasks, take) {
        const [first] = tasks;
        if (first?.kind !== (phase === 'assessing' ? 'assess' : 'refine')) return own.run(tasks, take);
        await own.run([first], take);
        return false;
      },
    };
    // oxlint-disable-next-line no-await-in-loop -- one after the other
    const { run, isStopped } = await searchWith(problem, stopping);
    assert.deepEqual([run.phase, isStopped], [phase, true]);
    const found = proposalsOf(problem, run);
    assert.ok(!found.finished && found.offers.length > 0, `${phase}: nothing is offered`);
    assertClaims(problem, found);
  }
});

test('stopped at any moment it offers the best so far', () => {
  const problem = problemFor(narrowDemo('short-stroke', { ...narrow, connections: ['pinned link', 'short chain'] }));
  let run = beginRun(problem);
  const early = proposalsOf(problem, run);
  assert.deepEqual([early.finished, early.offers.length, early.closed], [false, 0, null]);
  while (run.phase !== 'assessing') run = runOn(problem, run);
  assert.equal(run.lookedAt, toLookAt(problem));
  run = runOn(problem, run);
  const partly = proposalsOf(problem, run);
  assert.ok(!partly.finished && partly.offers.length > 0, 'nothing was assessed');
  assertClaims(problem, partly);
});

test('what stands in the way is not entered; where it closes the space, that is said', () => {
  const job = narrowDemo('short-stroke', { ...narrow, connections: ['pinned link'] });
  const free = proposalsOf(problemFor(job), finished(problemFor(job)));
  const [best] = free.offers;
  assert.ok(best !== undefined);
  // Something where the best solenoid would stand.
  const { homePin } = apply(job, best.changes).layout;
  const x = Number.parseFloat(homePin.x) - 60;
  const inWay = { shape: 'circle', name: 'Pipe', centre: { x: `${x} mm`, y: homePin.y }, radius: '4 mm' };
  const barred = problemFor(narrowDemo('short-stroke', { ...narrow, connections: ['pinned link'], keepOut: [inWay] }));
  const round = proposalsOf(barred, finished(barred));
  assertClaims(barred, round);
  assert.ok(
    round.offers.every(({ changes }) => JSON.stringify(changes) !== JSON.stringify(best.changes)),
    'the best goes through the pipe',
  );
  const wall = {
    shape: 'rectangle',
    name: 'Bulkhead',
    from: { x: '-200 mm', y: '-100 mm' },
    to: { x: '-60 mm', y: '200 mm' },
  };
  const closed = problemFor(narrowDemo('short-stroke', { ...narrow, connections: ['pinned link'], keepOut: [wall] }));
  const none = proposalsOf(closed, finished(closed));
  assert.deepEqual(
    none.offers.filter(({ verdict }) => verdict === 'holds'),
    [],
  );
  assert.match(none.closed?.words ?? '', /What closes it: .*what stands in the way/);
  assert.ok(none.closed?.limits.some(({ limit, opens }) => limit === 'what stands in the way' && opens));
});

test('a space in which no bracket turns the lever the right way names what closes it', () => {
  const job = solenoidJob(demo('railcar'));
  const turned = solenoidJob({
    ...job,
    survey: { ...job.survey, lever: { ...job.survey.lever, hubPositions: 1 } },
    space: { direction: { from: '-5°', to: '5°' } },
  });
  const problem = problemFor(turned);
  const found = proposalsOf(problem, finished(problem));
  assert.deepEqual(
    found.offers.filter(({ value }) => value !== null && value >= 0),
    [],
  );
  assert.match(found.closed?.words ?? '', /Nothing in this space works/);
});
