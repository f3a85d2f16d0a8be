/**
 * Springs by kind against published values: surge, initial tension, hooks, torsion, endurance, wire. The worked examples of
 * rate and stress stand in springs.test.ts.
 *
 * Where a check says `seen` without saying where: an open companion re-works the book's example and prints results.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bucklingDeflection, solidLength, totalTurns } from '../../src/physics/spring/compression.ts';
import { enduranceAmplitude, SHEAR_SHARE, zimmerli } from '../../src/physics/spring/endurance.ts';
import {
  activeTurnsWithHooks,
  extensionFreeLength,
  extensionShares,
  hookStress,
  usualInitialStress,
} from '../../src/physics/spring/extension.ts';
import {
  correctedShearStress,
  naturalFrequency,
  shearStress,
  springRate,
  type HelicalSpring,
} from '../../src/physics/spring/helical.ts';
import { coilDiameterTolerance, loadTolerance } from '../../src/physics/spring/tolerance.ts';
import {
  bendingCorrection,
  bendingStress,
  torsionRate,
  turnsOfLegs,
  woundDiameter,
} from '../../src/physics/spring/torsion.ts';
import {
  elasticModulus,
  modulusShare,
  shearModulus,
  springWires,
  standardWireDiameters,
  stockedDiameters,
  wireDensity,
  wireStrength,
  workingTemperatures,
} from '../../src/physics/spring/wire.ts';
import { toSI } from '../../src/units/quantity.ts';
import { agrees, within, type Source } from './printed.ts';

/** Dimensions in millimetres, modulus in MPa, as the books give them. */
const spring = (d: number, D: number, n: number, G: number): HelicalSpring => ({
  wireDiameter: d / 1000,
  meanCoilDiameter: D / 1000,
  activeTurns: n,
  shearModulus: G * 1e6,
});
const MPa = (pascals: number) => pascals / 1e6;
const ksi = (pascals: number) => pascals / toSI(1, 'ksi');
const inches = (length: number) => toSI(length, 'in');

test('surge, wire diameter and free length of a compression spring for 250 to 300 N', () => {
  const singh: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.1, p. 227', provenance: 'seen, derived' };
  const example = spring(4.25, 34, 13.9453125, 84000);
  // 3.079 Hz is printed, a slip of units by √1000: recomputed from the book's own data.
  within(naturalFrequency(example, 7800), 97.3644288688, 1e-6, singh, 'Hz');
  // d of 4.150784 mm makes 420 MPa at 300 N by Wahl (C = 8); the printed 4.15 is that to its last digit.
  const wahl = (4 * 8 - 1) / (4 * 8 - 4) + 0.615 / 8;
  within(
    (MPa(shearStress(spring(4.15, 8 * 4.15, 1, 84000), 300)) * wahl) / 420,
    1,
    2 * (0.005 / 4.15),
    singh,
    'stress',
  );
  const free = totalTurns(13.9453125) * 4.25 + 1.15 * (300 / (springRate(example) / 1000));
  within(free, 123.0, 0.1, singh, 'free length, mm');
  // The book goes on with 124 mm, L0/D = 3.647: it rounds up by a millimetre.
  within(free / 34, 3.647, 1.1 / 34, singh, 'L0/D');
});

test('yield load, deflection and solid length of hard-drawn and music wire', () => {
  const jindal86: Source = { source: 'U.C. Jindal, Machine Design, Example 8-6, p. 228', provenance: 'seen' };
  const hardDrawn = spring(1.219, 12.5 - 1.219, 11.5, 80700);
  // The book takes K = 1 + 0.5/C.
  const K = 1 + 0.5 / ((12.5 - 1.219) / 1.219);
  within(MPa(shearStress(hardDrawn, 41.1)) * K, 686.9, 686.9 * (0.05 / 41.1), jindal86, 'yield stress, MPa');
  // Plain ends: (n_t - 1) d, with n_t = 13.5.
  agrees(1000 * solidLength(10.5, 1.219e-3, 'closed'), '17.066', { ...jindal86, provenance: 'derived' }, 'closed ends');
  const jindal87: Source = { source: 'U.C. Jindal, Machine Design, Example 8-7, p. 228', provenance: 'seen' };
  const music = spring(1.016, 12.6 - 1.016, 14, 81000);
  const Km = 1 + 0.5 / ((12.6 - 1.016) / 1.016);
  within(MPa(shearStress(music, 33.8)) * Km, 992.7, 992.7 * (0.05 / 33.8), jindal87, 'yield stress, MPa');
  assert.ok(
    bucklingDeflection(0.0936689135, 0.011584, 1 / 2.6, 0.5) < Infinity,
    'L0/D of 8.09 buckles: 5.26 is the limit',
  );
});

test('bending of fatigue: the line of Wahl through our stresses', () => {
  const singh: Source = { source: 'Sadhu Singh, Machine Design-I, Example 8.2, p. 228', provenance: 'seen' };
  const body = spring(3, 18, 1, 84000);
  const wahl = (4 * 6 - 1) / (4 * 6 - 4) + 0.615 / 6;
  const mean = MPa(shearStress(body, 100)) * (1 + 0.5 / 6);
  const amplitude = MPa(shearStress(body, 40)) * wahl;
  within(amplitude, 85.0524015883, 0.002 * 85, { ...singh, provenance: 'seen, derived' }, 'amplitude');
  const [yielding, endured] = [0.45 * 1430, 0.22 * 1430];
  agrees(1 / (mean / yielding + (amplitude / endured) * (2 - endured / yielding)), '1.44', singh, 'factor of safety');
});

test('extension spring of hard-drawn wire: initial tension, free length, hooks', () => {
  const shigley: Source = {
    source: 'Shigley, Mischke, Budynas, Mechanical Engineering Design, 8th to 10th ed., Example 10-6',
    provenance: 'memory',
  };
  const [d, D] = [inches(0.035), inches(0.213)];
  // The wire of the book has G/E = 11.6/28.7; ours has 81.5/206, which moves the turns by 0.009.
  within(activeTurnsWithHooks(12.17, 'EN 10270-1 SM'), 12.57, 0.015, shigley, 'turns that give way');
  agrees(extensionFreeLength(12.17, d, D) / inches(1), '0.817', shigley, 'free length, in');
  const [low, high] = usualInitialStress(D / d);
  // Printed from the formula in psi; the one in MPa is rounded to 231 and 6.9: one part in three hundred.
  within(ksi(high), 21.2, 21.2 / 200, shigley, 'greatest preferred stress, ksi');
  within(ksi(low), 14.2, 14.2 / 200, shigley, 'least preferred stress, ksi');
  const example: HelicalSpring = {
    wireDiameter: d,
    meanCoilDiameter: D,
    activeTurns: 12.57,
    shearModulus: toSI(11.6e6, 'psi', 'stress'),
  };
  const load = toSI(5.25, 'lbf');
  const { bending, twist } = hookStress(example, load, inches(0.106), inches(0.089));
  // The book goes on with K = 1.14 and 1.18, rounded to three digits.
  within(ksi(bending), 156.9, 156.9 * (0.005 / 1.14), shigley, 'hook in bending, ksi');
  within(ksi(twist), 78.4, 78.4 * (0.005 / 1.18), shigley, 'hook in twist, ksi');
  const strength = 264.7;
  within((extensionShares.hookBending * strength) / ksi(bending), 1.27, 0.01, shigley, 'safety of the hook in bending');
  within((extensionShares.hookTwist * strength) / ksi(twist), 1.35, 0.01, shigley, 'safety of the hook in twist');
  within(
    (extensionShares.body * strength) / ksi(correctedShearStress(example, load)),
    1.45,
    0.01,
    shigley,
    'safety of the body',
  );
});

test('stress by initial tension over the spring index', () => {
  const rule: Source = {
    source: 'Shigley, Mischke, Budynas, Mechanical Engineering Design, 8th to 10th ed., eq. 10-41',
    provenance: 'memory, derived',
  };
  for (const [w, middle, half] of [
    [4, 151.7778153773, 26.5384615385],
    [6, 123.0287060326, 24.4153846154],
    [8, 99.7251309121, 22.2923076923],
    [10, 80.8356200447, 20.1692307692],
    [12, 65.5240801214, 18.0461538462],
  ] as const) {
    const [low, high] = usualInitialStress(w);
    within(MPa(low + high) / 2, middle, 1e-9, rule, `middle at ${w}`);
    within(MPa(high - low) / 2, half, 1e-9, rule, `half range at ${w}`);
  }
});

test('torsion springs', () => {
  const bhandari: Source = {
    source: 'V.B. Bhandari, Design of Machine Elements, Example 10.21',
    // Data and result (1.6 mm, 393 turns for 3 N mm/rad) printed in an open set of worked examples.
    provenance: 'seen',
  };
  const example = { wireDiameter: 1.6e-3, meanCoilDiameter: 0.018, activeTurns: 393, elasticModulus: 207e9 };
  within(torsionRate(example) * 1000, 3, 3 * (0.5 / 393), bhandari, 'rate, N mm/rad; turns rounded up');
  const page: Source = {
    source: 'an open page of a maker of springs, example of a torsion spring',
    provenance: 'seen',
  };
  // 0.035 in, outside 0.5 in, 3 coils, 30e6 psi: 2.988 with the 10.8 that allows for friction; ours bends alone, 64/2π = 10.186.
  const perTurn = torsionRate({
    wireDiameter: inches(0.035), meanCoilDiameter: inches(0.465), activeTurns: 3, elasticModulus: toSI(30e6, 'psi', 'stress'),
  }) * 2 * Math.PI; // prettier-ignore
  const poundInches = perTurn / (toSI(1, 'lbf') * inches(1));
  within((poundInches * (64 / (2 * Math.PI))) / 10.8, 2.988, 0.0012, page, 'lbf in a turn (the page rounds d⁴ first)');
  const shigley: Source = {
    source: 'Shigley, Mischke, Budynas, Mechanical Engineering Design, 8th to 10th ed., Example 10-8',
    provenance: 'memory',
  };
  const [d, D] = [inches(0.072), inches(0.521)];
  const turns = 4.25 + turnsOfLegs(D, inches(1), inches(1));
  agrees(turns, '4.657', shigley, 'turns with legs');
  const music = {
    wireDiameter: d,
    meanCoilDiameter: D,
    activeTurns: turns,
    elasticModulus: toSI(28.5e6, 'psi', 'stress'),
  };
  const rate = (torsionRate(music) * 2 * Math.PI) / (toSI(1, 'lbf') * inches(1));
  agrees((rate * (64 / (2 * Math.PI))) / 10.8, '29.2', shigley, 'lbf in a turn');
  // Yields at 229.6 ksi with the curvature factor 1.115 of the book.
  const moment = 7.546 * toSI(1, 'lbf') * inches(1);
  within(ksi(bendingStress(d, moment)) * 1.115, 229.6, 0.3, shigley, 'bending stress, ksi');
  within(
    woundDiameter({ ...music, activeTurns: 4.25 }, 0.236 * 2 * Math.PI) / inches(1),
    0.494,
    0.0005,
    shigley,
    'wound up, in',
  );
  const en: Source = { source: 'EN 13906-3:2014, correction q', provenance: 'memory, derived' };
  within(bendingCorrection(6), 6.07 / 5.25, 1e-12, en, 'q at 6');
});

test('endurance', () => {
  const found: Source = {
    source: 'F.P. Zimmerli, Human failures in spring applications (1957), as quoted in Shigley, eqs. 10-28 and 10-29',
    provenance: 'memory, derived',
  };
  agrees(MPa(zimmerli.plain.amplitude), '241', found);
  agrees(MPa(zimmerli.plain.mean), '379', found);
  agrees(MPa(zimmerli['shot peened'].amplitude), '398', found);
  agrees(MPa(zimmerli['shot peened'].mean), '534', found);
  within(SHEAR_SHARE * 2000, 1340, 1e-9, found, 'shear strength of 2000 MPa');
  within(MPa(enduranceAmplitude(2000e6, 'plain')), 336.04578564, 0.005 * 336, found, 'by Goodman');
  // Gerber's parabola through the same point meets the axis at 262 MPa: Goodman's line, which is used, lies above it there.
  assert.ok(MPa(enduranceAmplitude(2000e6, 'plain')) > 261.9554117263, 'steeper than by Gerber');
});

test('moduli, density and working temperature of wire', () => {
  const page: Source = { source: 'EN 10270-1, as an open glossary page of the trade gives it', provenance: 'seen' };
  agrees(elasticModulus('EN 10270-1 SM') / 1e9, '206', page, 'E, GPa');
  agrees(shearModulus('EN 10270-1 DH') / 1e9, '81.5', page, 'G, GPa');
  agrees(wireDensity('EN 10270-1 SM') / 1000, '7.85', page, 'density');
  const [coldest, hottest] = workingTemperatures('EN 10270-1 SM').map((kelvins) => kelvins - 273.15) as [
    number,
    number,
  ];
  agrees(coldest, '-30', page, '°C');
  agrees(hottest, '100', page, '°C');
  const stainless: Source = { source: 'EN 10270-3, 1.4310 as drawn 180, tempered 185 GPa', provenance: 'memory' };
  within(elasticModulus('EN 10270-3 1.4310') / 1e9, 180, 0.05 * 180, stainless, 'E, GPa');
  within(shearModulus('EN 10270-3 1.4310') / 1e9, 70, 0.05 * 70, stainless, 'G, GPa');
  const heat: Source = {
    source: 'an open page of a maker of springs: moduli fall by about 2 % in 55 °C',
    provenance: 'seen',
  };
  // A rule of one digit, for all spring steels: half of its last digit each way.
  for (const wire of springWires) within(100 * (1 - modulusShare(wire, 293.15 + 55)), 2, 0.5, heat, wire);
});

test('strength of patented wire against ASTM constants of the same trade', () => {
  const constants: Source = {
    source: 'Shigley, Mischke, Budynas, Mechanical Engineering Design, 8th to 10th ed., Table 10-4: Rm = A/d^m',
    provenance: 'memory',
  };
  // Music wire against SH (ASTM A228), hard-drawn against SL (A227): other standards, so only within a tenth.
  for (const mm of [1, 1.5, 2, 3]) {
    within(MPa(wireStrength('EN 10270-1 SH', mm / 1000)), 2211 / mm ** 0.145, 221, constants, `SH ${mm} mm`);
    within(MPa(wireStrength('EN 10270-1 SL', mm / 1000)), 1783 / mm ** 0.19, 178, constants, `SL ${mm} mm`);
  }
  const stainless = (mm: number) => (mm <= 2.5 ? 1867 / mm ** 0.146 : 2065 / mm ** 0.263);
  for (const mm of [0.5, 1, 2, 3])
    within(
      MPa(wireStrength('EN 10270-3 1.4310', mm / 1000)),
      stainless(mm),
      0.1 * stainless(mm),
      constants,
      `1.4310 ${mm} mm`,
    );
});

test('rows of patented and stainless wire beyond 10 and 6 mm', () => {
  const sm: Source = {
    source: 'EN 10270-1, grade SM, as an open glossary page of the trade reproduces it',
    provenance: 'seen',
  };
  for (const [mm, strength] of [
    [0.35, 2320],
    [1.6, 1830],
    [6.5, 1380],
    [9.5, 1260],
    [10.5, 1220],
    [12, 1180],
    [14, 1130],
    [16, 1090],
    [20, 1020],
  ] as const)
    // prettier-ignore
    agrees(MPa(wireStrength('EN 10270-1 SM', mm / 1000)), String(strength), sm, `SM ${mm} mm`);
  // The page prints 1160 at 15 mm, between 1130 and 1090: 1110 is meant, and lies between the rows.
  const meant: Source = { ...sm, provenance: 'seen, derived' };
  within(MPa(wireStrength('EN 10270-1 SM', 0.015)), 1110, 5, meant, 'SM 15 mm');
  const ns: Source = {
    source: 'EN 10270-3, 1.4310 normal strength, as a stockholder of wire reproduces it',
    provenance: 'seen',
  };
  for (const [mm, strength] of [
    [7, 1350],
    [8.5, 1300],
    [10, 1250],
  ] as const)
    // prettier-ignore
    agrees(MPa(wireStrength('EN 10270-3 1.4310', mm / 1000)), String(strength), ns, `1.4310 ${mm} mm`);
  const dh: Source = {
    source: 'EN 10270-1, grade DH, as an open page of a maker of wire reproduces it',
    provenance: 'seen',
  };
  for (const [mm, strength] of [
    [0.2, 2800],
    [0.22, 2770],
    [0.25, 2720],
    [0.28, 2680],
    [0.3, 2660],
    [0.32, 2640],
  ] as const)
    // prettier-ignore
    within(MPa(wireStrength('EN 10270-1 DH', mm / 1000)), strength, 0.01 * strength, dh, `DH ${mm} mm`);
});

test('stocked diameters of wire', () => {
  const listed = [
    0.2, 0.22, 0.25, 0.28, 0.3, 0.32, 0.36, 0.4, 0.45, 0.5, 0.56, 0.6, 0.63, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.25, 1.4, 1.5,
    1.6, 1.8, 2.0, 2.2, 2.25, 2.5, 2.8, 3.0, 3.2, 3.5, 3.6, 4.0, 4.5, 5.0, 5.5, 5.6, 6.0, 6.3,
  ]; // prettier-ignore
  // EN 10270-1 table rows and DIN 2076: rows seen, the list put together from memory.
  assert.deepEqual(
    standardWireDiameters.map((d) => Number((1000 * d).toPrecision(6))),
    listed,
  );
  assert.equal(stockedDiameters('EN 10270-1 SL')[0], 1e-3);
});

test('tolerances of coils', () => {
  const page: Source = {
    source: 'DIN 2097 (EN 15800), ± of the coil diameter, as an open page of the trade gives it',
    provenance: 'seen',
  };
  for (const [D, w, grade, mm] of [
    [0.8, 6, 1, 0.05],
    [5, 10, 1, 0.15],
    [5, 10, 2, 0.25],
    [5, 10, 3, 0.5],
    [12, 6, 2, 0.3],
    [12, 16, 3, 0.8],
    [20, 10, 2, 0.45],
    [28, 6, 3, 0.8],
    [35, 10, 2, 0.6],
    [45, 16, 1, 0.5],
    [60, 12, 2, 1],
  ] as const)
    // prettier-ignore
    within(1000 * coilDiameterTolerance(D / 1000, w, grade), mm, 1e-9, page, `D ${D} w ${w} grade ${grade}`);
  const en: Source = { source: 'EN 15800:2008, ± of a force', provenance: 'memory, derived' };
  // d 1.6, D 12.8, n 8, 50 N, worked with a pocket calculator: a_F 4.57, k_F 0.998.
  within(loadTolerance(spring(1.6, 12.8, 8, 81500), 50, 2), 4.57 * 0.998 + 0.75, 0.02, en, 'grade 2, N');
  within(loadTolerance(spring(1.6, 12.8, 8, 81500), 50, 1), 0.63 * (4.57 * 0.998 + 0.75), 0.02, en, 'grade 1, N');
  within(loadTolerance(spring(1.6, 12.8, 8, 81500), 50, 3), 1.6 * (4.57 * 0.998 + 0.75), 0.03, en, 'grade 3, N');
});
