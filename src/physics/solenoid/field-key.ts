/**
 * The name under which a field result may be kept: everything that the result depends on, written out in one fixed form,
 * so that equal inputs have equal keys and different inputs never do. It is the text itself, not a hash of it: whoever
 * keeps results in a store may hash it there.
 */
import { DomainError } from '../domain-error.ts';

/** Raised whenever the same inputs give other numbers than before, so that results kept by an older program are not used. */
export const FIELD_NUMBERS = 1;

/**
 * Canonical JSON of plain data: names sorted, numbers as JavaScript writes them (the shortest that read back equal), what
 * is undefined left out, -0 as 0.
 *
 * @throws DomainError SW-M060 something that is no plain data, or a number that is not finite
 */
export function fieldKey(inputs: Readonly<Record<string, unknown>>): string {
  return `${FIELD_NUMBERS}:${canonical(inputs, 'inputs')}`;
}

function canonical(value: unknown, path: string): string {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new DomainError('SW-M060', `${path} is ${value}; a key needs finite numbers`);
    return String(value === 0 ? 0 : value);
  }
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (Array.isArray(value) || value instanceof Float64Array)
    return `[${Array.from(value as ArrayLike<unknown>, (item, i) => canonical(item, `${path}[${i}]`)).join(',')}]`;
  if (typeof value === 'object' && Object.getPrototypeOf(value) === Object.prototype) {
    const fields = Object.entries(value)
      .filter(([, item]) => item !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${fields.map(([key, item]) => `${JSON.stringify(key)}:${canonical(item, `${path}.${key}`)}`).join(',')}}`;
  }
  throw new DomainError('SW-M060', `${path} is a ${typeof value}; a key is made of plain data`);
}
