/** The units that `--units` chooses from. */
import { imperialUnits, kilogramForceUnits, metricUnits } from '../units/quantity.ts';

export const unitSystems = { metric: metricUnits, kgf: kilogramForceUnits, inch: imperialUnits };

export type UnitSystem = keyof typeof unitSystems;
