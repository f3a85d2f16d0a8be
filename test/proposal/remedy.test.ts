/** Remedies on the bad demonstrations: each is applied, read again and assessed again. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { withRemedies } from '../../src/proposal/remedy.ts';
import { imperialUnits } from '../../src/units/quantity.ts';
import { changed, demo } from '../job/jobs.ts';
import { assertRemedies } from './remedies-hold.ts';

test('what holds, and what is not known, asks for no remedy', () => {
  for (const name of ['railcar', 'pump-house'])
    assert.deepEqual(assertRemedies(demo(name)), { failing: 0, mended: 0 }, name);
});

test('the short stroke: every failing finding has a remedy that does what it says', () => {
  const job = demo('short-stroke');
  const { failing, mended } = assertRemedies(job);
  assert.deepEqual([failing, mended], [2, 2]);
  const comesHome = withRemedies(job, assess(job)).findings.find(({ id }) => id === 'comes-home');
  // The lever meets its stop 1.82 mm from home: the bracket must go back by that and what a degree takes.
  const [first] = comesHome?.remedies ?? [];
  assert.match(first?.words ?? '', /^Move the bracket 2\.\d mm against the direction of the pull$/);
  assert.deepEqual(
    first?.worsens.filter(({ to }) => to.verdict !== 'holds'),
    [],
  );
});

test('the binding pin: what binds is mended by a slot in place of the hole, and that frees the rest', () => {
  const job = demo('binding-pin');
  const { failing, mended } = assertRemedies(job);
  assert.ok(failing >= 8 && mended >= 8, `${mended} of ${failing}`);
  const binds = withRemedies(job, assess(job)).findings.find(({ id }) => id === 'does-not-bind');
  assert.match(binds?.remedies[0]?.words ?? '', /^Make the hole in the arm a slot from/);
});

test('a thin margin has remedies too, and so has an installation that lacks a part', () => {
  const thin = changed(demo('railcar'), { 'supply.low': '20.5 V' });
  const assessment = withRemedies(thin, assess(thin));
  const finding = assessment.findings.find(({ verdict }) => verdict === 'thin');
  assert.ok((finding?.remedies.length ?? 0) > 0, finding?.id);
  assertRemedies(thin);
  const bare = changed(demo('railcar'), { 'layout.adjuster': 'none', 'return.springs': [] });
  const { failing, mended } = assertRemedies(bare);
  assert.ok(failing > 0 && mended > 0, `${mended} of ${failing}`);
});

test('the same remedies come at every run, and other units change words alone', () => {
  const job = demo('short-stroke');
  const metric = withRemedies(job, assess(job));
  assert.deepEqual(withRemedies(job, assess(job)), metric);
  const inches = withRemedies(job, assess(job, imperialUnits), imperialUnits);
  metric.findings.forEach(({ remedies }, i) => {
    const others = inches.findings[i]?.remedies ?? [];
    assert.deepEqual(
      others.map(({ changes, marginAfter }) => ({ changes, marginAfter })),
      remedies.map(({ changes, marginAfter }) => ({ changes, marginAfter })),
    );
    for (const { words } of others) assert.doesNotMatch(words, /\d mm\b/);
  });
});
