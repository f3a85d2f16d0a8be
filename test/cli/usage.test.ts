/** Help, wrong usage, the demonstrations and the schema, and every example that a help text prints. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { demoJobs } from '../../src/job/demos.ts';
import { readJob } from '../../src/job/read.ts';
import { assertHarmless, assertReadable, stopwright, type Outcome } from './command.ts';

test('demo lists the demonstrations, and prints each as a document that reads', async () => {
  const [list, asJson, ...printed] = await Promise.all([
    stopwright(['demo']),
    stopwright(['demo', '--json']),
    ...demoJobs.map(({ name }) => stopwright(['demo', name])),
  ]);
  assert.ok(list !== undefined && asJson !== undefined);
  assert.deepEqual([list.code, asJson.code], [0, 0]);
  assert.deepEqual(
    list.out
      .trimEnd()
      .split('\n')
      .map((line) => line.split(' ')[0]),
    ['railcar', 'pump-house', 'ferry', 'short-stroke', 'binding-pin'],
  );
  assertReadable(list.out);
  assert.deepEqual(
    JSON.parse(asJson.out).map(({ name }: { name: string }) => name),
    demoJobs.map(({ name }) => name),
  );
  printed.forEach(({ code, out, err }, i) => {
    assert.deepEqual([code, err], [0, '']);
    const read = readJob(out);
    assert.ok(read.ok);
    assert.equal(read.job.name, demoJobs[i]?.document.name);
  });
});

test('schema prints the published schema', async () => {
  const { code, out } = await stopwright(['schema']);
  assert.equal(code, 0);
  assert.equal(out, readFileSync(new URL('../../schema/job.schema.json', import.meta.url), 'utf8'));
});

test('wrong usage: exit code 64, talk on standard error, and a suggestion where one is near', async () => {
  const cases: readonly (readonly [readonly string[], RegExp])[] = [
    [['asses', 'a.json'], /Did you mean assess\?/],
    [['assess'], /job/],
    [['assess', '-', '--jsn'], /Did you mean --json\?/],
    [['assess', '-', '--units', 'parsec'], /metric, kgf, inch/],
    [['assess', 'a', 'b'], /too many arguments/],
    [['demo', 'railcr'], /railcar/],
    [['demo', '\u001b[31mred'], /There are: railcar/],
    [[], /Usage: stopwright/],
  ];
  await Promise.all(
    cases.map(async ([args, words]) => {
      const outcome = await stopwright(args);
      assert.deepEqual([outcome.code, outcome.out], [64, ''], args.join(' '));
      assert.match(outcome.err, words, args.join(' '));
      assertHarmless(outcome.err);
    }),
  );
});

test('help and version go to standard output within 80 columns, and name the exit codes', async () => {
  const [whole, version, ...parts] = await Promise.all([
    stopwright(['--help']),
    stopwright(['--version']),
    ...['assess', 'supply', 'demo', 'schema'].map((name) => stopwright([name, '--help'])),
  ]);
  assert.ok(whole !== undefined && version !== undefined);
  assert.match(version.out, /^\d+\.\d+\.\d+\n$/);
  for (const { code, out, err } of [whole, ...parts]) {
    assert.deepEqual([code, err], [0, '']);
    assertReadable(out);
  }
  for (const code of [0, 1, 2, 3, 64, 65]) assert.match(whole.out, new RegExp(`\\b${code} `));
});

/** Runs "stopwright demo NAME | stopwright assess - --json" and "stopwright demo NAME > FILE". */
async function run(example: string, files: Map<string, string>): Promise<Outcome> {
  const [pipeline = '', to] = example.split(' > ');
  let last: Outcome = { code: null, out: '', err: '' };
  for (const part of pipeline.split(' | ')) {
    const [name, ...args] = part.trim().split(' ');
    assert.equal(name, 'stopwright', example);
    const path = args.find((one) => files.has(one));
    const input = path === undefined ? last.out : (files.get(path) ?? '');
    last = await stopwright(
      args.map((one) => (one === path ? '-' : one)),
      { input },
    );
  }
  if (to !== undefined) files.set(to, last.out);
  return last;
}

test('every example of every help text runs, in the order in which they stand', async () => {
  const helps = await Promise.all(
    [[], ['assess'], ['supply'], ['demo'], ['schema']].map((args) => stopwright([...args, '--help'])),
  );
  const examples = helps
    .flatMap(({ out }) => out.split('Examples:\n')[1]?.trim().split('\n') ?? [])
    .map((line) => line.trim());
  assert.ok(examples.length >= 8, examples.join('; '));
  const files = new Map<string, string>();
  for (const example of examples) {
    const { code, out, err } = await run(example, files);
    assert.ok(code !== null && code <= 3, `${example}: ${code} ${err}`);
    assert.equal(err, '', example);
    assert.ok(out.length > 100, example);
  }
});
