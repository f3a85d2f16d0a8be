/** `stopwright means`: every means with its rows, on 80 columns, and the same as JSON. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { compareMeans } from '../../src/assessment/means/compare.ts';
import { rowNames, rowTitles } from '../../src/assessment/means/comparison.ts';
import { writeJob } from '../../src/job/read.ts';
import { altered, demo } from '../job/jobs.ts';
import { assertHarmless, assertReadable, stopwright } from './command.ts';

const ferry = demo('ferry');

test('each means stands with its rows, the recommendation and its reasons before them', async () => {
  const { code, out, err } = await stopwright(['means', '-'], { input: writeJob(ferry) });
  assert.deepEqual([code, err], [1, '']);
  assertReadable(out);
  const { recommended, columns } = compareMeans(ferry);
  const flat = out.replace(/\s+/g, ' ');
  for (const words of [recommended.words, ...recommended.reasons]) assert.ok(flat.includes(words), words);
  for (const { name } of columns) assert.ok(flat.includes(name), name);
  for (const title of Object.values(rowTitles)) assert.ok(flat.includes(title), title);
});

test('it begins with a table of rows and means, a verdict word in each place, the chosen and the advised one named', async () => {
  const { out } = await stopwright(['means', '-'], { input: writeJob(ferry) });
  const { columns, recommended } = compareMeans(ferry);
  const [table] = out.slice(0, out.indexOf(recommended.words)).split('\n\n').slice(-2);
  const lines = table.split('\n');
  const starts = [24, 42, 60];
  const cell = (line: string, i: number) => line.slice(starts[i], starts[i + 1]).trim();
  columns.forEach(({ name, origin }, i) => {
    const head = lines.slice(
      0,
      lines.findIndex((line) => line.startsWith('In all')),
    );
    const said = head.map((line) => cell(line, i)).join(' ');
    assert.ok(said.startsWith(name), said);
    assert.equal(said.includes('(chosen)'), origin === 'chosen', said);
    assert.equal(said.includes('(advised)'), i === recommended.column, said);
  });
  for (const row of rowNames) {
    const line = lines.find((one) => one.startsWith(rowTitles[row].padEnd(24)));
    const verdicts = columns.map(({ cells }) => cells[row].verdict);
    assert.equal(
      line !== undefined,
      verdicts.some((one) => one !== null),
      row,
    );
    if (line === undefined) continue;
    verdicts.forEach((verdict, i) =>
      assert.equal(cell(line, i).replace(/^[+~X?] /, ''), verdict ?? '-', `${row}, ${i}`),
    );
  }
});

test('many means with long names stand in tables below each other, each within 80 columns', async () => {
  const many = altered(ferry, {
    considered: Array.from({ length: 6 }, (_, i) => ({
      ...ferry.considered![i % 2],
      name: `${i + 1} Uninterruptedlylongmagnethousing under the deck by the second bulkhead`,
    })),
  });
  const { out, err } = await stopwright(['means', '-'], { input: writeJob(many) });
  assert.equal(err, '');
  assertReadable(out);
  assert.equal(out.match(/^In all /gm)?.length, 2);
});

test('as JSON it is the comparison itself', async () => {
  const { code, out } = await stopwright(['means', '-', '--json'], { input: writeJob(ferry) });
  assert.equal(code, 1);
  const said = JSON.parse(out) as { format: string };
  const { format, ...comparison } = said;
  assert.equal(format, 'stopwright means');
  assert.deepEqual(comparison, JSON.parse(JSON.stringify(compareMeans(ferry))));
});

test('two means on one lever are told state by state', async () => {
  const handStop = { ...ferry.means, whileEffortWasRead: 'apart' };
  const job = altered(ferry, {
    means: ferry.considered![0].means,
    handStop,
  });
  const { out } = await stopwright(['means', '-', '--units', 'inch'], { input: writeJob(job) });
  assertReadable(out);
  for (const words of ['Both on one lever', 'the solenoid stuck', 'the hand stop stuck'])
    assert.ok(out.includes(words), words);
});

test('what is no job is refused, and a name that a terminal would obey is not obeyed', async () => {
  const broken = await stopwright(['means', '-'], { input: '{}' });
  assert.equal(broken.code, 65);
  const wild = await stopwright(['means', '-'], {
    input: writeJob(altered(ferry, { name: '\u001b[31mred', 'considered[0].name': 'a\u0007b' })),
  });
  assertHarmless(wild.out);
});
