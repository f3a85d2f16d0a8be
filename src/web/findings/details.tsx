/** What lies behind a finding: the reason, the numbers, the readings, and what would mend it. */
import type { Finding, Remedy, Worsening } from '../../assessment/finding.ts';
import { put, useDesk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { useUnits } from '../show/units.ts';
import { amount, marginWords, placeWords, valueWords, verdictWords } from '../show/words.ts';
import { FieldLink } from './field-link.tsx';

export function FindingDetails({ finding }: { readonly finding: Finding }) {
  const units = useUnits((state) => state.units);
  const place = placeWords(finding.at, units);
  const gap_mm = finding.at?.gap_mm ?? null;
  return (
    <div className="finding-details">
      <p className="finding-because">{finding.because}</p>
      <dl className="numbers">
        {finding.value !== null && (
          <div>
            <dt>Value</dt>
            <dd>{valueWords(finding, units)}</dd>
          </div>
        )}
        {finding.margin !== null && (
          <div>
            <dt>Margin</dt>
            <dd>{marginWords(finding, units)}</dd>
          </div>
        )}
        {place !== '' && (
          <div>
            <dt>Decided</dt>
            <dd>
              {place}{' '}
              {gap_mm !== null && (
                <button type="button" className="link" onClick={() => put({ gap_mm })}>
                  Show it on the drawing
                </button>
              )}
            </dd>
          </div>
        )}
      </dl>
      {finding.missing.length > 0 && (
        <section className="finding-missing">
          <h4>Take these readings</h4>
          <Paths paths={finding.missing} />
        </section>
      )}
      <Remedies finding={finding} />
      <details className="finding-needs">
        <summary>How it is reckoned</summary>
        <p>{finding.how}</p>
      </details>
      {finding.needs.length > 0 && (
        <details className="finding-needs">
          <summary>Rests on {finding.needs.length} readings</summary>
          <Paths paths={finding.needs} withValue />
        </details>
      )}
    </div>
  );
}

function Paths({ paths, withValue = false }: { readonly paths: readonly string[]; readonly withValue?: boolean }) {
  return (
    <ul className="paths">
      {paths.map((path) => (
        <li key={path}>
          <FieldLink path={path} withValue={withValue} />
        </li>
      ))}
    </ul>
  );
}

function Remedies({ finding }: { readonly finding: Finding }) {
  const remedies = useDesk((state) => state.remedies);
  if (finding.verdict === 'holds' || finding.verdict === 'not known') return null;
  return (
    <section className="remedies">
      <h4>What would mend it</h4>
      {finding.remedies.map((remedy) => (
        <RemedyCard key={remedy.words} remedy={remedy} finding={finding} />
      ))}
      {finding.remedies.length === 0 && (
        <p className="quiet">
          {remedies === 'waiting' && 'Looking for the smallest change that mends it…'}
          {remedies === 'failed' && 'The remedies could not be worked out. The verdict stands.'}
          {remedies === 'there' && 'No single change was found that mends it. Change the layout or the means.'}
        </p>
      )}
    </section>
  );
}

function RemedyCard({ remedy, finding }: { readonly remedy: Remedy; readonly finding: Finding }) {
  const units = useUnits((state) => state.units);
  return (
    <div className="remedy">
      <p className="remedy-words">{remedy.words}</p>
      <p className="quiet">
        Leaves {amount(remedy.marginAfter, finding.marginUnit, units)} to spare.
        {remedy.worsens.length === 0 && ' Makes nothing else worse.'}
      </p>
      {remedy.worsens.length > 0 && (
        <ul className="worsens">
          {remedy.worsens.map((worsening) => (
            <li key={worsening.id}>
              Worse: {worsening.title}, {worseningWords(worsening)}
            </li>
          ))}
        </ul>
      )}
      <button type="button" onClick={() => void propose({ name: remedy.words, changes: remedy.changes })}>
        Try it
      </button>
    </div>
  );
}

function worseningWords({ from, to }: Worsening): string {
  const before = verdictWords[from.verdict].toLowerCase();
  const after = verdictWords[to.verdict].toLowerCase();
  return before === after ? `still ${after}, with less to spare` : `${before} becomes ${after}`;
}
