/**
 * An assessment of the railcar, at rest and in time, beside the same sweep done without thought, and the numeric part alone.
 *
 * The sweep without thought asks pull, need and return anew in each of the eight corners, although what is needed does
 * not depend on the supply and what is available does not depend on friction; and it judges nothing.
 */
import { assess } from '../src/assessment/assess.ts';
import { rigOf, type Rig, type SolenoidJob } from '../src/assessment/rig.ts';
import { electricCorners, pullAt } from '../src/assessment/scene.ts';
import { neededAt, outAt, returnMargin } from '../src/assessment/forces.ts';
import { STATIONS, travelOf } from '../src/assessment/travel.ts';
import { demoJobs } from '../src/job/demos.ts';
import { readDocument } from '../src/job/read.ts';
import { metricUnits } from '../src/units/quantity.ts';

const GOAL_WHOLE_MS = 0.5;
const GOAL_IN_TIME_MS = 4;
const GOAL_NUMERIC_US = 50;

export async function bench(print: (line: string) => void): Promise<void> {
  const job = railcar();
  const rig = rigOf(job);
  const whole = median(() => assess(job, metricUnits, 'at rest').findings.length);
  const inTime = median(() => assess(job).findings.length);
  const newSolenoid = median(() => assess({ ...job, means: { ...job.means } }).findings.length);
  const naive = median(() => everyCornerAnew(rig));
  const numeric = median(() => oneCorner(rig, 33));
  const { findings, sweep } = assess(job, metricUnits, 'at rest');
  print(
    `assessment of the railcar at rest: ${(1000 * whole).toFixed(3)} ms (goal under ${GOAL_WHOLE_MS}), ${findings.length} findings, ${sweep?.gap_mm.length} gaps × 8 corners`,
  );
  print(
    `with heat and motion in time: ${(1000 * inTime).toFixed(2)} ms (goal under ${GOAL_IN_TIME_MS}); ${(1000 * newSolenoid).toFixed(2)} ms where the solenoid is a new one`,
  );
  print(
    `the sweep alone, each corner anew: ${(1000 * naive).toFixed(3)} ms; the whole takes ${(whole / naive).toFixed(2)} of that`,
  );
  print(`one corner, 33 gaps, no sentences: ${(1e6 * numeric).toFixed(1)} μs (goal under ${GOAL_NUMERIC_US})`);
}

function railcar(): SolenoidJob {
  const found = demoJobs.find(({ name }) => name === 'railcar');
  const read = readDocument(found?.document);
  if (!read.ok || read.job.means.kind !== 'solenoid') throw new Error('the railcar cannot be read');
  return { ...read.job, means: read.job.means };
}

/** Least margins of pull and return over 65 gaps, every corner reckoned from the start. */
function everyCornerAnew(rig: Rig): number {
  let least = Infinity;
  for (const corner of electricCorners(rig)) {
    for (const friction of ['low', 'high'] as const) {
      const travel = travelOf(rig, rig.linkage, STATIONS);
      for (const station of travel.stations) {
        const { needed } = neededAt(rig, travel, station, friction);
        const { drive, net } = outAt(rig, travel, station, friction);
        const pull = pullAt(rig, station.gap, corner, 'least');
        least = Math.min(least, pull / needed - 1, returnMargin(drive, net));
      }
    }
  }
  return least;
}

/** What spread and search will run by the hundred thousand: the weakest pull against the need, in one corner. */
function oneCorner(rig: Rig, gaps: number): number {
  const weakest = electricCorners(rig).find(({ supply, coil }) => supply === 'low' && coil === 'hot');
  if (weakest === undefined) throw new Error('there is no weakest corner');
  const travel = travelOf(rig, rig.linkage, gaps);
  let least = Infinity;
  for (const station of travel.stations) {
    const { needed } = neededAt(rig, travel, station, 'high');
    least = Math.min(least, pullAt(rig, station.gap, weakest, 'least') / needed - 1);
  }
  return least;
}

/** Median seconds of a run, after a second of warming up. */
function median(run: () => number): number {
  let kept = 0;
  for (const until = performance.now() + 1000; performance.now() < until;) kept += run();
  const times = Array.from({ length: 601 }, () => {
    const before = performance.now();
    kept += run();
    return performance.now() - before;
  }).sort((a, b) => a - b);
  if (Number.isNaN(kept)) throw new Error('a run gave no number');
  return (times[300] ?? NaN) / 1000;
}
