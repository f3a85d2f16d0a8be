/** "Spread": how sure the findings are on real parts, what matters, and what to measure better or hold tighter. */
import { useEffect, useId, useRef, useState } from 'react';
import { FieldLink } from '../findings/field-link.tsx';
import './spread.css';
import { followDesk, setSheetWidth, stopStudy, studyWhole, useSpreads } from './spreads.ts';
import type { SpreadView } from './view.ts';
import { useFitting, widthInto } from '../panels/fitting.ts';
import { Part } from '../panels/part.tsx';
import { SheetBox } from '../panels/sheet-box.tsx';

const fit = widthInto(setSheetWidth, 80);

export default function SpreadPanel() {
  const box = useRef<HTMLDivElement>(null);
  const view = useSpreads((state) => state.view);
  useEffect(followDesk, []);
  useFitting(box, fit);
  return (
    <div className="spread-panel" ref={box}>
      <Working />
      {view !== null && view.problems.length > 0 && <Problems view={view} />}
      {view !== null && view.problems.length === 0 && <Parts view={view} />}
    </div>
  );
}

const choices = [8192, 32_768, 131_072] as const;

function Working() {
  const word = useSpreads((state) => state.word);
  const progress = useSpreads((state) => state.progress);
  const trouble = useSpreads((state) => state.trouble);
  const [draws, setDraws] = useState<number>(choices[0]);
  const id = useId();
  return (
    <div className="spread-working" data-spread={word}>
      {word === 'studying' ? (
        <p role="status">
          <progress aria-label="Study" max={progress?.of ?? 1} value={progress?.done ?? 0} />{' '}
          {progress === null ? 'beginning' : progress.stage}…{' '}
          <button type="button" className="small" onClick={stopStudy}>
            Stop
          </button>
        </p>
      ) : (
        <p>
          <label htmlFor={id}>Draws</label>{' '}
          <select id={id} value={draws} onChange={(event) => setDraws(Number(event.target.value))}>
            {choices.map((one) => (
              <option key={one} value={one}>
                {one.toLocaleString('en')}
              </option>
            ))}
          </select>{' '}
          <button type="button" className="strong" onClick={() => void studyWhole(draws)}>
            Study it thoroughly
          </button>
        </p>
      )}
      {word === 'working' && (
        <p role="status" className="quiet">
          Being drawn…
        </p>
      )}
      {word === 'stopped' && <p role="status">Stopped. What is shown is what was known by then.</p>}
      {trouble !== null && <p className="field-error">This could not be reckoned: {trouble}</p>}
    </div>
  );
}

function Problems({ view }: { readonly view: SpreadView }) {
  return (
    <ul className="spread-list">
      {view.problems.map(({ path, problem }) => (
        <li key={`${path} ${problem}`}>
          {path === '' || path === 'means.kind' ? null : (
            <>
              <FieldLink path={path} />
              {': '}
            </>
          )}
          {problem}.
        </li>
      ))}
    </ul>
  );
}

function Parts({ view }: { readonly view: SpreadView }) {
  const { written, byInstrument, exact } = view.quantities;
  const isFollowing = useSpreads((state) => state.word === 'following');
  return (
    <>
      <Part heading="Chance that it">
        <dl className="spread-chances">
          {view.chances.map(({ name, words, chance }) => (
            <div key={name}>
              <dt>{words}</dt>
              <dd>{chance}</dd>
            </div>
          ))}
        </dl>
        <p className="quiet">
          {view.draws.toLocaleString('en')} draws{view.draws < view.asked ? ' so far' : ''}. {written} quantities with
          their ± as written, {byInstrument} by what their usual instrument may be off, {exact} taken as exact.
        </p>
      </Part>
      <Part heading="Findings at risk">
        {view.atRisk.length === 0 ? (
          <p>None: all {view.held} findings hold in every draw.</p>
        ) : (
          <>
            <ul className="spread-list">
              {view.atRisk.map(({ id, title, words }) => (
                <li key={id}>
                  <b>{title}</b>: {words}
                </li>
              ))}
            </ul>
            <p className="quiet">The other {view.held} hold in every draw.</p>
          </>
        )}
        {view.notKnown.length > 0 && <Unknown view={view} />}
        <SheetBox className="spread-sheet" tree={view.histograms} />
        <p className="quiet">
          Thick red line: below it the finding fails. Broken line: the margin that is wanted. Long-dashed: as written.
          Bar below: 95 % of the draws.
        </p>
      </Part>
      <Part heading="What matters">
        {isFollowing && <p className="quiet">Weighed as soon as nothing moves.</p>}
        {view.influences.map((sheet, i) => (
          <SheetBox key={i} className="spread-sheet" tree={sheet} />
        ))}
      </Part>
      {view.tightening.length > 0 && (
        <Part heading="What would bring the chance of failing below 1 %">
          {view.tightening.map(({ title, lines }) => (
            <div key={title}>
              <p>
                <b>{title}</b>
              </p>
              <ul className="spread-list">
                {lines.map((said) => (
                  <li key={said}>{said}</li>
                ))}
              </ul>
            </div>
          ))}
          <p className="quiet">
            Found by drawing anew each time, for the case that a better reading shows the same value.
          </p>
        </Part>
      )}
      <ul className="spread-list quiet">
        {view.remarks.map((said) => (
          <li key={said}>{said}</li>
        ))}
      </ul>
    </>
  );
}

function Unknown({ view }: { readonly view: SpreadView }) {
  return (
    <ul className="spread-list">
      {view.notKnown.map(({ title, missing }) => (
        <li key={title}>
          <b>{title}</b>: not known{missing.length > 0 ? '. Take ' : '.'}
          {missing.map((path, i) => (
            <span key={path}>
              {i > 0 ? ', ' : ''}
              <FieldLink path={path} />
            </span>
          ))}
        </li>
      ))}
    </ul>
  );
}
