/** The three lines that are read first. */
import { relativeMargin, worstVerdict, type Answer, type Finding, type Question } from './finding.ts';

const toStopQuestions: readonly (readonly [Question, string])[] = [
  ['stops', 'Will it stop?'],
  ['runs', 'Will it start again?'],
  ['burns', 'Will anything burn?'],
];

const toRunQuestions: readonly (readonly [Question, string])[] = [
  ['runs', 'Will it stay in at run?'],
  ['stops', 'Will it stop when the current goes?'],
  ['burns', 'Will anything burn?'],
];

const airToStopQuestions: readonly (readonly [Question, string])[] = [
  ['stops', 'Will it stop?'],
  ['runs', 'Will it start again?'],
  ['burns', 'Will anything be overloaded?'],
];

const airToRunQuestions: readonly (readonly [Question, string])[] = [
  ['runs', 'Will it go to run?'],
  ['stops', 'Will it stop when the air goes?'],
  ['burns', 'Will anything be overloaded?'],
];

const questions = {
  coil: { toStop: toStopQuestions, toRun: toRunQuestions },
  air: { toStop: airToStopQuestions, toRun: airToRunQuestions },
};

/** Each question with the finding that decides it: the worst, and among equals the one nearest its wanted margin. */
export function answersOf(findings: readonly Finding[], toStop: boolean, by: 'coil' | 'air' = 'coil'): Answer[] {
  return questions[by][toStop ? 'toStop' : 'toRun'].map(([question, words]) => {
    const own = findings.filter((finding) => finding.question === question);
    const verdict = worstVerdict(own);
    const deciding = own
      .filter((finding) => finding.verdict === verdict)
      .reduce<Finding | null>(
        (least, next) => (least === null || relativeMargin(next) < relativeMargin(least) ? next : least),
        null,
      );
    return { question, words, verdict, finding: deciding?.id ?? null };
  });
}
