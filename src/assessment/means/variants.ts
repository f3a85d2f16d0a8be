/** The means that a comparison holds side by side, each put into the job so that the one assessment can judge it. */
import type { Considered, Job } from '../../job/schema.ts';

export type MeansKind = Job['means']['kind'];

export interface Variant {
  readonly name: string;
  /** Place in the list of other means; null for the chosen one and for starting values. */
  readonly index: number | null;
  readonly origin: 'chosen' | 'considered' | 'starting values';
  readonly job: Job;
}

const usualNames: Record<MeansKind, string> = {
  solenoid: 'Plunger solenoid',
  'hand cable': 'Hand cable',
  'air cylinder': 'Air cylinder',
};

/** The chosen means first, then the others in the order of the document. */
export function variantsOf(job: Job): Variant[] {
  const { considered = [] } = job;
  return [
    { name: usualNames[job.means.kind], index: null, origin: 'chosen', job },
    ...considered.map((other, index): Variant => ({
      name: other.name === '' ? usualNames[other.means.kind] : other.name,
      index,
      origin: 'considered',
      job: withMeans(job, other),
    })),
  ];
}

/** The job as it would be with another means in the place of the chosen one. */
export function withMeans(job: Job, { means, layout, springs }: Omit<Considered, 'name'>): Job {
  const { handStop, ...rest } = job;
  return {
    ...rest,
    // A hand cable that is the means itself is no second one beside it.
    ...(handStop !== undefined && means.kind !== 'hand cable' ? { handStop } : {}),
    means,
    layout: layout ?? job.layout,
    return: springs === undefined ? job.return : { springs },
  };
}

export function usualName(kind: MeansKind): string {
  return usualNames[kind];
}
