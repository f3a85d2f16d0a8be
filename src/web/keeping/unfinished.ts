/**
 * What a closing page had not finished: a change still being read, drafts, undo steps not yet written down. Put into the
 * browser's storage in the moment of closing, when nothing that takes time would still be done, and taken up again by the
 * next page that opens the job.
 */
import { onceGone, thisTab } from './tab.ts';

const PREFIX = 'stopwright unfinished';
/** A closing tab may still be at work for a moment after it has left this. */
const LAST_BREATH_MS = 3_000;

const place = (job: string, tab: string): string => `${PREFIX} ${job} ${tab}`;

export function leaveUnfinished(job: string, value: unknown): void {
  try {
    localStorage.setItem(place(job, thisTab), JSON.stringify(value));
  } catch {
    // No room: what was acknowledged and what is in the outbox is safe all the same.
  }
}

/** The page lives after all: what it left is its own business again. */
export function takeBackUnfinished(job: string): void {
  try {
    localStorage.removeItem(place(job, thisTab));
  } catch {
    // Then there is nothing to take back.
  }
}

/** Takes up what tabs that are gone have left for this job. */
export async function takeUnfinished(job: string): Promise<unknown[]> {
  const found: unknown[] = [];
  try {
    const start = `${PREFIX} ${job} `;
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(start));
    for (const key of keys) {
      await onceGone(key.slice(start.length), LAST_BREATH_MS, async () => {
        found.push(JSON.parse(localStorage.getItem(key) ?? 'null'));
        localStorage.removeItem(key);
      });
    }
  } catch {
    // What cannot be read cannot be taken up.
  }
  return found;
}
