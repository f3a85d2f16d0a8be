/**
 * How hot the coil of an installation gets: a rig's coil as a winding in a can, driven in each of the ways that it can be
 * driven. The one place where a job meets the physics of heat.
 *
 * Of two windings the pull-in winding alone is reckoned while it is on: it is the one that burns, and the other copper takes
 * part too late to count on.
 */
import type { Solenoid } from '../../job/schema.ts';
import {
  canHeatCapacityFromWeight,
  copperMass,
  enamelShare,
  SURFACE_EMISSIVITY,
  windingHeatCapacity,
  windingToCanFromSize,
  type CoilBody,
} from '../../physics/heat/coil-body.ts';
import { chopped, OFF, type CoilPower, type WindingOhms } from '../../physics/heat/coil-power.ts';
import { heating } from '../../physics/heat/heating.ts';
import type { HeatingRun } from '../../physics/heat/run.ts';
import type { Surroundings, Temperatures } from '../../physics/heat/nodes.ts';
import { CEILING, COLDEST, WARMEST_AIR } from '../../physics/heat/stages.ts';
import { steadyState, type SteadyState } from '../../physics/heat/steady.ts';
import { meanLimit, THERMAL_CLASSES, type ThermalClass } from '../../physics/thermal-class.ts';
import { copperResistance } from '../../physics/coil.ts';
import { valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';
import type { End } from '../lever-moments.ts';
import type { Words } from '../words.ts';

/** A job's coil as heat sees it. */
export interface CoilInHeat {
  readonly body: CoilBody;
  readonly surroundings: Surroundings;
  readonly thermalClass: ThermalClass;
  /** Hottest place of the winding over its mean, K. */
  readonly hotSpot: number;
  /** Class less hot spot, K: what the mean of the winding may reach. */
  readonly limit: number;
}

/** From the can to what it stands on, W/K. Common practice, no source: cautious starting values for a foot or a bracket. */
const STANDS_ON = { 'bare metal': 0.6, 'painted metal': 0.4, 'a gasket': 0.1, nothing: 0 } as const;

/** Everything by which the heat of the coil is reckoned, beside what drives it. */
export const heatReadings = [
  'means.body.diameter',
  'means.body.length',
  'means.body.mass',
  'means.body.wireDiameter',
  'means.body.thermalClass',
  'surroundings.hottest',
] as const;

/** Ohms of the winding that carries the pull-in current, as read. */
export function heavyWinding({ coil }: Solenoid): WindingOhms {
  const text = coil.stages === 'pull-in and hold windings' ? coil.pullInResistance : coil.resistance;
  return { resistance: valueOf(text, 'resistance'), at: valueOf(coil.readAt, 'temperature') };
}

/** Why the heat of a coil cannot be reckoned though everything was read, and which readings to take again. */
export interface NoHeat {
  readonly because: string;
  readonly readings: readonly string[];
}

/** Null where a reading is missing, or contradicts another, or lies beyond what the physics of heat knows (`whyNoHeat`). */
export function coilInHeat(rig: Rig): CoilInHeat | null {
  const { means, surroundings } = rig.job;
  const diameter = valueOf(means.body.diameter, 'length');
  const length = valueOf(means.body.length, 'length');
  const mass = valueOf(means.body.mass, 'mass');
  const wire = valueOf(means.body.wireDiameter, 'length');
  const air = valueOf(surroundings.hottest, 'temperature');
  const { resistance, at } = heavyWinding(means);
  const thermalClass = classOf(means.body.thermalClass);
  const bracket =
    means.body.mountingTemperature === undefined ? air : valueOf(means.body.mountingTemperature, 'temperature');
  if (thermalClass === null || Number.isNaN(diameter + length + mass + wire + resistance + at)) return null;
  if (!isWithin(air, WARMEST_AIR) || !isWithin(bracket, CEILING)) return null;
  const copper = copperMass(resistance, at, wire);
  if (!(mass > 1.1 * copper)) return null;
  const can = {
    diameter,
    length,
    attitude: Math.abs(rig.downwards) > Math.SQRT1_2 ? ('upright' as const) : ('lying' as const),
  };
  const { hotSpot } = rig;
  return {
    body: {
      windingHeatCapacity: windingHeatCapacity(copper, enamelShare(wire)),
      canHeatCapacity: canHeatCapacityFromWeight(mass, copper),
      windingToCan: windingToCanFromSize(can),
      can,
      emissivity: SURFACE_EMISSIVITY.painted,
      canToBracket: STANDS_ON[means.body.standsOn ?? 'painted metal'],
    },
    surroundings: { air, bracket },
    thermalClass,
    hotSpot,
    limit: meanLimit(thermalClass, hotSpot),
  };
}

const isWithin = (temperature: number, highest: number): boolean => temperature >= COLDEST && temperature <= highest;

export function whyNoHeat({ job }: Rig, say: Words): NoHeat {
  const { surroundings, means } = job;
  const air = valueOf(surroundings.hottest, 'temperature');
  const { mountingTemperature } = means.body;
  const outside = (what: string, temperature: number, highest: number, path: string): NoHeat => ({
    because: `Heat is reckoned for ${what} from ${say.temperature(COLDEST)} to ${say.temperature(highest)}, not at ${say.temperature(temperature)}.`,
    readings: [path],
  });
  if (!isWithin(air, WARMEST_AIR)) return outside('air', air, WARMEST_AIR, 'surroundings.hottest');
  if (mountingTemperature !== undefined) {
    const bracket = valueOf(mountingTemperature, 'temperature');
    if (!isWithin(bracket, CEILING)) return outside('a mounting', bracket, CEILING, 'means.body.mountingTemperature');
  }
  return {
    because: 'The solenoid would weigh less than its own copper: weigh it again, or measure the bare wire again.',
    readings: ['means.body.mass', 'means.body.wireDiameter'],
  };
}

function classOf(text: Solenoid['body']['thermalClass']): ThermalClass | null {
  const celsius = Number(/\d+/.exec(text)?.[0]);
  return THERMAL_CLASSES.find((one) => one.celsius === celsius)?.celsius ?? null;
}

/** What heats the coil in one stage at one end of the supply. */
export function coilPower(rig: Rig, stage: 'pull-in' | 'hold', supply: End): CoilPower {
  const { coil } = rig.job.means;
  const { source, resistance: loopResistance } = rig.loopAt[stage][supply];
  const full: CoilPower & { drive: 'volts' } = {
    drive: 'volts',
    source,
    loopResistance,
    winding: heavyWinding(rig.job.means),
  };
  if (stage === 'pull-in') return full;
  switch (coil.stages) {
    case 'single coil':
      return full;
    case 'pull-in and hold windings':
      return { ...full, winding: { resistance: valueOf(coil.holdResistance, 'resistance'), at: full.winding.at } };
    case 'series resistor':
      return { ...full, loopResistance: loopResistance + valueOf(coil.resistor, 'resistance') };
    case 'timed economiser':
      return chopped(full, valueOf(coil.holdShare, 'ratio'));
  }
}

/** Without current, on the hottest day, beside a hot engine. */
export function atRest(coil: CoilInHeat): Temperatures {
  const rest = steadyState(coil.body, OFF, coil.surroundings);
  const { air, bracket } = coil.surroundings;
  return rest.kind === 'steady' ? rest : { winding: Math.max(air, bracket), can: Math.max(air, bracket) };
}

export function steadyIn(rig: Rig, coil: CoilInHeat, stage: 'pull-in' | 'hold', supply: End): SteadyState {
  return steadyState(coil.body, coilPower(rig, stage, supply), coil.surroundings);
}

/** How long a coil that is held off home is followed, s. */
const HOUR = 3600;

/** The pull-in current stays on, from a coil as warm as a hot day beside a hot engine makes it. */
export function heldOffHome(rig: Rig, coil: CoilInHeat, supply: End, duration: number = HOUR): HeatingRun {
  const power = coilPower(rig, 'pull-in', supply);
  return heating(coil.body, [{ duration, power, surroundings: coil.surroundings }], atRest(coil), {
    hotSpotAllowance: coil.hotSpot,
  });
}

/** Seconds until the mean of the winding passes its class less the hot spot; Infinity where it never does. */
export function timeToClass(rig: Rig, coil: CoilInHeat, supply: End): number {
  const steady = steadyIn(rig, coil, 'pull-in', supply);
  if (steady.kind === 'steady' && steady.winding <= coil.limit) return Infinity;
  const { passed } = heldOffHome(rig, coil, supply);
  return passed.find(({ thermalClass }) => thermalClass === coil.thermalClass)?.time ?? HOUR;
}

/** Amps from the source while the coil, held off home, has come to its class limit. */
export function hotStallCurrent(rig: Rig, coil: CoilInHeat, supply: End): number {
  const power = coilPower(rig, 'pull-in', supply);
  if (power.drive !== 'volts') return 0;
  const { resistance, at } = power.winding;
  return power.source / (power.loopResistance + copperResistance(resistance, at, coil.limit));
}
