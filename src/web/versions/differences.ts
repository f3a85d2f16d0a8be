/** What differs between two documents, field by field: for looking at a version, going back to one, and merging two. */
import type { Change } from '../../job/change.ts';
import { isCoEnergyMap } from '../show/computed.ts';

/**
 * The changes that lead from one document to the other. Lists of one length are compared row by row; lists that grew or
 * shrank, and parts that are of another kind now, are one change as a whole, because half of one fits no half of the other.
 * So is what a calculation left behind: nobody chooses among its numbers.
 */
export function differences(from: unknown, to: unknown, path = ''): Change[] {
  if (Object.is(from, to)) return [];
  if (isCoEnergyMap(from) && isCoEnergyMap(to))
    return JSON.stringify(from) === JSON.stringify(to) ? [] : [{ path, from, to }];
  if (Array.isArray(from) && Array.isArray(to)) {
    if (from.length !== to.length) return [{ path, from, to }];
    return from.flatMap((item, i) => differences(item, to[i], `${path}[${i}]`));
  }
  if (isFields(from) && isFields(to) && sameKind(from, to)) {
    const keys = [...new Set([...Object.keys(from), ...Object.keys(to)])];
    return keys.flatMap((key) => differences(from[key], to[key], path === '' ? key : `${path}.${key}`));
  }
  return [{ path, from, to }];
}

/** One place where two versions differ. */
export interface Choice {
  readonly path: string;
  readonly ours: unknown;
  readonly theirs: unknown;
  /** Which side changed it since both were one; both where they must be chosen between by a person. */
  readonly changedBy: 'ours' | 'theirs' | 'both';
}

/** What a person has to look at to make one document of two that came from `common`. */
export function choices(common: unknown, ours: unknown, theirs: unknown): Choice[] {
  const ourChanges = differences(common, ours);
  const theirChanges = differences(common, theirs);
  return differences(ours, theirs).map(({ path, from, to }) => {
    const weDid = ourChanges.some((change) => overlap(change.path, path));
    const theyDid = theirChanges.some((change) => overlap(change.path, path));
    return { path, ours: from, theirs: to, changedBy: weDid === theyDid ? 'both' : weDid ? 'ours' : 'theirs' };
  });
}

function overlap(a: string, b: string): boolean {
  return a === b || inside(a, b) || inside(b, a) || a === '' || b === '';
}

function inside(outer: string, inner: string): boolean {
  return inner.startsWith(outer) && (inner[outer.length] === '.' || inner[outer.length] === '[');
}

function isFields(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The fields by which the parts of a job document tell what they are. */
const kindFields = ['kind', 'stages', 'on', 'by'];

function sameKind(a: Readonly<Record<string, unknown>>, b: Readonly<Record<string, unknown>>): boolean {
  return kindFields.every((field) => a[field] === b[field]);
}
