/** Coils for the tests of heat: one like those on a bus, and random ones of sensible size. */
import * as fc from 'fast-check';
import {
  canHeatCapacityFromSize,
  copperMass,
  windingHeatCapacity,
  windingToCanFromSize,
  type CoilBody,
} from '../../../src/physics/heat/coil-body.ts';
import type { CoilOnVolts, WindingOhms } from '../../../src/physics/heat/coil-power.ts';
import type { Surroundings } from '../../../src/physics/heat/nodes.ts';

export const celsius = (t: number): number => t + 273.15;

const can = { diameter: 0.05, length: 0.08, attitude: 'lying' } as const;
export const pullWinding: WindingOhms = { resistance: 0.25, at: celsius(20) };
export const holdWinding: WindingOhms = { resistance: 12.2, at: celsius(20) };

export const usual: CoilBody = {
  windingHeatCapacity: windingHeatCapacity(
    copperMass(0.25, celsius(20), 1.3e-3) + copperMass(12.2, celsius(20), 0.4e-3),
    0.07,
  ),
  canHeatCapacity: canHeatCapacityFromSize(can),
  windingToCan: windingToCanFromSize(can),
  can,
  emissivity: 0.9,
  canToBracket: 0.05,
};

export const stalled: CoilOnVolts = { drive: 'volts', source: 14, loopResistance: 0.05, winding: pullWinding };
export const held: CoilOnVolts = { drive: 'volts', source: 14, loopResistance: 0.05, winding: holdWinding };
export const engineSpace: Surroundings = { air: celsius(50), bracket: celsius(80) };

/** A can with next to no surface: heat leaves by the bracket alone, so that the balances are straight lines. */
export const bracketOnly = (body: Partial<CoilBody>): CoilBody => ({
  ...usual,
  can: { diameter: 1e-7, length: 1e-6, attitude: 'lying' },
  emissivity: 0,
  ...body,
});

export const anyBody: fc.Arbitrary<CoilBody> = fc.record({
  windingHeatCapacity: fc.double({ min: 20, max: 300, noNaN: true }),
  canHeatCapacity: fc.double({ min: 50, max: 1000, noNaN: true }),
  windingToCan: fc.double({ min: 0.2, max: 8, noNaN: true }),
  can: fc.record({
    diameter: fc.double({ min: 0.03, max: 0.1, noNaN: true }),
    length: fc.double({ min: 0.04, max: 0.15, noNaN: true }),
    attitude: fc.constantFrom('lying', 'upright'),
  }),
  emissivity: fc.double({ min: 0.1, max: 0.95, noNaN: true }),
  canToBracket: fc.double({ min: 0, max: 0.5, noNaN: true }),
});

/** From a hold of a few watts to a stalled pull of half a kilowatt. */
export const anyPower: fc.Arbitrary<CoilOnVolts> = fc.record({
  drive: fc.constant('volts'),
  source: fc.double({ min: 8, max: 30, noNaN: true }),
  loopResistance: fc.double({ min: 0, max: 0.3, noNaN: true }),
  winding: fc.record({
    resistance: fc.double({ min: Math.log(0.4), max: Math.log(60), noNaN: true }).map(Math.exp),
    at: fc.constant(celsius(20)),
  }),
});

export const anySurroundings: fc.Arbitrary<Surroundings> = fc.record({
  air: fc.double({ min: celsius(-25), max: celsius(66), noNaN: true }),
  bracket: fc.double({ min: celsius(-25), max: celsius(110), noNaN: true }),
});
