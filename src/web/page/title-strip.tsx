/** Along the top: which job this is, whether it is kept, undo and redo, and how things are shown. */
import type { JobEntry } from '../../job/exchange.ts';
import { put, useDesk, type Panel } from '../desk/desk.ts';
import { flush } from '../desk/open-job.ts';
import { redo, undo } from '../desk/proposals.ts';
import type { Keeping } from '../keeping/keeper.ts';
import { cableOf } from '../route/cable.ts';
import { SOLENOID_PLACE } from '../solenoid/place.ts';
import { ShowMenu } from './show-menu.tsx';

export function TitleStrip() {
  const name = useDesk((state) => state.document?.name ?? state.job?.name ?? '');
  const isDemo = useDesk((state) => isUntouchedDemo(state.job));
  const hasRoute = useDesk(({ document }) => document !== null && cableOf(document) !== null);
  return (
    <header className="title-strip">
      <h1 className="brand">Stopwright</h1>
      <button type="button" className="job-button" aria-haspopup="dialog" onClick={() => put({ isJobListOpen: true })}>
        <span className="job-button-name">{name === '' ? 'Jobs' : name}</span>
        <span className="quiet">{isDemo ? 'Demo · all jobs' : 'All jobs'}</span>
      </button>
      <KeepingWord />
      <span className="strip-space" />
      <a className="button" href={SOLENOID_PLACE}>
        Solenoid
      </a>
      <ShowMenu />
      <button
        type="button"
        className="strong new-job"
        onClick={() => void import('../jobs/acts.ts').then(({ newJob }) => newJob())}
      >
        {isDemo ? 'Start your own job' : 'New job'}
      </button>
      <div className="thumb-bar">
        <nav className="panel-buttons" aria-label="Go to">
          <PanelButton panel="findings" words="Findings" />
          <PanelButton panel="survey" words="Survey" />
          <PanelButton panel="means" words="Means" />
          {hasRoute && <PanelButton panel="route" words="Route" />}
          <PanelButton panel="circuit" words="Circuit" />
          <PanelButton panel="time" words="Time" />
          <PanelButton panel="versions" words="Versions" />
        </nav>
        <StepButtons />
      </div>
    </header>
  );
}

function PanelButton({ panel, words }: { readonly panel: Panel; readonly words: string }) {
  return (
    <button
      type="button"
      onClick={() => {
        put({ panel });
        requestAnimationFrame(() => document.getElementById('side')?.scrollIntoView({ block: 'start' }));
      }}
    >
      {words}
    </button>
  );
}

function StepButtons() {
  const before = useDesk((state) => state.steps.list[state.steps.done - 1]?.name ?? null);
  const after = useDesk((state) => state.steps.list[state.steps.done]?.name ?? null);
  return (
    <span className="step-buttons">
      <button
        type="button"
        disabled={before === null}
        title={before === null ? 'Nothing to undo' : `Undo: ${before}`}
        onClick={() => void undo()}
      >
        <span aria-hidden="true">↶</span> <span className="step-word">Undo</span>
      </button>
      <button
        type="button"
        disabled={after === null}
        title={after === null ? 'Nothing to do again' : `Redo: ${after}`}
        onClick={() => void redo()}
      >
        <span aria-hidden="true">↷</span> <span className="step-word">Redo</span>
      </button>
    </span>
  );
}

const signs: Readonly<Record<Keeping['word'], string>> = { kept: '✓', keeping: '…', 'NOT kept': '✕' };

function KeepingWord() {
  const keeping = useDesk((state) => state.keeping);
  const drafts = useDesk((state) => Object.keys(state.drafts).length);
  return (
    <div
      className={`keeping keeping-${keeping.word.replace(' ', '-')}`}
      role="status"
      aria-live={keeping.word === 'NOT kept' ? 'assertive' : 'off'}
      data-keeping={keeping.word}
    >
      <b>
        <span aria-hidden="true">{signs[keeping.word]}</span> {keeping.word}
      </b>
      {drafts > 0 && <span> · {drafts === 1 ? '1 field is not' : `${drafts} fields are not`}</span>}
      {keeping.word === 'NOT kept' && (
        <span className="keeping-why">
          {' '}
          {keeping.trouble.what} {keeping.trouble.safe} {keeping.trouble.next}{' '}
          <button type="button" className="small" onClick={() => void flush()}>
            Try now
          </button>
        </span>
      )}
    </div>
  );
}

function isUntouchedDemo(job: JobEntry | null): boolean {
  return job !== null && job.demo !== null && job.revisionCount === 1;
}
