/**
 * Which cables of the drawer fit a job: electric cables in place of the conductors of the stop circuit, flexible cables in
 * place of the present hand cable. Each that is long enough is put in and assessed in all.
 */
import { isByHand } from '../assessment/cable/assess.ts';
import { cableStudy } from '../assessment/cable/study.ts';
import { valueOf } from '../assessment/readings.ts';
import { change, type Change } from '../job/change.ts';
import type { Drawer } from '../job/drawer/schema.ts';
import type { Job } from '../job/schema.ts';
import { display, metricUnits, toSI, type DisplayUnits } from '../units/quantity.ts';
import { itemTried, type ItemTried } from './drawer-item.ts';

/** An electric cable as conductor out, and back where the return is a conductor too. */
export function cableTried(job: Job, drawer: Drawer, item: number, units: DisplayUnits = metricUnits): ItemTried {
  const { name, place, section, cores, length } = drawer.cables[item];
  const out = (because: string): ItemTried => ({ fits: false, item, name, because, least: null });
  if (job.means.kind !== 'solenoid') return out(`this job works by ${job.means.kind}, and has no stop circuit to lay`);
  const { back } = job.supply;
  const isBoth = back.by === 'conductor';
  const asked = Math.max(
    valueOf(job.supply.out.length, 'length'),
    back.by === 'conductor' ? valueOf(back.length, 'length') : 0,
  );
  const left = valueOf(length, 'length');
  const say = (value: number) => display(value, 'length', units, 3);
  if (Number.isNaN(asked)) return out('the length of the run must be read first');
  if (Number.isNaN(left) || Number.isNaN(valueOf(section, 'area')))
    return out('its section or its length was not read');
  // Two lengths of a single core serve as out and back.
  const runs = isBoth ? 2 : 1;
  const lengths = Math.ceil(runs / cores);
  if (left < lengths * asked)
    return out(`${say(left)} of it is left, and ${lengths === 1 ? '' : `${lengths} times `}${say(asked)} is wanted`);
  const path = ['supply.out.section', ...(isBoth ? ['supply.back.section'] : [])];
  return itemTried(
    job,
    {
      item,
      name,
      place,
      words: [
        `Lay ${lengths === 1 ? say(asked) : `${lengths} times ${say(asked)}`} of it${isBoth ? ', out and back' : ''}; ${say(left - lengths * asked)} is left over`,
      ],
      changes: path.map((one): Change => change(job, one, section)),
      restsOnIt: ({ needs }) => needs.some((one) => one.startsWith('supply.out.section')),
    },
    units,
  );
}

/** A flexible cable along the route of the present one, be it the means or the hand stop beside it: handle, route and lever end stay. */
export function handCableTried(job: Job, drawer: Drawer, item: number, units: DisplayUnits = metricUnits): ItemTried {
  const { name, place, length, core, conduit, friction, drag } = (drawer.handCables ?? [])[item];
  const out = (because: string): ItemTried => ({ fits: false, item, name, because, least: null });
  const at = handCablePath(job);
  const cable = isByHand(job) ? job.means : job.handStop;
  if (at === null || cable === undefined) return out(`this job works by ${job.means.kind}, and has no hand cable`);
  const { run } = cableStudy(job, cable);
  if (run === null) return out('the route of the cable, or length and bends of the run, must be read first');
  const asked = toSI(run.length_mm, 'mm');
  const has = valueOf(length, 'length');
  const say = (value: number) => display(value, 'length', units, 3);
  if (Number.isNaN(has)) return out('its length was not read');
  if (has < asked) return out(`it is ${say(has)} long, and its route asks ${say(asked)}`);
  const { readings: _ofThePresentOne, friction: _friction, drag: _drag, ...present } = cable;
  const put = {
    ...present,
    core,
    conduit,
    ...(friction === undefined ? {} : { friction }),
    ...(drag === undefined ? {} : { drag }),
  };
  return itemTried(
    job,
    {
      item,
      name,
      place,
      words: [
        has - asked < 0.02 * asked
          ? 'Lay it along the same route: its length is just enough'
          : `Lay it along the same route; it is ${say(has - asked)} longer than that: cut it, or give it a wide bend more and measure again`,
      ],
      changes: [change(job, at, put)],
      restsOnIt: ({ needs }) => needs.some((path) => path.startsWith(`${at}.`)),
    },
    units,
  );
}

/** Where a job has its hand cable; null where it has none. */
export function handCablePath(job: Job): 'means' | 'handStop' | null {
  if (isByHand(job)) return 'means';
  return job.handStop === undefined ? null : 'handStop';
}
