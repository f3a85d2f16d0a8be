/** How far the travel control goes. */
import { quantityIn } from '../../job/quantity-text.ts';
import { fromSI } from '../../units/quantity.ts';
import type { Desk } from '../desk/desk.ts';

/** The outer end of the travel, mm; null where it is not known. */
export function reachOf({ assessment, document }: Pick<Desk, 'assessment' | 'document'>): number | null {
  const swept = assessment?.sweep?.gap_mm.at(-1);
  if (swept !== undefined && swept > 0) return Number(swept.toFixed(2));
  if (document?.means.kind !== 'solenoid') return null;
  const stroke = quantityIn(document.means.plunger.stroke, 'length');
  return stroke === null ? null : fromSI(stroke.value, 'mm');
}
