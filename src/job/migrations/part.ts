/** A part of an older document, of which nothing is known yet. */
export type Part = Readonly<Record<string, unknown>>;

export function isPart(value: unknown): value is Part {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
