/** `stopwright spread` as a person or a script starts it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assertReadable, stopwright } from './command.ts';

test('spread answers in words, with chances, margins and cautions', async () => {
  const job = (await stopwright(['demo', 'railcar'])).out;
  const { code, out, err } = await stopwright(['spread', '-', '--draws', '256', '--quick', '--workers', '0'], {
    input: job,
  });
  assert.equal(err, '');
  assert.equal(code, 1, 'the railcar is free to reach run in most draws only');
  assertReadable(out);
  assert.match(out, /^256 draws of \d+ quantities/m);
  assert.match(out, /Lever is free to reach run: fails 1\d(\.\d)? %/);
  assert.match(out, /Isolate fuel and battery/);
});

test('JSON is the same bytes with two threads as with none', async () => {
  const job = (await stopwright(['demo', 'railcar'])).out;
  const run = (workers: string) =>
    stopwright(['spread', '-', '--draws', '512', '--quick', '--json', '--workers', workers], { input: job });
  const none = await run('0');
  const two = await run('2');
  assert.equal(two.err, '');
  assert.equal(two.out, none.out, 'the number of threads does not show');
  const read = JSON.parse(two.out) as { format: string; outcome: { draws: number } };
  assert.equal(read.format, 'stopwright spread');
  assert.equal(read.outcome.draws, 512);
});

test('wrong usage and what cannot be drawn are said in one line or with the field', async () => {
  const job = (await stopwright(['demo', 'railcar'])).out;
  const wrong = await stopwright(['spread', '-', '--draws', 'many'], { input: job });
  assert.equal(wrong.code, 64);
  assert.match(wrong.err, /--draws is a whole number/);
  const share = await stopwright(['spread', '-', '--share', 'eyesight'], { input: job });
  assert.equal(share.code, 64);
  assert.match(share.err, /--share names one of: caliper/);
  const wide = await stopwright(['spread', '-'], {
    input: job.replace('"overhang": "12 mm"', '"overhang": "12 mm ± 20"'),
  });
  assert.equal(wide.code, 65);
  assert.match(wide.err, /means\.plunger\.overhang: its ± is so wide/);
  const ferry = await stopwright(['spread', '-'], { input: (await stopwright(['demo', 'ferry'])).out });
  assert.equal(ferry.code, 65);
  assertReadable(ferry.err);
});
