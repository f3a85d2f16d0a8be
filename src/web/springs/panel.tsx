/** "Springs": the window of the return spring, what fits of the drawer, and a spring to order. */
import { useEffect, useRef } from 'react';
import { FieldLink } from '../findings/field-link.tsx';
import { DrawerFile } from './drawer-file.tsx';
import { Items } from './items.tsx';
import { Try, Verdicted } from './parts.tsx';
import { Part } from '../panels/part.tsx';
import './springs.css';
import { again, followDesk, orderOne, setSheetWidth, stop, useSprings } from './springs.ts';
import { useFitting, widthInto } from '../panels/fitting.ts';
import { useSheet } from '../panels/sheet-box.tsx';

const fit = widthInto(setSheetWidth, 80);

export default function SpringsPanel() {
  const box = useRef<HTMLDivElement>(null);
  const window = useSprings((state) => state.window);
  const trouble = useSprings((state) => state.trouble);
  useEffect(followDesk, []);
  useFitting(box, fit);
  return (
    <div className="springs-panel" ref={box} data-springs={window === null ? 'working' : 'there'}>
      {trouble !== null && <p className="field-error">This could not be reckoned: {trouble}</p>}
      {window === null && trouble === null && (
        <p role="status" className="quiet">
          One moment…
        </p>
      )}
      {window !== null && !window.isSolenoid && (
        <>
          <p>This job has no solenoid: no pull is known that a return spring could be held against.</p>
          <Part heading="The drawer">
            <DrawerFile />
          </Part>
          <Items />
        </>
      )}
      {window !== null && window.isSolenoid && (
        <>
          <Window />
          <Drawer />
          <Items />
          <Order />
        </>
      )}
    </div>
  );
}

function Window() {
  const window = useSprings((state) => state.window)!;
  const sheet = useSprings((state) => state.sheet);
  const openedBy = useSprings((state) => state.openedBy) ?? [];
  const host = useSheet(sheet);
  return (
    <Part heading={window.spring === null ? 'The window' : `The window of “${window.spring}”`}>
      {window.sentences.map((said) => (
        <p key={said}>{said}</p>
      ))}
      {window.missing.length > 0 && (
        <ul className="paths">
          {window.missing.map((path) => (
            <li key={path}>
              <FieldLink path={path} />
            </li>
          ))}
        </ul>
      )}
      <div className="springs-sheet" ref={host} hidden={sheet === null} />
      {openedBy.length > 0 && (
        <div className="springs-opening">
          <h4>Would open it</h4>
          <ul>
            {openedBy.map(({ words, changes }) => (
              <li key={words}>
                {words} <Try name={words} changes={changes} />
              </li>
            ))}
          </ul>
        </div>
      )}
      {window.floor.length > 0 && (
        <details>
          <summary>What moves either edge</summary>
          <h4>Floor</h4>
          <List of={window.floor} />
          <h4>Ceiling</h4>
          <List of={window.ceiling} />
        </details>
      )}
    </Part>
  );
}

function List({ of }: { readonly of: readonly string[] }) {
  return (
    <ul>
      {of.map((said) => (
        <li key={said}>{said}</li>
      ))}
    </ul>
  );
}

function Drawer() {
  const fitting = useSprings((state) => state.fitting);
  return (
    <Part heading="Springs at hand">
      <DrawerFile />
      {fitting !== null && (
        <div role="status" data-fitting={fitting.word}>
          {fitting.word === 'working' && (
            <p>
              <progress aria-label="Springs tried" value={fitting.share} /> {fitting.progress || 'Being tried…'}{' '}
              <button type="button" className="small" onClick={stop}>
                Stop
              </button>
            </p>
          )}
          {fitting.word === 'stopped' && (
            <p>
              Stopped. What was found until then stands here.{' '}
              <button type="button" className="small" onClick={again}>
                Try all of them
              </button>
            </p>
          )}
        </div>
      )}
      <Fits />
    </Part>
  );
}

function Fits() {
  const summary = useSprings((state) => state.fitting?.summary ?? null);
  if (summary === null) return null;
  const { fits, moreFits, out, moreOut, springs, screened, isComplete } = summary;
  return (
    <>
      <p>
        {isComplete ? `${springs} springs, each tried in every mount.` : `${screened} of ${springs} springs tried.`}
        {fits.length === 0 ? (springs === 0 ? ' There is nothing in this drawer.' : ' None fits.') : ''}
      </p>
      <ol className="springs-fits">
        {fits.map(({ spring, name, place, mount, least, verdict, worsens, changes }) => (
          <li key={spring}>
            <Verdicted verdict={verdict} name={name} beside={place} />
            <p>{mount}.</p>
            <p className="quiet">{least}.</p>
            {worsens.map((said) => (
              <p key={said} className="springs-worse">
                Worse: {said}.
              </p>
            ))}
            <Try name={`Fit the spring “${name}”`} changes={changes} />
          </li>
        ))}
      </ol>
      {moreFits > 0 && <p className="quiet">And {moreFits} more that fit.</p>}
      {out.length > 0 && (
        <details>
          <summary>Kept out, and by what</summary>
          <ul className="springs-out">
            {out.map(({ spring, name, because }) => (
              <li key={spring}>
                <b>{name}</b>: {because}.
              </li>
            ))}
          </ul>
          {moreOut > 0 && <p className="quiet">And {moreOut} more.</p>}
        </details>
      )}
    </>
  );
}

function Order() {
  const order = useSprings((state) => state.order);
  return (
    <Part heading="A spring to order">
      {order === null && (
        <p>
          <button type="button" onClick={() => void orderOne()}>
            Reckon a spring to order
          </button>
        </p>
      )}
      {order?.word === 'working' && (
        <p role="status">
          <progress aria-label="Being reckoned" /> Being reckoned…{' '}
          <button type="button" className="small" onClick={stop}>
            Stop
          </button>
        </p>
      )}
      {(order?.summary?.closed ?? null) !== null && <p>{order?.summary?.closed}</p>}
      {order?.summary?.offers.map(({ rows, mount, least, verdict, worsens, changes }, i) => (
        <article key={mount + String(i)} className="springs-offer">
          <Verdicted verdict={verdict} name={i === 0 ? 'The best' : `Another, ${i + 1}`} beside="" />
          <p>{mount}.</p>
          <p className="quiet">{least}.</p>
          {worsens.map((said) => (
            <p key={said} className="springs-worse">
              Worse: {said}.
            </p>
          ))}
          <table>
            <caption className="quiet">Specification for the spring-maker</caption>
            <tbody>
              {rows.map(([name, words]) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td>{words}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <Try name="Fit the spring to order" changes={changes} />
        </article>
      ))}
    </Part>
  );
}
