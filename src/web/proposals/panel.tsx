/** "Proposals": layouts that work, side by side as small drawings, with their margins and what each gives up. */
import { useLayoutEffect, useRef } from 'react';
import type { Margin, Offer, Proposals, SingleChange } from '../../proposal/search/search.ts';
import { useDesk } from '../desk/desk.ts';
import { propose, undo } from '../desk/proposals.ts';
import { showSheet } from '../drawings/sheet-view.ts';
import { useUnits } from '../show/units.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { marginWords, verdictWords } from '../show/words.ts';
import { searchNow, standing, stopSearch, tryOut, useProposed } from './proposed.ts';
import './proposals.css';
import type { Small } from './worker.ts';
import { Part } from '../panels/part.tsx';

export default function ProposalsPanel() {
  const word = useProposed((state) => state.word);
  const found = useProposed((state) => state.found);
  const document = useDesk((state) => state.document);
  useProposed((state) => state.tried);
  const isChanged = word === 'there' && standing(document) === 'changed';
  return (
    <div className="proposals-panel">
      <p>
        Looks for a place and direction of the bracket, a position on the hub, an arm hole, a connection, a return
        spring (drawn otherwise, from the drawer that lies beside this job, or to order) and a conductor with which
        everything holds, inside the space that the job allows.
      </p>
      <Working />
      {isChanged && (
        <p className="field-error" role="status">
          The job has been changed since the search. What is shown belongs to it as it was; search again.
        </p>
      )}
      {found !== null && !found.ok && <p role="status">{found.reason}</p>}
      {found !== null && found.ok && <FoundParts {...found} canTry={!isChanged} />}
    </div>
  );
}

function Working() {
  const word = useProposed((state) => state.word);
  const progress = useProposed((state) => state.progress);
  const trouble = useProposed((state) => state.trouble);
  const isSearching = word === 'searching' || word === 'stopping';
  return (
    <div className="proposals-working" role="status" data-proposals={word}>
      {!isSearching && (
        <button type="button" className="strong" onClick={() => void searchNow()}>
          {word === 'none' ? 'Search for layouts' : 'Search again'}
        </button>
      )}
      {isSearching && (
        <p>
          <progress aria-label="Search" value={progress?.share ?? 0} max={1} />{' '}
          {progress === null
            ? 'Beginning…'
            : `${millions(progress.lookedAt)} of ${millions(progress.toLookAt)} million combinations looked at`}{' '}
          <button type="button" className="small" disabled={word === 'stopping'} onClick={stopSearch}>
            Stop with the best so far
          </button>
        </p>
      )}
      {trouble !== null && <p className="field-error">This could not be searched: {trouble}</p>}
    </div>
  );
}

const millions = (count: number): string => (count / 1e6).toFixed(1);

interface FoundProps {
  readonly found: Proposals;
  readonly drawer: { readonly name: string; readonly springs: number } | null;
  readonly offers: readonly Small[];
  readonly nearest: Small | null;
  readonly canTry: boolean;
}

function FoundParts({ found, drawer, offers, nearest, canTry }: FoundProps) {
  return (
    <>
      {!found.finished && <p className="quiet">Stopped before the end: this is the best so far.</p>}
      <p className="quiet">
        {drawer === null
          ? 'No drawer lies beside this job: a drawer file, given under Springs, has its springs tried here too.'
          : `The ${drawer.springs} springs of “${drawer.name}” were tried too.`}
      </p>
      {found.closed !== null && <p className="proposals-closed">{found.closed.words}</p>}
      {offers.length > 0 && (
        <Part heading="Different answers">
          <div className="proposals-row">
            {offers.map((small, i) => (
              <Card key={small.offer.name} small={small} name={`proposal-${i + 1}`} canTry={canTry} />
            ))}
          </div>
        </Part>
      )}
      <Part heading="Nearest to what is there">
        {nearest === null ? (
          <p className="quiet">{found.noNearest}</p>
        ) : (
          <div className="proposals-row">
            <Card small={nearest} name="nearest" canTry={canTry} />
          </div>
        )}
      </Part>
      {found.singles.length > 0 && (
        <Part heading="Smallest single change for each finding that does not hold">
          {found.singles.map((single) => (
            <Single key={single.id} single={single} canTry={canTry} />
          ))}
        </Part>
      )}
      {found.untouched.length > 0 && (
        <Part heading="No layout changes these">
          <Margins of={found.untouched} />
        </Part>
      )}
      {found.assumed.length > 0 && (
        <details>
          <summary>Taken where the job states no limit</summary>
          <ul className="proposals-list">
            {found.assumed.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <p className="quiet">
            What stands in the way is held against straight bars as thick as the parts are drawn, in the plane of the
            lever: an approximation. Try the fit on the engine before anything is drilled.
          </p>
        </details>
      )}
    </>
  );
}

function Card({ small, name, canTry }: { readonly small: Small; readonly name: string; readonly canTry: boolean }) {
  const { offer } = small;
  const tried = useProposed((state) => state.tried);
  const document = useDesk((state) => state.document);
  const isTried = tried === offer && standing(document) === 'tried';
  const host = useRef<HTMLDivElement>(null);
  const { sheet } = small;
  useLayoutEffect(() => {
    if (host.current !== null) showSheet(host.current, sheet);
  }, [sheet]);
  return (
    <article className="proposal-card" data-proposal={name} aria-label={offer.name}>
      <div className="proposal-sheet" ref={host} />
      <h4>
        <VerdictMark verdict={offer.verdict} size={22} /> {offer.name}
        <span className="quiet"> {verdictWords[offer.verdict]}</span>
      </h4>
      {offer.value !== null && offer.deciding !== null && (
        <p>
          Smallest margin {offer.value.toFixed(2)} times what is wanted: {offer.deciding.title}. Work: {offer.cost}{' '}
          points.
        </p>
      )}
      <ul className="proposals-list">
        {offer.words.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {offer.order !== null && (
        <details>
          <summary>What the spring-maker must be told</summary>
          <table className="proposal-order">
            <tbody>
              {offer.order.map(([row, words]) => (
                <tr key={row}>
                  <th scope="row">{row}</th>
                  <td>{words}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
      <GivesUp offer={offer} />
      {isTried ? (
        <p>
          On the drawing now.{' '}
          <button type="button" onClick={() => void undo()}>
            Undo
          </button>
        </p>
      ) : (
        <button type="button" disabled={!canTry} onClick={() => void tryOut(offer)}>
          Try it
        </button>
      )}
      <details>
        <summary>All margins</summary>
        <Margins of={offer.margins} />
      </details>
    </article>
  );
}

function GivesUp({ offer: { givesUp } }: { readonly offer: Offer }) {
  const worse = givesUp.filter(({ to }) => to.verdict !== 'holds');
  const less = givesUp.filter(({ to }) => to.verdict === 'holds');
  return (
    <>
      {worse.map(({ id, title, to }) => (
        <p key={id} className="field-error">
          Gives up: {title}, then {verdictWords[to.verdict].toLowerCase()}.
        </p>
      ))}
      {less.length > 0 && (
        <details>
          <summary>{less.length === 1 ? 'One finding' : `${less.length} findings`} with less to spare than now</summary>
          <ul className="proposals-list">
            {less.map(({ id, title }) => (
              <li key={id}>{title}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function Margins({ of }: { readonly of: readonly Margin[] }) {
  const units = useUnits((state) => state.units);
  return (
    <ul className="proposals-margins">
      {of.map((one) => (
        <li key={one.id}>
          <VerdictMark verdict={one.verdict} size={18} />
          <span>
            {one.title} <span className="quiet">{marginWords(one, units) || verdictWords[one.verdict]}</span>
          </span>
        </li>
      ))}
    </ul>
  );
}

function Single({ single, canTry }: { readonly single: SingleChange; readonly canTry: boolean }) {
  const { title, verdict, words, changes, worsens } = single;
  const harm = worsens.filter(({ to }) => to.verdict !== 'holds');
  return (
    <div className="remedy">
      <p>
        <VerdictMark verdict={verdict} size={18} /> {title}
      </p>
      {words === null ? (
        <p className="quiet">None of the changes that are known mends it alone.</p>
      ) : (
        <>
          <p className="remedy-words">{words}</p>
          {harm.map((one) => (
            <p key={one.id} className="quiet">
              But {one.title}: then {verdictWords[one.to.verdict].toLowerCase()}.
            </p>
          ))}
          <button type="button" disabled={!canTry} onClick={() => void propose({ name: words, changes })}>
            Try it
          </button>
        </>
      )}
    </div>
  );
}
