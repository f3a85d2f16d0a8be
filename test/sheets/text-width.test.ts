import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import { fitted, linesOf, textWidth } from '../../src/sheets/text-width.ts';

test('lines keep every word in order and no line is too wide', () => {
  fc.assert(
    fc.property(
      fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { maxLength: 40 }),
      fc.integer({ min: 25, max: 120 }),
      (words, width) => {
        const lines = linesOf(words.join(' '), width, 2.5);
        assert.deepEqual(
          lines
            .join(' ')
            .split(' ')
            .filter((word) => word !== ''),
          words,
        );
        for (const line of lines) assert.ok(textWidth(line, 2.5) <= width);
      },
    ),
    { seed: 60, numRuns: 300 },
  );
});

test('a cut text fits and says that it was cut', () => {
  assert.equal(fitted('short', 40, 2.5), 'short');
  const cut = fitted('a very long name indeed, longer than its field', 40, 2.5);
  assert.ok(cut.endsWith('…') && textWidth(cut, 2.5) <= 40);
});

test('a capital is as high as it says: width grows with height', () => {
  assert.ok(Math.abs(textWidth('Stop', 5) - 2 * textWidth('Stop', 2.5)) < 1e-9);
});
