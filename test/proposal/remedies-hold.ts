/** What every remedy must do: applied to its document, read again and assessed again, it does what it says and no more. */
import assert from 'node:assert/strict';
import { assess } from '../../src/assessment/assess.ts';
import { relativeMargin, type Finding, type Remedy, type Verdict } from '../../src/assessment/finding.ts';
import { apply, inverse } from '../../src/job/change.ts';
import { readDocument, writeJob } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';
import { withRemedies } from '../../src/proposal/remedy.ts';
import { valueAt } from '../../src/job/path.ts';
import { assertPlain } from '../assessment/plain-data.ts';

export interface Tally {
  readonly failing: number;
  readonly mended: number;
}

/** Checks every remedy of every finding of a job; says how many findings fail and how many of those have a remedy. */
export function assertRemedies(job: Job): Tally {
  const before = assess(job);
  const proposed = withRemedies(job, before);
  const bare = proposed.findings.map((finding) => ({ ...finding, remedies: [] }));
  assert.deepEqual({ ...proposed, findings: bare }, before, 'nothing but remedies is added');
  assertPlain(bare);
  for (const finding of proposed.findings) {
    if (finding.verdict === 'holds' || finding.verdict === 'not known') assert.deepEqual(finding.remedies, []);
    assert.equal(new Set(finding.remedies.map(({ words }) => words)).size, finding.remedies.length, finding.id);
    for (const remedy of finding.remedies) assertRemedy(job, before.findings, finding, remedy);
  }
  const failing = proposed.findings.filter(({ verdict }) => verdict === 'fails');
  return { failing: failing.length, mended: failing.filter(({ remedies }) => remedies.length > 0).length };
}

/** What a finding is without remedies, and what would mend it, in words. */
export function mended(job: Job, id: string): { readonly verdict: string; readonly words: readonly string[] } {
  const finding = withRemedies(job, assess(job)).findings.find((one) => one.id === id);
  assert.ok(finding !== undefined, `no finding ${id}`);
  return { verdict: finding.verdict, words: finding.remedies.map(({ words }) => words) };
}

function assertRemedy(job: Job, before: readonly Finding[], { id }: Finding, remedy: Remedy): void {
  const what = `${id}: ${remedy.words}`;
  assert.match(remedy.words, /^[A-Z].*[^.]$/, what);
  for (const { path, from } of remedy.changes) assert.deepEqual(valueAt(job, path), from, what);
  assert.ok(
    remedy.changes.some(({ from, to }) => JSON.stringify(from) !== JSON.stringify(to)),
    `${what}: changes nothing`,
  );
  assertPlain([remedy.words, remedy.marginAfter, remedy.worsens]);
  const read = readDocument(apply(job, remedy.changes));
  assert.ok(read.ok, `${what}: ${JSON.stringify(read)}`);
  assert.equal(writeJob(apply(read.job, inverse(remedy.changes))), writeJob(job), `${what}: not taken back`);
  const after = assess(read.job);
  const mended = after.findings.find((finding) => finding.id === id);
  assert.equal(mended?.verdict, 'holds', what);
  assert.ok(mended.margin !== null && mended.margin >= mended.wanted - 1e-9, what);
  assert.equal(mended.margin, remedy.marginAfter, what);
  const worse = after.findings.flatMap((now) => {
    const then = before.find((finding) => finding.id === now.id);
    const from = { verdict: then?.verdict ?? ('holds' as const), margin: then?.margin ?? null };
    const to = { verdict: now.verdict, margin: now.margin };
    return now.id !== id && cameOutWorse(then, now) ? [{ id: now.id, title: now.title, from, to }] : [];
  });
  const byId = (a: { id: string }, b: { id: string }) => (a.id < b.id ? -1 : 1);
  assert.deepEqual([...remedy.worsens].sort(byId), worse.sort(byId), what);
}

const rank: Record<Verdict, number> = { holds: 3, thin: 2, 'not known': 1, fails: 0 };

/** A lower verdict, or a hundredth of the wanted margin less; a finding that is new counts where it does not hold. */
function cameOutWorse(then: Finding | undefined, now: Finding): boolean {
  if (then === undefined) return now.verdict !== 'holds';
  if (rank[now.verdict] < rank[then.verdict]) return true;
  if (then.margin === null || now.margin === null) return false;
  return relativeMargin(then) - relativeMargin(now) > 0.01;
}
