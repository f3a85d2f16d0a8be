/** What is still to be measured. */
import { NOT_MEASURED } from '../../job/quantity-text.ts';

/** Paths below `path` that hold "not measured". */
export function notMeasured(value: unknown, path: string): string[] {
  if (value === NOT_MEASURED) return [path];
  if (Array.isArray(value)) return value.flatMap((item, i) => notMeasured(item, `${path}[${i}]`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => notMeasured(inner, path === '' ? key : `${path}.${key}`));
}
