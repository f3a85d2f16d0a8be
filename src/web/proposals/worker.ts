/** Searches for layouts away from the page, block by block, and draws what is offered. It can be stopped between blocks. */
import { expose } from 'comlink';
import { isSolenoid } from '../../assessment/assess.ts';
import { mechanismPicture } from '../../assessment/mechanism.ts';
import { apply } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import {
  beginRun,
  lookedAt,
  problemOf,
  proposalsOf,
  runOn,
  shareDone,
  toLookAt,
  type Offer,
  type Proposals,
} from '../../proposal/search/search.ts';
import { drawMechanism } from '../../sheets/mechanism.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import type { DisplayUnits } from '../../units/quantity.ts';

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

let stopping = new AbortController();

/** Lets a message from the page come in. */
const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const work = {
  async search(document: Job, seed: number, units: DisplayUnits, tell: (progress: Progress) => void): Promise<Found> {
    stopping = new AbortController();
    const { signal } = stopping;
    if (!isSolenoid(document))
      return { ok: false, reason: 'This job has no solenoid: only the layout of a solenoid is searched.' };
    const problem = problemOf(document, seed);
    if (problem === null)
      return {
        ok: false,
        reason:
          'Place and direction of the bracket, the stroke, and the angles and lash of the lever must be read before a layout can be searched.',
      };
    let run = beginRun(problem);
    let told = -Infinity;
    while (run.phase !== 'done' && !signal.aborted) {
      run = runOn(problem, run);
      if (performance.now() - told < TELL_EVERY_MS) continue;
      told = performance.now();
      tell({ share: shareDone(problem, run), lookedAt: lookedAt(run), toLookAt: toLookAt(problem) });
      await breath();
    }
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
      offers: found.offers.map((offer, i) => drawn(offer, `proposal-${i + 1}`)),
      nearest: found.nearest === null ? null : drawn(found.nearest, 'nearest'),
    };
  },
  /** Ends the search with the best so far. */
  stop(): void {
    stopping.abort();
  },
};

export type ProposalWork = typeof work;

expose(work);
