/** Chances against closed forms, the same result whoever does the work, refusals in words. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { spreadPlan, type SpreadPlan } from '../../../src/assessment/spread/plan.ts';
import { usualRequest, type SpreadRequest } from '../../../src/assessment/spread/request.ts';
import { ownHands, spreadStudy, type Hands } from '../../../src/assessment/spread/study.ts';
import { taskWorker } from '../../../src/assessment/spread/task.ts';
import { quantityFields } from '../../../src/assessment/spread/quantity-fields.ts';
import { apply, change } from '../../../src/job/change.ts';
import { demoJobs } from '../../../src/job/demos.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { normalCumulative } from '../../../src/numerics/distribution-normal.ts';

function railcar(): Job {
  const read = readDocument(demoJobs.find(({ name }) => name === 'railcar')?.document);
  assert.ok(read.ok, 'the railcar reads');
  return read.job;
}

/** The railcar without any ±, and then these texts. */
function exactBut(texts: Readonly<Record<string, string>>): Job {
  const job = railcar();
  const bare = quantityFields(job)
    .filter(({ quantity }) => quantity.plusMinus !== null)
    .map(({ path, quantity }) => change(job, path, quantity.text.replace(/ ?±.*$/, '')));
  return apply(job, [...bare, ...Object.entries(texts).map(([path, text]) => change(job, path, text))]);
}

function planOf(job: Job, request: Partial<SpreadRequest> = {}): SpreadPlan {
  const planned = spreadPlan(job, { ...usualRequest, ...request });
  assert.ok(
    planned.ok,
    planned.ok ? '' : planned.problems.map(({ path, problem }) => `${path}: ${problem}`).join('; '),
  );
  return planned.plan;
}

const alone = (plan: SpreadPlan): Hands => {
  const worker = taskWorker(plan);
  return ownHands(
    (task) => worker.run(task),
    () => Promise.resolve(),
    () => false,
  );
};

async function outcomeOf(job: Job, request: Partial<SpreadRequest> = {}) {
  const plan = planOf(job, { unwritten: 'exact', draws: 2048, ...request });
  const study = await spreadStudy(plan, alone(plan), { whole: false });
  assert.ok(study !== null, 'the study comes to an end');
  return study.outcome;
}

const findingIn = <T extends { readonly id: string }>(findings: readonly T[], id: string): T => {
  const found = findings.find((one) => one.id === id);
  assert.ok(found !== undefined, `there is a finding ${id}`);
  return found;
};

test('a chance of failing is that of the distribution: normal as written, rectangular in percent', async () => {
  // Coil sheds its heat in hold: what it may shed over what it makes, minus one. It fails below what it makes.
  const nominal = await outcomeOf(exactBut({ 'means.continuousPower': '15 W ± 3' }));
  const one = findingIn(nominal.findings, 'hold-heat');
  const made = 15 / (one.nominal + 1);
  const normal = normalCumulative((made - 15) / 1.5);
  assert.ok(Math.abs(one.failing.value - normal) < 2e-3, `normal: ${one.failing.value}, by the table ${normal}`);
  const even = findingIn((await outcomeOf(exactBut({ 'means.continuousPower': '15 W ± 20 %' }))).findings, 'hold-heat');
  const rectangular = (made - 12) / 6;
  assert.ok(Math.abs(even.failing.value - rectangular) < 2e-3, `even: ${even.failing.value}, not ${rectangular}`);
});

test('two angles that add up spread by the root of squares; sharing one error, by the sum', async () => {
  // Short of the hard stop: hard stop angle less arm angle plus arm offset.
  const job = exactBut({ 'survey.lever.hardStopAngle': '104° ± 0.6', 'survey.lever.armOffset': '2° ± 0.8' });
  const spreadOf = async (request: Partial<SpreadRequest>) =>
    findingIn((await outcomeOf(job, request)).findings, 'comes-home').standardDeviation ?? NaN;
  const shared = (correlation: number) => ({
    shared: [{ name: 'protractor', instrument: 'protractor' as const, correlation }],
  });
  const cases: readonly (readonly [Partial<SpreadRequest>, number])[] = [
    [{}, Math.hypot(0.3, 0.4)],
    [shared(1), 0.7],
    [shared(0.5), Math.sqrt(0.3 ** 2 + 0.4 ** 2 + 2 * 0.5 * 0.3 * 0.4)],
  ];
  for (const [request, expected] of cases) {
    const found = await spreadOf(request);
    assert.ok(Math.abs(found / expected - 1) < 5e-3, `standard deviation ${found}, by the formula ${expected}`);
  }
});

test('the same seed gives the same bytes, in whatever order the pieces come back', async () => {
  const plan = planOf(railcar(), { draws: 512 });
  const backwards: Hands = {
    run(tasks, take) {
      const workers = [taskWorker(plan), taskWorker(plan), taskWorker(plan)];
      for (let piece = tasks.length - 1; piece >= 0; piece--) take(piece, workers[piece % 3].run(tasks[piece]));
      return Promise.resolve(true);
    },
  };
  const first = await spreadStudy(plan, alone(plan), { whole: false });
  const second = await spreadStudy(plan, backwards, { whole: false });
  assert.equal(JSON.stringify(second), JSON.stringify(first), 'the order of the work does not show');
  const other = planOf(railcar(), { draws: 512, seed: 2 });
  const third = await spreadStudy(other, alone(other), { whole: false });
  assert.notEqual(JSON.stringify(third?.outcome.findings), JSON.stringify(first?.outcome.findings), 'the seed counts');
});

test('a study that is stopped gives what complete rounds have shown', async () => {
  const plan = planOf(railcar(), { draws: 4096 });
  const worker = taskWorker(plan);
  let pieces = 0;
  const hands = ownHands(
    (task) => {
      pieces += 1;
      return worker.run(task);
    },
    () => Promise.resolve(),
    () => pieces >= 11,
  );
  const study = await spreadStudy(plan, hands, { whole: true });
  assert.ok(study?.stopped, 'says that it was stopped');
  assert.equal(study.outcome.draws, 8 * 128, 'one round of eight scrambles, the rest of the next left out');
  const never = await spreadStudy(
    plan,
    ownHands(
      (task) => worker.run(task),
      () => Promise.resolve(),
      () => true,
    ),
    { whole: true },
  );
  assert.equal(never, null, 'nothing is known before the first round');
});

test('what would mend is found by drawing anew: the ± that it names brings the chance below one in a hundred', async () => {
  const job = exactBut({ 'survey.lever.runAngle': '62° ± 0.8' });
  const plan = planOf(job, { unwritten: 'exact', draws: 1024 });
  const study = await spreadStudy(plan, alone(plan), { whole: true });
  const [found] = study?.tightening ?? [];
  assert.equal(found?.finding, 'free-to-reach-run');
  const [option] = found.options;
  assert.ok(option?.isEnough, 'one angle alone decides it');
  assert.ok(option.after.value < 0.01, `chance after: ${option.after.value}`);
  // Margin over standard deviation has to reach 2.326, the normal quantile of 0.99; found to a thirty-second of the ±,
  // from 2,048 points: one in a hundred is some 20 of them, which moves the quantile by up to 2 %.
  const { nominal } = findingIn(study?.outcome.findings ?? [], 'free-to-reach-run');
  const wanted = ((2 * nominal) / 2.326) * (Math.PI / 180);
  const [input] = option.inputs;
  const off = wanted - (input?.needed_SI ?? NaN);
  assert.ok(
    off > -0.02 * wanted && off < (input?.plusMinus_SI ?? NaN) / 16,
    `needed ${input?.needed_SI}, by the table ${wanted}`,
  );
});

test('what cannot be drawn is refused in words, with its field', () => {
  const refusals: readonly (readonly [Job, Partial<SpreadRequest>, string, RegExp])[] = [
    [exactBut({}), { unwritten: 'exact' }, '', /no quantity .* has a ±/],
    [
      exactBut({ 'means.plunger.overhang': '12 mm ± 20' }),
      {},
      'means.plunger.overhang',
      /so wide that 12 % .* below 0 m/,
    ],
    [railcar(), { draws: 0 }, '', /number of draws/],
    [railcar(), { seed: 0.5 }, '', /seed/],
    [
      railcar(),
      { shared: [{ name: 'springs of one batch', paths: ['notes'], correlation: 1 }] },
      'notes',
      /"springs of one batch" names fewer than two/,
    ],
  ];
  for (const [job, request, path, words] of refusals) {
    const planned = spreadPlan(job, { ...usualRequest, ...request });
    assert.ok(!planned.ok, `refused: ${words.source}`);
    const [first] = planned.problems;
    assert.equal(first?.path, path);
    assert.match(first?.problem ?? '', words);
  }
  const ferry = readDocument(demoJobs.find(({ name }) => name === 'ferry')?.document);
  assert.ok(ferry.ok && !spreadPlan(ferry.job, usualRequest).ok, 'a hand cable has none');
});

test('a small cut is made and said; a missing reading leaves the findings that need it not known', async () => {
  const outcome = await outcomeOf(
    exactBut({ 'survey.lever.lash': '0.8° ± 0.8', 'means.continuousPower': 'not measured' }),
  );
  assert.ok(outcome.inputs[0]?.cut > 0.02 && outcome.inputs[0].cut < 0.03, `cut ${outcome.inputs[0]?.cut}`);
  assert.ok(
    outcome.remarks.some((one) => one.includes('survey.lever.lash')),
    'says what was cut',
  );
  assert.ok(
    outcome.notKnown.some(({ id, missing }) => id === 'hold-heat' && missing.includes('means.continuousPower')),
    'hold heat needs the reading',
  );
});
