/** Energy over flux and gap: the magnet itself, read the other way round. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { EnergyByFlux, energyByFlux, noFluxNumbers } from '../../../src/physics/solenoid/energy-by-flux.ts';
import { magnetOf, noMagnetNumbers, type Magnet } from '../../../src/physics/solenoid/magnet-form.ts';
import { magnetOfReadings } from '../../../src/physics/solenoid/magnet-of-readings.ts';
import { forceTable } from '../../../src/physics/solenoid/table.ts';
import { referenceRequest } from '../../published/motion-reference.ts';

/** No steel: W' = ½ P Θ², P = P0/(1 + g/g0); then W = φ²/(2P), straight in the gap and square in the flux. */
const [P0, g0] = [2e-7, 1e-3];
const air = magnetOf({
  leastGap: 0,
  mostGap: 0.02,
  mostAmpereTurns: 3000,
  approximation: null,
  evaluate(gap, ampereTurns, into) {
    const P = P0 / (1 + gap / g0);
    const slope = -P0 / g0 / (1 + gap / g0) ** 2;
    into.coEnergy = 0.5 * P * ampereTurns ** 2;
    into.fluxLinkage = P * ampereTurns;
    into.force = -0.5 * slope * ampereTurns ** 2;
    into.fluxByAmpereTurns = P;
    into.fluxByGap = slope * ampereTurns;
  },
});

const pulls = magnetOfReadings(
  forceTable([
    { current: 400, gaps: [0.0005, 0.002, 0.006, 0.012], forces: [60, 22, 8, 3.5] },
    { current: 1200, gaps: [0.0005, 0.002, 0.006, 0.012], forces: [180, 110, 52, 26] },
  ]),
  { inductance: null },
);
const reference = referenceRequest().magnet;

/** Greatest differences from the magnet over gaps and ampere-turns, as shares of the greatest ampere-turns and the greatest force at the gap. */
function differences(magnet: Magnet): { readonly ampereTurns: number; readonly force: number } {
  const energy = new EnergyByFlux(magnet);
  const [own, field] = [noMagnetNumbers(), noFluxNumbers()];
  const most = { ampereTurns: 0, force: 0 };
  for (let a = 0; a <= 60; a++) {
    const gap = magnet.leastGap + (magnet.mostGap - magnet.leastGap) * (a / 60) ** 1.7;
    magnet.evaluate(gap, magnet.mostAmpereTurns, own);
    const greatest = own.force;
    for (let b = 1; b <= 60; b++) {
      const level = magnet.mostAmpereTurns * (b / 61);
      magnet.evaluate(gap, level, own);
      if (!energy.write(gap, own.fluxLinkage, field)) continue;
      most.ampereTurns = Math.max(most.ampereTurns, Math.abs(field.ampereTurns - level) / magnet.mostAmpereTurns);
      most.force = Math.max(most.force, Math.abs(field.force - own.force) / greatest);
    }
  }
  return most;
}

test('without steel it is the closed form to rounding, at any flux and gap', () => {
  const energy = new EnergyByFlux(air);
  const field = noFluxNumbers();
  for (const gap of [0, 1e-4, 0.0031, 0.0123, 0.02])
    for (const share of [0.001, 0.013, 0.04]) {
      const flux = share * energy.mostFlux;
      energy.write(gap, flux, field);
      const reluctance = (1 + gap / g0) / P0;
      for (const [found, right] of [
        [field.ampereTurns, flux * reluctance],
        [field.force, (0.5 * flux ** 2) / (P0 * g0)],
        [field.fieldEnergy, 0.5 * flux ** 2 * reluctance],
      ])
        assert.ok(Math.abs(found - right) <= 1e-9 * right, `${gap} m, ${flux} Wb: ${found} and ${right}`);
    }
});

test('with steel it keeps within a thousandth of the greatest ampere-turns, and half a hundredth of the greatest force', () => {
  for (const [name, magnet] of [
    ['field map of the reference', reference],
    ['pulls', pulls],
  ] as const) {
    const { ampereTurns, force } = differences(magnet);
    assert.ok(ampereTurns < 1e-3, `${name}: ampere-turns ${ampereTurns}`);
    assert.ok(force < 5e-3, `${name}: force ${force}`);
  }
});

test('ampere-turns and force are the slopes of the one energy, so that a round trip costs nothing', () => {
  const energy = new EnergyByFlux(reference);
  const field = noFluxNumbers();
  const at = (gap: number, flux: number) => {
    energy.write(gap, flux, field);
    return { ...field };
  };
  // There and back along two ways over the same ends: Simpson's rule is exact for cubics on each small piece.
  const [g1, g2] = [0.0021, 0.0062];
  const [f1, f2] = [0.2 * energy.mostFlux, 0.35 * energy.mostFlux];
  const along = (from: number, to: number, of: (x: number) => number) => {
    const pieces = 4000;
    const h = (to - from) / pieces;
    let sum = 0;
    for (let i = 0; i < pieces; i++) {
      const x = from + i * h;
      sum += (h / 6) * (of(x) + 4 * of(x + h / 2) + of(x + h));
    }
    return sum;
  };
  const work =
    along(g1, g2, (gap) => at(gap, f1).force)
    + along(f1, f2, (flux) => at(g2, flux).ampereTurns)
    + along(g2, g1, (gap) => at(gap, f2).force)
    + along(f2, f1, (flux) => at(g1, flux).ampereTurns);
  const scale = at(g2, f2).fieldEnergy;
  assert.ok(Math.abs(work) < 1e-8 * scale, `${work} J of ${scale} J`);
});

test('a little beyond the gaps the force is carried on as at the end, and the energy with it', () => {
  const energy = new EnergyByFlux(reference);
  const [end, beyond] = [noFluxNumbers(), noFluxNumbers()];
  const flux = 0.4 * energy.mostFlux;
  energy.write(reference.leastGap, flux, end);
  energy.write(reference.leastGap - 2e-5, flux, beyond);
  assert.equal(beyond.force, end.force);
  assert.ok(Math.abs(beyond.fieldEnergy - (end.fieldEnergy - 2e-5 * end.force)) < 1e-12, `${beyond.fieldEnergy} J`);
});

test('of one magnet there is one; none below no flux, nor where more is asked than the magnet is known for', () => {
  assert.equal(energyByFlux(reference), energyByFlux(reference));
  const energy = energyByFlux(reference);
  const field = { ampereTurns: 7, force: 7, fieldEnergy: 7 };
  for (const [gap, flux] of [
    [0.002, -1e-9],
    [reference.leastGap, 1.01 * energy.mostFlux],
    [reference.mostGap, 0.9 * energy.mostFlux],
  ])
    assert.equal(energy.write(gap, flux, field), false, `${gap} m, ${flux} Wb`);
  assert.deepEqual(field, { ampereTurns: 7, force: 7, fieldEnergy: 7 }, 'nothing is written');
  assert.equal(energy.write(0.002, 0, field), true);
});
