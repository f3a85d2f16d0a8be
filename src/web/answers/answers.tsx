/** The three questions that are asked first, each with its verdict, the number that decides it, and where. */
import type { Answer, Assessment } from '../../assessment/finding.ts';
import { desk, put } from '../desk/desk.ts';
import { useUnits } from '../show/units.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { marginWords, placeWords, valueWords, verdictWords } from '../show/words.ts';

export function Answers({ assessment }: { readonly assessment: Assessment }) {
  return (
    <section className="answers" aria-label="The three answers" aria-live="off">
      {assessment.answers.map((answer) => (
        <AnswerCard key={answer.question} answer={answer} assessment={assessment} />
      ))}
    </section>
  );
}

function AnswerCard({ answer, assessment }: { readonly answer: Answer; readonly assessment: Assessment }) {
  const units = useUnits((state) => state.units);
  const finding = assessment.findings.find(({ id }) => id === answer.finding);
  const place = finding === undefined ? '' : placeWords(finding.at, units);
  return (
    <article className={`answer verdict-${answer.verdict.replace(' ', '-')}`} data-question={answer.question}>
      <h2 className="answer-question">{answer.words}</h2>
      <p className="answer-verdict">
        <VerdictMark verdict={answer.verdict} size={40} />
        <strong>{verdictWords[answer.verdict]}</strong>
      </p>
      {finding !== undefined && (
        <>
          <p className="answer-number">
            <span className="answer-title">{finding.title}</span>{' '}
            <b>{finding.value === null ? finding.because : valueWords(finding, units)}</b>
          </p>
          {finding.margin !== null && <p className="answer-margin">{marginWords(finding, units)}</p>}
          {place !== '' && <p className="answer-place">Decided {place}</p>}
          <button
            type="button"
            className="plain answer-more"
            onClick={() => showFinding(finding.id, finding.at?.gap_mm ?? null)}
          >
            {finding.verdict === 'holds'
              ? 'Show why'
              : finding.verdict === 'not known'
                ? 'What to measure'
                : 'Show what to do'}
          </button>
        </>
      )}
    </article>
  );
}

/** Opens a finding in the list and takes the travel control to where it is decided. */
function showFinding(id: string, gap_mm: number | null): void {
  const { openFindings } = desk();
  put({
    panel: 'findings',
    openFindings: openFindings.includes(id) ? openFindings : [...openFindings, id],
    ...(gap_mm === null ? {} : { gap_mm }),
  });
  requestAnimationFrame(() => document.getElementById(`finding-${id}`)?.scrollIntoView({ block: 'nearest' }));
}
