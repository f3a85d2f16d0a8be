import assert from 'node:assert/strict';
import test from 'node:test';
import { traceCsv } from '../../src/assessment/time/csv.ts';
import { readMeasured } from '../../src/web/time/measured.ts';
import { stalled, weakest } from '../sheets/time/invented.ts';

/** The columns of `traceCsv` that a recorder would have written: time and current, after 20 ms of nothing. */
function asRecorded(run: typeof weakest, change: (amps: number) => number = (amps) => amps): File {
  const rows = traceCsv(run).trimEnd().split('\r\n');
  const quiet = Array.from({ length: 40 }, (_, i) => `${(i * 0.0005).toFixed(4)},${change(0)}`);
  const later = rows.slice(1).map((row) => {
    const [time, amps] = row.split(',').map(Number);
    return `${((time ?? 0) + 0.02).toFixed(4)},${change(amps ?? 0)}`;
  });
  return new File([['time (s),current (A)', ...quiet, ...later].join('\n')], 'recorded.csv');
}

const doubles = { stages: 'pull-in and hold windings', delay_s: null } as const;

test('times count from switch-on, events lie where the file has them, progress runs to the end', async () => {
  const shares: number[] = [];
  const reading = await readMeasured(asRecorded(weakest), {}, doubles, (share) => shares.push(share));
  assert.ok(reading.ok, JSON.stringify(reading));
  const { trace } = reading;
  const at = (kind: string): number => trace.events.find((event) => event.kind === kind)?.time_s ?? Number.NaN;
  assert.ok(Math.abs(at('comes home') - 0.0582) < 0.0015, `${at('comes home')}`);
  assert.ok(Math.abs(at('end switch works') - 0.0611) < 0.0015, `${at('end switch works')}`);
  assert.match(trace.findings.join(' '), /^Came home at 5\d(\.\d)? ms; the current fell to 0\.9 A at 6\d(\.\d)? ms/);
  assert.ok((trace.time_s[0] ?? 1) >= 0 && (trace.time_s[0] ?? 1) < 0.002);
  assert.ok(shares.length > 0 && shares.every((share) => share > 0 && share <= 1));
});

test('a current that was recorded the wrong way round and with an offset is shown right, and said', async () => {
  const reading = await readMeasured(
    asRecorded(weakest, (amps) => 0.4 - amps),
    {},
    doubles,
    () => undefined,
  );
  assert.ok(reading.ok, JSON.stringify(reading));
  const peak = Math.max(...reading.trace.supplyCurrent_A.map(Number));
  const truth = Math.max(...weakest.supplyCurrent_A.map(Number));
  assert.ok(Math.abs(peak - truth) < 0.2, `${peak} against ${truth}`);
  assert.ok(reading.trace.cautions.some((said) => said.includes('read reversed')));
});

test('a stalled plunger is never said to have come home', async () => {
  const reading = await readMeasured(asRecorded(stalled), {}, doubles, () => undefined);
  assert.ok(reading.ok, JSON.stringify(reading));
  assert.match(reading.trace.findings.join(' '), /^(Never came home|Cannot be told)/);
  assert.ok(!reading.trace.events.some(({ kind }) => kind === 'comes home'));
});

test('what cannot be read comes back as words', async () => {
  const reading = await readMeasured(new File(['no table at all'], 'x.csv'), {}, null, () => undefined);
  assert.ok(!reading.ok && reading.problems.length > 0 && reading.problems.every((said) => said.length > 10));
});
