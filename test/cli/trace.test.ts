/** `stopwright trace`: its help examples, its words, its JSON, its exit codes. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { describe, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { demoJobs } from '../../src/job/demos.ts';
import { clean, record, seeded, type Course } from '../diagnosis/trace/made-traces.ts';
import { assertHarmless, assertReadable, stopwright } from './command.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const example = readFileSync(new URL('../../examples/trace-two-windings.csv', import.meta.url), 'utf8');

test('every example of its help runs where the examples are', async () => {
  const { out, code } = await stopwright(['trace', '--help']);
  assert.equal(code, 0);
  assertReadable(out);
  const examples = out.split('Examples:\n')[1].trim().split('\n');
  assert.ok(examples.length >= 2, out);
  await Promise.all(
    examples.map(async (line) => {
      const run = await stopwright(line.trim().split(' ').slice(1), { folder: root });
      assert.deepEqual([run.err, run.code], ['', 0], line);
      if (line.includes('--json')) assertHarmless(run.out);
      else assertReadable(run.out);
    }),
  );
});

test('the example came home at 38 ms and its end switch worked at 41.2 ms', async () => {
  const [words, json] = await Promise.all([
    stopwright(['trace', '-'], { input: example }),
    stopwright(['trace', '-', '--json'], { input: example }),
  ]);
  assert.match(words.out, /Came home at 3[78](\.\d)? ms; the current fell to 1\.\d+ A at 41(\.\d)? ms/);
  assert.match(words.out, /decimal comma/);
  const answer = JSON.parse(json.out);
  assert.deepEqual([answer.format, answer.version, answer.outcome], ['stopwright trace', 1, 'came home']);
  assert.ok(Math.abs(answer.home_s - 0.038) < 0.0005, `${answer.home_s}`);
  const step = answer.events.find(({ what }: { what: string }) => what === 'stage change');
  assert.ok(Math.abs(step.sinceOn_s - 0.0412) < 0.0006, `${step.sinceOn_s}`);
});

const stalled: Course = {
  heavy: 25.9,
  rise: 0.009,
  landing: null,
  moves: 0,
  depth: 0,
  power: 2,
  recovery: 0.01,
  stage: null,
  hold: 1,
  fall: 0.001,
  off: 0.3,
  release: 0.002,
  sag: 0,
};

function csv(course: Course, unit = 'A'): string {
  const { time, current } = record(course, { ...clean, rate: 5000, noise: 0.005 }, seeded(1));
  return `t (s),CH1 (${unit})\n${Array.from(time, (t, k) => `${t},${current[k]}`).join('\n')}\n`;
}

test('a stalled plunger: exit code 2, and a job is named beside it', async () => {
  const plain = await stopwright(['trace', '-'], { input: csv(stalled) });
  assert.equal(plain.code, 2);
  assert.match(plain.out, /Never came home: the current rose smoothly to 25\.9 A and stayed\s+there/);
  assertReadable(plain.out);
  const railcar = demoJobs.find(({ name }) => name === 'railcar');
  assert.ok(railcar !== undefined, 'the railcar');
  const path = 'examples/trace-two-windings.csv';
  const withJob = await stopwright(['trace', path, '-'], { folder: root, input: JSON.stringify(railcar.document) });
  assert.deepEqual([withJob.code, withJob.err], [0, '']);
  assert.match(withJob.out, /Beside the job/);
  assertReadable(withJob.out);
});

test('nothing switched on: exit code 3', async () => {
  const { code, out } = await stopwright(['trace', '-'], {
    input: 't (s),I (A)\n1,0.5\n2,0.5\n3,0.5\n4,0.5\n5,0.5\n6,0.5\n7,0.5\n8,0.5\n9,0.5\n',
  });
  assert.equal(code, 3);
  assert.match(out, /Nothing is switched on/);
  assertReadable(out);
});

describe('what cannot be used is refused in words', () => {
  const cases: readonly (readonly [what: string, args: string[], input: string, code: number, words: RegExp])[] = [
    ['no such file', ['trace', 'nowhere.csv'], '', 65, /there is no such file/],
    ['nothing', ['trace', '-'], '', 65, /not one sample/],
    ['volts', ['trace', '-'], csv(stalled, 'V'), 65, /--amps-per-volt/],
    ['two currents', ['trace', '-'], 't (s),A1 (A),A2 (A)\n1,2,3\n2,2,3\n', 65, /A1,\s+A2[^]*--channel/],
    ['a control character', ['trace', '-'], `t (s),I (A)\n${'\u001b[31m,9\n'.repeat(9)}`, 65, /cannot be used/],
    ['no number', ['trace', '-', '--amps-per-volt', 'ten'], '', 64, /amps per volt: ten/],
    ['no time', ['trace', '-', '--interval', '5 mm'], '', 64, /interval/],
    ['twice from standard input', ['trace', '-', '-'], '', 64, /Only one/],
    ['no job', ['trace', 'examples/trace-two-windings.csv', 'nowhere.json'], '', 65, /nowhere\.json/],
  ];
  for (const [what, args, input, code, words] of cases)
    test(what, async () => {
      const run = await stopwright(args, { input, folder: root });
      assert.deepEqual([run.code, run.out], [code, ''], run.err);
      assert.match(run.err, words);
      assertHarmless(run.err);
    });
});
