/**
 * The one place where a drawn document is made: a copy of the job in which quantities stand, already read, where texts
 * stood. It is made once and holds one cell for each quantity that is drawn; a draw sets the cells. Everything that
 * reads a job reads it through `quantityIn`, so it is assessed by the same model. It never leaves this room, and what is
 * made from it is used up before the next draw.
 *
 * A quantity keeps its ± (a fit through two readings weighs by it); only its value is drawn.
 */
import { pathSteps } from '../../job/path.ts';
import type { SolenoidJob } from '../rig.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import type { SpreadInput } from './inputs.ts';
import { quantityFields } from './quantity-fields.ts';

interface Cell {
  readonly text: string;
  value: number;
  readonly plusMinus: number | null;
  readonly unit: string;
}

export interface DrawnJob {
  readonly job: SolenoidJob;
  /** Puts one draw in place: a value for each input, in their order, base SI. */
  set(values: ArrayLike<number>, from: number): void;
}

export function drawnJob(job: SolenoidJob, inputs: readonly SpreadInput[]): DrawnJob {
  const copy = copied(job);
  // What is not drawn is read once all the same, and not at every draw.
  for (const { path, rule } of quantityFields(job)) putCell(copy, path, rule.dimension);
  const cells: Cell[] = [];
  const owners: number[] = [];
  inputs.forEach(({ path, alsoAt, dimension }, i) => {
    for (const place of [path, ...alsoAt]) {
      cells.push(putCell(copy, place, dimension));
      owners.push(i);
    }
  });
  return {
    job: copy,
    set(values, from) {
      for (let c = 0; c < cells.length; c++) cells[c].value = values[from + owners[c]];
    },
  };
}

function putCell(document: unknown, path: string, dimension: SpreadInput['dimension']): Cell {
  const steps = pathSteps(path);
  const last = steps.pop();
  let holder = document as Record<string | number, unknown>;
  for (const step of steps) holder = holder[step] as Record<string | number, unknown>;
  const quantity = quantityIn(holder[last!] as string | Cell, dimension);
  if (quantity === null) throw new RangeError(`nothing was read at ${path}`);
  const cell: Cell = { ...quantity };
  holder[last!] = cell;
  return cell;
}

function copied<T>(value: T): T {
  if (Array.isArray(value)) return (value as unknown[]).map(copied) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, field]) => [key, copied(field)])) as T;
}
