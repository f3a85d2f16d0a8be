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
  const margin = finding === undefined ? '' : marginWords(finding, units);
  return (
    <article
      className={`answer verdict-${answer.verdict.replace(' ', '-')}`}
      data-question={answer.question}
      data-verdict={answer.verdict}
    >
      <VerdictMark verdict={answer.verdict} size={52} />
      <h2 className="answer-head">
        <span className="answer-question">{answer.words}</span>{' '}
        <strong className="answer-verdict">{verdictWords[answer.verdict]}</strong>
      </h2>
      {finding !== undefined && (
        <>
          <button
            type="button"
            className="small answer-more"
            onClick={() => showFinding(finding.id, finding.at?.gap_mm ?? null)}
          >
            {buttonWords[finding.verdict]}
          </button>
          <p className="answer-words">
            {finding.title}
            {finding.value === null ? `. ${finding.because}` : ': '}
            {finding.value !== null && <b className="answer-number">{valueWords(finding, units)}</b>}
            <span className="answer-place">{[margin, place].filter((words) => words !== '').join(' · ')}</span>
          </p>
        </>
      )}
    </article>
  );
}

const buttonWords = { holds: 'Why', thin: 'What to do', fails: 'What to do', 'not known': 'Measure' } as const;

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
