/** Parts of a document that hold what a calculation left behind: said in one line, never field by field. */
import type { Solenoid } from '../../job/schema.ts';

type CoEnergyMap = NonNullable<Solenoid['map']>;

/** "Co-energy map from a field solve: 12 gaps, 9 levels"; null for anything else. */
export function computedWords(value: unknown): string | null {
  if (!isCoEnergyMap(value)) return null;
  const counts = value.lines.map(({ ampereTurns }) => ampereTurns.length);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  return `Co-energy map from a field solve: ${value.lines.length} gaps, ${least === most ? most : `${least} to ${most}`} levels`;
}

/** Told by its form, since it may stand inside a part that is shown as a whole. */
export function isCoEnergyMap(value: unknown): value is CoEnergyMap {
  if (typeof value !== 'object' || value === null) return false;
  const { turns, lines } = value as Partial<Record<keyof CoEnergyMap, unknown>>;
  return (
    Array.isArray(turns)
    && Array.isArray(lines)
    && lines.every(
      (line: unknown) => typeof line === 'object' && line !== null && 'coEnergy_J' in line && 'ampereTurns' in line,
    )
  );
}
