/** A study of spread made ready: what is drawn, how, and what is asked. The same job and request always make the same plan. */
import { jointDistribution, type JointDistribution } from '../../numerics/distribution-joint.ts';
import { mostDimensions } from '../../numerics/quasi-random.ts';
import { isSolenoid } from '../assess.ts';
import type { Job } from '../../job/schema.ts';
import type { SolenoidJob } from '../rig.ts';
import { spreadInputs, type SpreadInput } from './inputs.ts';
import { spreadFindings, type SpreadFinding } from './margins.ts';
import type { SpreadProblem, SpreadRequest } from './request.ts';

export interface SpreadPlan {
  readonly job: SolenoidJob;
  readonly request: SpreadRequest;
  readonly inputs: readonly SpreadInput[];
  readonly atBothEnds: readonly string[];
  readonly exact: number;
  readonly joint: JointDistribution;
  /** Findings whose margin is known for the document as written. */
  readonly findings: readonly SpreadFinding[];
  /** Findings that are not: a reading is missing, or the readings do not reach so far. */
  readonly notKnown: readonly SpreadFinding[];
  readonly drawsPerScramble: number;
}

export type Planned =
  | { readonly ok: true; readonly plan: SpreadPlan }
  | { readonly ok: false; readonly problems: readonly SpreadProblem[] };

/** Most draws that are taken: beyond it nothing becomes clearer. */
export const MOST_DRAWS = 4_194_304;

export function spreadPlan(job: Job, request: SpreadRequest): Planned {
  const refuse = (...problems: SpreadProblem[]): Planned => ({ ok: false, problems });
  const asked = requestProblem(request);
  if (asked !== null) return refuse({ path: '', problem: asked });
  if (!isSolenoid(job))
    return refuse({
      path: 'means.kind',
      problem: 'only an installation with a solenoid has a spread that is reckoned',
    });
  const { inputs, problems, exact, atBothEnds } = spreadInputs(job, request);
  if (problems.length > 0) return { ok: false, problems };
  if (inputs.length === 0)
    return refuse({
      path: '',
      problem: 'no quantity of this document has a ±, so nothing can be drawn: write what each reading may be off',
    });
  const groups = sharedGroups(inputs, request);
  if ('problem' in groups) return refuse(groups);
  const joint = jointDistribution(
    inputs.map(({ distribution }) => distribution),
    groups,
  );
  if (joint.dimensions > mostDimensions)
    return refuse({
      path: '',
      problem: `${joint.dimensions} independent quantities have a ±; ${mostDimensions} can be drawn at once: take readings without a written ± as exact, or let some share their error`,
    });
  const all = spreadFindings(job);
  const drawsPerScramble = 2 ** Math.max(5, Math.ceil(Math.log2(request.draws / request.scrambles)));
  return {
    ok: true,
    plan: {
      job,
      request,
      inputs,
      atBothEnds,
      exact,
      joint,
      findings: all.filter(({ margin }) => margin !== null),
      notKnown: all.filter(({ margin }) => margin === null),
      drawsPerScramble,
    },
  };
}

function requestProblem({ draws, scrambles, seed, shared }: SpreadRequest): string | null {
  if (!(Number.isInteger(draws) && draws >= 1 && draws <= MOST_DRAWS))
    return `the number of draws is a whole number from 1 to ${MOST_DRAWS}, not ${draws}`;
  if (!(Number.isInteger(scrambles) && scrambles >= 1 && scrambles <= 64))
    return `the number of scrambles is a whole number from 1 to 64, not ${scrambles}`;
  if (!(Number.isInteger(seed) && seed >= 0 && seed < 2 ** 31))
    return `the seed is a whole number from 0 to ${2 ** 31 - 1}, not ${seed}`;
  for (const { name, correlation } of shared) {
    if (!(correlation > 0 && correlation <= 1))
      return `what "${name}" have in common is a correlation above 0 and at most 1, not ${correlation}`;
  }
  return null;
}

interface Groups {
  readonly together: readonly (readonly number[])[];
  readonly correlated: readonly { readonly members: readonly number[]; readonly matrix: readonly number[] }[];
}

function sharedGroups(inputs: readonly SpreadInput[], { shared }: SpreadRequest): Groups | SpreadProblem {
  const together: number[][] = [];
  const correlated: { members: number[]; matrix: number[] }[] = [];
  const taken = new Set<number>();
  for (const { name, instrument, paths, correlation } of shared) {
    const isBelow = ({ path }: SpreadInput, place: string) =>
      path === place || path.startsWith(`${place}.`) || path.startsWith(`${place}[`);
    const members = inputs.flatMap((input, i) =>
      (instrument !== undefined && input.instrument === instrument)
      || (paths ?? []).some((place) => isBelow(input, place))
        ? [i]
        : [],
    );
    if (members.length < 2)
      return { path: paths?.[0] ?? '', problem: `"${name}" names fewer than two quantities that are drawn` };
    const twice = members.find((member) => taken.has(member));
    if (twice !== undefined)
      return {
        path: inputs[twice].path,
        problem: `it stands in two groups that share an error, the second is "${name}"`,
      };
    for (const member of members) taken.add(member);
    if (correlation === 1) together.push(members);
    else
      correlated.push({
        members,
        matrix: members.flatMap((a) => members.map((b) => (a === b ? 1 : correlation))),
      });
  }
  return { together, correlated };
}

/** Seed of a scramble: far apart for neighbouring seeds, so that no two studies share a scramble. */
export function scrambleSeed(seed: number, scramble: number, purpose: 'draws' | 'sensitivity' | 'tighten'): number {
  const of = { draws: 0, sensitivity: 1, tighten: 2 }[purpose];
  return (Math.imul(seed + 1, 0x9e3779b1) + 64 * of + scramble) | 0;
}
