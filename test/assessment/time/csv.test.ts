import assert from 'node:assert/strict';
import test from 'node:test';
import { traceCsv } from '../../../src/assessment/time/csv.ts';
import type { TimeRun } from '../../../src/assessment/time/picture.ts';

const run: TimeRun = {
  name: 'weakest',
  words: 'weakest',
  conditions: '',
  time_s: [0, 0.0005, 0.001],
  supplyCurrent_A: [0, 1.23456789012, null],
  gap_m: [0.0362, 0.0362, 0.03],
  terminal_V: [20.9, null, 20.75],
  coilTemperature_K: [293.15, 293.15, 363.15],
  events: [],
  outcome: 'comes home',
  cautions: [],
};

/** RFC 4180: lines end in CR LF, the first may be a heading, each has the same number of cells. */
test('a run is a table with units in its heading; what is not known is an empty cell', () => {
  assert.equal(
    traceCsv(run),
    [
      'time (s),supply current (A),gap (mm),terminal volts (V),coil temperature (°C)',
      '0,0,36.2,20.9,20',
      '0.0005,1.234568,36.2,,20',
      '0.001,,30,20.75,90',
      '',
    ].join('\r\n'),
  );
});

test('no NaN reaches the file', () => {
  const odd = traceCsv({ ...run, supplyCurrent_A: [Number.NaN, Infinity, 1], gap_m: [] });
  assert.doesNotMatch(odd, /NaN|Infinity|undefined|null/);
  for (const row of odd.trimEnd().split('\r\n')) assert.equal(row.split(',').length, 5);
});
