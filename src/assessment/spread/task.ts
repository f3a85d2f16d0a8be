/**
 * The work of a study in pieces, as plain data that crosses to workers. A piece names its points by numbers alone, so
 * whoever does it comes to the same margins, and results go by the number of the piece.
 */
import { jointDraws } from '../../numerics/distribution-joint.ts';
import { pickFreezePoints } from '../../numerics/sensitivity.ts';
import { sobolPoints, sobolSequence, type SobolSequence } from '../../numerics/quasi-random.ts';
import { DomainError } from '../../physics/domain-error.ts';
import { drawnJob } from './drawn-job.ts';
import { marginReckoner, type MarginReckoner } from './margins.ts';
import type { SpreadPlan } from './plan.ts';

interface Asked {
  /** Findings that are wanted, by their place in the plan; left out: all. The others stay NaN. */
  readonly wanted?: readonly number[];
}

export type SpreadTask = Asked
  & (
    | {
        readonly kind: 'draws';
        readonly seed: number;
        readonly first: number;
        readonly count: number;
        /** By input: its deviation from nominal times this; left out: 1 for all. */
        readonly scales?: readonly number[];
      }
    | {
        readonly kind: 'pick and freeze';
        readonly seed: number;
        readonly points: number;
        /** Columns that vary; every other stays in the middle of its distribution. */
        readonly columns: readonly number[];
        /** By factor: places in `columns`. */
        readonly factors: readonly (readonly number[])[];
        readonly from: number;
        readonly to: number;
      }
  );

/** Margins, one row of findings for each draw; NaN where a draw gives none. */
export interface TaskWorker {
  run(task: SpreadTask): Float64Array;
}

export function taskWorker(plan: SpreadPlan): TaskWorker {
  const { joint, inputs, findings } = plan;
  const ids = findings.map(({ id }) => id);
  const drawn = drawnJob(plan.job, inputs);
  const reckoners = new Map<string, MarginReckoner>();
  const reckonerFor = (wanted: readonly number[] | undefined): MarginReckoner => {
    const key = wanted?.join() ?? '';
    const known =
      reckoners.get(key)
      ?? marginReckoner(
        plan.job,
        ids,
        wanted?.map((f) => ids[f]),
      );
    reckoners.set(key, known);
    return known;
  };
  const sequences = new Map<number, SobolSequence>();
  const sequence = (seed: number) => {
    const known = sequences.get(seed);
    if (known !== undefined) return known;
    const made = sobolSequence(joint.dimensions, seed);
    sequences.set(seed, made);
    return made;
  };
  let frozen: { readonly key: string; readonly points: Float64Array } | null = null;
  const sharesOf = (task: SpreadTask): Float64Array => {
    if (task.kind === 'draws') return sobolPoints(sequence(task.seed), task.first, task.count);
    const { columns, factors, from, to, points, seed } = task;
    const key = `${seed} ${points} ${columns.join()} ${JSON.stringify(factors)}`;
    if (frozen?.key !== key) frozen = { key, points: pickFreezePoints(columns.length, factors, points, seed) };
    const shares = new Float64Array((to - from) * joint.dimensions).fill(0.5);
    for (let row = from; row < to; row++) {
      columns.forEach((column, c) => {
        shares[(row - from) * joint.dimensions + column] = frozen!.points[row * columns.length + c];
      });
    }
    return shares;
  };
  return {
    run(task) {
      const values = jointDraws(joint, sharesOf(task));
      const scales = task.kind === 'draws' ? task.scales : undefined;
      const count = values.length / inputs.length;
      if (scales !== undefined)
        for (let i = 0; i < values.length; i++) {
          const { nominal_SI } = inputs[i % inputs.length];
          values[i] = nominal_SI + scales[i % inputs.length] * (values[i] - nominal_SI);
        }
      const margins = new Float64Array(count * ids.length);
      const reckoner = reckonerFor(task.wanted);
      for (let i = 0; i < count; i++) {
        drawn.set(values, i * inputs.length);
        try {
          reckoner.margins(drawn.job, margins, i * ids.length);
        } catch (error) {
          // Readings drawn so that they have no meaning together: counted as undecided, never as a pass or a failure.
          if (!(error instanceof DomainError)) throw error;
          margins.fill(NaN, i * ids.length, (i + 1) * ids.length);
        }
      }
      return margins;
    },
  };
}

/** The values that a piece of the first study draws, in the order of the inputs: what the sensitivity is reckoned from. */
export function drawnValues({ joint }: Pick<SpreadPlan, 'joint'>, seed: number, count: number): Float64Array {
  return jointDraws(joint, sobolPoints(sobolSequence(joint.dimensions, seed), 0, count));
}
