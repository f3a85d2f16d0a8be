/** Resistance of copper over section, gauge and temperature, and volts lost on the way, against tables and examples. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { findRoot } from '../../src/numerics/roots.ts';
import { dropIn, holdCurrents, pullInCurrents, settledCircuit, smallestSectionFor } from '../../src/physics/circuit.ts';
import { copperResistance } from '../../src/physics/coil.ts';
import { class5, conductorResistance, resistancePerMetre } from '../../src/physics/conductor.ts';
import { readQuantity, toSI } from '../../src/units/quantity.ts';
import { agrees, within, type Source } from './printed.ts';

const celsius = (t: number) => toSI(t, '°C');
const AT_20 = celsius(20);

function section(text: string): number {
  const reading = readQuantity(text, 'area');
  assert.ok(reading.ok, text);
  return reading.quantity.value;
}

test('class 5 conductors: greatest resistance at 20 °C', () => {
  const iec: Source = {
    source: 'IEC 60228, class 5, plain copper; three open pages agree from 1 to 35 mm², two of them at 0.5 and 0.75',
    provenance: 'seen',
  };
  const printed: readonly (readonly [mm2: string, ohmPerKm: string])[] = [
    ['0.5', '39.0'], ['0.75', '26.0'], ['1', '19.5'], ['1.5', '13.3'], ['2.5', '7.98'], ['4', '4.95'], ['6', '3.30'],
    ['10', '1.91'], ['16', '1.21'], ['25', '0.780'], ['35', '0.554'],
  ]; // prettier-ignore
  for (const [mm2, ohmPerKm] of printed) {
    within(resistancePerMetre(section(`${mm2} mm²`)) * 1000, Number(ohmPerKm), 1e-9, iec, `${mm2} mm², ohm/km`);
  }
  const recalled: Source = { source: 'IEC 60228, class 5, plain copper', provenance: 'memory' };
  for (const [mm2, ohmPerKm] of [
    [50, 0.386],
    [70, 0.272],
    [95, 0.206],
  ] as const) {
    within(resistancePerMetre(mm2 * 1e-6) * 1000, ohmPerKm, 1e-9, recalled, `${mm2} mm², ohm/km`);
  }
  assert.equal(class5.length, printed.length + 3, 'every row of src is checked here');
});

test('gauges as solid copper at 20 °C', () => {
  const awg: Source = {
    source: 'ASTM B258 sizes with the resistivity of IEC 60028; an open table of gauges',
    provenance: 'seen',
  };
  for (const [gauge, ohmPerKm] of [
    [22, 53.0],
    [18, 21.0],
    [14, 8.29],
    [10, 3.28],
    [8, 2.06],
  ] as const) {
    // The table cuts its areas off at three digits: half a per cent.
    within(resistancePerMetre(section(`${gauge} AWG`)) * 1000, ohmPerKm, ohmPerKm * 0.005, awg, `${gauge} AWG, ohm/km`);
  }
  const boylestad: Source = {
    source: 'R.L. Boylestad, Introductory Circuit Analysis, 10th ed., Example 3.7 (its data; result recomputed)',
    provenance: 'seen, derived',
  };
  // 100 ft of wire of 0.032 cm: 6.530 ohm with 1.723 µΩ cm, 6.490 by circular mils; the two ways differ by 0.6 %.
  const wire = (Math.PI / 4) * 0.32e-3 ** 2;
  within(conductorResistance(wire, 30.48, AT_20), 6.5299582129, 6.53 * 0.001, boylestad, 'ohm');
  within(conductorResistance(wire, 30.48, AT_20), 6.4897678203, 0.05, boylestad, 'ohm by circular mils');
});

test('copper over temperature', () => {
  const boylestad: Source = {
    source: 'R.L. Boylestad, Introductory Circuit Analysis, 10th ed., Example 3.9 (its data; result recomputed)',
    provenance: 'seen, derived',
  };
  within(copperResistance(50, AT_20, celsius(100)), 65.7170923379, 1e-9, boylestad, 'ohm at 100 °C');
  const iec28: Source = { source: 'IEC 60028', provenance: 'memory, derived' };
  within(copperResistance(1, AT_20, celsius(100)), 1.3143418468, 1e-10, iec28, 'ratio 100 to 20 °C');
  // The coefficient is given to three digits.
  const alpha = copperResistance(1, AT_20, celsius(21)) - 1;
  within(alpha, 0.00393, 5e-6, iec28, 'coefficient at 20 °C');

  const correction: Source = { source: 'IEC 60228, annex, k_t as an open page lists it', provenance: 'seen' };
  // The printed table follows 250/(230 + t), a rounded line; copper's own 254.5/(234.5 + t) is off it by up to 0.43 %.
  for (const [t, k] of [
    [5, 1.064], [10, 1.042], [25, 0.98], [30, 0.962], [40, 0.926], [50, 0.893], [60, 0.862], [70, 0.833], [80, 0.806],
    [90, 0.781], [100, 0.758],
  ] as const) {
    within(1 / copperResistance(1, AT_20, celsius(t)), k, k * 0.0045, correction, `k at ${t} °C`);
  } // prettier-ignore

  const kulshreshtha: Source = {
    source: 'D.C. Kulshreshtha, Basic Electrical Engineering, Example 2.18, p. 32; IEC 60034-1 resistance method',
    provenance: 'seen',
  };
  // 3.42 ohm at 20 °C becomes 4.22 ohm: a rise of 59.59 K with a coefficient of 0.00426 at 0 °C (a zero at -234.7 °C),
  // 59.65 K with the 235 of IEC 60034-1; with -234.5 °C it is 0.06 K less than the first.
  const hot = findRoot((t) => copperResistance(3.42, AT_20, celsius(t)) - 4.22, 20, 200);
  assert.equal(hot.converged, true);
  within(hot.at - 20, 59.59, 0.07, kulshreshtha, 'rise, K');
  within(hot.at - 20, 59.649122807, 0.12, kulshreshtha, 'rise by IEC 60034-1, K');

  const bird: Source = {
    source: 'J.O. Bird, Electrical Circuit Theory and Technology, ch. 3 Example 11, p. 28',
    provenance: 'seen',
  };
  // The book takes 0.004 /K for 0.00393: 80 K times the difference.
  within(copperResistance(10, AT_20, celsius(100)), 13.2, 10 * 80 * (0.004 - 0.00392), bird, 'ohm at 100 °C');
});

test('volts lost in small-craft wiring', () => {
  const iso: Source = {
    source: 'IEC 60228 class 5 with the example 30 A, 12 m out and back, 6 mm² of an open page on ISO 10133 drops',
    provenance: 'seen, derived',
  };
  const six = section('6 mm²');
  within(30 * conductorResistance(six, 12, AT_20), 1.188, 1e-9, iso, 'volts at 20 °C');
  within(30 * conductorResistance(six, 12, celsius(60)), 1.374719057, 1e-6, iso, 'volts at 60 °C');
  // The small-craft formula 0.0164 I L / S gives 0.984 V: solid copper near 7 °C, so always less than ours.
  assert.equal(30 * conductorResistance(six, 12, AT_20) > (0.0164 * 30 * 12) / 6, true);

  const tutorial: Source = { source: 'open tutorial on voltage drop in boats: 10 A, 10 m one way', provenance: 'seen' };
  // Out and back at 8.5 mΩ/m as the tutorial takes 14 AWG; a coil that draws 10 A from 12 V.
  const loop = { source: 12, resistance: 2 * 10 * 8.5e-3 };
  const { supply, volts } = pullInCurrents(loop, { stages: 'single coil', resistance: 1.2 - loop.resistance });
  within(supply, 10, 1e-12, tutorial, 'amperes');
  agrees(loop.source - volts, '1.7', tutorial, 'volts lost');
  agrees((100 * (loop.source - volts)) / 12, '14.2', tutorial, 'per cent');
  // Its 8.5 mΩ/m is for strands; solid copper of that gauge has 2.5 % less.
  within(resistancePerMetre(section('14 AWG')) * 1000, 8.5, 8.5 * 0.03, tutorial, '14 AWG, ohm/km');

  const sizing: Source = {
    source: "small-craft wire-size tables for 3 % and 10 %, worked example on two pages of a chandler's catalogue",
    provenance: 'seen',
  };
  // 10 A over 21 ft, which the table takes as 25 ft: 16 AWG for 10 % and 10 AWG for 3 % of 12 V.
  const drop = (gauge: number) => 10 * conductorResistance(section(`${gauge} AWG`), toSI(25, 'ft'), celsius(30));
  const thinnest = (share: number) => [18, 16, 14, 12, 10, 8].find((gauge) => drop(gauge) <= share * 12);
  assert.equal(thinnest(0.1), 16, sizing.source);
  assert.equal(thinnest(0.03), 10, sizing.source);
  // And by circular mils with K = 10.75 Ω CM/ft, which is copper at 29 °C (10.37 at 20 °C): 1881 CM for 10 %.
  const circularMil = (Math.PI / 4) * toSI(0.001, 'in') ** 2;
  const lost = 10 * conductorResistance(1881.25 * circularMil, toSI(21, 'ft'), celsius(29.4));
  // K is known to half of its last digit, 0.05 %, and its temperature to a degree, 0.4 %.
  within(lost, 1.2, 1.2 * 0.0045, sizing, 'volts at the computed size');
});

test('allowed drops, and the smallest section that keeps to one', () => {
  const iso: Source = {
    source: 'ISO 10133 clause 4, 3 % and 10 % of the nominal voltage; excerpt and two trade pages',
    provenance: 'seen',
  };
  const conductor = { name: 'run', kind: 'conductor', side: 'out', fresh: 0.1, aged: 0.1 } as const;
  const inside = { name: 'battery', kind: 'source', side: 'out', fresh: 5, aged: 5 } as const;
  for (const [nominal, share, volts] of [
    [12, 0.03, 0.36],
    [12, 0.1, 1.2],
    [24, 0.03, 0.72],
    [24, 0.1, 2.4],
  ] as const) {
    const drop = dropIn([inside, conductor], 'fresh', volts / 0.1, nominal);
    within(drop.volts, volts, 1e-12, iso, `${nominal} V`);
    assert.equal(drop.within, share, iso.source);
    assert.notEqual(dropIn([conductor], 'fresh', (volts / 0.1) * 1.001, nominal).within, share, 'just above');
  }

  // The same worked example of the catalogue, through the list of sizes that are sold: 10 A over 25 ft.
  const catalogue: Source = { source: "worked example of a chandler's catalogue: 16 and 10 AWG", provenance: 'seen' };
  const run = {
    source: 12, sourceResistance: 0, otherResistance: 0, length: toSI(25, 'ft'), temperature: celsius(30),
    stranding: 'class 5', coil: { stages: 'single coil', resistance: 1.2 }, stage: 'pull-in',
  } as const; // prettier-ignore
  for (const [share, gauge] of [
    [0.1, '16 AWG'],
    [0.03, '10 AWG'],
  ] as const) {
    const choice = smallestSectionFor(run, 'gauge', { drop: share * 12 });
    assert.equal(choice.section?.label, gauge, catalogue.source);
  }
});

test('a hold winding that warms itself', () => {
  const fixedPoint: Source = {
    source: 'the coefficient 0.00393 of IEC 60028 and Ohm, solved as a quadratic: 12.2 ohm, 12 V, 6 K/W at 60 °C',
    provenance: 'derived',
  };
  const settled = settledCircuit({
    loop: { source: 12, resistance: 0 },
    coil: { stages: 'single coil', resistance: 12.2 },
    readAt: AT_20,
    stage: 'hold',
    ambient: celsius(60),
    thermalResistance: 6,
  });
  assert.equal(settled.converged, true);
  // 0.00393 puts copper's zero at -234.45 °C, ours at -234.5 °C: 0.01 K here.
  within(settled.temperature, celsius(112.01184708), 0.1, fixedPoint, 'K');
  within(settled.currents.coil, 0.722386765, 0.722 * 0.002, fixedPoint, 'A');
  // With the cold resistance it would have been 130.8 °C.
  within(celsius(60) + 6 * (12 ** 2 / 12.2), celsius(130.8196721311), 0.1, fixedPoint, 'cold resistance, K');
});

test('a stop solenoid with two windings', () => {
  const manuals: Source = {
    source: 'two machinery service manuals (names withheld): 0.33 and 12.2 ohm at 12 V; a third gives 35 to 45 A',
    provenance: 'seen, derived',
  };
  const coil = { stages: 'pull-in and hold windings', pullIn: 0.33, hold: 12.2 } as const;
  const loop = { source: 12, resistance: 0 };
  const pullIn = pullInCurrents(loop, coil);
  const hold = holdCurrents(loop, coil);
  within(pullIn.coil, 36.3636363636, 1e-9, manuals, 'pull-in, A');
  within(hold.coil, 0.9836065574, 1e-9, manuals, 'hold, A');
  within(hold.coilPower, 11.8032786885, 1e-9, manuals, 'hold, W');
  within(pullIn.coilPower, 436.3636363636 + 11.8032786885, 1e-9, manuals, 'both windings, W');
  assert.equal(pullIn.supply > 35 && pullIn.supply < 45, true);
  const ratio = pullIn.coil / hold.coil;
  assert.ok(ratio > 30 && ratio < 45, `${ratio}`);
});
