/** What must hold of every assessment, whatever it says. */
import assert from 'node:assert/strict';
import { answersOf } from '../../src/assessment/answers.ts';
import { relativeMargin, worstVerdict, type Assessment } from '../../src/assessment/finding.ts';

/** Plain JSON throughout: no NaN, no infinity, no hole, and none of their names in a sentence. */
export function assertPlain(value: unknown, path = '$'): void {
  if (value === null || typeof value === 'boolean') return;
  if (typeof value === 'number') assert.ok(Number.isFinite(value), `${path} is ${value}`);
  else if (typeof value === 'string') assert.doesNotMatch(value, /NaN|Infinity|undefined|\bnull\b|\[object/, path);
  else if (typeof value === 'object')
    for (const [key, inner] of Object.entries(value)) assertPlain(inner, `${path}.${key}`);
  else assert.fail(`${path} is a ${typeof value}`);
}

/** Of air, an assessment itself does not say which; its first question does. */
const isToStop = ({ works, answers }: Assessment): boolean =>
  works === 'by air' ? answers[0]?.question === 'stops' : works !== 'energise to run';

/** Verdicts follow from margins, order and answers from findings, and a finding that is not known says so throughout. */
export function assertConsistent(assessment: Assessment, toStop = isToStop(assessment)): void {
  assertPlain(assessment);
  const { findings } = assessment;
  assert.equal(new Set(findings.map(({ id }) => id)).size, findings.length, 'one finding for each question');
  for (const { id, verdict, margin, wanted, missing, value, because } of findings) {
    if (verdict === 'not known') {
      assert.deepEqual([margin, value], [null, null], id);
      assert.ok(missing.length > 0, `${id} is not known, and no reading is named: ${because}`);
    } else {
      assert.ok(margin !== null && missing.length === 0, id);
      const expected = margin >= wanted - 1e-9 ? 'holds' : margin >= 0 ? 'thin' : 'fails';
      assert.equal(verdict, expected, `${id}: margin ${margin}, wanted ${wanted}`);
    }
  }
  const severity = ['fails', 'not known', 'thin', 'holds'];
  findings.forEach((finding, i) => {
    const before = findings[i - 1];
    if (before === undefined) return;
    const step = severity.indexOf(finding.verdict) - severity.indexOf(before.verdict);
    assert.ok(
      step > 0 || (step === 0 && !(relativeMargin(finding) < relativeMargin(before))),
      `${finding.id} in order`,
    );
  });
  assert.equal(assessment.verdict, worstVerdict(findings));
  const answers = answersOf(findings, toStop, assessment.works === 'by air' ? 'air' : 'coil').filter(
    ({ question }) => question !== 'burns' || assessment.works !== 'by hand',
  );
  assert.deepEqual(assessment.answers, answers);
  for (const { question, verdict, finding } of assessment.answers) {
    const own = findings.filter((one) => one.question === question);
    const least = severity[Math.min(...own.map((one) => severity.indexOf(one.verdict)))] ?? 'holds';
    assert.equal(verdict, least, question);
    assert.equal(own.find(({ id }) => id === finding)?.verdict, own.length === 0 ? undefined : verdict, question);
  }
  const { sweep } = assessment;
  if (sweep !== null)
    for (const [name, curve] of Object.entries(sweep)) assert.equal(curve.length, sweep.gap_mm.length, name);
}
