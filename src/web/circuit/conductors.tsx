/** Every conductor that is sold, in the chosen state of the source, each with one tap to try it. */
import { stateWords, type Demand, type SmallestSection } from '../../assessment/supply/smallest.ts';
import type { SectionRow, SupplyStudy } from '../../assessment/supply/study.ts';
import { change } from '../../job/change.ts';
import { useDesk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { FieldLink } from '../findings/field-link.tsx';
import { useUnits } from '../show/units.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { verdictWords } from '../show/words.ts';
import { useCircuit } from './circuit.ts';

export function Conductors() {
  const study = useCircuit((state) => state.study);
  const isOld = useCircuit((state) => state.of) !== useDesk((state) => state.document);
  const state = useCircuit((now) => now.condition.state);
  const system = useUnits((units) => (units.choice.area === 'AWG' ? 'gauge' : 'metric'));
  if (study === null)
    return (
      <p className="quiet" role="status">
        Trying every conductor…
      </p>
    );
  const rows = study.rows.filter((row) => row.system === system);
  const smallest = study.smallest.filter((one) => one.system === system);
  const inAll = smallest.find((one) => one.state === null);
  const here = smallest.find((one) => one.state === state);
  return (
    <section className="circuit-conductors" aria-label="Which conductor" data-study={isOld ? 'old' : 'there'}>
      <h3>Which conductor</h3>
      {inAll !== undefined && <Smallest one={inAll} />}
      {here !== undefined && (here.label !== inAll?.label || here.verdict !== inAll.verdict) && <Smallest one={here} />}
      {study.missing.length > 0 && (
        <ul className="paths" aria-label="Readings to take">
          {study.missing.map((path) => (
            <li key={path}>
              <FieldLink path={path} />
            </li>
          ))}
        </ul>
      )}
      <Table study={study} rows={rows} />
      <ul className="circuit-remarks quiet">
        {study.remarks.map((remark) => (
          <li key={remark}>{remark}</li>
        ))}
      </ul>
    </section>
  );
}

function Smallest({ one: { verdict, words } }: { readonly one: SmallestSection }) {
  return (
    <p className="circuit-smallest">
      <VerdictMark verdict={verdict} size={24} />
      <span>
        <b>{verdictWords[verdict]}.</b> {words}
      </span>
    </p>
  );
}

function Table({ study, rows }: { readonly study: SupplyStudy; readonly rows: readonly SectionRow[] }) {
  const state = useCircuit((now) => now.condition.state);
  return (
    <div className="circuit-table">
      <table>
        <caption>
          Pull-in {stateWords[state]}, hot coil, old contacts: volts at the coil, volts lost on the way, pull to spare.
          Tap a size to try it; undo takes it back.
        </caption>
        <thead>
          <tr>
            <th scope="col">Size</th>
            <th scope="col">At the coil</th>
            <th scope="col">Lost</th>
            <th scope="col">Pull</th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        <tbody>
          <Row row={study.asLaid} state={state} />
          {rows.map((row) => (
            <Row key={row.label} row={row} state={state} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface RowProps {
  readonly row: SectionRow;
  readonly state: SectionRow['states'][number]['state'];
}

function Row({ row, state }: RowProps) {
  const here = row.states.find((one) => one.state === state);
  if (here === undefined) return null;
  const isLaid = row.system === 'as laid';
  const { terminalVolts_V, drop_V, dropShare } = here.pullIn;
  const short = shortOf(row, state);
  return (
    <tr className={isLaid ? 'is-laid' : undefined}>
      <th scope="row">
        {isLaid ? (
          <>
            {row.label} <span className="quiet">as laid</span>
          </>
        ) : (
          <button type="button" className="small" aria-label={`Try ${row.label}`} onClick={() => tryOut(row)}>
            {row.label}
          </button>
        )}
      </th>
      <td>{volts(terminalVolts_V)}</td>
      <td>
        {volts(drop_V)} <span className="circuit-share">{share(dropShare, 1)}</span>
      </td>
      <td>{share(here.demands.pull.margin, 0)}</td>
      <td>
        <span className="circuit-verdict">
          <VerdictMark verdict={here.verdict} size={20} /> {verdictWords[here.verdict]}
        </span>
        {short.length > 0 && <span className="circuit-short quiet">{short.join(', ')}</span>}
      </td>
    </tr>
  );
}

function tryOut({ label, changes }: SectionRow): void {
  void propose({
    name: `Conductors of ${label}${changes.length > 1 ? ', out and back' : ''}`,
    // What stands there now, so that undo gives it back even where the table is a moment behind.
    changes: (document) => changes.map(({ path, to }) => change(document, path, to)),
  });
}

/** In a narrow column; the whole words stand beside the smallest that works. */
const demandWords: Readonly<Record<Demand, string>> = {
  pull: 'pull',
  hold: 'hold',
  drop: 'drop in hold',
  carries: 'lasting current',
  overload: 'fuse',
  short: 'short circuit',
};

/** What does not hold at this size in this state. */
function shortOf(row: SectionRow, state: RowProps['state']): string[] {
  const here = row.states.find((one) => one.state === state);
  const all = { ...here?.demands, ...row.demands };
  return (Object.keys(demandWords) as Demand[])
    .filter((demand) => all[demand]?.verdict !== 'holds')
    .map((demand) => demandWords[demand]);
}

function volts(value: number | null): string {
  return value === null ? 'not known' : `${value.toFixed(2)} V`;
}

function share(value: number | null, decimals: number): string {
  return value === null ? 'not known' : `${(100 * value).toFixed(decimals)} %`;
}
