/** Holds the means side by side, away from the page. */
import { expose } from 'comlink';
import { compareMeans } from '../../assessment/means/compare.ts';
import type { MeansComparison } from '../../assessment/means/comparison.ts';
import type { Job } from '../../job/schema.ts';
import type { DisplayUnits } from '../../units/quantity.ts';

const work = {
  compare(document: Job, units: DisplayUnits): MeansComparison {
    return compareMeans(document, units);
  },
};

export type MeansWork = typeof work;

expose(work);
