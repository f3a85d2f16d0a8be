/** Leads a search for layouts away from the page, with as many hands as there are, and draws what is offered. */
import { expose } from 'comlink';
import { isSolenoid } from '../../assessment/assess.ts';
import { mechanismPicture } from '../../assessment/mechanism.ts';
import { apply } from '../../job/change.ts';
import { readDrawer } from '../../job/drawer/read.ts';
import type { Job } from '../../job/schema.ts';
import {
  problemOf,
  proposalsOf,
  searchWith,
  springChoices,
  toLookAt,
  type Done,
  type Offer,
  type ProblemOptions,
  type Proposals,
  type Task,
} from '../../proposal/search/search.ts';
import { drawMechanism } from '../../sheets/mechanism.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { handCount, manyHands, type ManyHands, newHand } from '../hands/many-hands.ts';
import type { SearchBegin } from './hand.ts';

/** A small drawing of one answer at home. */
export interface Small {
  readonly offer: Offer;
  readonly sheet: SvgNode;
}

export type Found =
  | { readonly ok: false; readonly reason: string }
  | {
      readonly ok: true;
      readonly found: Proposals;
      /** Whose springs were tried. */
      readonly drawer: { readonly name: string; readonly springs: number } | null;
      readonly offers: readonly Small[];
      readonly nearest: Small | null;
    };

export interface Progress {
  readonly share: number;
  readonly lookedAt: number;
  readonly toLookAt: number;
}

/** Of the small sheets, mm: wide enough for lettering of its usual height. */
const WIDTH = 96;
const HEIGHT = 66;
const TELL_EVERY_MS = 150;

let hands: ManyHands<Task, Done> | null = null;

const work = {
  /** @param text of the drawer that is kept beside the job; its springs are tried too */
  async search(
    document: Job,
    text: string | null,
    seed: number,
    units: DisplayUnits,
    tell: (progress: Progress) => void,
  ): Promise<Found> {
    if (!isSolenoid(document))
      return { ok: false, reason: 'This job has no solenoid: only the layout of a solenoid is searched.' };
    const read = text === null ? null : readDrawer(text);
    const drawer = read?.ok === true ? read.drawer : null;
    const options: ProblemOptions = { seed, others: springChoices(document, { drawer, isToOrder: true }) };
    const problem = problemOf(document, options);
    if (problem === null)
      return {
        ok: false,
        reason:
          'Place and direction of the bracket, the stroke, and the angles and lash of the lever must be read before a layout can be searched.',
      };
    hands = manyHands<Task, Done>(handCount(), () => newHand('search hand'), {
      job: document,
      options,
    } satisfies SearchBegin);
    let told = -Infinity;
    const { run } = await searchWith(problem, hands, ({ share, lookedAt }) => {
      if (performance.now() - told < TELL_EVERY_MS) return;
      told = performance.now();
      tell({ share, lookedAt, toLookAt: toLookAt(problem) });
    }).finally(() => hands?.end());
    const found = proposalsOf(problem, run, 5, units);
    const drawn = (offer: Offer, name: string): Small => {
      const drawing = drawMechanism(mechanismPicture(apply(document, offer.changes), 0), {
        width: WIDTH,
        height: HEIGHT,
        units,
      });
      return { offer, sheet: svgTree({ ...drawing, title: `${name}: ${offer.name}` }, { idPrefix: `${name}-` }) };
    };
    return {
      ok: true,
      found,
      drawer: drawer === null ? null : { name: drawer.name, springs: drawer.springs.length },
      offers: found.offers.map((offer, i) => drawn(offer, `proposal-${i + 1}`)),
      nearest: found.nearest === null ? null : drawn(found.nearest, 'nearest'),
    };
  },
  /** Ends the search with the best so far. */
  stop(): void {
    hands?.end();
  },
};

export type ProposalWork = typeof work;

expose(work);
