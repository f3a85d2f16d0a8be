/** The drawer file: chosen or dropped here, kept in this browser beside the job. */
import { useEffect, useRef } from 'react';
import { openDrawer, putDrawerAway, useSprings } from './springs.ts';

export function DrawerFile() {
  const drawer = useSprings((state) => state.drawer);
  const problems = useSprings((state) => state.problems);
  const isForThisVisit = useSprings((state) => state.isForThisVisit);
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => (box.current === null ? undefined : takeDrops(box.current)), []);
  return (
    <div className="springs-file" ref={box}>
      <p className="quiet">
        {drawer === null
          ? 'A drawer file lists the springs that lie at hand: their rate, their dimensions, or two readings of each.'
          : `${drawer.file}: ${isForThisVisit ? 'this browser would not keep it; it holds for this visit' : 'kept in this browser beside this job'}.`}
      </p>
      {problems.length > 0 && (
        <div role="alert">
          <p className="field-error">This file cannot be read as a drawer:</p>
          <ul>
            {problems.map(({ path, read, problem }) => (
              <li key={path + problem}>
                <b>{path || 'document'}</b>: read {read}; {problem}
              </li>
            ))}
          </ul>
        </div>
      )}
      <div className="springs-acts">
        <label className="button small">
          {drawer === null ? 'Choose a drawer file, or drop it here' : 'Another file'}
          <input
            className="hidden-input"
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              const [file] = event.target.files ?? [];
              if (file !== undefined) void openDrawer(file);
              // The same file can be chosen once more.
              event.target.value = '';
            }}
          />
        </label>
        {drawer !== null && (
          <button type="button" className="small" onClick={() => void putDrawerAway()}>
            Put it away
          </button>
        )}
      </div>
    </div>
  );
}

function takeDrops(element: HTMLElement): () => void {
  const end = new AbortController();
  const { signal } = end;
  const mark = (isOver: boolean) => element.classList.toggle('is-over', isOver);
  element.addEventListener(
    'dragover',
    (event) => {
      event.preventDefault();
      mark(true);
    },
    { signal },
  );
  element.addEventListener('dragleave', () => mark(false), { signal });
  element.addEventListener(
    'drop',
    (event) => {
      event.preventDefault();
      mark(false);
      const [file] = event.dataTransfer?.files ?? [];
      if (file !== undefined) void openDrawer(file);
    },
    { signal },
  );
  return () => end.abort();
}
