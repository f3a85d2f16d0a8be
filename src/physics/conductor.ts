/**
 * Copper conductors: resistance, the sizes that are sold, and how long one stands a short circuit.
 *
 * [1] IEC 60228:2004, tables 2 and 3: greatest resistance at 20 °C of class 2 (stranded) and class 5 (flexible) copper
 *     conductors, plain, and class 5 of tinned wires, ohm/km. Seen from 0.5 to 35 mm², 50 to 95 mm² from memory
 * [2] IEC 60028:1925: 1.7241e-8 ohm m at 20 °C
 * [3] ASTM B258: sizes of the wire gauges
 * [4] IEC 60949:1988 and IEC 60364-5-54: heating of copper by a short circuit without loss of heat
 */
import { areaOfGauge, formatGauge } from '../units/gauge.ts';
import { copperResistance } from './coil.ts';
import { DomainError, requireAboveZero } from './domain-error.ts';

export type Stranding = 'class 2' | 'class 5' | 'class 5 tinned';

/** [section, mm²; class 2 plain, class 5 plain, class 5 tinned, ohm/km at 20 °C] as printed [1]. */
export const greatestResistance: readonly (readonly [
  section_mm2: number,
  class2: number,
  class5: number,
  class5Tinned: number,
])[] = [
  [0.5, 36.0, 39.0, 40.1],
  [0.75, 24.5, 26.0, 26.7],
  [1, 18.1, 19.5, 20.0],
  [1.5, 12.1, 13.3, 13.7],
  [2.5, 7.41, 7.98, 8.21],
  [4, 4.61, 4.95, 5.09],
  [6, 3.08, 3.3, 3.39],
  [10, 1.83, 1.91, 1.95],
  [16, 1.15, 1.21, 1.24],
  [25, 0.727, 0.78, 0.795],
  [35, 0.524, 0.554, 0.565],
  [50, 0.387, 0.386, 0.393],
  [70, 0.268, 0.272, 0.277],
  [95, 0.193, 0.206, 0.21],
];

/** [section, mm²; greatest resistance of class 5 plain at 20 °C, ohm/km]. */
export const class5: readonly (readonly [section_mm2: number, ohmPerKm: number])[] = greatestResistance.map(
  ([section, , ohmPerKm]) => [section, ohmPerKm],
);

const COPPER_20 = 1.7241e-8;
const REFERENCE = 293.15;
const columnOf: Readonly<Record<Stranding, 1 | 2 | 3>> = { 'class 2': 1, 'class 5': 2, 'class 5 tinned': 3 };

/**
 * Resistance per metre at 20 °C, ohm/m: the printed value for a standard section, copper alone for any other, wire gauges
 * among them [1][2]. Strands of a gauge have 2 % more and upward.
 */
export function resistancePerMetre(section_m2: number, stranding: Stranding = 'class 5'): number {
  const mm2 = section_m2 * 1e6;
  const printed = greatestResistance.find(([section]) => Math.abs(section - mm2) < 0.002 * section);
  return printed === undefined ? COPPER_20 / section_m2 : printed[columnOf[stranding]] / 1000;
}

/** Resistance of a run, ohm, at a conductor temperature, K. The length is of the conductor: out and back count each. */
export function conductorResistance(
  section_m2: number,
  length: number,
  temperature: number,
  stranding: Stranding = 'class 5',
): number {
  return copperResistance(resistancePerMetre(section_m2, stranding) * length, REFERENCE, temperature);
}

/** A size that a chandler or a wholesaler has on the shelf. */
export interface StandardSection {
  /** "1.5 mm²", "16 AWG". */
  readonly label: string;
  readonly system: 'metric' | 'gauge';
  readonly section_m2: number;
}

const gaugesSold = [20, 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3];

/** Metric sizes from 0.75 to 95 mm² [1] and gauges from 20 to 4/0 AWG [3], each system from the smallest. */
export const standardSections: readonly StandardSection[] = [
  ...greatestResistance
    .filter(([mm2]) => mm2 >= 0.75)
    .map(([mm2]): StandardSection => ({ label: `${mm2} mm²`, system: 'metric', section_m2: mm2 * 1e-6 })),
  ...gaugesSold.map((n): StandardSection => ({
    label: formatGauge(areaOfGauge(n)),
    system: 'gauge',
    section_m2: areaOfGauge(n),
  })),
];

export interface SectionChoice {
  /** The smallest that does; null where none of the list does. */
  readonly section: StandardSection | null;
  /** The one with the greatest margin, and that margin: what can be had at all. */
  readonly best: StandardSection;
  readonly bestMargin: number;
}

/**
 * Smallest size of one system whose margin is not below zero. The margin is the caller's: volts above those needed, volts
 * below the drop allowed, or what a whole assessment says.
 *
 * One system at a time: a metric size is nominal and has more resistance than copper of its area, a gauge is reckoned as
 * copper alone, so the two do not stand in one row.
 *
 * @throws DomainError SW-D060 the margin of a size is no number
 */
export function smallestSection(
  system: StandardSection['system'],
  marginOf: (section: StandardSection) => number,
): SectionChoice {
  const judged = standardSections
    .filter((section) => section.system === system)
    .map((section) => ({ section, margin: marginOf(section) }));
  for (const { section, margin } of judged) {
    if (Number.isNaN(margin)) throw new DomainError('SW-D060', `the margin of ${section.label} is ${margin}`);
  }
  const best = judged.reduce((most, one) => (one.margin > most.margin ? one : most));
  return {
    section: judged.find(({ margin }) => margin >= 0)?.section ?? null,
    best: best.section,
    bestMargin: best.margin,
  };
}

/**
 * Insulations: greatest temperature of the conductor in service and at the end of a short circuit of 5 s at most, K [4].
 * PVC and cross-linked polyethylene (and EPR) seen, silicone rubber from memory.
 */
export const insulations = {
  PVC: { service: 343.15, shortCircuit: 433.15 },
  XLPE: { service: 363.15, shortCircuit: 523.15 },
  'silicone rubber': { service: 453.15, shortCircuit: 623.15 },
} as const;

export type Insulation = keyof typeof insulations;

/**
 * What insulation stands at the end of a short circuit, K, where only the temperature that it bears in service is known: the
 * least of the materials sold with such a mark. Wire marked 90 or 105 °C is often PVC, so 160 °C up to there; 250 °C from
 * 125 °C on. Common practice, no source.
 */
export function shortCircuitLimit(insulation: number): number {
  return insulation < 398.15 - 1e-6 ? insulations.PVC.shortCircuit : insulations.XLPE.shortCircuit;
}

/**
 * Heat that copper takes up from one temperature to another, as current² × time over section², A√s/m²:
 *
 *     k = 226 √ln(1 + (Tf - Ti)/(234.5 + Ti)) A√s/mm²,  temperatures in °C                 [4]
 *
 * No heat is lost: true within a few per cent up to about 5 s, and on the safe side after that.
 *
 * @throws DomainError SW-D061 the final temperature is not above the first, or the first is below copper's straight line
 */
export function adiabaticConstant(from: number, to: number): number {
  const above = from - 273.15 + 234.5;
  if (!(above > 0) || !(to > from) || to === Infinity)
    throw new DomainError('SW-D061', `no heating of copper from ${from} K to ${to} K`);
  return 226e6 * Math.sqrt(Math.log(1 + (to - from) / above));
}

/**
 * Seconds that a conductor stands a current: t = (k S / I)².
 *
 * @throws DomainError SW-D061, SW-D062 section or current not finite and above zero
 */
export function adiabaticTime(section_m2: number, current: number, from: number, to: number): number {
  requireAboveZero('SW-D062', 'section', section_m2);
  requireAboveZero('SW-D062', 'current', current);
  return ((adiabaticConstant(from, to) * section_m2) / current) ** 2;
}
