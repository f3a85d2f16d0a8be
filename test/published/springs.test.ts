/**
 * Springs against worked examples and standards.
 *
 * Unless it says otherwise, `seen` means: an open companion notebook re-works the book's printed example and prints results;
 * the printed page itself was not seen. Expected values are recomputed from the book's own data and formula and checked
 * against what is printed.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bucklingDeflection, leastCoilGaps, solidLength } from '../../src/physics/spring/compression.ts';
import {
  correctedShearStress,
  permissibleShare,
  shearStress,
  springRate,
  stressCorrection,
  type HelicalSpring,
} from '../../src/physics/spring/helical.ts';
import { shearModulus, wireStrength, type SpringWire } from '../../src/physics/spring/wire.ts';
import { springForce } from '../../src/physics/spring/working.ts';
import { toSI } from '../../src/units/quantity.ts';
import { agrees, within, type Source } from './printed.ts';

/** Dimensions in millimetres, modulus in MPa, as the books give them. */
const spring = (d: number, D: number, n: number, G: number): HelicalSpring => ({
  wireDiameter: d / 1000,
  meanCoilDiameter: D / 1000,
  activeTurns: n,
  shearModulus: G * 1e6,
});
const ratePerMm = (one: HelicalSpring) => springRate(one) / 1000;
const MPa = (pascals: number) => pascals / 1e6;

test('rate and deflection of compression springs in textbooks', () => {
  const example81: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.1, p. 227', provenance: 'seen' };
  // 50 N over 8 mm with C = 8, d = 4.25 mm, G = 84 GPa asks 13.945 turns, printed 14 (rounded up to whole turns).
  within(ratePerMm(spring(4.25, 34, 13.9453125, 84000)), 50 / 8, 1e-9, example81, 'rate, N/mm');
  within(ratePerMm(spring(4.25, 34, 14, 84000)), 50 / 8, 6.25 * (0.5 / 14), example81, 'rate with whole turns');

  const example812: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.12, p. 236', provenance: 'seen' };
  // d = 6, De = 75: deflection of one turn under two loads; the book's own last answer is wrong, 9.234 is consistent.
  agrees(412.3340357837 / ratePerMm(spring(6, 69, 1, 84000)), '9.954', example812, 'mm a turn');
  agrees(382.4864337235 / ratePerMm(spring(6, 69, 1, 84000)), '9.234', example812, 'mm a turn');

  const example83: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.3, p. 229', provenance: 'seen' };
  agrees(ratePerMm(spring(3, 18, 15, 84000)), '9.72', example83, 'extension spring, rate');

  const jindal81: Source = { source: 'U.C. Jindal, Machine Design, Example 8-1, p. 224', provenance: 'seen, derived' };
  // The companion prints 16 and 18 through integer division, a defect of the companion: its data were reworked.
  within(ratePerMm(spring(5, 30, 15, 84000)), 16.2037037037, 16.2 * 0.001, jindal81, 'rate');
  within(300 / ratePerMm(spring(5, 30, 15, 84000)), 18.5142857143, 18.5 * 0.001, jindal81, 'deflection');

  const jindal86: Source = { source: 'U.C. Jindal, Machine Design, Example 8-6, p. 228', provenance: 'seen' };
  agrees(41.0905085002 / ratePerMm(spring(1.219, 12.5 - 1.219, 11.5, 80700)), '30.457', jindal86, 'deflection');

  const jindal87: Source = { source: 'U.C. Jindal, Machine Design, Example 8-7, p. 228', provenance: 'seen' };
  agrees(ratePerMm(spring(1.016, 12.6 - 1.016, 14, 81000)), '0.496', jindal87, 'rate');
  agrees(33.8099508746 / ratePerMm(spring(1.016, 12.6 - 1.016, 14, 81000)), '68.2', jindal87, 'deflection');

  const bhandari: Source = { source: 'V.B. Bhandari, Design of Machine Elements, Example 10.1', provenance: 'memory' };
  agrees(1250 / ratePerMm(spring(7, 42, 8, 81370)), '30.34', bhandari, 'deflection');
});

test('rate, stress and critical length in inches and pounds', () => {
  const at = (d: number, OD: number, Na: number, G: number): HelicalSpring => ({
    wireDiameter: toSI(d, 'in'),
    meanCoilDiameter: toSI(OD - d, 'in'),
    activeTurns: Na,
    shearModulus: toSI(G, 'psi', 'stress'),
  });
  const shigley1: Source = {
    source: 'Shigley, Mischke, Budynas, Mechanical Engineering Design, 8th to 10th ed., Example 10-1',
    provenance: 'memory',
  };
  // The book works on with C = 10.8 and rounded strengths: half a per cent.
  const compression = at(0.037, 0.4375, 10.5, 11.85e6);
  within(springRate(compression) / toSI(1, 'lbf/in'), 4.13, 4.13 * 0.005, shigley1, 'rate, lbf/in');
  const load = toSI(6.46, 'lbf');
  within(correctedShearStress(compression, load) / toSI(1, 'ksi'), 146, 146 * 0.005, shigley1, 'stress, ksi');
  // Squared ends on flat plates: buckles from 2.63 D/0.5 = 2.10 in, the rule of 2.63 being E = 2.6 G.
  const critical = toSI(2.1, 'in');
  const D = compression.meanCoilDiameter;
  assert.equal(bucklingDeflection(critical * 0.995, D, 1 / 2.6, 0.5), Infinity);
  assert.equal(Number.isFinite(bucklingDeflection(critical * 1.005, D, 1 / 2.6, 0.5)), true);

  const shigley6: Source = { ...shigley1, source: shigley1.source.replace('10-1', '10-6') };
  const extension = at(0.035, 0.248, 12.17 + 11.6 / 28.7, 11.6e6);
  agrees(extension.meanCoilDiameter / extension.wireDiameter, '6.086', shigley6, 'spring index');
  agrees(stressCorrection(extension.meanCoilDiameter / extension.wireDiameter), '1.234', shigley6, 'correction');
  agrees(springRate(extension) / toSI(1, 'lbf/in'), '17.91', shigley6, 'rate, lbf/in');
  agrees(shearStress(extension, toSI(1.19, 'lbf')) / toSI(1, 'ksi'), '15.1', shigley6, 'stress by preload, ksi');
  agrees(correctedShearStress(extension, toSI(5.25, 'lbf')) / toSI(1, 'ksi'), '82.0', shigley6, 'stress, ksi');
  const working = {
    kind: 'extension',
    rate: springRate(extension),
    freeLength: toSI(0.817, 'in'),
    initialTension: toSI(1.19, 'lbf'),
  } as const;
  const force = springForce(working, toSI(0.817 + 0.227, 'in')) / toSI(1, 'lbf');
  // 0.227 in is printed to three digits: half the last is 0.009 lbf at this rate.
  within(force, 5.25, 17.91 * 0.0005, shigley6, 'force at the printed stretch, lbf');
});

test('shear stress without correction, and what the curvature adds by Wahl', () => {
  const wahl = (w: number) => (4 * w - 1) / (4 * w - 4) + 0.615 / w;
  const example812: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.12, p. 236', provenance: 'seen' };
  // 350 MPa with K = 1 + 0.5/C at 412.3 N, and with Wahl's factor at 382.5 N; loads printed to a tenth.
  const of812 = spring(6, 69, 1, 84000);
  within(MPa(shearStress(of812, 412.3)) * (1 + 0.5 / 11.5), 350, 350 * (0.05 / 412), example812, 'direct shear');
  within(MPa(shearStress(of812, 382.5)) * wahl(11.5), 350, 350 * (0.05 / 382), example812, 'Wahl');
  const example83: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.3, p. 229', provenance: 'seen' };
  const of83 = spring(3, 18, 15, 84000);
  agrees(MPa(shearStress(of83, 40)) * wahl(6), '85.05', example83, 'initial tension');
  within(MPa(shearStress(of83, 305.7)) * wahl(6), 650, 650 * (0.05 / 305), example83, 'yield');
  const fatigue: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.2, p. 228', provenance: 'seen, derived' };
  within(MPa(shearStress(of83, 100)) * (1 + 0.5 / 6), 183.912378684, 0.4, fatigue, 'mean stress');

  // EN 13906-1 takes Bergsträsser's factor: 0.5 to 1.4 % below Wahl's from w = 20 to 4.
  const factors: Source = {
    source: 'EN 13906-1:2013 (k); A.M. Wahl, Mechanical Springs, 2nd ed. 1963 (for comparison)',
    provenance: 'memory, derived',
  };
  const k: readonly (readonly [w: number, k: number, wahl: number])[] = [
    [4, 1.3846153846, 1.40375],
    [5, 1.2941176471, 1.3105],
    [6, 1.2380952381, 1.2525],
    [8, 1.1724137931, 1.1840178571],
    [10, 1.1351351351, 1.1448333333],
    [12, 1.1111111111, 1.1194318182],
    [16, 1.0819672131, 1.0884375],
    [20, 1.0649350649, 1.0702236842],
  ];
  for (const [w, expected, byWahl] of k) {
    within(stressCorrection(w), expected, 1e-10, factors, `k at w = ${w}`);
    within(stressCorrection(w), (4 * w + 2) / (4 * w - 3), 1e-12, factors, 'the other way of writing it');
    const below = 1 - stressCorrection(w) / byWahl;
    assert.ok(below > 0.0048 && below < 0.0142, `${below} below Wahl at w = ${w}`);
  }
});

test('solid length and room between coils', () => {
  const en: Source = { source: 'EN 13906-1:2013', provenance: 'memory, derived' };
  within(solidLength(8, 1.6e-3, 'closed and ground') * 1000, 16, 1e-9, en, 'closed and ground, mm');
  within(solidLength(8, 1.6e-3, 'closed') * 1000, 18.4, 1e-9, en, 'closed, mm');
  within(leastCoilGaps(spring(1.6, 12.8, 8, 81500)) * 1000, 2.5088, 1e-9, en, 'least sum of gaps, mm');
  assert.equal(permissibleShare('compression'), 0.56);
  assert.equal(permissibleShare('extension'), 0.45);
});

test('buckling', () => {
  const en: Source = {
    source: 'EN 13906-1:2013, 9.14, with G = 81.5 and E = 206 GPa',
    // The clause and the limits 2.6 and 5.3 were seen on public pages; the formula is recalled.
    provenance: 'memory, derived',
  };
  const q = 81.5 / 206;
  within(bucklingDeflection(0.06, 0.01, q, 1) * 1000, 4.82616508, 1e-7, en, 'both ends pivoted, mm');
  within(bucklingDeflection(0.06, 0.01, q, 0.5) * 1000, 24.3276339176, 1e-7, en, 'both ends guided, mm');
  // Just below the limit of slenderness nothing buckles, just above it does.
  for (const [seating, limit] of [
    [0.5, 5.1613862299],
    [1, 2.580693115],
  ] as const) {
    assert.equal(bucklingDeflection(limit * 0.01 * 0.9999, 0.01, q, seating), Infinity);
    assert.equal(Number.isFinite(bucklingDeflection(limit * 0.01 * 1.0001, 0.01, q, seating)), true);
  }
  // Handbook rule: squared and ground ends on flat plates buckle from L0/D = 5.26; this one stands at 8.09 and works 68 mm.
  const jindal87: Source = { source: 'U.C. Jindal, Machine Design, Example 8-7, p. 228', provenance: 'seen' };
  const D = 12.6 - 1.016;
  const buckles = bucklingDeflection(0.0936689, D / 1000, 1 / 2.6, 0.5);
  assert.ok(buckles < 0.0682, `${jindal87.source}: buckles at ${buckles} m`);
});

/** Least tensile strength, MPa, by diameter, mm. */
const strengthSM: readonly (readonly [mm: number, MPa: number])[] = [
  [0.3, 2370], [0.4, 2270], [0.5, 2200], [0.6, 2140], [0.7, 2090], [0.9, 2010], [1.0, 1980], [1.1, 1950], [1.2, 1920],
  [1.3, 1900], [1.4, 1870], [1.5, 1850], [1.7, 1810], [1.8, 1790], [1.9, 1770], [2.0, 1760], [2.1, 1740], [2.4, 1700],
  [2.5, 1690], [2.6, 1670], [2.8, 1650], [3.0, 1630], [3.2, 1610], [3.4, 1590], [3.5, 1580], [3.6, 1570], [3.8, 1550],
  [4.5, 1500], [5.0, 1460], [5.5, 1430], [6.0, 1400], [7.0, 1350], [8.0, 1310], [10.0, 1240],
]; // prettier-ignore

test('tensile strength of patented wire', () => {
  const sm: Source = {
    source: 'EN 10270-1, grade SM, least tensile strength, as an open glossary page of the trade reproduces it',
    provenance: 'seen',
  };
  // The table is rounded to tens, the line through it is not: one step of the table.
  for (const [mm, strength] of strengthSM) {
    within(MPa(wireStrength('EN 10270-1 SM', mm / 1000)), strength, 10, sm, `SM ${mm} mm`);
  }
  const sh: Source = { source: 'EN 10270-1, grade SH, as a stockholder of wire reproduces it', provenance: 'seen' };
  for (const [mm, strength] of [
    [0.3, 2660],
    [0.35, 2600],
    [0.4, 2560],
    [0.45, 2510],
  ] as const) {
    within(MPa(wireStrength('EN 10270-1 SH', mm / 1000)), strength, 15, sh, `SH ${mm} mm`);
  }
  const shRecalled: Source = { source: 'EN 10270-1, grade SH', provenance: 'memory' };
  for (const [mm, strength] of [
    [1, 2230],
    [2, 1980],
    [3, 1840],
  ] as const) {
    within(MPa(wireStrength('EN 10270-1 SH', mm / 1000)), strength, strength * 0.01, shRecalled, `SH ${mm} mm`);
  }
  const lines: Source = {
    source: 'DIN 17223-1 strength lines, carried into EN 10270-1',
    provenance: 'memory, derived',
  };
  for (const [mm, strength] of [
    [1, 1720],
    [2, 1521.3202028618],
    [3, 1405.099971885],
  ] as const) {
    within(MPa(wireStrength('EN 10270-1 SL', mm / 1000)), strength, 1e-6, lines, `SL ${mm} mm`);
  }
});

test('tensile strength of stainless wire', () => {
  const ns: Source = {
    source: 'EN 10270-3, 1.4310 normal strength, as a stockholder of wire reproduces it',
    provenance: 'seen',
  };
  const bands: readonly (readonly [upTo_mm: number, MPa: number])[] = [
    [0.2, 2200], [0.3, 2150], [0.4, 2100], [0.5, 2050], [0.65, 2000], [0.8, 1950], [1.0, 1900], [1.25, 1850],
    [1.5, 1800], [1.75, 1750], [2.0, 1700], [2.5, 1650], [3.0, 1600], [3.5, 1550], [4.25, 1500], [5.0, 1450], [6.0, 1400],
  ]; // prettier-ignore
  for (const [i, [mm, strength]] of bands.entries()) {
    const wire: SpringWire = 'EN 10270-3 1.4310';
    within(MPa(wireStrength(wire, mm / 1000)), strength, 1e-6, ns, `up to ${mm} mm`);
    const next = bands[i + 1];
    if (next !== undefined) within(MPa(wireStrength(wire, mm / 1000 + 1e-6)), next[1], 1e-6, ns, `above ${mm} mm`);
  }
});

test('shear modulus', () => {
  const patented: Source = { source: 'EN 10270-1, as an open glossary page of the trade gives it', provenance: 'seen' };
  for (const wire of ['EN 10270-1 SL', 'EN 10270-1 SM', 'EN 10270-1 SH'] as const) {
    agrees(shearModulus(wire) / 1e9, '81.5', patented, 'GPa');
  }
  const stainless: Source = { source: 'EN 10270-3, 1.4310 after tempering (70 as drawn)', provenance: 'memory' };
  agrees(shearModulus('EN 10270-3 1.4310') / 1e9, '73', stainless, 'GPa');
});
