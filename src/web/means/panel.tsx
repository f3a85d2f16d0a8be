/** "Means": hand cable, solenoid and air cylinder side by side on this survey, and what is recommended. */
import { useEffect } from 'react';
import {
  rowNames,
  rowTitles,
  type Cell,
  type MeansColumn,
  type MeansComparison,
} from '../../assessment/means/comparison.ts';
import type { TogetherState } from '../../assessment/hand-stop/states.ts';
import type { Verdict } from '../../assessment/finding.ts';
import { put, toggleFinding, useDesk } from '../desk/desk.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { verdictWords } from '../show/words.ts';
import './means.css';
import { describe, followDesk, take, useMeans } from './means.ts';
import { Part } from '../panels/part.tsx';

export default function MeansPanel() {
  useEffect(followDesk, []);
  const word = useMeans((state) => state.word);
  const trouble = useMeans((state) => state.trouble);
  const comparison = useMeans((state) => state.comparison);
  return (
    <div className="means-panel">
      <div role="status" data-means={word}>
        {word === 'slow' && (
          <p>
            <progress aria-label="Being compared" /> Being compared…
          </p>
        )}
        {word === 'working' && comparison === null && <p className="quiet">One moment…</p>}
        {trouble !== null && <p className="field-error">This could not be compared: {trouble}</p>}
      </div>
      {comparison !== null && <Compared comparison={comparison} />}
    </div>
  );
}

function Compared({ comparison }: { readonly comparison: MeansComparison }) {
  const { asked, columns, recommended, together } = comparison;
  return (
    <>
      <Part heading="Recommended">
        <p className="means-recommended">{recommended.words}</p>
        <ul className="means-reasons">
          {recommended.reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
        <p className="quiet">The choice is yours: take another where there is a reason that no number shows. {asked}</p>
      </Part>
      <Part heading="The means">
        <ul className="means-list">
          {columns.map((column, i) => (
            <Means key={nameOf(column, i)} column={column} isRecommended={i === recommended.column} />
          ))}
        </ul>
      </Part>
      {rowNames.map((row) => (
        <Part key={row} heading={rowTitles[row]}>
          <ul className="means-row">
            {columns
              .filter(({ verdict }) => verdict !== null)
              .map((column, i) => (
                <li key={nameOf(column, i)}>
                  <h4>{column.name}</h4>
                  <CellWords cell={column.cells[row]} isChosen={column.origin === 'chosen'} />
                </li>
              ))}
          </ul>
        </Part>
      ))}
      {together !== null && <Together states={together} />}
    </>
  );
}

const nameOf = ({ kind, index, origin }: MeansColumn, i: number) => `${kind} ${index ?? origin} ${i}`;

const origins: Record<MeansColumn['origin'], string> = {
  chosen: 'Chosen',
  considered: 'Described',
  'starting values': 'Not described: starting values of this program',
  'not described': 'Not described',
};

function Means({ column, isRecommended }: { readonly column: MeansColumn; readonly isRecommended: boolean }) {
  const { name, kind, origin, verdict, notPossible, assumed } = column;
  const hasAir = useDesk(({ document }) => document?.survey.air !== 'none');
  const isNew = origin === 'starting values' || origin === 'not described';
  const mayDescribe = isNew && (kind !== 'air cylinder' || hasAir);
  return (
    <li className={origin === 'chosen' ? 'is-chosen' : undefined}>
      <div className="means-head">
        {verdict !== null && <Word verdict={verdict} />}
        <b className="means-name">{name}</b>
        <span className="quiet">
          {origins[origin]}
          {isRecommended && origin !== 'chosen' ? ', recommended' : ''}
        </span>
      </div>
      {notPossible !== null && <p>{notPossible}</p>}
      {origin === 'starting values' && (
        <details>
          <summary>What was taken for it</summary>
          <ul className="means-assumed">
            {assumed.map(({ path, text, source }) => (
              <li key={path}>
                {text} <span className="quiet">({source})</span>
              </li>
            ))}
          </ul>
        </details>
      )}
      <div className="means-acts">
        {origin === 'considered' && notPossible === null && (
          <button type="button" onClick={() => void take(column)}>
            Take this means
          </button>
        )}
        {mayDescribe && (
          <button type="button" className="small" onClick={() => void describe(kind, name)}>
            Describe {kind === 'air cylinder' ? 'an' : 'a'} {kind}
          </button>
        )}
      </div>
    </li>
  );
}

function Word({ verdict }: { readonly verdict: Verdict }) {
  return (
    <span className="means-verdict">
      <VerdictMark verdict={verdict} size={22} /> {verdictWords[verdict]}
    </span>
  );
}

/** Findings stand in the list of the chosen means only: there is nothing to open for another. */
function CellWords({ cell, isChosen }: { readonly cell: Cell; readonly isChosen: boolean }) {
  const { verdict, lines, finding } = cell;
  return (
    <>
      {verdict !== null && <Word verdict={verdict} />}
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {isChosen && finding !== null && (
        <button type="button" className="small" onClick={() => open(finding)}>
          Open the finding
        </button>
      )}
    </>
  );
}

function open(finding: string): void {
  put({ panel: 'findings' });
  toggleFinding(finding);
}

function Together({ states }: { readonly states: readonly TogetherState[] }) {
  return (
    <Part heading="Both on one lever">
      <ul className="means-row">
        {states.map(({ words, verdict, because }) => (
          <li key={words}>
            <h4>{words}</h4>
            <Word verdict={verdict} />
            <p>{because}</p>
          </li>
        ))}
      </ul>
    </Part>
  );
}
