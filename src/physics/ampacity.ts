/**
 * Current that a conductor may carry for good, in small-craft wiring under 50 V.
 *
 * Tables, kept as printed; local rules go before them, and other trades (buses, rail, buildings) have their own.
 *
 * [1] ISO 10133:2012 table A.1 (carried into ISO 13297:2020), single conductors, 30 °C: from memory, compare before use
 * [2] 33 CFR 183.425 table 5: seen whole, in a public copy of the regulation. Its note 1 (engine spaces): 0.85 for 105 °C
 *     seen on a trade page, the others from memory
 *
 * Both sets of engine-space factors are, within 0.006, the rule √((class - 50)/(class - 30)), 50 °C instead of 30 °C. But
 * 0.75 for 70 °C wire (rule 0.71), 1 for 200 °C (0.94) and, in [2], 0.85 for 105 °C (0.86) are not.
 */
import { wholeGauge } from '../units/gauge.ts';
import { DomainError, requireAboveZero } from './domain-error.ts';

interface AmpacityTable {
  readonly source: string;
  /** Insulation class, °C, of each column; the range "85 to 90" stands at its lower end. */
  readonly classes_C: readonly number[];
  readonly engineSpace: readonly number[];
  /** [section, mm², or gauge number; amperes by column]. */
  readonly rows: readonly (readonly [size: number, amperes: readonly number[]])[];
}

export const metricAmpacity: AmpacityTable = {
  source: 'ISO 10133:2012 table A.1, from memory',
  classes_C: [60, 70, 85, 105, 125, 200],
  engineSpace: [0.58, 0.75, 0.82, 0.86, 0.89, 1],
  rows: [
    [0.75, [6, 10, 12, 16, 20, 25]],
    [1, [8, 14, 18, 20, 25, 35]],
    [1.5, [12, 18, 21, 25, 30, 40]],
    [2.5, [17, 25, 30, 35, 40, 45]],
    [4, [22, 35, 40, 45, 50, 55]],
    [6, [29, 45, 50, 60, 70, 75]],
    [10, [40, 65, 70, 90, 100, 120]],
    [16, [54, 90, 100, 130, 150, 170]],
    [25, [71, 120, 140, 170, 185, 200]],
    [35, [87, 160, 185, 210, 225, 240]],
    [50, [105, 210, 230, 270, 300, 325]],
    [70, [135, 265, 285, 330, 360, 375]],
    [95, [165, 310, 330, 390, 410, 430]],
  ],
};

export const gaugeAmpacity: AmpacityTable = {
  source: '33 CFR 183.425 table 5',
  classes_C: [60, 75, 80, 90, 105, 125, 200],
  engineSpace: [0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1],
  rows: [
    [18, [10, 10, 15, 20, 20, 25, 25]],
    [16, [15, 15, 20, 25, 25, 30, 35]],
    [14, [20, 20, 25, 30, 35, 40, 45]],
    [12, [25, 25, 35, 40, 45, 50, 55]],
    [10, [40, 40, 50, 55, 60, 70, 70]],
    [8, [55, 65, 70, 70, 80, 90, 100]],
    [6, [80, 95, 100, 100, 120, 125, 135]],
    [4, [105, 125, 130, 135, 160, 170, 180]],
    [3, [120, 145, 150, 155, 180, 195, 210]],
    [2, [140, 170, 175, 180, 210, 225, 240]],
    [1, [165, 195, 210, 210, 245, 265, 280]],
    [0, [195, 230, 245, 245, 285, 305, 325]],
    [-1, [225, 265, 285, 285, 330, 355, 370]],
    [-2, [260, 310, 330, 330, 385, 410, 430]],
    [-3, [300, 360, 385, 385, 445, 475, 510]],
  ],
};

const ZERO_CELSIUS = 273.15;

export interface Ampacity {
  readonly amperes: number;
  /** Column that was read, K: the temperature that the insulation bears, or the next lower that the table has. */
  readonly insulation: number;
  readonly source: string;
}

/**
 * Greatest lasting current of a conductor whose insulation bears a temperature, K; null where the table has no row so thin
 * or no class so low.
 *
 * A wire gauge is read in [2], any other section in [1], in the row of its size or of the next smaller one; never between
 * rows.
 *
 * @throws DomainError SW-D063 the section is not finite and above zero, or the temperature is no number
 */
export function ampacity(section_m2: number, insulation: number, engineSpace: boolean): Ampacity | null {
  requireAboveZero('SW-D063', 'section', section_m2);
  if (!Number.isFinite(insulation))
    throw new DomainError('SW-D063', `insulation bears a temperature, not ${insulation} K`);
  const gauge = wholeGauge(section_m2);
  const table = gauge === null ? metricAmpacity : gaugeAmpacity;
  const row = table.rows.findLast(([size]) => (gauge === null ? size * 0.998 <= section_m2 * 1e6 : size === gauge));
  const column = table.classes_C.findLastIndex((class_C) => class_C + ZERO_CELSIUS <= insulation + 1e-6);
  if (row === undefined || column < 0) return null;
  const factor = engineSpace ? table.engineSpace[column] : 1;
  return { amperes: row[1][column] * factor, insulation: table.classes_C[column] + ZERO_CELSIUS, source: table.source };
}

/**
 * Share of the ampacity left to each of several loaded conductors in one bundle or conduit: 0.7 for three, 0.6 to six,
 * 0.5 to 24, 0.4 above. Seen on a trade page, for circuits of 50 V or more; the same page sets no limit below 50 V.
 *
 * @throws DomainError SW-D063 the number of conductors is not whole and above zero
 */
export function bundleFactor(loadedConductors: number): number {
  if (!Number.isInteger(loadedConductors) || loadedConductors < 1)
    throw new DomainError('SW-D063', `a bundle of ${loadedConductors} conductors`);
  if (loadedConductors < 3) return 1;
  if (loadedConductors === 3) return 0.7;
  if (loadedConductors <= 6) return 0.6;
  return loadedConductors <= 24 ? 0.5 : 0.4;
}
