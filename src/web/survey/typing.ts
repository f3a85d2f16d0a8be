/** What typing into a field does: what reads is proposed at once, what does not stays as a draft with the reason. */
import { change } from '../../job/change.ts';
import { valueAt } from '../../job/path.ts';
import { desk } from '../desk/desk.ts';
import { dropDraft, endOfGesture, holdDraft, propose } from '../desk/proposals.ts';
import { placeName } from './labels.ts';

let stays = 0;

/** One stay in one field: everything typed in it is one undo step. */
export interface Stay {
  readonly path: string;
  readonly gesture: string;
  readonly before: unknown;
}

export function enterField(path: string): Stay {
  stays += 1;
  return { path, gesture: `typing ${stays} ${path}`, before: valueAt(desk().document, path) };
}

export function leaveField(): void {
  void endOfGesture();
}

/** Takes what was typed; `problem` is why it cannot be, and `to` what stands in the document where it can. */
export function type({ path, gesture, before }: Stay, text: string, problem: string | null, to: unknown): void {
  if (problem !== null) {
    holdDraft(path, text, problem);
    return;
  }
  dropDraft(path);
  void propose({
    name: stepName(path, before, to),
    gesture,
    changes: (document) => [change(document, path, to)],
    draft: { path, text },
  });
}

/** A change made with one tap. */
export function set(path: string, to: unknown, name?: string): void {
  void propose({
    name: name ?? stepName(path, valueAt(desk().document, path), to),
    changes: (document) => [change(document, path, to)],
  });
}

function stepName(path: string, from: unknown, to: unknown): string {
  const place = placeName(path);
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
