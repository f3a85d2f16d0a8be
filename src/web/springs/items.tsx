/** Solenoids and cables of the drawer: which fit this job, how each must be mounted, and why the others stay out. */
import type { ItemKind } from '../../proposal/drawer-others.ts';
import { FieldLink } from '../findings/field-link.tsx';
import { Try, Verdicted } from './parts.tsx';
import { Part } from '../panels/part.tsx';
import { stop, tryItems, useSprings } from './springs.ts';
import type { ItemRow } from './items-summary.ts';

const headings: Record<ItemKind, string> = { solenoid: 'Solenoids', cable: 'Electric cables', 'hand cable': 'Hand cables' }; // prettier-ignore
const doings: Record<ItemKind, string> = { solenoid: 'Fit the solenoid', cable: 'Lay the cable', 'hand cable': 'Lay the hand cable' }; // prettier-ignore

export function Items() {
  const drawer = useSprings((state) => state.drawer);
  const items = useSprings((state) => state.items);
  if (drawer === null) return null;
  const summary = items?.summary ?? null;
  return (
    <Part heading="Solenoids and cables at hand">
      <div role="status" data-items={items?.word ?? 'none'}>
        {items?.word === 'working' && (
          <p>
            <progress aria-label="Tried" value={summary?.tried ?? 0} max={Math.max(1, summary?.of ?? 1)} />{' '}
            {summary === null ? 'Being tried…' : `${summary.tried} of ${summary.of} tried`}{' '}
            <button type="button" className="small" onClick={stop}>
              Stop
            </button>
          </p>
        )}
        {items?.word === 'stopped' && <p>Stopped. What was tried until then stands here.</p>}
      </div>
      {items?.word !== 'working' && items?.word !== 'there' && (
        <p>
          <button type="button" onClick={() => void tryItems()}>
            Try each in this job
          </button>
        </p>
      )}
      {summary?.groups.map(({ kind, fits, out }) => (
        <section key={kind} aria-label={headings[kind]} data-items-of={kind}>
          <h4>{headings[kind]}</h4>
          {fits.length === 0 && <p>None fits.</p>}
          <ol className="springs-fits">
            {fits.map((row) => (
              <Fit key={row.item} row={row} doing={doings[kind]} />
            ))}
          </ol>
          {out.length > 0 && (
            <details open={fits.length === 0}>
              <summary>Kept out, and by what</summary>
              <ul className="springs-out">
                {out.map(({ item, name, because }) => (
                  <li key={item}>
                    <b>{name}</b>: {because}
                    {/[.!?]$/.test(because) ? '' : '.'}
                  </li>
                ))}
              </ul>
            </details>
          )}
        </section>
      ))}
      {summary?.groups.length === 0 && summary.notTried.length === 0 && (
        <p>There is no solenoid and no cable in this drawer.</p>
      )}
      {summary?.notTried.map((words) => (
        <p key={words} className="quiet">
          {words}
        </p>
      ))}
    </Part>
  );
}

function Fit({ row, doing }: { readonly row: ItemRow; readonly doing: string }) {
  const { name, place, words, least, toRead, verdict, changes } = row;
  return (
    <li>
      <Verdicted verdict={verdict} name={name} beside={place} />
      <ul className="springs-words">
        {words.map((said) => (
          <li key={said}>{said}.</li>
        ))}
      </ul>
      <p className="quiet">{least}.</p>
      {toRead.length > 0 && (
        <details>
          <summary>Readings of it to take first</summary>
          <ul className="paths">
            {toRead.map((path) => (
              <li key={path}>
                <FieldLink path={path} />
              </li>
            ))}
          </ul>
        </details>
      )}
      <Try name={`${doing} “${name}”`} changes={changes} />
    </li>
  );
}
