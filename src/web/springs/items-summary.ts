/** What the page shows of solenoids and cables of a drawer: plain data. */
import type { Verdict } from '../../assessment/finding.ts';
import type { Change } from '../../job/change.ts';
import type { Drawer } from '../../job/drawer/schema.ts';
import type { Job } from '../../job/schema.ts';
import type { ItemTried } from '../../proposal/drawer-item.ts';
import { itemsTried, notTriedWords, type ItemKind, type ItemTask } from '../../proposal/drawer-others.ts';

export interface ItemRow {
  readonly item: number;
  readonly name: string;
  readonly place: string;
  readonly words: readonly string[];
  readonly least: string;
  /** Readings to take of it; empty where everything is known. */
  readonly toRead: readonly string[];
  readonly verdict: Verdict;
  readonly changes: readonly Change[];
}

export interface ItemsSummary {
  readonly groups: readonly {
    readonly kind: ItemKind;
    readonly fits: readonly ItemRow[];
    readonly out: readonly { readonly item: number; readonly name: string; readonly because: string }[];
  }[];
  readonly notTried: readonly string[];
  readonly tried: number;
  readonly of: number;
}

export function itemsSummary(
  job: Job,
  drawer: Drawer,
  tasks: readonly ItemTask[],
  results: readonly ItemTried[],
): ItemsSummary {
  const tried = itemsTried(tasks, results);
  const kinds = (Object.keys(tried) as ItemKind[]).filter((kind) => tried[kind].length > 0);
  return {
    groups: kinds.map((kind) => ({
      kind,
      fits: tried[kind].flatMap((one): ItemRow[] =>
        one.fits
          ? [
              {
                item: one.item,
                name: one.name,
                place: one.place,
                words: one.words,
                least: `Least margin ${one.least.toFixed(2)} times what is wanted${one.notKnown.length > 0 ? ', of what is known' : ''}: ${one.decidedBy.title}`,
                toRead: [...new Set(one.notKnown.flatMap(({ missing }) => missing))],
                verdict: one.verdict,
                changes: one.changes,
              },
            ]
          : [],
      ),
      out: tried[kind].flatMap((one) => (one.fits ? [] : [{ item: one.item, name: one.name, because: one.because }])),
    })),
    notTried: notTriedWords(job, drawer),
    tried: results.length,
    of: tasks.length,
  };
}
