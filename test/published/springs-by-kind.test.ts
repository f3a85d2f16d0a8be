/**
 * Springs by kind against published values: surge, initial tension, hooks, torsion, endurance. The worked examples of
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
import {
  bendingCorrection,
  bendingStress,
  torsionRate,
  turnsOfLegs,
  woundDiameter,
} from '../../src/physics/spring/torsion.ts';
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
