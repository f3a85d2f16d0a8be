/**
 * A lever on which something hangs that rubs: the cable of a hand stop for the means that works it, plunger or rod at rest for
 * the hand stop. What hangs on it counts as friction of the lever, the same both ways, the greater of the two.
 *
 * With friction as read it is taken in the share that cold oil leaves of it: a little less than it may be, and where the lever
 * is at its easiest that is the careful side for everything but the speed of landing.
 */
import type { Job } from '../../job/schema.ts';
import { pchip } from '../../numerics/pchip.ts';
import { frictionMoment, steadyMoment } from '../../physics/load.ts';
import { cableDragNeeds, cableDragOf } from '../cable/idle.ts';
import type { Lever } from '../lever.ts';

const PLACES = 33;

/** @param drag N m at a shaft angle, never below zero; NaN where it is not known, and then nothing of the lever is */
export function hungLever(lever: Lever, drag: (shaftAngle: number) => number): Lever {
  const { efforts, run, runStop, hardStop, frictionFactor } = lever;
  if (efforts === null || Number.isNaN(run + runStop + hardStop)) return lever;
  const ends = [run, runStop, hardStop, ...efforts.flatMap(({ from, to }) => [from, to])];
  const [from, to] = [Math.min(...ends), Math.max(...ends)];
  const angles = Array.from({ length: PLACES }, (_, i) => from + ((to - from) * i) / (PLACES - 1));
  const added = angles.map((angle) => drag(angle) / frictionFactor.high);
  if (added.some(Number.isNaN)) return { ...lever, efforts: null };
  if (added.every((moment) => moment === 0)) return lever;
  return {
    ...lever,
    efforts: efforts.map((curve) => ({
      ...curve,
      steady: pchip(
        angles,
        angles.map((angle) => steadyMoment(curve, angle)),
      ),
      friction: pchip(
        angles,
        angles.map((angle, i) => frictionMoment(curve, angle) + added[i]),
      ),
    })),
  };
}

/** The lever as the means of a job meets it: with the cable of the hand stop, unless that hung on it while it was read. */
export function leverWithHandStop(job: Job, lever: Lever): Lever {
  const { handStop } = job;
  if (handStop === undefined || handStop.whileEffortWasRead === 'connected') return lever;
  const drag = cableDragOf(job, handStop);
  // Readings that are missing, or contradict each other, are said where the hand stop itself is judged.
  if (drag === null) return lever;
  return hungLever(lever, (angle) =>
    Math.max(...(['stop', 'run'] as const).map((way) => drag(angle, way)?.most_Nm ?? NaN)),
  );
}

/** Readings that the friction of the hand stop's cable rests on. */
export function handStopPaths(job: Job): readonly string[] {
  const { handStop } = job;
  return handStop === undefined || handStop.whileEffortWasRead === 'connected' ? [] : cableDragNeeds(job, handStop);
}
