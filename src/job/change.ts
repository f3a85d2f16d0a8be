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
  return changes.reduce((value, { path, to }) => put(value, pathSteps(path), to, path) as T, document);
}

/** The changes that take back `changes`, last first. */
export function inverse(changes: readonly Change[]): Change[] {
  return [...changes].reverse().map(({ path, from, to }) => ({ path, from: to, to: from }));
}

function put(value: unknown, steps: readonly PathStep[], to: unknown, path: string): unknown {
  const [step, ...rest] = steps;
  if (step === undefined) return to;
  if (typeof value !== 'object' || value === null)
    throw new RangeError(`nothing can be put at ${path}: ${String(step)} has no place there`);
  const inner = Object.hasOwn(value, step) ? (value as Record<PathStep, unknown>)[step] : undefined;
  const next = put(
    inner === undefined && rest.length > 0 ? (typeof rest[0] === 'number' ? [] : {}) : inner,
    rest,
    to,
    path,
  );
  if (Array.isArray(value)) {
    const copy = [...(value as unknown[])];
    if (next === undefined) copy.splice(Number(step), 1);
    else copy[Number(step)] = next;
    return copy;
  }
  const copy: Record<PathStep, unknown> = { ...(value as Record<PathStep, unknown>) };
  if (next === undefined) delete copy[step];
  else copy[step] = next;
  return copy;
}
