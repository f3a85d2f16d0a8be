import { fromSI } from '../../units/convert.ts';
import type { DisplayUnits } from '../../units/display.ts';

/** A temperature in the reader's degrees. */
export const inDegrees = (kelvin: number, units: DisplayUnits): number =>
  fromSI(kelvin, units.temperature, 'temperature');
