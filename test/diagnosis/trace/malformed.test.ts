/** Files damaged in every way: the reader and the finder answer in time and throw nothing. STOPWRIGHT_ROUNDS raises the rounds. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { reportOf } from '../../../src/diagnosis/trace/report.ts';
import { TraceReader } from '../../../src/diagnosis/trace/trace-reader.ts';

const rounds = Math.max(50, Math.round(Number(process.env['STOPWRIGHT_ROUNDS'] ?? 2000) / 4));
const MOST_TIME = 1000; // ms

const number = fc.oneof(
  fc.double({ min: -40, max: 40, noNaN: true }).map((value) => value.toFixed(3)),
  fc.double().map(String),
  fc.integer().map(String),
);
const cell = fc.oneof(
  { weight: 12, arbitrary: number },
  fc.constantFrom(
    '',
    'NaN',
    'OL',
    '-',
    '1,5',
    '1.234,5',
    '"',
    '""',
    '"1',
    '1e999',
    '9.9E37',
    '12:00:00.5',
    '<svg onload=alert(1)>',
    '\u001b[31m',
    '\u202e',
    '5 mA',
    '\u0000',
  ),
  fc.string({ maxLength: 12 }),
);
const separator = fc.constantFrom(',', ';', '\t', ' ', '|', ', ');
const end = fc.constantFrom('\n', '\r\n', '\r', '\n\n');
const heading = fc.constantFrom(
  '',
  'Time (ms),Current (A)',
  't;I',
  'Time\tCH1\tCH2\ns\tV\tV',
  '# clamp 10 mV/A',
  'Sample rate: 0 Hz',
  'interval: 1e-400 s',
  '\ufeff',
  '"a","b"',
  '###',
  'A',
);

const file = fc
  .record({
    head: fc.array(heading, { maxLength: 3 }),
    between: separator,
    end,
    rising: fc.boolean(),
    rows: fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { maxLength: 60 }),
  })
  .map(({ head, between, end, rising, rows }) =>
    [...head, ...rows.map((cells, k) => (rising ? [String(k / 10), ...cells] : cells).join(between))].join(end),
  );

function answered(text: string | Uint8Array, pieces: number): void {
  const before = process.cpuUsage(); // what else the machine does has no say
  const reader = new TraceReader();
  const step = Math.max(1, Math.ceil(text.length / pieces));
  for (let k = 0; k < text.length; k += step) reader.push(text.slice(k, k + step));
  const read = reader.end();
  if (read.ok) {
    const report = reportOf(read.trace, null);
    const all = JSON.stringify({ ...report, cautions: report.cautions });
    assert.doesNotMatch(all, /NaN|Infinity|undefined/);
    const { confidence } = report.outcome;
    assert.ok(confidence >= 0 && confidence <= 1, `confidence ${confidence}`);
  } else {
    assert.ok(read.problems.length > 0, 'a refusal says why');
    for (const { problem, read: shown } of read.problems) assert.ok(problem.length > 0 && shown.length <= 61, shown);
  }
  const { user, system } = process.cpuUsage(before);
  const took = (user + system) / 1000;
  assert.ok(took < MOST_TIME, `${took} ms`);
}

test('damaged tables', () => {
  fc.assert(fc.property(file, fc.integer({ min: 1, max: 9 }), answered), { seed: 11, numRuns: rounds });
});

test('bytes of any kind', () => {
  fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), fc.integer({ min: 1, max: 5 }), answered), {
    seed: 12,
    numRuns: rounds,
  });
});

test('currents of any shape', () => {
  const shape = fc.array(
    fc.oneof(fc.double({ min: -30, max: 30, noNaN: true }), fc.constantFrom(0, 25, -25, 1e-9, 1e9)),
    { minLength: 8, maxLength: 300 },
  );
  const run = (values: number[], hold: number): void =>
    answered(
      `t (ms),I (A)\n${values
        .flatMap((i) => Array.from({ length: hold }, () => i))
        .map((i, k) => `${k / 5},${i}`)
        .join('\n')}`,
      1,
    );
  fc.assert(fc.property(shape, fc.integer({ min: 1, max: 12 }), run), { seed: 13, numRuns: Math.ceil(rounds / 3) });
});

test('a line without end, and a million blank lines', () => {
  answered(`t (s),I (A)\n0,1\n1,2\n${'7'.repeat(3_000_000)}`, 40);
  answered('\n'.repeat(1_000_000), 10);
});
