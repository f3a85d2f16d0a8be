/** Two versions of one job side by side, to be made one, field by field. Nothing is chosen silently, nothing is lost. */
import { useEffect, useRef, useState } from 'react';
import { apply } from '../../job/change.ts';
import type { RevisionEntry } from '../../job/exchange.ts';
import type { Job } from '../../job/schema.ts';
import { desk, put, say } from '../desk/desk.ts';
import { flush, lookAtHeads, shownRevision } from '../desk/open-job.ts';
import { propose, settled } from '../desk/proposals.ts';
import { api, NotDone, type Trouble } from '../keeping/api.ts';
import { TroubleWords } from '../show/trouble.tsx';
import { placeName } from '../survey/labels.ts';
import { commonAncestor } from './ancestor.ts';
import { valueText } from './difference-list.tsx';
import { choices, type Choice } from './differences.ts';

interface Both {
  readonly ours: Job;
  readonly theirs: Job;
  readonly theirTime: string;
  readonly choices: readonly Choice[];
}

type Side = 'ours' | 'theirs';

export default function Merge({ other }: { readonly other: string }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [both, setBoth] = useState<Both | null>(null);
  const [sides, setSides] = useState<Readonly<Record<string, Side>>>({});
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const close = () => put({ merging: null });
  useEffect(() => {
    if (dialog.current?.open !== true) dialog.current?.showModal();
    void compare(other, setTrouble).then((read) => {
      if (read === null) return null;
      setBoth(read);
      return setSides(
        Object.fromEntries(
          read.choices.flatMap(({ path, changedBy }) => (changedBy === 'both' ? [] : [[path, changedBy]])),
        ),
      );
    });
  }, [other]);
  const open = both?.choices.filter(({ path }) => sides[path] === undefined).length ?? 0;
  const join = async () => {
    if (both === null) return;
    const taken = both.choices.filter(({ path }) => sides[path] === 'theirs');
    const changes = taken.map(({ path, ours, theirs }) => ({ path, from: ours, to: theirs }));
    await propose({
      name: 'Two versions made one',
      mergedWith: other,
      changes: (document) =>
        document === both.ours || JSON.stringify(document) === JSON.stringify(both.ours) ? changes : [],
    });
    if (JSON.stringify(desk().document) !== JSON.stringify(apply(both.ours, changes))) return;
    await flush();
    await lookAtHeads();
    say({ words: 'The two versions are one now. Both stay in the list of versions.' });
    close();
  };
  return (
    <dialog ref={dialog} className="merge" aria-labelledby="merge-title" onClose={close}>
      <div className="dialog-head">
        <h2 id="merge-title">Two versions of this job</h2>
        <button type="button" onClick={() => dialog.current?.close()}>
          Later
        </button>
      </div>
      {trouble !== null && <TroubleWords trouble={trouble} />}
      {both === null && trouble === null && <p role="status">Comparing…</p>}
      {both !== null && (
        <>
          <p>
            This job was changed in two places at once. Both are kept. Take each field from one or the other; what only
            one side changed is already ticked.
          </p>
          <div className="merge-all">
            <button type="button" className="small" onClick={() => setSides(all(both, 'ours'))}>
              All from this screen
            </button>
            <button type="button" className="small" onClick={() => setSides(all(both, 'theirs'))}>
              All from the other
            </button>
          </div>
          {both.choices.length === 0 && <p>The two say the same. Making them one changes no field.</p>}
          {both.choices.map((choice) => (
            <ChoiceRow
              key={choice.path}
              choice={choice}
              theirTime={both.theirTime}
              side={sides[choice.path]}
              choose={(side) => setSides({ ...sides, [choice.path]: side })}
            />
          ))}
          <div className="dialog-foot">
            <button type="button" className="strong" disabled={open > 0} onClick={() => void join()}>
              Make them one
            </button>
            {open > 0 && <span>{open === 1 ? '1 field' : `${open} fields`} still to choose</span>}
          </div>
        </>
      )}
    </dialog>
  );
}

interface ChoiceRowProps {
  readonly choice: Choice;
  readonly theirTime: string;
  readonly side: Side | undefined;
  readonly choose: (side: Side) => void;
}

function ChoiceRow({ choice, theirTime, side, choose }: ChoiceRowProps) {
  const option = (which: Side, words: string, value: unknown) => (
    <label className="merge-option">
      <input
        type="radio"
        name={`merge ${choice.path}`}
        checked={side === which}
        aria-label={`${words}: ${valueText(value)}`}
        onChange={() => choose(which)}
      />
      <span>
        <span className="quiet">{words}</span>
        <b>{valueText(value)}</b>
      </span>
    </label>
  );
  return (
    <fieldset className={`merge-choice${choice.changedBy === 'both' ? ' is-both' : ''}`}>
      <legend>
        {placeName(choice.path)} {choice.changedBy === 'both' && <span className="tag">both changed it</span>}
      </legend>
      <div className="merge-options">
        {option('ours', 'On this screen', choice.ours)}
        {option('theirs', `Other, kept ${theirTime}`, choice.theirs)}
      </div>
    </fieldset>
  );
}

const all = ({ choices: list }: Both, side: Side): Record<string, Side> =>
  Object.fromEntries(list.map(({ path }) => [path, side]));

async function compare(other: string, tell: (trouble: Trouble) => void): Promise<Both | null> {
  try {
    return await readBoth(other);
  } catch (error) {
    if (!(error instanceof NotDone)) throw error;
    tell(error.trouble);
    return null;
  }
}

async function readBoth(other: string): Promise<Both> {
  await settled();
  await flush();
  const { job, document } = desk();
  if (job === null || document === null) throw new RangeError('no job is open');
  const [{ revision }, list] = await Promise.all([api.revision(job.id, other), allRevisions(job.id)]);
  const ancestor = commonAncestor(list, shownRevision(), other);
  const theirs = JSON.parse(revision.text) as Job;
  // Without the common version every difference is a person's to choose.
  const common: unknown = ancestor === null ? null : JSON.parse((await api.revision(job.id, ancestor)).revision.text);
  const theirTime = new Date(revision.at).toLocaleTimeString(undefined, { timeStyle: 'short' });
  return { ours: document, theirs, theirTime, choices: choices(common, document, theirs) };
}

async function allRevisions(job: string): Promise<RevisionEntry[]> {
  const found: RevisionEntry[] = [];
  for (let before: number | undefined; ; before = found.at(-1)?.order) {
    const { revisions, more } = await api.revisions(job, before);
    found.push(...revisions);
    if (!more) return found;
  }
}
