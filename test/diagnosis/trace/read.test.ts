/** Traces in the forms in which loggers and oscilloscopes write them, and what is said of those that cannot be read. */
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { TraceReader, readTrace } from '../../../src/diagnosis/trace/trace-reader.ts';
import type { Trace, TraceOptions } from '../../../src/diagnosis/trace/trace.ts';

const rows = (n: number, row: (k: number) => string, end = '\n'): string =>
  Array.from({ length: n }, (_, k) => row(k) + end).join('');
const comma = (value: number): string => String(value).replace('.', ',');

function trace(text: string | Uint8Array, options: TraceOptions = {}): Trace {
  const read = readTrace(text, options);
  assert.ok(read.ok, JSON.stringify(read));
  return read.trace;
}

function refused(text: string, options: TraceOptions = {}) {
  const read = readTrace(text, options);
  assert.ok(!read.ok, 'it should have been refused');
  return {
    ...read,
    words: read.problems.map(({ row, read: shown, problem }) => `${row} "${shown}" ${problem}`).join('\n'),
  };
}

const utf16 = (text: string): Uint8Array =>
  Uint8Array.from(`\ufeff${text}`.split('').flatMap((one) => [one.charCodeAt(0) & 255, one.charCodeAt(0) >> 8]));
const latin1 = (text: string): Uint8Array => Uint8Array.from(text.split(''), (one) => one.charCodeAt(0));

describe('each of these is 30 samples, 0.1 ms apart, 0.5 A more in each', () => {
  const row = (k: number): string => `${(k / 10).toFixed(1)},${0.5 * k}`;
  const forms: readonly (readonly [name: string, text: string | Uint8Array, options?: TraceOptions])[] = [
    ['commas', `Time (ms),Current (A)\n${rows(30, row)}`],
    ['no line end at the end', `Time (ms),Current (A)\n${rows(30, row).trimEnd()}`],
    ['BOM, CR LF, blank lines', `\ufeffTime (ms),Current (A)\r\n\r\n${rows(30, row, '\r\n')}\r\n\r\n`],
    ['CR alone', `t/ms,I/A\r${rows(30, row, '\r')}`],
    ['semicolons, decimal comma, mA', `Zeit [ms];Strom [mA]\n${rows(30, (k) => `${comma(k / 10)};${comma(500 * k)}`)}`],
    [
      'tabs, units in the second line',
      `Time\tChannel A\tChannel B\n(s)\t(A)\t(V)\n\n${rows(30, (k) => `${k / 1e4}\t${k / 2}\t7`)}`,
    ],
    ['microseconds in Latin-1', latin1(`t (µs);I (A)\n${rows(30, (k) => `${100 * k};${k / 2}`)}`)],
    ['UTF-16', utf16(`t (ms);I (A)\n${rows(30, (k) => `${k / 10};${k / 2}`)}`)],
    ['quotes and decimal commas', `"t (s)","I (A)"\n${rows(30, (k) => `"${comma(k / 1e4)}","${comma(k / 2)}"`)}`],
    [
      'exponents and signs',
      `t (s),I (A)\n${rows(30, (k) => `+${(k / 1e4).toExponential(6)},${(k / 2).toExponential(3).toUpperCase()}`)}`,
    ],
    ['spaces', `time_ms current_A\n${rows(30, (k) => `  ${k / 10}    ${k / 2}`)}`],
    [
      'units beside the numbers',
      `time;clamp\n${rows(30, (k) => `${k / 10} ms;${k < 9 ? `${500 * k} mA` : `${k / 2} A`}`)}`,
    ],
    [
      'a clamp of 100 mV/A in the preamble',
      `# clamp 100 mV/A\nt (ms),CH1 (V)\n${rows(30, (k) => `${k / 10},${(k / 20).toFixed(2)}`)}`,
    ],
    ['a clamp said by option', `t (ms),CH1 (mV)\n${rows(30, (k) => `${k / 10},${50 * k}`)}`, { ampsPerVolt: 10 }],
    ['a sample rate and no times', `Made up\nSample rate: 10 kS/s\nCurrent (A)\n${rows(30, (k) => `${k / 2}`)}`],
    ['an interval by option', `I (A)\n${rows(30, (k) => `${k / 2}`)}`, { interval_s: 1e-4 }],
    [
      'two currents and a choice',
      `t (ms),CH1 (A),CH2 (A)\n${rows(30, (k) => `${k / 10},9,${k / 2}`)}`,
      { channel: 'ch2' },
    ],
    ['a column by number', `t (ms),CH1 (A),CH2 (A)\n${rows(30, (k) => `${k / 10},9,${k / 2}`)}`, { channel: '3' }],
    [
      'time of day',
      `Clock;I (A)\n${rows(30, (k) => `23:59:59.${String(9985 + k).slice(-4)};${k / 2}`).replace(/23:59:59\.0/g, '00:00:00.0')}`,
    ],
    ['comments between', `t (ms),I (A)\n${rows(30, (k) => `${k === 9 ? '# a remark\n' : ''}${row(k)}`)}`],
    ['text in a column that is not wanted', `t (ms),State,I (A)\n${rows(30, (k) => `${k / 10},OK,${k / 2}`)}`],
    ['a number of the sample before', `No.;Time (ms);I (A)\n${rows(30, (k) => `${k + 1};${k / 10};${k / 2}`)}`],
  ];
  for (const [name, text, options] of forms) {
    test(name, () => {
      for (const pieces of [1, 7]) {
        const reader = new TraceReader(options);
        const step = Math.ceil(text.length / pieces);
        for (let k = 0; k < text.length; k += step) reader.push(text.slice(k, k + step));
        const read = reader.end();
        assert.ok(read.ok, JSON.stringify(read));
        const { time, current, interval_s } = read.trace;
        assert.equal(time.length, 30);
        assert.ok(Math.abs(interval_s - 1e-4) < 1e-9, `${interval_s}`);
        time.forEach((t, k) => assert.ok(Math.abs(t - time[0] - k / 1e4) < 1e-9, `time ${k}: ${t}`));
        current.forEach((i, k) => assert.ok(Math.abs(i - k / 2) < 1e-5, `current ${k}: ${i}`));
      }
    });
  }
});

test('numbers are read to the last digit', () => {
  const written = [
    '0.1',
    '123456789.123',
    '-1.7976e-5',
    '.5',
    '5.',
    '1e3',
    '12345678901234567890',
    '1.234567890123456789',
    '7E-05',
  ];
  const text = `t (s),I (A)\n${written.map((one, k) => `${k},${one}`).join('\n')}\n`;
  assert.deepEqual([...trace(text).current], [...Float32Array.from(written.map(Number))]);
  const times = ['0.1', '0.12345678901', '1.00000000001', '2.5e0', '3', '4.1', '5.7', '6.3', '7.9'];
  assert.deepEqual([...trace(`t (s),I (A)\n${times.map((one) => `${one},1`).join('\n')}`).time], times.map(Number));
});

describe('what cannot be used is said', () => {
  const good = (n: number): string => rows(n, (k) => `${k / 10},${k}`);
  const cases: readonly (readonly [string, string, RegExp, TraceOptions?])[] = [
    ['nothing', '', /not one sample/],
    ['words', 'good\nmorning\n', /No rows of numbers/],
    ['bytes', `t,I\n${'\u0000\u0001'.repeat(50)}`, /no text file/],
    ['two samples', `t (s),I (A)\n${good(2)}`, /only 2 samples/],
    [
      'text for numbers',
      `t (s),I (A)\n${good(90)}${rows(5, () => '9,high')}${good(0)}9.5,1\n`,
      /92 "high" a number for the current/,
    ],
    ['time backwards', `t (s),I (A)\n${good(9)}0.2,4\n${good(0)}`, /11 "0.2 s" time runs backwards/],
    ['time that stands', `t (s),I (A)\n${rows(20, (k) => `1,${k}`)}`, /do not rise/],
    ['two currents', `t (s),CH1 (A),CH2 (A)\n${rows(20, (k) => `${k},1,2`)}`, /CH1, CH2/],
    ['no such column', `t (s),CH1 (A)\n${rows(20, (k) => `${k},1`)}`, /There are: CH1/, { channel: 'CH9' }],
    ['volts', `t (s),CH1 (V)\n${rows(20, (k) => `${k},1`)}`, /one volt of the clamp/],
    ['no times', `I (A)\n${rows(20, (k) => `${k}`)}`, /no sample interval/],
  ];
  for (const [name, text, words, options] of cases) test(name, () => assert.match(refused(text, options).words, words));

  test('the currents to choose from are named', () => {
    assert.deepEqual(refused(`t (s),I1 (A),I2 (A)\n${rows(20, (k) => `${k},1,2`)}`).channels, ['I1', 'I2']);
  });
});

test('a few bad rows, blanks, gaps and a cut last row are left out with a word', () => {
  const text = `t (s),I (A)\n${rows(200, (k) => (k === 5 ? '0.5,oops' : k === 6 ? '0.6,' : k === 7 ? '0.7,NaN' : `${(k > 100 ? k + 50 : k) / 10},${k}`))}25`;
  const { time, cautions, gaps } = trace(text);
  assert.equal(time.length, 197);
  const all = cautions.join('\n');
  assert.match(all, /Row 7 left out: read "oops"/);
  assert.match(all, /2 samples have no reading, the first in row 8/);
  assert.match(all, /cut off/);
  assert.match(all, /There is a gap/);
  assert.ok(Math.abs(gaps[0].to_s - gaps[0].from_s - 5.1) < 1e-9, JSON.stringify(gaps[0]));
});

test('times with too few digits are spread evenly, and it is said', () => {
  const { time, cautions } = trace(`t (s),I (A)\n${rows(1000, (k) => `${(k / 1e4).toFixed(3)},${k}`)}`);
  assert.match(cautions.join(), /too few digits/);
  assert.ok(Math.abs(time[501] - 0.0501) < 2e-4, `${time[501]}`);
});

test('memory is bounded: neighbours are averaged beyond the limit', () => {
  const reader = new TraceReader({}, 1 << 17);
  reader.push('t (ms),I (A)\n');
  for (let k = 0; k < 400_000; k += 1000) reader.push(rows(1000, (j) => `${k + j},${k + j}`));
  const read = reader.end();
  assert.ok(read.ok, 'it reads');
  const { time, current, samplesRead, interval_s } = read.trace;
  assert.equal(samplesRead, 400_000);
  assert.equal(time.length, 100_000);
  assert.ok(Math.abs(interval_s - 0.004) < 1e-9 && Math.abs(time[0] - 0.0015) < 1e-9, `${interval_s} ${time[0]}`);
  assert.equal(current[10], 41.5);
});
