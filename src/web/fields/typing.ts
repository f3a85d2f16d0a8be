/** What typing into a field does: what reads is proposed at once, what does not stays as a draft with the reason. */
import { change } from '../../job/change.ts';
import { valueAt } from '../../job/path.ts';
import type { Holder } from './holder.ts';

let stays = 0;

/** One stay in one field: everything typed in it is one undo step. */
export interface Stay {
  readonly path: string;
  readonly gesture: string;
  readonly before: unknown;
}

export function enterField({ store }: Holder, path: string): Stay {
  stays += 1;
  return { path, gesture: `typing ${stays} ${path}`, before: valueAt(store.getState().document, path) };
}

/** Takes what was typed; `problem` is why it cannot be, and `to` what stands in the document where it can. */
export function type(
  holder: Holder,
  { path, gesture, before }: Stay,
  text: string,
  problem: string | null,
  to: unknown,
): void {
  if (problem !== null) {
    holder.holdDraft(path, text, problem);
    return;
  }
  holder.dropDraft(path);
  void holder.propose({
    name: stepName(holder, path, before, to),
    gesture,
    changes: (document) => [change(document, path, to)],
    draft: { path, text },
  });
}

/** A change made with one tap. */
export function set(holder: Holder, path: string, to: unknown, name?: string): void {
  void holder.propose({
    name: name ?? stepName(holder, path, valueAt(holder.store.getState().document, path), to),
    changes: (document) => [change(document, path, to)],
  });
}

function stepName({ words }: Holder, path: string, from: unknown, to: unknown): string {
  const place = words.placeName(path);
  if (to === undefined) return `${place} left out`;
  const [before, after] = [short(from), short(to)];
  if (after === null) return `${place} changed`;
  return before === null ? `${place}: ${after}` : `${place}: ${before} → ${after}`;
}

function short(value: unknown): string | null {
  if (typeof value === 'number') return String(value);
  if (typeof value !== 'string') return null;
  return value.length > 40 ? `${value.slice(0, 39)}…` : value;
}
