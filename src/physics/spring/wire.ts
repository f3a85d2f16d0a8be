/**
 * Wire for helical springs: moduli, least tensile strength by diameter, diameters that are stocked, working temperatures.
 *
 * [1] EN 10270-1:2011 Steel wire for mechanical springs, patented cold drawn unalloyed
 * [2] EN 10270-3:2011 …, stainless
 * [3] EN 13906-1:2013 Cylindrical helical springs made from round wire and bar, compression springs
 * [4] DIN 17223-1, whose strength lines went into [1]; DIN 2076, wire diameters
 */

/** SL, SM, SH for static duty; DM, DH the same strengths, drawn for moving springs; 1.4310 stainless. */
export const springWires = [
  'EN 10270-1 SL',
  'EN 10270-1 SM',
  'EN 10270-1 SH',
  'EN 10270-1 DM',
  'EN 10270-1 DH',
  'EN 10270-3 1.4310',
] as const;
export type SpringWire = (typeof springWires)[number];

const isStainless = (wire: SpringWire) => wire === 'EN 10270-3 1.4310';

/** Shear modulus at 20 °C, Pa [3] table 2: 81.5 GPa for EN 10270-1, 73 GPa for 1.4310 after tempering (70 as drawn). */
export function shearModulus(wire: SpringWire): number {
  return isStainless(wire) ? 73e9 : 81.5e9;
}

/** Modulus of elasticity at 20 °C, Pa [3] table 2: 206 GPa for EN 10270-1, 185 GPa for 1.4310 after tempering. */
export function elasticModulus(wire: SpringWire): number {
  return isStainless(wire) ? 185e9 : 206e9;
}

/** Density, kg/m³: 7850 [1], 7900 for 1.4310 [2]. */
export function wireDensity(wire: SpringWire): number {
  return isStainless(wire) ? 7900 : 7850;
}

/**
 * Share of a modulus (and of the force at a given length) that is left at a temperature.
 *
 *     1 - r (T - 20 °C),   r = 0.28e-3 /K for EN 10270-1, 0.40e-3 /K for 1.4310      [3] 8, from memory
 *
 * The trade's own rule, 2 % in 55 K, lies between the two. Meant for -50 °C to 250 °C; a straight line beyond.
 *
 * @param temperature K
 */
export function modulusShare(wire: SpringWire, temperature: number): number {
  return 1 - (isStainless(wire) ? 0.4e-3 : 0.28e-3) * (temperature - 293.15);
}

/** Coldest and hottest at which a wire is used, K: -30 to 100 °C [1]; -200 to 250 °C for 1.4310 [2], from memory. */
export function workingTemperatures(wire: SpringWire): readonly [coldest: number, hottest: number] {
  return isStainless(wire) ? [73.15, 523.15] : [243.15, 373.15];
}

/** Lines through the tables of EN 10270-1 [4], MPa over mm: a - b lg d. */
const strengthLine = { SL: [1720, 660], SH: [2220, 820] } as const;

/** EN 10270-1 SM and DM, least tensile strength: [diameter, mm; MPa], the row of 15 mm (a misprint where it was seen) left out. */
const strengthSM: readonly (readonly [mm: number, MPa: number])[] = [
  [0.3, 2370], [0.35, 2320], [0.4, 2270], [0.45, 2240], [0.5, 2200], [0.6, 2140], [0.7, 2090], [0.8, 2050],
  [0.9, 2010], [1, 1980], [1.1, 1950], [1.2, 1920], [1.3, 1900], [1.4, 1870], [1.5, 1850], [1.6, 1830], [1.7, 1810],
  [1.8, 1790], [1.9, 1770], [2, 1760], [2.1, 1740], [2.4, 1700], [2.5, 1690], [2.6, 1670], [2.8, 1650], [3, 1630],
  [3.2, 1610], [3.4, 1590], [3.5, 1580], [3.6, 1570], [3.8, 1550], [4, 1530], [4.5, 1500], [5, 1460], [5.5, 1430],
  [6, 1400], [6.5, 1380], [7, 1350], [7.5, 1330], [8, 1310], [8.5, 1290], [9, 1270], [9.5, 1260], [10, 1240],
  [10.5, 1220], [11, 1210], [12, 1180], [12.5, 1170], [13, 1160], [14, 1130], [16, 1090], [17, 1070], [18, 1050],
  [19, 1030], [20, 1020],
]; // prettier-ignore

/** EN 10270-3 1.4310 normal strength: [largest diameter of the band, mm; least tensile strength, MPa]. */
const stainlessBands: readonly (readonly [number, number])[] = [
  [0.2, 2200], [0.3, 2150], [0.4, 2100], [0.5, 2050], [0.65, 2000], [0.8, 1950], [1, 1900], [1.25, 1850],
  [1.5, 1800], [1.75, 1750], [2, 1700], [2.5, 1650], [3, 1600], [3.5, 1550], [4.25, 1500], [5, 1450], [6, 1400],
  [7, 1350], [8.5, 1300], [10, 1250],
]; // prettier-ignore

/** Smallest and largest diameter for which a strength is known, m. SL is drawn from 1 mm only: its line is taken on below. */
export function strengthRange(wire: SpringWire): readonly [least: number, most: number] {
  switch (wire) {
    case 'EN 10270-3 1.4310':
      return [0, 0.01];
    case 'EN 10270-1 SM':
    case 'EN 10270-1 DM':
      return [0.3e-3, 0.02];
    case 'EN 10270-1 SL':
    case 'EN 10270-1 SH':
      return [0.3e-3, 0.01];
    case 'EN 10270-1 DH':
      return [0.2e-3, 0.01];
  }
}

/** Wire that is stocked and whose strength is known: its diameters, m. */
export function stockedDiameters(wire: SpringWire): readonly number[] {
  const [thinnest, thickest] = strengthRange(wire);
  const from = wire === 'EN 10270-1 SL' ? 1e-3 : thinnest;
  return standardWireDiameters.filter((d) => d >= from - 1e-9 && d <= thickest + 1e-9);
}

/**
 * Least tensile strength of spring wire, Pa.
 *
 * SM and DM: the printed rows of [1], between them straight in the logarithm of the diameter. SL, SH, DH: the lines of [4],
 * at most 1 % under the printed rows. 1.4310: the printed bands of [2]. NaN outside `strengthRange`, so that a check says
 * "not known". Straightened wire loses about a tenth.
 */
export function wireStrength(wire: SpringWire, wireDiameter: number): number {
  const [least, most] = strengthRange(wire);
  // A diameter read in inches may stand a rounding error outside.
  if (!(wireDiameter > 0 && wireDiameter >= least * (1 - 1e-9) && wireDiameter <= most * (1 + 1e-9))) return NaN;
  const mm = wireDiameter * 1000;
  switch (wire) {
    case 'EN 10270-3 1.4310':
      return 1e6 * (stainlessBands.find(([largest]) => mm <= largest * (1 + 1e-9))?.[1] ?? NaN);
    case 'EN 10270-1 SM':
    case 'EN 10270-1 DM':
      return 1e6 * betweenRows(strengthSM, mm);
    case 'EN 10270-1 SL':
      return 1e6 * onLine(strengthLine.SL, mm);
    case 'EN 10270-1 SH':
    case 'EN 10270-1 DH':
      return 1e6 * onLine(strengthLine.SH, mm);
  }
}

const onLine = ([atOne, slope]: readonly [number, number], mm: number) => atOne - slope * Math.log10(mm);

function betweenRows(rows: typeof strengthSM, mm: number): number {
  const after = Math.max(
    1,
    Math.min(
      rows.length - 1,
      rows.findIndex(([diameter]) => diameter >= mm),
    ),
  );
  const [from, to] = [rows[after - 1], rows[after]];
  const share = Math.log(mm / from[0]) / Math.log(to[0] / from[0]);
  return from[1] + Math.max(0, Math.min(1, share)) * (to[1] - from[1]);
}

/** Wire diameters that are stocked, m: rows of [1] and of DIN 2076, near the R20 series of preferred numbers. */
export const standardWireDiameters: readonly number[] = [
  0.2, 0.22, 0.25, 0.28, 0.3, 0.32, 0.36, 0.4, 0.45, 0.5, 0.56, 0.6, 0.63, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.25, 1.4, 1.5,
  1.6, 1.8, 2, 2.2, 2.25, 2.5, 2.8, 3, 3.2, 3.5, 3.6, 4, 4.5, 5, 5.5, 5.6, 6, 6.3,
].map((mm) => mm / 1000); // prettier-ignore

/** What to think of before a spring of this wire works at a temperature. */
export type WireCaution = 'outside the working temperature of its wire' | 'will lose load in the heat';

/**
 * Cautions of working temperature. Relaxation (load lost in time under heat and stress) is not reckoned: the diagrams of
 * [3] are not at hand. From 60 °C at more than 0.4 of the tensile strength patented wire loses some hundredths of its load:
 * common practice, no source.
 *
 * @param temperature K
 * @param stressShare shear stress without correction over tensile strength
 */
export function wireCautions(wire: SpringWire, temperature: number, stressShare: number): readonly WireCaution[] {
  const [coldest, hottest] = workingTemperatures(wire);
  const cautions: WireCaution[] = [];
  if (temperature < coldest || temperature > hottest) cautions.push('outside the working temperature of its wire');
  if (!isStainless(wire) && temperature > 333.15 && stressShare > 0.4) cautions.push('will lose load in the heat');
  return cautions;
}
