/** How many stops does the vessel give when nothing pumps? */
import { airPerStop, stopsFrom } from '../../../physics/air/cylinder.ts';
import { REFERENCE_TEMPERATURE } from '../../../physics/air/gas.ts';
import { unique, type Check } from '../../check.ts';
import type { AirContext } from '../air-context.ts';
import { withPipe } from '../air-rig.ts';
import { pressuresThatDo } from './force.ts';

/** Stops beyond the first that should be left at the lowest pressure: a second try, and a third. Common practice, no source. */
const TRIES_WANTED = 2;

export interface Use {
  /** Free air of one stop with its way back, m³, at the highest pressure. */
  readonly perStop: number;
  readonly fromLow: number;
  readonly fromHigh: number;
  /** Pressure that just carries the lever home, Pa. */
  readonly just: number;
  readonly enough: number;
}

/** Numbers are NaN where a reading is missing. */
export function useOf(context: AirContext): Use {
  const { air, scenes } = context;
  const { just, enough } = pressuresThatDo(context);
  const cylinder = withPipe(air);
  const [{ travel }] = scenes;
  const way = { homeGap: travel.homeGap, outGap: travel.startGap };
  const isKnown = cylinder !== null && !Number.isNaN(way.homeGap + way.outGap + air.low + air.high);
  const stops = (from: number) => {
    if (!air.hasAir || just === Infinity) return 0;
    return !isKnown || Number.isNaN(just + air.vessel)
      ? NaN
      : stopsFrom(cylinder, air.returnsByAir, way, air.vessel, from, just);
  };
  return {
    perStop: isKnown ? airPerStop(cylinder, air.returnsByAir, air.high, way, REFERENCE_TEMPERATURE).freeAir : NaN,
    fromLow: stops(air.low),
    fromHigh: stops(air.high),
    just,
    enough,
  };
}

export function stopsPerVessel(context: AirContext): Check {
  const { rig, needs, airNeeds, say } = context;
  return {
    id: 'stops-per-vessel',
    title: 'Air vessel gives stops enough without its compressor',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'stops',
    marginUnit: 'stops',
    wanted: TRIES_WANTED,
    how: 'Stops that the vessel gives from the lowest pressure, nothing pumping, until its pressure no longer carries the lever home, minus one. Each fills the chamber and the pipe; leaks and other users are not counted.',
    needs: unique([
      ...needs.pullNeeded,
      ...needs.firstPull,
      ...airNeeds.forceLow,
      ...airNeeds.forceHigh,
      ...airNeeds.vessel,
      'means.line.bore',
      'means.line.length',
    ]),
    judge() {
      const { air } = context;
      const { fromLow, fromHigh, perStop, just } = useOf(context);
      const because = !air.hasAir
        ? 'There is no compressed air here.'
        : just === Infinity
          ? 'The connection is held fast on the way: no pressure carries it home.'
          : fromLow === 0
            ? `${say.pressure(air.low)} does not carry the lever home even once: ${say.pressure(just)} is needed at the end of a stop.`
            : `From ${say.pressure(air.low)} the vessel of ${say.volume(air.vessel)} gives ${count(fromLow)}, from ${say.pressure(air.high)} ${count(fromHigh)}, before it falls under ${say.pressure(just)}; each takes ${say.volume(perStop)} of free air at most.`;
      return { value: fromLow, limit: 1, margin: fromLow - 1, at: null, because };
    },
  };
}

const count = (stops: number): string => (stops === 1 ? 'one stop' : stops > 9999 ? 'thousands' : `${stops} stops`);
