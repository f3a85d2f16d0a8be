/**
 * Changes to a document as plain data: which place, what stood there, what stands there now. A document is never altered;
 * applying a change gives another document that shares everything the change left alone.
 */
import { pathSteps, valueAt, type PathStep } from './path.ts';

export interface Change {
  readonly path: string;
  /** What stood there; undefined where nothing did. */
  readonly from: unknown;
  /** What stands there now; undefined takes the field away. */
  readonly to: unknown;
}

/** A change that puts `to` at a path of this document. */
export function change(document: unknown, path: string, to: unknown): Change {
  return { path, from: valueAt(document, path), to };
}

/** @throws RangeError when a path leads through something that has no fields */
export function apply<T>(document: T, changes: readonly Change[]): T {
  return changes.reduce((value, one) => put(value, pathSteps(one.path), one) as T, document);
}

/** The changes that take back `changes`, last first. */
export function inverse(changes: readonly Change[]): Change[] {
  return [...changes].reverse().map(({ path, from, to }) => ({ path, from: to, to: from }));
}

function put(value: unknown, steps: readonly PathStep[], one: Change): unknown {
  const [step, ...rest] = steps;
  if (step === undefined) return one.to;
  if (typeof value !== 'object' || value === null || step === '__proto__')
    throw new RangeError(`nothing can be put at ${one.path}: ${String(step)} has no place there`);
  const inner = Object.hasOwn(value, step) ? (value as Record<PathStep, unknown>)[step] : undefined;
  const isNew = inner === undefined && rest.length > 0;
  const next = put(isNew ? (typeof rest[0] === 'number' ? [] : {}) : inner, rest, one);
  if (Array.isArray(value))
    return row(value as unknown[], Number(step), next, rest.length === 0 && one.from === undefined);
  const copy: Record<PathStep, unknown> = { ...(value as Record<PathStep, unknown>) };
  if (next === undefined) delete copy[step];
  else copy[step] = next;
  return copy;
}

/** A list with one row taken away, put in (where nothing stood there), or put in place of another. */
function row(list: readonly unknown[], at: number, next: unknown, isAdded: boolean): unknown[] {
  const copy = [...list];
  if (next === undefined) copy.splice(at, 1);
  else if (isAdded && at < copy.length) copy.splice(at, 0, next);
  else copy[at] = next;
  return copy;
}
