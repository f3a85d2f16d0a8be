/** Every version that was ever kept: to look at, and to go back to. Going back is itself a step that can be undone. */
import { useCallback, useEffect, useState } from 'react';
import type { RevisionEntry } from '../../job/exchange.ts';
import type { Job } from '../../job/schema.ts';
import { desk, put, useDesk } from '../desk/desk.ts';
import { shownRevision } from '../desk/open-job.ts';
import { propose } from '../desk/proposals.ts';
import { api, NotDone, type Trouble } from '../keeping/api.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import type { Reading } from '../reckoning/worker.ts';
import { TroubleWords } from '../show/trouble.tsx';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { verdictWords } from '../show/words.ts';
import { DifferenceList } from './difference-list.tsx';
import { differences } from './differences.ts';

interface Looked {
  readonly id: string;
  readonly document: Job;
  readonly reading: Reading;
}

export default function Versions() {
  const job = useDesk((state) => state.job);
  const keeping = useDesk((state) => state.keeping.word);
  const branches = useDesk((state) => state.branches);
  const [list, setList] = useState<readonly RevisionEntry[] | null>(null);
  const [hasMore, setMore] = useState(false);
  const [looked, setLooked] = useState<Looked | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const id = job?.id ?? null;
  const head = job?.head ?? null;
  const load = useCallback(
    (before?: number) =>
      attempt(setTrouble, async () => {
        if (id === null) return;
        const { revisions, more } = await api.revisions(id, before);
        setList((old) => (before === undefined ? revisions : [...(old ?? []), ...revisions]));
        setMore(more);
      }),
    [id],
  );
  useEffect(() => {
    // A new head is a new version in the list.
    if (keeping !== 'keeping' && head !== null) void load();
  }, [head, keeping, load]);

  const look = (revision: RevisionEntry) =>
    attempt(setTrouble, async () => {
      if (looked?.id === revision.id) return setLooked(null);
      const document = await documentOf(revision);
      setLooked({ id: revision.id, document, reading: await reckoner.look(document) });
    });

  return (
    <div className="versions">
      <p className="quiet">
        Every change is kept as a version. Going back makes a new one; nothing is ever overwritten.
      </p>
      {trouble !== null && <TroubleWords trouble={trouble} />}
      {list === null && trouble === null && <p role="status">Looking them up…</p>}
      <ol className="version-list">
        {list?.map((revision) => (
          <li key={revision.id} className="version">
            <div className="version-head">
              <span>
                <b>{new Date(revision.at).toLocaleString(undefined, { dateStyle: 'short', timeStyle: 'medium' })}</b>{' '}
                {revision.id === shownRevision() && <span className="tag">on the screen</span>}
                {branches.some((branch) => branch.id === revision.id) && <span className="tag">other line</span>}
                <br />
                {revision.label ?? (revision.parents.length === 0 ? 'First version' : 'Changed')}
              </span>
              <button
                type="button"
                className="small"
                aria-expanded={looked?.id === revision.id}
                onClick={() => void look(revision)}
              >
                {looked?.id === revision.id ? 'Close' : 'Look at it'}
              </button>
            </div>
            {looked?.id === revision.id && <LookedAt looked={looked} revision={revision} />}
          </li>
        ))}
      </ol>
      {hasMore && (
        <button type="button" onClick={() => void load(list?.at(-1)?.order)}>
          Show older versions
        </button>
      )}
    </div>
  );
}

function LookedAt({ looked, revision }: { readonly looked: Looked; readonly revision: RevisionEntry }) {
  const document = useDesk((state) => state.document);
  const { reading } = looked;
  const changes = differences(document, looked.document);
  return (
    <div className="version-looked">
      {reading.ok ? (
        <ul className="version-answers">
          {reading.reckoned.assessment?.answers.map(({ question, words, verdict }) => (
            <li key={question}>
              <VerdictMark verdict={verdict} size={24} /> {words} <b>{verdictWords[verdict]}</b>
            </li>
          ))}
        </ul>
      ) : (
        <p className="field-error">
          This version does not read with the program as it is now: {reading.problems[0]?.problem}
        </p>
      )}
      {changes.length === 0 ? (
        <p className="quiet">The same as what is on the screen.</p>
      ) : (
        <DifferenceList changes={changes} from="On the screen" to="This version" />
      )}
      {changes.length > 0 && reading.ok && (
        <button type="button" onClick={() => void restore(revision, looked.document)}>
          Go back to this version
        </button>
      )}
    </div>
  );
}

async function attempt(tell: (trouble: Trouble | null) => void, work: () => Promise<void>): Promise<void> {
  tell(null);
  try {
    await work();
  } catch (error) {
    if (!(error instanceof NotDone)) throw error;
    tell(error.trouble);
  }
}

async function restore(revision: RevisionEntry, document: Job): Promise<void> {
  const time = new Date(revision.at).toLocaleString(undefined, { dateStyle: 'short', timeStyle: 'medium' });
  await propose({ name: `Went back to ${time}`, changes: (now) => differences(now, document) });
  if (desk().notice === null)
    put({ notice: { words: `Gone back to the version of ${time}. Undo brings the other back.` } });
}

async function documentOf(revision: RevisionEntry): Promise<Job> {
  return JSON.parse((await api.revision(revision.jobId, revision.id)).revision.text) as Job;
}
