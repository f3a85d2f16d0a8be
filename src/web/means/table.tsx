/**
 * The means held side by side: rows × means. Where there is no room for columns every cell is a block under its row's title,
 * with the name of its means before it; the roles are written out, for a table that is laid out as blocks loses its own.
 */
/* oxlint-disable jsx-a11y/no-redundant-roles, jsx-a11y/no-interactive-element-to-noninteractive-role, jsx-a11y/no-noninteractive-element-to-interactive-role -- see above */
import { rowNames, rowTitles, type Cell, type MeansColumn } from '../../assessment/means/comparison.ts';
import type { Verdict } from '../../assessment/finding.ts';
import { put, toggleFinding, useDesk } from '../desk/desk.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { verdictWords } from '../show/words.ts';
import { describe, take } from './means.ts';

interface Shown {
  readonly columns: readonly MeansColumn[];
  /** Place of the recommended one. */
  readonly recommended: number | null;
}

export function MeansTable({ columns, recommended }: Shown) {
  return (
    <div className="means-scroll">
      <table role="table" className="means-table">
        <caption>What each means comes to on this survey. The chosen one stands between thick lines.</caption>
        <thead role="rowgroup">
          <tr role="row">
            <td role="cell" className="means-corner quiet">
              Means
            </td>
            {columns.map((column, i) => (
              <th key={keyOf(column, i)} scope="col" role="columnheader" className={classOf(column)}>
                <span className="means-name">{column.name}</span>
                {column.verdict !== null && <Word verdict={column.verdict} />}
                <span className="quiet">{standing(column, i === recommended)}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          <tr role="row" className="means-choice">
            <th scope="row" role="rowheader">
              Your choice
            </th>
            {columns.map((column, i) => (
              <td key={keyOf(column, i)} role="cell" className={classOf(column)}>
                <Name of={column} />
                <Choice column={column} />
              </td>
            ))}
          </tr>
          {rowNames.map((row) => (
            <tr key={row} role="row">
              <th scope="row" role="rowheader">
                {rowTitles[row]}
              </th>
              {columns.map((column, i) => (
                <td key={keyOf(column, i)} role="cell" className={classOf(column)}>
                  <Name of={column} />
                  {column.verdict === null ? (
                    <p className="quiet">Not described</p>
                  ) : (
                    <CellWords cell={column.cells[row]} isChosen={column.origin === 'chosen'} />
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const keyOf = ({ kind, index, origin }: MeansColumn, i: number) => `${kind} ${index ?? origin} ${i}`;
const classOf = ({ origin }: MeansColumn) => (origin === 'chosen' ? 'is-chosen' : undefined);

const origins: Record<MeansColumn['origin'], string> = {
  chosen: 'Chosen',
  considered: 'Described',
  'starting values': 'Not described: starting values of this program',
  'not described': 'Not described',
};

function standing({ origin }: MeansColumn, isRecommended: boolean): string {
  return `${origins[origin]}${isRecommended ? ', recommended' : ''}`;
}

/** The heading of the column says it already, where there are columns. */
function Name({ of }: { readonly of: MeansColumn }) {
  return (
    <b className="means-cell-name" aria-hidden="true">
      {of.name}
    </b>
  );
}

function Choice({ column }: { readonly column: MeansColumn }) {
  const { name, kind, origin, notPossible, assumed } = column;
  const hasAir = useDesk(({ document }) => document?.survey.air !== 'none');
  const isNew = origin === 'starting values' || origin === 'not described';
  const mayDescribe = isNew && (kind !== 'air cylinder' || hasAir);
  return (
    <>
      {origin === 'chosen' && <p>This is the chosen means.</p>}
      {notPossible !== null && <p>{notPossible}</p>}
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
    </>
  );
}

export function Word({ verdict }: { readonly verdict: Verdict }) {
  return (
    <span className="means-verdict">
      <VerdictMark verdict={verdict} size={22} /> {verdictWords[verdict]}
    </span>
  );
}

/** More than this after its first line, in characters, is opened by who wants it. */
const MUCH = 90;

/** Findings stand in the list of the chosen means only: there is nothing to open for another. */
function CellWords({ cell, isChosen }: { readonly cell: Cell; readonly isChosen: boolean }) {
  const { verdict, lines, finding } = cell;
  const [first, ...rest] = lines;
  const isMuch = rest.join(' ').length > MUCH;
  const others = rest.map((line) => <p key={line}>{line}</p>);
  return (
    <>
      {verdict !== null && <Word verdict={verdict} />}
      {first !== undefined && <p>{first}</p>}
      {isMuch ? (
        <details>
          <summary>{rest.length === 1 ? 'One line more' : `${rest.length} lines more`}</summary>
          {others}
        </details>
      ) : (
        others
      )}
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
