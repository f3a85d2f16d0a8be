/**
 * What changes cost, in points of work: common practice, no source. They order answers that are equally good; they are no
 * price. A bracket that is moved and turned is made anew once, so the larger of the two counts.
 */
import type { Change } from '../../job/change.ts';

const kinds: readonly (readonly [kind: string, pattern: RegExp, points: number])[] = [
  ['hub', /^layout\.hubPosition/, 1],
  ['bracket', /^layout\.(homePin|pullDirection)/, 3],
  ['connection', /^layout\.connection$/, 5],
  ['arm', /^layout\.connection\.(armRadius|holeDiameter|slot)/, 3],
  ['link', /^layout\.connection\.(length|pinDiameter)/, 2],
  ['adjuster', /^layout\.adjuster/, 2],
  ['over-travel', /^layout\.overTravel/, 4],
  ['new spring', /^return\.springs\[\d+\]$/, 4],
  ['spring', /^return\.springs/, 2],
  ['conductors', /^supply\.(out|back|stations)/, 4],
  ['resistor', /^means\.coil/, 2],
];
const ANYTHING_ELSE = 3;

/** A spring that has to be wound is waited for. */
const TO_ORDER = 2;

/** @param isOrdered one of the changes is a spring that has to be ordered */
export function costOf(changes: readonly Change[], isOrdered = false): number {
  const points = new Map<string, number>();
  for (const { path } of changes) {
    const kind = kinds.find(([, pattern]) => pattern.test(path));
    points.set(kind?.[0] ?? path, kind?.[2] ?? ANYTHING_ELSE);
  }
  return [...points.values()].reduce((sum, one) => sum + one, isOrdered ? TO_ORDER : 0);
}
