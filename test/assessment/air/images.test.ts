/**
 * The same cylinder seen otherwise has the same margins: mirrored, turned, counted from another zero, on another place of the
 * hub, in other units, and worked the other way about.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess, isTimed } from '../../../src/assessment/assess.ts';
import type { Job } from '../../../src/job/schema.ts';
import { mirrored, recounted, rehubbed, rewritten, rolesExchanged, turned } from '../images.ts';
import { cylinders } from './cylinders.ts';

const SAME = 1e-6;
/** An adaptive integration at 1e-5 takes other steps where a last digit differs. */
const SAME_IN_TIME = 2e-3;

function assertSame(job: Job, image: Job, name: string): void {
  const there = new Map(assess(image).findings.map((finding) => [finding.id, finding.margin]));
  for (const { id, margin } of assess(job).findings) {
    const twin = there.get(id);
    assert.ok(twin !== undefined, `${name}: ${id}`);
    const room = isTimed(id) ? SAME_IN_TIME : SAME;
    const isSame =
      margin === null || twin === null
        ? margin === twin
        : Math.abs(margin - twin) <= room * Math.max(1, Math.abs(1 + margin));
    assert.ok(isSame, `${name}: ${id} ${margin} and ${twin}`);
  }
}

const images: readonly (readonly [string, (job: Job) => Job])[] = [
  ['mirrored', mirrored],
  ['turned', (job) => turned(job, 1.1)],
  ['counted from another zero', (job) => recounted(job, 0.4)],
  ['on another place of the hub', (job) => rehubbed(job, 2)],
  ['in the first of other units', (job) => rewritten(job, (units) => units[0])],
  ['in the last of other units', (job) => rewritten(job, (units) => units.at(-1)!)],
];

for (const [what, imageOf] of images)
  test(`${what} a cylinder keeps its margins`, () => {
    for (const { name, job } of cylinders) assertSame(job, imageOf(job), `${name}, ${what}`);
  });

/** Findings of the same mechanics that go by another name, or look at another end, when home is run. */
const ofOneWay = ['reaches-no-fuel', 'free-to-reach-run', 'time-to-no-fuel', 'time-to-run', 'air-lost'];

test('worked the other way about over the same swing, what air and springs do is the same', () => {
  for (const { name, job } of cylinders) {
    const image = rolesExchanged(job);
    const there = new Map(assess(image).findings.map((finding) => [finding.id, finding.margin]));
    let held = 0;
    for (const { id, margin } of assess(job).findings) {
      if (ofOneWay.includes(id) || isTimed(id) || margin === null) continue;
      held++;
      const twin = there.get(id);
      assert.ok(
        twin !== undefined && twin !== null && Math.abs(margin - twin) <= SAME * Math.max(1, Math.abs(1 + margin)),
        `${name}: ${id} ${margin} and ${twin}`,
      );
    }
    assert.ok(held > 10, `${held} findings held`);
  }
});
