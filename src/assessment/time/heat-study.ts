/**
 * Minutes to the class limit: how warm winding and can become in each of the ways that the coil can be driven, with what
 * would end the current, for drawings and tables.
 */
import { pullInCurrents } from '../../physics/circuit.ts';
import { opensNotAfter, opensNotBefore } from '../../physics/fuse.ts';
import { heating } from '../../physics/heat/heating.ts';
import type { HeatingRun } from '../../physics/heat/run.ts';
import { BURN_THRESHOLDS } from '../../physics/heat/touch.ts';
import { OFF } from '../../physics/heat/coil-power.ts';
import { thermalClassName, type ThermalClass } from '../../physics/thermal-class.ts';
import {
  atRest,
  coilInHeat,
  coilPower,
  heatReadings,
  heldOffHome,
  hotStallCurrent,
  whyNoHeat,
  type CoilInHeat,
} from './heat-of.ts';
import { metricUnits } from '../../units/quantity.ts';
import { missingReadings, needsOf } from '../needs.ts';
import { valueOf } from '../readings.ts';
import { rigOf, type Rig, type SolenoidJob } from '../rig.ts';
import type { HeatCourse, HeatLimit, HeatMark, HeatPicture, LimitCrossing } from './picture.ts';
import { wordsIn } from '../words.ts';
import { coldShare, fittedFuse, fuseName } from '../supply/what-ends-it.ts';

const HOUR = 3600;
/** Hold is followed until it has settled, s. */
const HOLD_FOLLOWED = 4 * HOUR;
/** A row of stops: pull for a second, hold, pause. Common practice, no source. */
const STOPS = { count: 20, pull: 1, hold: 20, pause: 40 };

export function heatPicture(job: SolenoidJob): HeatPicture {
  const missing = missingFor(job);
  const nothing = { courses: [], limits: [], crossings: [], marks: [], touch: null, cautions: [] };
  if (missing.length > 0) return { ...nothing, missing };
  const rig = rigOf(job);
  const coil = coilInHeat(rig);
  if (coil === null) return { ...nothing, missing: whyNoHeat(rig, wordsIn(metricUnits)).readings };
  const runs = runsOf(rig, coil);
  const limits = limitsOf(coil);
  return {
    courses: runs.map(({ course }) => course),
    limits,
    crossings: runs.flatMap(({ course, run }) => crossingsOf(course.name, run, limits)),
    marks: marksOf(rig, coil),
    touch: touchOf(runs.map(({ run }) => run)),
    cautions: [
      'Two heat capacities, winding and can: a coil in draught or spray stays cooler, one under a hot cover gets hotter.',
      'The heat that a winding passes to its can is estimated from its size; weigh, measure, or let it cool once with a thermometer on the can.',
    ],
    missing: [],
  };
}

function missingFor(job: SolenoidJob): string[] {
  const needs = needsOf(job);
  const untaken = missingReadings(job);
  return [...new Set([...heatReadings, ...needs.pullInHigh, ...needs.holdHigh])].filter((path) => untaken.has(path));
}

interface Run {
  readonly course: HeatCourse;
  readonly run: HeatingRun;
}

function runsOf(rig: Rig, coil: CoilInHeat): Run[] {
  const options = { hotSpotAllowance: coil.hotSpot };
  const { surroundings, body } = coil;
  const hold = coilPower(rig, 'hold', 'high');
  const pull = coilPower(rig, 'pull-in', 'high');
  const stage = (power: typeof hold, duration: number) => ({ power, duration, surroundings });
  const stops = Array.from({ length: STOPS.count }, () => [
    stage(pull, STOPS.pull),
    stage(hold, STOPS.hold),
    stage(OFF, STOPS.pause),
  ]).flat();
  const of = (name: string, words: string, conditions: string, run: HeatingRun): Run => ({
    course: { name, words, conditions, time_s: run.trace.time, winding_K: run.trace.winding, case_K: run.trace.can },
    run,
  });
  const day = 'charging, hottest day';
  return [
    of('held-off-home', 'held off home', `${day}, pull-in current`, heldOffHome(rig, coil, 'high')),
    of('hold', 'hold', `${day}, hold current`, heating(body, [stage(hold, HOLD_FOLLOWED)], atRest(coil), options)),
    of(
      'stops',
      `${STOPS.count} stops`,
      `${day}, each ${STOPS.pull} s pull, ${STOPS.hold} s hold, ${STOPS.pause} s pause`,
      heating(body, stops, atRest(coil), options),
    ),
  ];
}

/** The class of this coil, and the one below and above it. */
const NEIGHBOURS: readonly ThermalClass[] = [105, 130, 155, 180];

function limitsOf({ thermalClass, hotSpot }: CoilInHeat): HeatLimit[] {
  const shown = [...new Set([...NEIGHBOURS, thermalClass])].sort((a, b) => a - b);
  return shown.map((one) => ({
    name: `class-${one}`,
    words: `class ${thermalClassName(one)}`,
    class_K: 273.15 + one,
    hotSpot_K: hotSpot,
    isOwn: one === thermalClass,
  }));
}

function crossingsOf(course: string, { passed }: HeatingRun, limits: readonly HeatLimit[]): LimitCrossing[] {
  return passed.flatMap(({ thermalClass, time }) => {
    const limit = limits.find(({ name }) => name === `class-${thermalClass}`);
    return limit === undefined || time === null ? [] : [{ course, limit: limit.name, time_s: time }];
  });
}

/** What ends the current of a coil that is held off home: its hot current for the slowest fuse, its cold one for the quickest. */
function marksOf(rig: Rig, coil: CoilInHeat): HeatMark[] {
  const { cutOut } = rig.job.supply;
  const { coil: winding } = rig.job.means;
  const marks: HeatMark[] = [];
  const at = (name: string, words: string, seconds: number) => {
    if (!Number.isNaN(seconds)) marks.push({ name, words, from_s: seconds, to_s: seconds });
  };
  if (typeof cutOut !== 'string') at('cut-out', 'cut-out', valueOf(cutOut.after, 'time'));
  if (winding.stages === 'timed economiser') at('economiser', 'economiser', valueOf(winding.delay, 'time'));
  const fuse = fittedFuse(rig);
  if (fuse !== null) {
    const hot = hotStallCurrent(rig, coil, 'high');
    const cold = pullInCurrents(rig.loopAt['pull-in'].high, rig.coilAt.cold).supply;
    const soonest = opensNotBefore(fuse, cold).seconds;
    const latest = opensNotAfter(fuse, hot, coldShare(rig)).seconds;
    if (soonest < 10 * HOUR)
      marks.push({
        name: 'fuse',
        words: fuseName(fuse),
        from_s: soonest,
        to_s: latest < Infinity ? latest : null,
      });
  }
  return marks;
}

/** Bare metal burns in a second of contact from here on; shown where a can gets near it. */
function touchOf(runs: readonly HeatingRun[]): HeatPicture['touch'] {
  const [contact_s, celsius] = BURN_THRESHOLDS.find(([seconds]) => seconds === 10)!;
  const hottest = Math.max(...runs.map(({ greatest }) => greatest.can.temperature));
  return hottest < 273.15 + celsius - 10 ? null : { temperature_K: 273.15 + celsius, contact_s };
}
