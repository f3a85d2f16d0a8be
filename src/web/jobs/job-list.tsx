/** The jobs on this machine: new, open, copy, rename, delete with undo, import, export, and the demos. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { DemosAnswer, JobEntry } from '../../job/exchange.ts';
import { put, say, useDesk } from '../desk/desk.ts';
import { openJob } from '../desk/come-and-go.ts';
import { api, NotDone, type Trouble } from '../keeping/api.ts';
import { TroubleWords } from '../show/trouble.tsx';
import { copyJob, newJob, renameJob } from './acts.ts';

export default function JobList() {
  const dialog = useRef<HTMLDialogElement>(null);
  const open = useDesk((state) => state.job?.id ?? null);
  const [jobs, setJobs] = useState<readonly JobEntry[] | null>(null);
  const [demos, setDemos] = useState<DemosAnswer['demos']>([]);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [renaming, setRenaming] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);

  const close = () => put({ isJobListOpen: false });
  const refresh = useCallback(async () => {
    setJobs((await api.jobs()).jobs);
    setDemos((await api.demos()).demos);
  }, []);
  /** Does one thing, and says what went wrong where it does. */
  const act = async (work: () => Promise<unknown>) => {
    setBusy(true);
    setTrouble(null);
    try {
      await work();
      await refresh();
    } catch (error) {
      if (!(error instanceof NotDone)) throw error;
      setTrouble(error.trouble);
    } finally {
      setBusy(false);
    }
  };
  const show = (id: string) =>
    act(async () => {
      await openJob(id);
      close();
    });
  useEffect(() => {
    if (dialog.current?.open !== true) dialog.current?.showModal();
    void act(() => Promise.resolve());
    // Once, when the list opens.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, []);

  const there = jobs?.filter(({ deletedAt }) => deletedAt === null) ?? [];
  const deleted = jobs?.filter(({ deletedAt }) => deletedAt !== null) ?? [];
  const remove = (job: JobEntry) =>
    act(async () => {
      await api.change(job.id, { deleted: true });
      say({
        words: `“${job.name}” deleted.`,
        act: {
          words: 'Undo',
          run: () => void api.change(job.id, { deleted: false }).then(() => say({ words: `“${job.name}” is back.` })),
        },
      });
    });

  return (
    <dialog ref={dialog} className="jobs" aria-labelledby="jobs-title" onClose={close}>
      <div className="dialog-head">
        <h2 id="jobs-title">Jobs on this machine</h2>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </div>
      {trouble !== null && <TroubleWords trouble={trouble} />}
      <div className="jobs-new">
        <button
          type="button"
          className="strong"
          disabled={isBusy}
          onClick={() =>
            void act(async () => {
              await newJob();
              close();
            })
          }
        >
          New job
        </button>
        <label className="button">
          Import a file
          <input
            type="file"
            accept=".json,application/json"
            className="hidden-input"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = '';
              if (file !== undefined)
                void act(async () => {
                  await openJob((await api.importFile(await file.text())).job.id);
                  close();
                });
            }}
          />
        </label>
      </div>
      {jobs === null && trouble === null && <p role="status">Looking them up…</p>}
      <ul className="job-list">
        {there.map((job) => (
          <li key={job.id} className={job.id === open ? 'job is-open' : 'job'}>
            {renaming === job.id ? (
              <RenameForm
                name={job.name}
                cancel={() => setRenaming(null)}
                rename={(name) => {
                  setRenaming(null);
                  void act(() => renameJob(job, name));
                }}
              />
            ) : (
              <button type="button" className="job-name" onClick={() => void show(job.id)}>
                <b>{job.name}</b>
                <span className="quiet">
                  {job.id === open ? 'On the screen · ' : ''}
                  {job.demo === null ? '' : 'Demo · '}
                  {when(job.changedAt)} · {job.revisionCount === 1 ? '1 version' : `${job.revisionCount} versions`}
                  {job.branchCount > 0 && ` · ${job.branchCount + 1} to merge`}
                </span>
              </button>
            )}
            <span className="job-acts">
              <button
                type="button"
                className="small"
                aria-label={`Rename ${job.name}`}
                onClick={() => setRenaming(job.id)}
              >
                Rename
              </button>
              <button
                type="button"
                className="small"
                aria-label={`Copy ${job.name}`}
                onClick={() => void act(() => copyJob(job.id))}
              >
                Copy
              </button>
              <a
                className="button small"
                href={api.exportAddress(job.id)}
                download
                aria-label={`Export ${job.name} as a file`}
              >
                Export
              </a>
              <button
                type="button"
                className="small"
                aria-label={`Delete ${job.name}`}
                onClick={() => void remove(job)}
              >
                Delete
              </button>
            </span>
          </li>
        ))}
      </ul>
      {demos.length > 0 && (
        <section>
          <h3>Demos to try things on</h3>
          <ul className="demo-list">
            {demos.map((demo) => (
              <li key={demo.name}>
                <span>{demo.title}</span>
                <button
                  type="button"
                  className="small"
                  aria-label={`Open a copy of the demo ${demo.title}`}
                  onClick={() =>
                    void act(async () => {
                      await openJob((await api.create({ from: { demo: demo.name } })).job.id);
                      close();
                    })
                  }
                >
                  Open a copy
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {deleted.length > 0 && (
        <details>
          <summary>Deleted ({deleted.length})</summary>
          <ul className="demo-list">
            {deleted.map((job) => (
              <li key={job.id}>
                <span>
                  {job.name} <span className="quiet">deleted {when(job.deletedAt ?? '')}</span>
                </span>
                <button
                  type="button"
                  className="small"
                  aria-label={`Bring back ${job.name}`}
                  onClick={() => void act(() => api.change(job.id, { deleted: false }))}
                >
                  Bring back
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </dialog>
  );
}

interface RenameProps {
  readonly name: string;
  readonly rename: (name: string) => void;
  readonly cancel: () => void;
}

function RenameForm({ name, rename, cancel }: RenameProps) {
  const [typed, setTyped] = useState(name);
  const isNamed = typed.trim() !== '';
  return (
    <form
      className="rename"
      onSubmit={(event) => {
        event.preventDefault();
        if (isNamed) rename(typed.trim());
      }}
    >
      <input
        aria-label={`New name of ${name}`}
        value={typed}
        maxLength={120}
        ref={(input) => input?.focus()}
        onChange={(event) => setTyped(event.target.value)}
      />
      <button type="submit" className="small" disabled={!isNamed}>
        Keep the name
      </button>
      <button type="button" className="small" onClick={cancel}>
        Cancel
      </button>
    </form>
  );
}

function when(iso: string): string {
  const time = new Date(iso);
  return Number.isNaN(time.getTime())
    ? ''
    : time.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
}
