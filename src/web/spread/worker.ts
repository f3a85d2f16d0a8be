/** Leads a study of spread, away from the page: a quick one by itself, a whole one with more hands. */
import { expose } from 'comlink';
import { spreadPlan } from '../../assessment/spread/plan.ts';
import { usualRequest } from '../../assessment/spread/request.ts';
import { ownHands, spreadStudy, type SpreadProgress } from '../../assessment/spread/study.ts';
import { taskWorker, type SpreadTask } from '../../assessment/spread/task.ts';
import type { Job } from '../../job/schema.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { handCount, manyHands, newHand } from '../hands/many-hands.ts';
import type { SpreadBegin } from './hand.ts';
import { refused, viewOf, type SpreadView } from './view.ts';

export interface Shown {
  /** Of the sheets, mm. */
  readonly width: number;
  readonly units: DisplayUnits;
}

/** Draws of the figure that follows every change. */
export const LIVE_DRAWS = 1024;

const now = () => Promise.resolve();
const never = () => false;

const work = {
  /** @param quick chances and margins alone, while something is dragged */
  async live(document: Job, { width, units }: Shown, quick: boolean): Promise<SpreadView> {
    const planned = spreadPlan(document, { ...usualRequest, draws: LIVE_DRAWS });
    if (!planned.ok) return refused(planned.problems);
    const worker = taskWorker(planned.plan);
    const study = await spreadStudy(
      planned.plan,
      ownHands((task) => worker.run(task), now, never),
      { whole: false, quick },
    );
    if (study === null) throw new Error('nothing was drawn');
    return viewOf(study.outcome, null, width, units);
  },
  async whole(
    document: Job,
    draws: number,
    { width, units }: Shown,
    tell: (progress: SpreadProgress) => void,
    soFar: (view: SpreadView) => void,
  ): Promise<SpreadView> {
    const request = { ...usualRequest, draws };
    const planned = spreadPlan(document, request);
    if (!planned.ok) return refused(planned.problems);
    const hands = manyHands<SpreadTask, Float64Array>(handCount(), () => newHand('spread hand'), {
      job: document,
      request,
    } satisfies SpreadBegin);
    let told = 0;
    let shown = 0;
    try {
      const study = await spreadStudy(planned.plan, hands, {
        whole: true,
        tell(progress) {
          if (performance.now() - told < 100) return;
          told = performance.now();
          tell(progress);
        },
        soFar(known) {
          if (performance.now() - shown < 1000) return;
          shown = performance.now();
          soFar(viewOf(known(), null, width, units));
        },
      });
      if (study === null) throw new Error('nothing was drawn');
      return viewOf(study.outcome, study, width, units);
    } finally {
      hands.end();
    }
  },
};

export type SpreadWork = typeof work;

expose(work);
