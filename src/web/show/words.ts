/** Results in words: numbers in the reader's units, places, margins. */
import { LARGEST_MARGIN } from '../../assessment/check.ts';
import type { Finding, Place } from '../../assessment/finding.ts';
import { display, metricUnits, toSI, type Dimension, type DisplayUnits } from '../../units/quantity.ts';

const dimensionOf = new Map<string, Dimension>(
  (Object.entries(metricUnits) as [Dimension, string][])
    .filter(([, unit]) => unit !== '')
    .map(([dimension, unit]) => [unit, dimension]),
);

/** A number of the assessment, which is in `unit`, as this reader wants to see it. */
export function amount(value: number, unit: string, units: DisplayUnits, digits = Math.abs(value) < 1 ? 2 : 3): string {
  if (!Number.isFinite(value)) return 'not known';
  if (unit === 'share') return `${trimmed(value * 100, 2)} %`;
  if (unit === 'ratio') return trimmed(value, digits);
  const dimension = dimensionOf.get(unit);
  if (dimension === undefined) return `${trimmed(value, digits)}${unit === '' ? '' : ` ${unit}`}`;
  return display(toSI(value, unit, dimension), dimension, units, digits);
}

function trimmed(value: number, digits: number): string {
  return String(Number(value.toPrecision(digits)));
}

/** "4.2 mm from home, low supply, hot coil". Empty where nothing is said of the place. */
export function placeWords(at: Place | null, units: DisplayUnits): string {
  if (at === null) return '';
  const gap =
    at.gap_mm === null ? null : Math.abs(at.gap_mm) < 0.005 ? 'at home' : `${amount(at.gap_mm, 'mm', units)} from home`;
  return [
    gap ?? (at.shaftAngle_deg === null ? null : `shaft at ${amount(at.shaftAngle_deg, '°', units)}`),
    at.supply === null ? null : at.supply === 'low' ? 'low supply' : 'high supply',
    at.coil === null ? null : `${at.coil} coil`,
    at.friction === null ? null : `${at.friction} friction`,
    at.moved,
  ]
    .filter((words) => words !== null)
    .join(', ');
}

/** "57 N against 43 N": the deciding number, and what it is held against. */
export function valueWords({ value, limit, unit }: Finding, units: DisplayUnits): string {
  if (value === null) return 'not known';
  // Where the limit is nothing, the value is the margin, and says all.
  return limit === null || limit === 0
    ? amount(value, unit, units)
    : `${amount(value, unit, units)} against ${amount(limit, unit, units)}`;
}

/** "32 % to spare, 25 % wanted". */
export function marginWords(
  { margin, marginUnit, wanted }: Pick<Finding, 'margin' | 'marginUnit' | 'wanted'>,
  units: DisplayUnits,
): string {
  if (margin === null) return '';
  if (margin >= LARGEST_MARGIN) return 'more than enough to spare';
  if (marginUnit === 'share' && margin > 9.995)
    return `${Math.round(margin + 1)} times what is needed, ${amount(wanted, marginUnit, units)} to spare wanted`;
  const spare =
    margin < 0 ? `${amount(-margin, marginUnit, units)} too little` : `${amount(margin, marginUnit, units)} to spare`;
  return `${spare}, ${amount(wanted, marginUnit, units)} wanted`;
}

export const verdictWords = { holds: 'Holds', thin: 'Thin', fails: 'Fails', 'not known': 'Not known' } as const;
