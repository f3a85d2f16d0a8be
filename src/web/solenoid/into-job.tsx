/**
 * Offers what was solved and measured here to the job: the force curve, the co-energy map, and dimensions that the job has
 * not got. All that is ticked goes in as one step that can be undone there.
 */
import { useState } from 'react';
import type { Change } from '../../job/change.ts';
import type { Job, Solenoid } from '../../job/schema.ts';
import type { SolenoidDocument } from '../../job/solenoid/schema.ts';
import type { SolvedMap } from '../../assessment/solenoid/map.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import { toSI } from '../../units/quantity.ts';
import { desk, useDesk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { useUnits } from '../show/units.ts';
import { amount } from '../show/words.ts';
import { useBench } from './bench.ts';
import { bodyIntoJob, bodyReadings, mapIntoJob, mapOf, turnsTyped, windingsToName, type Winding } from './job-map.ts';
import { intoJob, tablesOf } from './job-tables.ts';
import type { CurveForJob } from './outcome.ts';
import { leaveSolenoid } from './place.ts';
import { solver } from './solver.ts';
import type { Progress } from './worker.ts';

type Typed = Readonly<Partial<Record<Winding, string>>>;

export function IntoJob() {
  const outcome = useBench((state) => (state.solving.word === 'solved' ? state.outcome : null));
  const solenoid = useBench((state) => state.document);
  const means = useDesk((state) => state.document?.means ?? null);
  const [left, setLeft] = useState<readonly string[]>(['hold']);
  const [typed, setTyped] = useState<Typed>({});
  const [progress, setProgress] = useState<Progress | null>(null);
  const [done, setDone] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  if (outcome === null || solenoid === null) return null;
  if (means?.kind !== 'solenoid')
    return (
      <p className="quiet solenoid-into">
        The open job works by {means?.kind ?? 'nothing yet'}, which has no force curve.
      </p>
    );
  const { forJob: curves, turns } = outcome;
  const isTaken = (what: string): boolean => !left.includes(what);
  const take = (what: string, isWanted: boolean) =>
    setLeft(isWanted ? left.filter((one) => one !== what) : [...left, what]);
  const toName = windingsToName(means, turns);
  const hasTurns = toName.every((winding) => turnsTyped(typed[winding] ?? '') !== null);
  const body = bodyReadings(means, solenoid);
  const chosen = curves.filter(({ stage }) => isTaken(stage));
  const withMap = isTaken('map') && hasTurns;
  const withBody = isTaken('body') && body.length > 0;
  const use = async () => {
    setDone(null);
    setTrouble(null);
    const map = withMap ? await solved(solenoid, setProgress) : null;
    setProgress(null);
    if (typeof map === 'string') return setTrouble(map);
    const words = [
      ...chosen.map((curve) => curve.words),
      ...(map === null ? [] : ['co-energy map']),
      ...(withBody ? body.map((one) => one.words) : []),
    ].join(', ');
    const changes = (job: Job) => changesFor(job, chosen, map, typed, withBody ? solenoid : null);
    const before = desk().document;
    await propose({ name: `From the solenoid: ${words}`, changes });
    if (desk().document === before) setTrouble(desk().notice?.words ?? 'The job has all of it already.');
    else setDone(words);
  };
  return (
    <section className="solenoid-into" aria-label="Use this in the job">
      <h3>Use this in the job</h3>
      {curves.map((curve) => (
        <Offer
          key={curve.words}
          words={curve.words}
          note={curveNote(means, curve)}
          isTaken={isTaken(curve.stage)}
          take={(isWanted) => take(curve.stage, isWanted)}
        />
      ))}
      <Offer
        words="Co-energy map, for times and release"
        note={means.map === undefined ? 'solved when it is used' : 'takes the place of the map there'}
        isTaken={isTaken('map')}
        take={(isWanted) => take('map', isWanted)}
      />
      {isTaken('map') && <MapNeeds means={means} toName={toName} typed={typed} setTyped={setTyped} />}
      {body.length > 0 && (
        <Offer
          words={capital(body.map(({ words, text }) => `${words} ${text}`).join(', '))}
          note="not measured in the job yet"
          isTaken={isTaken('body')}
          take={(isWanted) => take('body', isWanted)}
        />
      )}
      <div className="solenoid-into-acts">
        <button
          type="button"
          className="strong"
          disabled={progress !== null || !(chosen.length > 0 || withMap || withBody)}
          onClick={() => void use()}
        >
          Use in the job
        </button>
        {progress !== null && <Solving {...progress} />}
        {trouble !== null && (
          <span role="status" className="field-error">
            {trouble}
          </span>
        )}
        {done !== null && (
          <span role="status" data-into="done">
            {capital(done)}: now in the job, as one step that can be undone there.{' '}
            <button type="button" className="small" onClick={leaveSolenoid}>
              Back to the job
            </button>
          </span>
        )}
      </div>
    </section>
  );
}

/** The map, or in words why there is none. */
async function solved(solenoid: SolenoidDocument, tell: (progress: Progress) => void): Promise<SolvedMap | string> {
  tell({ done: 0, all: 0 });
  const answer = await solver.map(solenoid, tell);
  if (answer === null) return 'Stopped: nothing was put into the job.';
  return answer.ok ? answer.map : `No map: ${answer.why}. Nothing was put into the job.`;
}

function changesFor(
  job: Job,
  curves: readonly CurveForJob[],
  solved_: SolvedMap | null,
  typed: Typed,
  solenoid: SolenoidDocument | null,
): readonly Change[] {
  if (job.means.kind !== 'solenoid') return [];
  const map = solved_ === null ? null : mapOf(job.means, solved_, typed);
  return [
    ...(curves.length > 0 ? intoJob(job, curves) : []),
    ...(map === null ? [] : mapIntoJob(job, map)),
    ...(solenoid === null ? [] : bodyIntoJob(job, solenoid)),
  ];
}

interface OfferProps {
  readonly words: string;
  readonly note: string;
  readonly isTaken: boolean;
  readonly take: (isWanted: boolean) => void;
}

function Offer({ words, note, isTaken, take }: OfferProps) {
  return (
    <label className="option">
      <input type="checkbox" checked={isTaken} onChange={({ target }) => take(target.checked)} />
      <span>
        {words} <span className="quiet">{note}</span>
      </span>
    </label>
  );
}

function curveNote(means: Solenoid, { stage }: CurveForJob): string {
  const { solved: there, read } = tablesOf(means, stage);
  const place = there > 0 ? 'takes the place of the solved table there' : 'a further table';
  if (read === 0) return place;
  return `${place}; ${read === 1 ? 'the table that was read stays' : `${read} tables that were read stay`}`;
}

interface MapNeedsProps {
  readonly means: Solenoid;
  readonly toName: readonly Winding[];
  readonly typed: Typed;
  readonly setTyped: (typed: Typed) => void;
}

/** Turns that the solve cannot know, and how far the map reaches. */
function MapNeeds({ means, toName, typed, setTyped }: MapNeedsProps) {
  const reach_mm = useBench((state) => state.stroke_mm);
  const units = useUnits((state) => state.units);
  const stroke = quantityIn(means.plunger.stroke, 'length');
  const isShort = stroke !== null && stroke.value > toSI(reach_mm, 'mm', 'length') * (1 + 1e-6);
  return (
    <div className="solenoid-into-map">
      {toName.length === 2 && (
        <p>
          The coil of the job has two windings, and one was solved: without the turns of both the map stays out of the
          job.
        </p>
      )}
      {toName.length === 1 && <p>The turns are not known: without them the map stays out of the job.</p>}
      <div className="solenoid-drive">
        {toName.map((winding) => {
          const text = typed[winding] ?? '';
          return (
            <label key={winding} className="field">
              {toName.length === 1 ? 'Turns of the coil' : `Turns of the ${winding} winding`}
              <input
                type="text"
                inputMode="numeric"
                autoComplete="off"
                value={text}
                aria-invalid={text !== '' && turnsTyped(text) === null}
                onChange={({ target }) => setTyped({ ...typed, [winding]: target.value })}
              />
            </label>
          );
        })}
      </div>
      {isShort && (
        <p>
          The plunger of the job moves {means.plunger.stroke}, this one {amount(reach_mm, 'mm', units)}: beyond that the
          map says nothing.
        </p>
      )}
    </div>
  );
}

function Solving({ done, all }: Progress) {
  return (
    <>
      <span role="status">Solving the map{all > 0 ? `: ${done} of ${all} gaps` : '…'}</span>
      <progress aria-label="Progress of the map" {...(all > 0 ? { max: all, value: done } : {})} />
      <button type="button" onClick={() => void solver.stop()}>
        Stop
      </button>
    </>
  );
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
