/**
 * The landing in a reference current: a plunger solenoid on 24 V, computed for this project by others' means (map of a
 * finite-element program, integrated by an adaptive method of order 8, relative tolerance 1e-9; no eddy currents,
 * hysteresis or friction), 121 samples at 1 ms in data/trace-reference.json. Landing is stated there at 29.979 ms. The
 * samples are 1 ms apart, so half a sample is what a reading can be off by; one sample is allowed.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { reportOf } from '../../src/diagnosis/trace/report.ts';
import { readTrace } from '../../src/diagnosis/trace/trace-reader.ts';

interface Printed {
  readonly t_landing_ms: number;
  readonly final_current_A: number;
  readonly current_peak_before_dip: { readonly i_A: number };
  readonly samples: readonly (readonly number[])[];
}

const printed: Printed = JSON.parse(readFileSync(new URL('data/trace-reference.json', import.meta.url), 'utf8'));

test('the dip of the reference current is found within a sample of its landing', () => {
  const rows = printed.samples.map(([t, i]) => `${t},${i}`);
  const read = readTrace(['t (ms),i (A)', ...rows].join('\n'));
  assert.ok(read.ok, 'the samples read');
  assert.equal(read.trace.time.length, 121);
  const { found, outcome } = reportOf(read.trace, null);
  assert.ok(found !== null && found.landing !== null && found.on_s !== null, 'a landing is found');
  const { landing } = found;
  assert.ok(Math.abs(1e3 * landing.time_s - printed.t_landing_ms) <= 1, `landing at ${1e3 * landing.time_s} ms`);
  assert.ok(1e3 * Math.abs(found.on_s) <= 0.5, `switch-on at ${1e3 * found.on_s} ms`);
  // Printed peak 1.76116 A at 13.40 ms lies between samples: within what a sample can miss of it.
  assert.ok(Math.abs(landing.before_A - printed.current_peak_before_dip.i_A) < 0.002, `shoulder ${landing.before_A} A`);
  assert.ok(Math.abs(found.last_A - printed.final_current_A) < 0.0005, `final ${found.last_A} A`);
  assert.equal(outcome.outcome, 'came home');
  assert.equal(found.stage, null);
});

test('with noise of 1 % and an offset it is still found within a sample and a half', () => {
  // A fixed row of ±: no seed needed.
  const noisy = printed.samples.map(([t, i], k) => `${t},${i + 0.05 + 0.0192 * Math.sin(12.9898 * k * k)}`);
  const read = readTrace(['t (ms),i (A)', ...noisy].join('\n'));
  assert.ok(read.ok, 'the samples read');
  const { found } = reportOf(read.trace, null);
  assert.ok(found?.landing, 'a landing is found');
  assert.ok(
    Math.abs(1e3 * found.landing.time_s - printed.t_landing_ms) <= 1.5,
    `landing at ${1e3 * found.landing.time_s} ms`,
  );
});
