import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import { apply } from '../../src/job/change.ts';
import type { Handle } from '../../src/sheets/mechanism.ts';
import { dragged, nudged } from '../../src/web/drawings/dragging.ts';

interface Doc {
  readonly layout: {
    readonly homePin: { readonly x: string; readonly y: string };
    readonly pullDirection: string;
    readonly connection: Record<string, string>;
  };
}
const railcar = JSON.parse(readFileSync(new URL('../../src/job/demos/railcar.json', import.meta.url), 'utf8')) as Doc;
const frame = { scale: 0.5, origin: { x: 100, y: 40 } };
const handle = (part: Partial<Handle>): Handle => ({
  name: 'handle',
  moves: null,
  kind: 'place',
  x: 0,
  y: 0,
  about: { x: 0, y: 0 },
  line: null,
  add: 0,
  ...part,
});

test('a place goes where the finger is, in the unit and with the ± that were typed', () => {
  const pin = handle({ moves: 'layout.homePin' });
  const before = apply(railcar, [
    { path: 'layout.homePin.x', from: '', to: '-4.6 mm ± 0.2' },
    { path: 'layout.homePin.y', from: '', to: '2 in' },
  ]);
  const after = apply(before, dragged(before, pin, frame, { x: 105, y: 65.4 }));
  assert.deepEqual(after.layout.homePin, { x: '10 mm ± 0.2 mm', y: '2 in' });
});

test('a distance is measured along its line and never reaches nothing', () => {
  const hole = handle({
    moves: 'layout.connection.slotTo',
    kind: 'distance',
    about: frame.origin,
    line: { x: 0, y: 1 },
  });
  const to = (x: number, y: number) =>
    apply(railcar, dragged(railcar, hole, frame, { x, y })).layout.connection['slotTo'];
  assert.equal(to(130, 70), '60 mm');
  assert.equal(to(100, 0), '0.1 mm');
});

test('a direction stays within half a turn of what stands there', () => {
  const pull = handle({ moves: 'layout.pullDirection', kind: 'direction', about: { x: 100, y: 40 }, add: 0 });
  const turn = (now: string, x: number, y: number) => {
    const before = apply(railcar, [{ path: 'layout.pullDirection', from: '', to: now }]);
    return apply(before, dragged(before, pull, frame, { x, y })).layout.pullDirection;
  };
  assert.equal(turn('180°', 90, 41), '174.3°');
  assert.equal(turn('180°', 90, 39), '185.7°');
  assert.equal(turn('350°', 110, 41), '365.7°');
});

test('arrow keys move by the millimetre asked for', () => {
  const pin = handle({ moves: 'layout.homePin' });
  const right = apply(railcar, nudged(railcar, pin, 1, 0)).layout.homePin;
  assert.equal(Number.parseFloat(right.x), Number.parseFloat(railcar.layout.homePin.x) + 1);
  assert.equal(right.y, railcar.layout.homePin.y);
  const up = apply(railcar, nudged(railcar, pin, 0, 0.1)).layout.homePin;
  assert.ok(Math.abs(Number.parseFloat(up.y) - Number.parseFloat(railcar.layout.homePin.y) - 0.1) < 1e-9);
});

test('what was not measured gets a millimetre text when it is dragged', () => {
  const before = apply(railcar, [
    { path: 'layout.homePin.x', from: '', to: 'not measured' },
    { path: 'layout.homePin.y', from: '', to: 'not measured' },
  ]);
  const after = apply(before, dragged(before, handle({ moves: 'layout.homePin' }), frame, { x: 100, y: 65 }));
  assert.deepEqual(after.layout.homePin, { x: '0 mm', y: '50 mm' });
});
