/** Where two versions of a job were still one. */
import type { RevisionEntry } from '../../job/exchange.ts';

/** Id of the newest revision that both came from, or null where the list does not reach back that far. */
export function commonAncestor(revisions: readonly RevisionEntry[], a: string, b: string): string | null {
  const byId = new Map(revisions.map((revision) => [revision.id, revision]));
  const ofA = ancestors(byId, a);
  const ofB = ancestors(byId, b);
  const both = revisions.filter(({ id }) => ofA.has(id) && ofB.has(id));
  return (
    both.reduce<RevisionEntry | null>(
      (newest, one) => (newest === null || one.order > newest.order ? one : newest),
      null,
    )?.id ?? null
  );
}

function ancestors(byId: ReadonlyMap<string, RevisionEntry>, from: string): Set<string> {
  const found = new Set<string>();
  const waiting = [from];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    waiting.push(...(byId.get(id)?.parents ?? []));
  }
  return found;
}
