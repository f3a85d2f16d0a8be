/** "Time and heat": the first second after the switch, letting go, and how long the coil lasts. */
import { useEffect, useId, useRef } from 'react';
import type { TimeOutcome } from '../../assessment/time/picture.ts';
import { durationWords } from '../../sheets/time/time-words.ts';
import { FieldLink } from '../findings/field-link.tsx';
import { useUnits } from '../show/units.ts';
import { amount } from '../show/words.ts';
import { Measured } from './measured-part.tsx';
import { saveRun } from './save.ts';
import './time.css';
import { followDesk, setSheetWidth, show, stopStudy, studyAgain, useTimes } from './times.ts';
import type { ReleaseSummary, RunSummary } from './worker.ts';
import { useFitting, widthInto } from '../panels/fitting.ts';
import { Part } from '../panels/part.tsx';
import { SheetBox } from '../panels/sheet-box.tsx';

const fit = widthInto(setSheetWidth, 80);

export default function TimePanel() {
  const box = useRef<HTMLDivElement>(null);
  const summary = useTimes((state) => state.summary);
  useEffect(followDesk, []);
  useFitting(box, fit);
  return (
    <div className="time-panel" ref={box}>
      <Working />
      {summary !== null && !summary.isSolenoid && (
        <p>This job has no solenoid: a hand cable or a cylinder is not followed in time.</p>
      )}
      {summary !== null && summary.isSolenoid && <Parts />}
    </div>
  );
}

function Working() {
  const word = useTimes((state) => state.word);
  const trouble = useTimes((state) => state.trouble);
  const isFirst = useTimes((state) => state.summary === null);
  return (
    <div className="time-working" role="status" data-times={word}>
      {word === 'slow' && (
        <p>
          <progress aria-label="Being reckoned" /> Being reckoned…{' '}
          <button type="button" className="small" onClick={stopStudy}>
            Stop
          </button>
        </p>
      )}
      {word === 'working' && isFirst && <p className="quiet">One moment…</p>}
      {word === 'stopped' && (
        <p>
          Stopped.{isFirst ? '' : ' What is shown is from before the last change.'}{' '}
          <button type="button" className="small" onClick={studyAgain}>
            Reckon now
          </button>
        </p>
      )}
      {trouble !== null && <p className="field-error">This could not be reckoned: {trouble}</p>}
    </div>
  );
}

function Parts() {
  return (
    <>
      <PullIn />
      <Release />
      <Heat />
    </>
  );
}

const outcomes: Readonly<Record<TimeOutcome, (after: string) => string>> = {
  'comes home': (after) => `comes home${after}`,
  stalls: () => 'stalls short of home',
  'does not start': () => 'does not start',
  'drops out': (after) => `comes home${after} and drops out again`,
  'comes out': () => 'comes out',
  'stays at home': () => 'stays at home',
  'not finished': () => 'has not come to an end',
};

const runWords = ({ words, conditions, outcome, home_s }: RunSummary): string =>
  `${words} (${conditions}): ${outcomes[outcome](home_s === null ? '' : ` after ${durationWords(home_s)}`)}`;

function PullIn() {
  const summary = useTimes((state) => state.summary);
  const sheet = useTimes((state) => state.sheets?.pullIn ?? null);
  const only = useTimes((state) => state.only);
  if (summary === null) return null;
  const { runs, holdTime, missing } = summary;
  return (
    <Part heading="After switch-on">
      {runs.length === 0 ? (
        <Missing missing={missing} />
      ) : (
        <>
          <ul className="time-outcomes">
            {runs.map((run) => (
              <li key={run.name}>{sentence(runWords(run))}</li>
            ))}
          </ul>
          {holdTime !== null && (
            <p className="time-hold">
              {holdTime.words}{' '}
              <span className="quiet">
                Run-down of the engine {durationWords(holdTime.runDown_s)}
                {holdTime.isRunDownDefault ? ', a starting value' : ''}
                {holdTime.holds_s === null ? '' : `; the control holds for ${durationWords(holdTime.holds_s)}`}.
              </span>
            </p>
          )}
          <RunChoice runs={runs} only={only} />
        </>
      )}
      <SheetBox className="time-sheet time-sheet-pull-in" tree={sheet} />
      <Cautions of={runs.flatMap(({ cautions }) => cautions)} />
      {runs.length > 0 && (
        <div className="time-saves">
          {runs.map((run) => (
            <SaveButton key={run.name} run={run} />
          ))}
        </div>
      )}
      <Measured />
    </Part>
  );
}

function RunChoice({ runs, only }: { readonly runs: readonly RunSummary[]; readonly only: string | null }) {
  const group = useId();
  const options = [{ name: null, words: 'Both' }, ...runs.map(({ name, words }) => ({ name, words: sentence(words) }))];
  return (
    <fieldset className="options">
      <legend>Show</legend>
      <div className="options-row">
        {options.map(({ name, words }) => (
          <label key={words} className="option">
            <input type="radio" name={group} checked={name === only} onChange={() => show(name)} />
            {words}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function SaveButton({ run }: { readonly run: RunSummary }) {
  return (
    <button type="button" className="small" onClick={() => void saveRun(run.name)}>
      Save “{run.words}” as a table (CSV)
    </button>
  );
}

function Release() {
  const releases = useTimes((state) => state.summary?.releases ?? none);
  const sheet = useTimes((state) => state.sheets?.release ?? null);
  const units = useUnits((state) => state.units);
  if (releases.length === 0) return null;
  const volts = (value: number | null): string => (value === null ? 'not known' : amount(value, 'V', units));
  const time = (run: ReleaseSummary, seconds: number | null): string =>
    seconds === null ? (run.outcome === 'stays at home' ? 'stays' : 'not known') : durationWords(seconds);
  return (
    <Part heading="After switch-off">
      <div className="time-table">
        <table>
          <caption className="quiet">What lies across the coil, {releases[0]?.conditions}</caption>
          <thead>
            <tr>
              <th scope="col">Across the coil</th>
              <th scope="col">Leaves home</th>
              <th scope="col">At rest</th>
              <th scope="col">Peak at the coil</th>
              <th scope="col">Peak at the contact</th>
            </tr>
          </thead>
          <tbody>
            {releases.map((run) => (
              <tr key={run.name} className={run.isFitted ? 'is-fitted' : undefined}>
                <th scope="row">
                  {sentence(run.words)}
                  {run.isFitted && <b> · fitted</b>}
                </th>
                <td>{time(run, run.releaseTime_s)}</td>
                <td>{time(run, run.returnTime_s)}</td>
                <td>{volts(run.peakTerminal_V)}</td>
                <td>{volts(run.peakContact_V)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <SheetBox className="time-sheet time-sheet-release" tree={sheet} />
    </Part>
  );
}

function Heat() {
  const heat = useTimes((state) => state.summary?.heat ?? null);
  const sheet = useTimes((state) => state.sheets?.heat ?? null);
  if (heat === null) return null;
  return (
    <Part heading="Minutes to the class limit">
      {heat.isThere ? (
        <SheetBox className="time-sheet time-sheet-heat" tree={sheet} />
      ) : (
        <Missing missing={heat.missing} />
      )}
      <Cautions of={heat.cautions} />
    </Part>
  );
}

/** Sentences as they are, fields as ways to them. */
function Missing({ missing }: { readonly missing: readonly string[] }) {
  const paths = missing.filter((one) => !one.includes(' '));
  return (
    <div className="time-missing">
      {missing
        .filter((one) => one.includes(' '))
        .map((said) => (
          <p key={said}>{said}</p>
        ))}
      {paths.length > 0 && (
        <>
          <p>Not known yet. These readings would tell:</p>
          <ul className="paths">
            {paths.map((path) => (
              <li key={path}>
                <FieldLink path={path} />
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

function Cautions({ of }: { readonly of: readonly string[] }) {
  const once = [...new Set(of)];
  if (once.length === 0) return null;
  return (
    <ul className="time-cautions quiet">
      {once.map((said) => (
        <li key={said}>{said}</li>
      ))}
    </ul>
  );
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const none: readonly never[] = [];
