import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import { apply, change } from '../../src/job/change.ts';
import {
  addStep,
  endGesture,
  MOST_STEPS,
  noSteps,
  readSteps,
  redo,
  undo,
  writeSteps,
  type Steps,
} from '../../src/web/desk/steps.ts';

interface Doc {
  readonly a: number;
  readonly b: { readonly c: string };
}

const start: Doc = { a: 0, b: { c: '' } };

test('undoing every step gives the first document, doing them again the last', () => {
  fc.assert(
    fc.property(fc.array(fc.oneof(fc.integer(), fc.string()), { maxLength: 60 }), (values) => {
      let document = start;
      let steps: Steps = noSteps;
      for (const value of values) {
        const changes = [change(document, typeof value === 'number' ? 'a' : 'b.c', value)];
        document = apply(document, changes);
        steps = addStep(steps, { name: String(value), changes, gesture: null });
      }
      const last = document;
      for (let moved = undo(document, steps); moved !== null; moved = undo(document, steps))
        ({ document, steps } = moved);
      assert.deepEqual(document, start);
      for (let moved = redo(document, steps); moved !== null; moved = redo(document, steps))
        ({ document, steps } = moved);
      assert.deepEqual(document, last);
    }),
    { seed: 20261125, numRuns: 300 },
  );
});

test('one gesture is one step, which goes back to before it began', () => {
  let document = start;
  let steps: Steps = noSteps;
  for (const value of [1, 2, 3]) {
    const changes = [change(document, 'a', value)];
    document = apply(document, changes);
    steps = addStep(steps, { name: `a ${value}`, changes, gesture: 'drag' });
  }
  assert.equal(steps.list.length, 1);
  assert.deepEqual(undo(document, steps)?.document, start);
  steps = addStep(endGesture(steps), { name: 'a 4', changes: [change(document, 'a', 4)], gesture: 'drag' });
  assert.equal(steps.list.length, 2);
});

test('a step after undoing gives up what could have been done again', () => {
  let steps = addStep(noSteps, { name: 'one', changes: [change(start, 'a', 1)], gesture: null });
  steps = undo({ ...start, a: 1 }, steps)!.steps;
  steps = addStep(steps, { name: 'two', changes: [change(start, 'a', 2)], gesture: null });
  assert.deepEqual(
    steps.list.map(({ name }) => name),
    ['two'],
  );
  assert.equal(redo(start, steps), null);
});

test('at least a thousand steps are kept, and are the same after being written and read', () => {
  let steps: Steps = noSteps;
  for (let i = 0; i < MOST_STEPS + 5; i += 1) {
    steps = addStep(steps, { name: `step ${i}`, changes: [{ path: 'a', from: i, to: i + 1 }], gesture: null });
  }
  assert.ok(MOST_STEPS >= 1000);
  assert.equal(steps.list.length, MOST_STEPS);
  const text = writeSteps({ ...steps, at: 'revision' }, 500_000);
  assert.deepEqual(readSteps(text), { ...steps, at: 'revision' });
});

test('a history too long to keep loses its oldest steps and stays usable', () => {
  let steps: Steps = noSteps;
  for (let i = 0; i < 50; i += 1)
    steps = addStep(steps, { name: 'x'.repeat(100), changes: [{ path: 'a', from: i, to: i + 1 }], gesture: null });
  const kept = readSteps(writeSteps({ ...steps, at: 'revision' }, 2_000));
  assert.ok(kept !== null && kept.list.length > 0 && kept.list.length < 50);
  assert.equal(kept.done, kept.list.length);
  assert.deepEqual(kept.list.at(-1), steps.list.at(-1));
});

test('what is no history is refused, not guessed', () => {
  for (const text of [null, '', '{', '[]', '{"at":"r","done":3,"list":[]}', '{"at":1,"done":0,"list":[]}', 'null']) {
    assert.equal(readSteps(text), null, String(text));
  }
});
