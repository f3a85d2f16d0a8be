/** The findings, worst first; those that hold stand together below the others. */
import type { Assessment, Finding } from '../../assessment/finding.ts';
import { toggleFinding, useDesk } from '../desk/desk.ts';
import { useUnits } from '../show/units.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { marginWords, valueWords, verdictWords } from '../show/words.ts';
import { FindingDetails } from './details.tsx';
import { FieldLink } from './field-link.tsx';

export function Findings({ assessment }: { readonly assessment: Assessment }) {
  const open = useDesk((state) => state.openFindings);
  return (
    <div className="findings">
      <ul className="finding-list" aria-label="Findings, worst first">
        {assessment.findings.map((finding) => (
          <FindingRow
            key={finding.id}
            finding={finding}
            isOpen={open.includes(finding.id)}
            toggle={() => toggleFinding(finding.id)}
          />
        ))}
      </ul>
      {assessment.remarks.length > 0 && (
        <section className="remarks">
          <h3>To know when reading this</h3>
          <ul>
            {assessment.remarks.map((remark) => (
              <li key={remark}>{remark}</li>
            ))}
          </ul>
        </section>
      )}
      <Assumed assessment={assessment} />
    </div>
  );
}

function FindingRow({
  finding,
  isOpen,
  toggle,
}: {
  readonly finding: Finding;
  readonly isOpen: boolean;
  readonly toggle: () => void;
}) {
  const units = useUnits((state) => state.units);
  return (
    <li
      id={`finding-${finding.id}`}
      className={`finding verdict-${finding.verdict.replace(' ', '-')}`}
      data-finding={finding.id}
    >
      <button type="button" className="finding-head" aria-expanded={isOpen} onClick={toggle}>
        <VerdictMark verdict={finding.verdict} />
        <span className="finding-words">
          <span className="finding-title">{finding.title}</span>
          <span className="finding-number">
            <b>{verdictWords[finding.verdict]}</b>
            {finding.value !== null && ` · ${valueWords(finding, units)}`}
            {finding.margin !== null && finding.verdict !== 'holds' && ` · ${marginWords(finding, units)}`}
            {finding.verdict === 'not known'
              && finding.missing.length > 0
              && ` · ${count(finding.missing.length, 'reading')} missing`}
          </span>
        </span>
        <span className="finding-sign" aria-hidden="true">
          {isOpen ? '–' : '+'}
        </span>
      </button>
      {isOpen && <FindingDetails finding={finding} />}
    </li>
  );
}

function count(number: number, thing: string): string {
  return number === 1 ? `1 ${thing}` : `${number} ${thing}s`;
}

/** Defaults are no readings: they are listed wherever results are. */
function Assumed({ assessment }: { readonly assessment: Assessment }) {
  if (assessment.assumed.length === 0) return null;
  return (
    <details className="assumed">
      <summary>{count(assessment.assumed.length, 'default')} taken where nothing was entered</summary>
      <AssumedList assessment={assessment} />
    </details>
  );
}

function AssumedList({ assessment }: { readonly assessment: Assessment }) {
  return (
    <ul>
      {assessment.assumed.map(({ path, text, source }) => (
        <li key={path}>
          <FieldLink path={path} /> <b>{text}</b> <span className="quiet">({source})</span>
        </li>
      ))}
    </ul>
  );
}
