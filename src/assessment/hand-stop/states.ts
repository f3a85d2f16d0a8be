/** Two means on one lever, in the states that they can be in: each alone, both together, each with the other stuck. */
import type { HandStop, Job } from '../../job/schema.ts';
import { metricUnits, type DisplayUnits } from '../../units/quantity.ts';
import { worstVerdict, type Assessment, type Finding, type Verdict } from '../finding.ts';

export interface TogetherState {
  readonly words: string;
  readonly verdict: Verdict;
  /** What decides it, one sentence. */
  readonly because: string;
  readonly finding: string | null;
}

export type JobWithHandStop = Job & { readonly handStop: HandStop };

export function hasHandStop(job: Job): job is JobWithHandStop {
  return job.handStop !== undefined && job.means.kind !== 'hand cable';
}

/** @param assess the one assessment, which stands above this room */
export function togetherStates(
  job: JobWithHandStop,
  assess: (job: Job, units: DisplayUnits) => Assessment,
  units: DisplayUnits = metricUnits,
): TogetherState[] {
  const { handStop, ...alone } = job;
  const { whileEffortWasRead: _hung, ...means } = handStop;
  const { findings } = assess(job, units);
  const ofHand = findings.filter(({ id }) => id.startsWith('hand-stop-') && id !== 'hand-stop-means-stuck');
  const ofMeans = findings.filter(({ id }) => !id.startsWith('hand-stop-') && id !== 'means-hand-stop-stuck');
  const one = (id: string) => findings.filter((finding) => finding.id === id);
  const name = job.means.kind;
  return [
    state(`The ${name} alone, no cable on the lever`, assess(alone, units).findings),
    state(`The hand stop alone, no ${name} on the lever`, assess({ ...alone, means }, units).findings),
    state(`The ${name} works, the cable goes along`, ofMeans),
    state(`The hand stop works, the ${name} at rest goes along`, ofHand),
    state(`The hand stop works, the ${name} stuck`, one('hand-stop-means-stuck')),
    state(`The ${name} works, the hand stop stuck`, one('means-hand-stop-stuck')),
  ];
}

function state(words: string, findings: readonly Finding[]): TogetherState {
  const verdict = worstVerdict(findings);
  // Findings come worst first.
  const deciding = findings.find((finding) => finding.verdict === verdict);
  return {
    words,
    verdict,
    because: deciding === undefined ? '' : `${deciding.title}: ${deciding.because}`,
    finding: deciding?.id ?? null,
  };
}
