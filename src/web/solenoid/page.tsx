/** The solenoid's own page: its dimensions by typing, beside them the cutaway and the field, below them the curves. */
import { useEffect, useRef, useState } from 'react';
import { CAUTION } from '../../assessment/finding.ts';
import type { SolenoidDocument } from '../../job/solenoid/schema.ts';
import { useDesk } from '../desk/desk.ts';
import { Fields } from '../fields/field.tsx';
import { HolderOfFields } from '../fields/holder.ts';
import type { Form } from '../reckoning/form.ts';
import { followBench, solve, stop } from './at-work.ts';
import { benchHolder } from './bench-holder.ts';
import { proposeOnBench, putOnBench, redoOnBench, undoOnBench, useBench } from './bench.ts';
import { DriveFields } from './drive-fields.tsx';
import { IntoJob } from './into-job.tsx';
import { keep, keepChanges, openSolenoid, saveAsFile, takeTheirs } from './keeping.ts';
import { CurvePicture, Cutaway, FieldPicture } from './pictures.tsx';
import { leaveSolenoid } from './place.ts';
import { Facts, SaidWords } from './results.tsx';
import { solver } from './solver.ts';
import './solenoid.css';

export default function SolenoidPage() {
  const job = useDesk((state) => state.job?.id ?? null);
  const isDemo = useDesk((state) => state.job?.demo === 'railcar');
  const document_ = useBench((state) => state.document);
  const [form, setForm] = useState<Form | null>(null);
  useEffect(() => {
    solver.begin();
    void solver.form().then(setForm);
  }, []);
  useEffect(() => {
    if (job === null) return;
    void openSolenoid(job, isDemo);
  }, [job, isDemo]);
  useEffect(() => keepChanges(), []);
  useEffect(() => followBench(), []);
  useUndoKeys();
  return (
    <main className="solenoid-page">
      <Bar />
      <section className="solenoid-fields" aria-label="Dimensions and readings">
        {form?.kind === 'group' && document_ !== null ? (
          <div className="fields">
            <HolderOfFields value={benchHolder}>
              <Fields path="" fields={form.fields.filter(({ key }) => key !== 'format' && key !== 'version')} />
            </HolderOfFields>
          </div>
        ) : (
          <p className="quiet" role="status">
            Laying out the fields…
          </p>
        )}
      </section>
      <Cutaway />
      <section className="solenoid-results" aria-label="Field and curves">
        <SolveStatus />
        <FieldPicture />
        <DriveFields />
        <CurvePicture />
        <SaidWords />
        <Facts />
        <IntoJob />
        <p className="caution">{CAUTION}</p>
      </section>
    </main>
  );
}

function Bar() {
  const before = useBench((state) => state.steps.list[state.steps.done - 1]?.name ?? null);
  const after = useBench((state) => state.steps.list[state.steps.done]?.name ?? null);
  const name = useDesk((state) => state.document?.name ?? '');
  const notice = useBench((state) => state.notice);
  return (
    <div className="solenoid-bar">
      <button type="button" onClick={leaveSolenoid}>
        ← Back to the job
      </button>
      <h2>
        Solenoid from its dimensions <span className="quiet">{name}</span>
      </h2>
      <KeptWord />
      <span className="strip-space" />
      <span className="solenoid-steps">
        <button
          type="button"
          disabled={before === null}
          title={before === null ? 'Nothing to undo' : `Undo: ${before}`}
          onClick={() => void undoOnBench()}
        >
          <span aria-hidden="true">↶</span> Undo
        </button>
        <button
          type="button"
          disabled={after === null}
          title={after === null ? 'Nothing to do again' : `Redo: ${after}`}
          onClick={() => void redoOnBench()}
        >
          <span aria-hidden="true">↷</span> Redo
        </button>
      </span>
      <FileButtons />
      {notice !== null && (
        <p className="solenoid-notice" role="status">
          {notice}{' '}
          <button type="button" className="small" onClick={() => putOnBench({ notice: null })}>
            Close
          </button>
        </p>
      )}
    </div>
  );
}

const signs = { kept: '✓', keeping: '…', 'NOT kept': '✕' } as const;

function KeptWord() {
  const kept = useBench((state) => state.kept);
  const drafts = useBench((state) => Object.keys(state.drafts).length);
  return (
    <div className={`keeping keeping-${kept.word.replace(' ', '-')}`} role="status" data-solenoid-kept={kept.word}>
      <b>
        <span aria-hidden="true">{signs[kept.word]}</span> {kept.word}
      </b>
      {drafts > 0 && <span> · {drafts === 1 ? '1 field is not' : `${drafts} fields are not`}</span>}
      {kept.word === 'NOT kept' && (
        <span className="keeping-why">
          {' '}
          {kept.why}{' '}
          {kept.isElsewhere ? (
            <>
              <button type="button" className="small" onClick={() => void takeTheirs()}>
                Take that one
              </button>{' '}
              <button type="button" className="small" onClick={() => void keep(true)}>
                Keep this one
              </button>
            </>
          ) : (
            <button type="button" className="small" onClick={() => void keep()}>
              Try now
            </button>
          )}
        </span>
      )}
    </div>
  );
}

/** Puts another solenoid in place of this one, as one step. */
function replaceAll(next: SolenoidDocument, name: string): Promise<void> {
  return proposeOnBench({
    name,
    changes: (document) =>
      (Object.keys(next) as (keyof SolenoidDocument)[]).map((path) => ({ path, from: document[path], to: next[path] })),
  });
}

const takeExample = (example: SolenoidDocument): Promise<void> => replaceAll(example, 'Example taken: railcar');

function FileButtons() {
  const input = useRef<HTMLInputElement>(null);
  const document_ = useBench((state) => state.document);
  const take = async (file: File) => {
    const reading = await solver.readText(await file.text());
    if (!reading.ok) {
      const [first] = reading.problems;
      putOnBench({
        notice: `${file.name} was not taken: ${first?.path ?? ''} ${first?.problem ?? ''}. Nothing has changed.`,
      });
      return;
    }
    await replaceAll(reading.document, `Taken from ${file.name}`);
  };
  return (
    <span className="solenoid-files">
      <button type="button" onClick={() => void solver.example().then(takeExample)}>
        Example
      </button>
      <button type="button" onClick={() => input.current?.click()}>
        From a file
      </button>
      <input
        ref={input}
        className="hidden-input"
        type="file"
        accept=".json,application/json"
        aria-label="Solenoid file"
        tabIndex={-1}
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file !== undefined) void take(file);
        }}
      />
      <button type="button" disabled={document_ === null} onClick={() => document_ !== null && saveAsFile(document_)}>
        To a file
      </button>
    </span>
  );
}

/** How far the solve is, and the way to stop it. */
function SolveStatus() {
  const solving = useBench((state) => state.solving);
  const isCoarse = useBench((state) => state.outcome?.isCoarse ?? false);
  const isThere = useBench((state) => state.outcome !== null);
  return (
    <div className="solenoid-status" data-solving={solving.word}>
      <div className="solenoid-status-words" role="status">
        {solving.word === 'waiting' && 'Solving begins when nothing more is typed.'}
        {solving.word === 'solving'
          && `Solving the field${solving.all > 0 ? `: ${solving.done} of ${solving.all} gaps` : '…'}`}
        {solving.word === 'solved'
          && (solving.isFromCache
            ? 'Solved before: nothing was calculated again.'
            : `Solved in ${solving.seconds.toFixed(1)} s.`)}
        {solving.word === 'stopped' && `Stopped.${isThere && isCoarse ? ' The curve shown is a coarse one.' : ''}`}
        {solving.word === 'failed' && (
          <>
            <b>No curve.</b> {solving.why.charAt(0).toUpperCase() + solving.why.slice(1)}.
          </>
        )}
      </div>
      {solving.word === 'solving' && (
        <>
          <progress
            aria-label="Progress of the solve"
            {...(solving.all > 0 ? { max: solving.all, value: solving.done } : {})}
          />
          <button type="button" onClick={stop}>
            Stop
          </button>
        </>
      )}
      {(solving.word === 'stopped' || solving.word === 'failed') && (
        <button type="button" onClick={() => void solve()}>
          Solve
        </button>
      )}
    </div>
  );
}

/** While this page is open, undo and redo are those of the solenoid. */
function useUndoKeys(): void {
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.altKey || !(event.ctrlKey || event.metaKey)) return;
      const key = event.key.toLowerCase();
      const isUndo = key === 'z' && !event.shiftKey;
      const isRedo = (key === 'z' && event.shiftKey) || key === 'y';
      if (!isUndo && !isRedo) return;
      event.stopPropagation();
      if (event.target instanceof HTMLElement && event.target.dataset['draft'] === 'yes') return;
      event.preventDefault();
      void (isUndo ? undoOnBench() : redoOnBench());
    };
    window.addEventListener('keydown', listen, { capture: true });
    return () => window.removeEventListener('keydown', listen, { capture: true });
  }, []);
}
