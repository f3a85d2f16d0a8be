import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import type { TimeEvent, TimeRun } from '../../../src/assessment/time/picture.ts';
import type { Drawing } from '../../../src/sheets/drawing.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { toldEvents } from '../../../src/sheets/time/events.ts';
import { drawTraces, pullInTraces, releaseTraces, type Traces } from '../../../src/sheets/time/traces.ts';
import { imperialUnits, metricUnits } from '../../../src/units/display.ts';
import { assertDrawn } from '../golden.ts';
import { textsOf, touchingTexts } from '../touching.ts';
import { wordsOnCurves } from './clear.ts';
import { measured, releases, stalled, timePicture, weakest } from './invented.ts';

const pullIn = pullInTraces(timePicture);
const release = releaseTraces(timePicture);
const stall: Traces = { from: 'switch-on', runs: [stalled], measured: null, missing: [] };
const nothingYet: Traces = {
  from: 'switch-on',
  runs: [],
  measured: null,
  missing: ['Read the ohms of the coil with a multimeter.', 'Measure the stroke of the plunger.'],
};

const partOf = (drawing: Drawing, name: string) => drawing.parts.find((part) => part.name === name);
const words = (drawing: Drawing): string[] => textsOf(drawing).map(({ text }) => text);
const isCurve = (name: string): boolean => /^(current|gap|volts)-/.test(name);

test('traces are drawn as they were', () => {
  assertDrawn('time-pull-in', svg(drawTraces(pullIn, { width: 240 })));
  assertDrawn('time-pull-in-phone-dark', svg(drawTraces(pullIn, { width: 96 }), { colours: 'dark' }));
  assertDrawn('time-stalled', svg(drawTraces(stall, { width: 142 })));
  assertDrawn('time-release', svg(drawTraces(release, { width: 142 })));
  assertDrawn('time-not-known', svg(drawTraces(nothingYet, { width: 96 })));
});

test('ticks stand at the moments of their events, on the axis that is numbered', () => {
  const drawing = drawTraces({ ...pullIn, measured: null });
  const axis = partOf(drawing, 'volts-axes');
  const labelled = axis?.elements.flatMap((element) =>
    element.kind === 'text' && element.align === 'middle' ? [{ ms: Number(element.text), x: element.at.x }] : [],
  );
  const [first, second] = labelled ?? [];
  assert.ok(first && second, 'the time axis has numbers');
  const perMs = (second.x - first.x) / (second.ms - first.ms);
  const ticks = partOf(drawing, 'ticks-weakest')?.elements ?? [];
  const places = [...new Set(ticks.map((tick) => (tick.kind === 'line' ? tick.from.x : Number.NaN)))];
  const expected = [23.1, 58.2, 61.1].map((ms) => first.x + (ms - first.ms) * perMs);
  assert.equal(places.length, expected.length);
  places.forEach((x, i) => assert.ok(Math.abs(x - (expected[i] ?? 0)) < 1e-9, `tick ${i} at ${x}`));
});

test('no words cover others or leave the sheet, and none lie on a curve, at any width', () => {
  for (const [name, given] of Object.entries({ pullIn, release, stall, nothingYet }))
    for (const width of [88, 96, 110, 125, 142, 180, 210, 254])
      for (const units of [undefined, imperialUnits]) {
        const drawing = drawTraces(given, { width, ...(units && { units }) });
        assert.deepEqual(touchingTexts(drawing), [], `${name} at ${width}`);
        assert.deepEqual(wordsOnCurves(drawing, isCurve), [], `${name} at ${width}`);
      }
});

test('every event is said on the sheet: beside its tick where there is room, in a list with numbers where there is not', () => {
  const wide = words(drawTraces({ ...pullIn, measured: null }, { width: 240 }));
  for (const said of ['starts moving 23.1 ms', 'comes home 58.2 ms, bounces 2 times', 'end switch works 61.1 ms'])
    assert.ok(wide.includes(said), said);
  const overlaid = words(drawTraces({ ...pullIn, runs: [weakest] }, { width: 240 }));
  for (const said of ['comes home 49.3 ms, sure', 'end switch works 52.4 ms, likely'])
    assert.ok(overlaid.includes(said), said);
  const narrow = words(drawTraces(pullIn, { width: 96 }));
  // Rows of the list may run over two lines.
  const list = narrow.join(' ');
  for (const said of [
    'weakest: comes home 58.2 ms, bounces 2 times',
    'strongest: comes home 34.6 ms, bounces 2 times',
    'measured: comes home 49.3 ms, sure',
  ])
    assert.ok(list.includes(said), said);
  // Each number of the list stands once in the list and once at its tick.
  for (let number = 1; number <= 8; number++)
    assert.ok(narrow.filter((said) => said === String(number)).length >= 2, `${number}`);
});

test('runs differ in their dashes, not in colour alone, and the legend shows the same', () => {
  const drawing = drawTraces(release);
  const styleOf = (name: string): string | undefined => {
    const element = partOf(drawing, name)?.elements[0];
    return element && 'style' in element ? element.style : undefined;
  };
  const styles = releases.map(({ name }) => styleOf(`gap-${name}`));
  assert.equal(new Set(styles).size, releases.length);
  assert.deepEqual(
    releases.map(({ name }) => styleOf(`legend-${name}`)),
    styles,
  );
});

test('a stall says how far from home, in the unit of the reader; the axis ends soon after what happens last, later after a stall', () => {
  const drawing = drawTraces(stall, { units: imperialUnits });
  assert.ok(words(drawing).includes('stalls 0.161 in from home, 53.1 ms'));
  assert.ok(
    drawing.sentences.includes('weakest, low battery, hot coil, high friction: stalls and stays short of home.'),
  );
  assert.ok(words(drawing).includes('100'), 'the current is followed while it rises on');
  const home = words(drawTraces({ ...pullIn, measured: null }));
  assert.ok(home.includes('70') && !home.includes('90'), 'nothing of the quiet time beyond 80 ms is drawn');
});

test('courses with holes are drawn as far as they are known, and a plot of which nothing is known is left out', () => {
  const unknown = weakest.time_s.map(() => null);
  const holed: TimeRun = {
    ...weakest,
    supplyCurrent_A: weakest.supplyCurrent_A.map((value, i) => (i > 40 && i < 60 ? null : value)),
    gap_m: unknown,
    terminal_V: unknown,
  };
  const drawing = drawTraces({ from: 'switch-on', runs: [holed], measured: null, missing: [] });
  assert.equal(partOf(drawing, 'current-weakest')?.elements.length, 2);
  assert.equal(partOf(drawing, 'gap-axes'), undefined);
  assert.ok(
    words(drawing).includes('comes home 58.2 ms, bounces 2 times'),
    'words that have no gap to stand at stand at the current',
  );
  assert.deepEqual(touchingTexts(drawing), []);
});

test('a measured current alone is drawn', () => {
  const drawing = drawTraces({ from: 'switch-on', runs: [], measured, missing: ['Read the ohms of the coil.'] });
  assert.ok((partOf(drawing, 'current-measured')?.elements.length ?? 0) > 0);
  assert.ok(drawing.sentences.some((said) => said.includes('Came home at 49.3 ms')));
  assert.ok(drawing.sentences.includes('Read the ohms of the coil.'));
});

test('any run at all makes a drawing with finite numbers whose words stay on the sheet', () => {
  const value = fc.option(fc.integer({ min: -5000, max: 5000 }), { freq: 5 });
  const run = fc
    .record({
      steps: fc.array(fc.double({ min: 1e-5, max: 10, noNaN: true }), { minLength: 1, maxLength: 30 }),
      values: fc.array(fc.tuple(value, value, value), { minLength: 31, maxLength: 31 }),
      event: fc.double({ min: 0, max: 400, noNaN: true }),
    })
    .map(({ steps, values, event }): TimeRun => {
      let at = 0;
      const time_s = [0, ...steps.map((step) => (at += step))];
      const course = (k: 0 | 1 | 2, unit: number) =>
        time_s.map((_, i) => {
          const found = values[i]?.[k] ?? null;
          return found === null ? null : found * unit;
        });
      return {
        ...weakest,
        time_s,
        supplyCurrent_A: course(0, 0.1),
        gap_m: course(1, 1e-5),
        terminal_V: course(2, 0.1),
        events: [{ kind: 'comes home', time_s: event, gap_m: null, supplyCurrent_A: null }],
      };
    });
  fc.assert(
    fc.property(run, fc.integer({ min: 80, max: 260 }), (one, width) => {
      const drawing = drawTraces({ from: 'switch-on', runs: [one], measured: null, missing: [] }, { width });
      svg(drawing);
      assert.deepEqual(
        touchingTexts(drawing).filter((said) => said.endsWith('off the sheet')),
        [],
      );
    }),
    { seed: 11, numRuns: 200 },
  );
});

test('what happens at one moment is said once, a landing with its bounces, and one that hunts by its first round', () => {
  const at = (kind: TimeEvent['kind'], ms: number): TimeEvent => ({
    kind,
    time_s: ms / 1000,
    gap_m: null,
    supplyCurrent_A: null,
  });
  const round = (start: number): TimeEvent[] => [
    at('starts moving', start),
    at('end switch works', start + 30),
    at('stage changes', start + 30),
    at('comes home', start + 31),
    at('bounces', start + 31),
    at('comes home', start + 32),
    at('at rest', start + 32),
    at('leaves home', start + 60),
    at('end switch recloses', start + 70),
    at('stage changes', start + 70),
  ];
  const told = (events: readonly TimeEvent[]): string[] =>
    toldEvents({ ...weakest, events }, metricUnits).map(({ words: said }) => said);
  const first = [
    'starts moving 10 ms',
    'end switch works 40 ms',
    'comes home 41 ms, bounces once',
    'leaves home 70 ms',
    'end switch recloses 80 ms',
  ];
  assert.deepEqual(told([at('current off', 0), ...round(10)]), first);
  assert.deepEqual(told([...round(10), ...round(100), ...round(190), ...round(280)]), [
    ...first,
    'starts again 100 ms, and so 2 times more',
  ]);
});
