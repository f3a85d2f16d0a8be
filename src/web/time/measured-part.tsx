/** A current that was recorded on the job: chosen or dropped here, and laid over what was reckoned. */
import { useEffect, useId, useRef, useState } from 'react';
import { sureness } from '../../diagnosis/trace/words.ts';
import { durationWords } from '../../sheets/time/time-words.ts';
import { forgetMeasured, measure, measureOtherwise, useTimes, type Measuring } from './times.ts';

export function Measured() {
  const measuring = useTimes((state) => state.measuring);
  const box = useRef<HTMLElement>(null);
  const id = useId();
  useEffect(() => (box.current === null ? undefined : takeDrops(box.current)), []);
  return (
    <section className="time-measured" aria-labelledby={id} data-measured={measuring.word} ref={box}>
      <h4 id={id}>Measured current</h4>
      <p className="quiet">
        A current recorded with a clamp meter or an oscilloscope, saved as a table (CSV), is laid over the reckoned one.
        It stays on this machine and is not kept with the job.
      </p>
      <div role="status">
        <State measuring={measuring} />
      </div>
      {measuring.word === 'failed' && <Otherwise measuring={measuring} />}
      {measuring.word !== 'reading' && (
        <div className="time-saves">
          <label className="button small">
            {measuring.word === 'there' ? 'Another file' : 'Choose a file, or drop it here'}
            <input
              className="hidden-input"
              type="file"
              accept=".csv,.txt,.tsv,.dat,text/*"
              onChange={(event) => {
                const [file] = event.target.files ?? [];
                if (file !== undefined) void measure(file);
                // The same file can be chosen once more.
                event.target.value = '';
              }}
            />
          </label>
          {measuring.word !== 'none' && (
            <button type="button" className="small" onClick={forgetMeasured}>
              Take it away
            </button>
          )}
        </div>
      )}
    </section>
  );
}

/** Files dropped on the element are read; the button inside does the same for whoever drags nothing. */
function takeDrops(element: HTMLElement): () => void {
  const end = new AbortController();
  const mark = (isOver: boolean) => element.classList.toggle('is-over', isOver);
  const { signal } = end;
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
      if (file !== undefined) void measure(file);
    },
    { signal },
  );
  return () => end.abort();
}

function State({ measuring }: { readonly measuring: Measuring }) {
  switch (measuring.word) {
    case 'none':
      return null;
    case 'reading':
      return (
        <p>
          <progress max={1} value={measuring.share} aria-label={`Reading ${measuring.name}`} /> Reading {measuring.name}
          …{' '}
          <button type="button" className="small" onClick={forgetMeasured}>
            Stop
          </button>
        </p>
      );
    case 'there':
      return (
        <>
          <p>
            <b>{measuring.trace.findings.join(' ')}</b>
          </p>
          {measuring.trace.events.length > 0 && (
            <ul className="time-events">
              {measuring.trace.events.map(({ kind, time_s, confidence }) => (
                <li key={`${kind} ${time_s}`}>
                  {kind} {durationWords(time_s)}: {sureness(confidence)} ({Math.round(confidence * 100)} %)
                </li>
              ))}
            </ul>
          )}
          <ul className="time-cautions quiet">
            {[measuring.readAs, ...measuring.trace.cautions].map((said) => (
              <li key={said}>{said}</li>
            ))}
          </ul>
        </>
      );
    case 'failed':
      return (
        <div className="field-error">
          <p>{measuring.name} could not be read.</p>
          <ul>
            {measuring.problems.map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </div>
      );
  }
}

/** What the file leaves open: which column the current is, what a volt of the clamp means. */
function Otherwise({ measuring }: { readonly measuring: Measuring & { readonly word: 'failed' } }) {
  const [typed, setTyped] = useState('');
  const ampsPerVolt = Number(typed.trim().replace(',', '.'));
  const isNumber = typed.trim() !== '' && Number.isFinite(ampsPerVolt) && ampsPerVolt !== 0;
  const isVolts = measuring.problems.some((problem) => /one volt/.test(problem));
  return (
    <>
      {isVolts && (
        <form
          className="time-saves"
          onSubmit={(event) => {
            event.preventDefault();
            if (isNumber) measureOtherwise({ ampsPerVolt });
          }}
        >
          <label className="time-clamp">
            One volt of the clamp means
            <input type="text" inputMode="decimal" size={5} value={typed} onChange={(e) => setTyped(e.target.value)} />A
          </label>
          <button type="submit" className="small" disabled={!isNumber}>
            Read again
          </button>
        </form>
      )}
      {measuring.channels.length > 0 && (
        <div className="time-saves" role="group" aria-label="Which column is the current?">
          {measuring.channels.map((channel) => (
            <button key={channel} type="button" className="small" onClick={() => measureOtherwise({ channel })}>
              {channel}
            </button>
          ))}
        </div>
      )}
    </>
  );
}
