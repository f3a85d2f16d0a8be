/**
 * The behaviour of a hand cable on its lever, for drawings, comparisons and whatever else stands on the same lever: the
 * cable that is the means of a job, or the hand stop beside another.
 */
import type { HandCable, Job } from '../../job/schema.ts';
import { fromSI } from '../../units/quantity.ts';
import { inDegrees, inMillimetres } from '../check.ts';
import { missingReadings } from '../needs.ts';
import { courseData } from './course-data.ts';
import type { CableEffort, CableStudy, CableSwing, CableTravel, Calibrated } from './data.ts';
import { knownCable, type Effort, type KnownCable } from './force.ts';
import { cableNeeds } from './needs.ts';
import {
  asItIs,
  frictionThatFails,
  hardestPull,
  noFuelTaken,
  pullAt,
  returning,
  swingAngles,
  travelTo,
  worst,
  type Condition,
} from './reckon.ts';
import { cableRigOf, type CableRig } from './rig.ts';

export type * from './data.ts';

export function cableStudy(job: Job, cable: HandCable): CableStudy {
  return studyOf(cableRigOf(job, cable));
}

export function studyOf(rig: CableRig): CableStudy {
  const known = knownCable(rig);
  const { job, cable, friction, limit, course } = rig;
  const isLoaded = known !== null && friction !== null && rig.lever.efforts !== null;
  const needs = cableNeeds(job, cable);
  const missing = missingReadings(job);
  const fails = isLoaded && limit !== null ? frictionThatFails(known, limit.avoidBeyond) : null;
  return {
    run: course === null ? null : courseData(course, rig.second),
    friction:
      friction === null
        ? null
        : {
            from: friction.from,
            low: friction.low,
            high: friction.high,
            worn: friction.high * rig.ageing,
            fails: fails === null ? null : finite(Math.min(fails.pull, fails.back)),
          },
    limit:
      limit === null
        ? null
        : {
            source: limit.source,
            recommended_N: limit.recommended,
            avoidBeyond_N: limit.avoidBeyond,
            momentary_N: limit.momentary,
          },
    swing: isLoaded ? swingData(known, worst(rig, friction), asItIs(rig, friction)) : null,
    worst: isLoaded ? effortData(known, worst(rig, friction)) : null,
    now: isLoaded ? effortData(known, asItIs(rig, friction)) : null,
    travel: isLoaded ? travelData(known, worst(rig, friction)) : null,
    missing: [
      ...new Set([...needs.pull, ...needs.limit, ...needs.slack, ...needs.play, ...needs.lash, ...needs.handleTravel]),
    ].filter((path) => missing.has(path)),
    calibrated: calibratedData(rig),
    assumed: rig.assumed,
  };
}

function swingData(known: KnownCable, worn: Condition, now: Condition): CableSwing {
  const { rig } = known;
  const back = returning(known, worn);
  const rows = swingAngles(rig).map((angle) => ({
    angle,
    worn: pullAt(known, angle, worn),
    now: pullAt(known, angle, now),
    back: back(angle),
    travel: travelTo(known, angle, worn),
  }));
  return {
    shaftAngle_deg: rows.map(({ angle }) => inDegrees(angle)),
    coreTravel_mm: rows.map(({ travel }) => millimetres(travel.core)),
    arm_mm: rows.map(({ worn: { pose } }) => millimetres(pose.turning)),
    leverForce_N: rows.map((row) => finite(row.worn.atLever)),
    handleForce_N: rows.map((row) => finite(row.worn.atHandle / rig.ratio)),
    handleForceNow_N: rows.map((row) => finite(row.now.atHandle / rig.ratio)),
    returnForce_N: rows.map(({ back }) => finite(back.left)),
    returnNeeded_N: rows.map(({ back }) => finite(back.needed)),
    offAxis_deg: rows.map(({ worn: { pose } }) => inDegrees(pose.offAxis)),
    handleTravel_mm: rows.map(({ travel }) => millimetres(travel.handle)),
  };
}

function effortData(known: KnownCable, condition: Condition): CableEffort | null {
  const hardest = hardestPull(known, condition);
  const { atLever, atHandle, walk, pose } = hardest;
  if (walk === null) return null;
  const last = known.course.pieces.length - 1;
  const sign = known.isPulled ? 1 : -1;
  const reaches = Number.isFinite(atHandle);
  return {
    shaftAngle_deg: inDegrees(pose.shaftAngle),
    friction: condition.friction,
    leverForce_N: atLever,
    coreForce_N: finite(atHandle),
    handleForce_N: finite(atHandle / known.rig.ratio),
    efficiency: reaches && atHandle > 0 ? atLever / atHandle : null,
    profile: [
      { fromLever_mm: 0, force_N: atLever, piece: last },
      ...walk.profile
        .filter(({ tension }) => Number.isFinite(tension))
        .map(({ distance, tension, piece }) => ({
          fromLever_mm: inMillimetres(distance),
          force_N: sign * tension,
          piece: last - piece,
        })),
      ...(reaches ? [{ fromLever_mm: courseLength(known), force_N: atHandle, piece: 0 }] : []),
    ],
    bendCost_N: bendCosts(known, hardest, condition.friction).map(finite),
    drag_N: known.rig.drag,
  };
}

const courseLength = ({ course }: KnownCable) =>
  inMillimetres(course.pieces.reduce((sum, { length }) => sum + length, 0));

/** What each bend adds at the handle, N, in the order from the handle: what it adds by itself, carried through the bends that follow. */
export function bendCosts(known: KnownCable, { walk }: Effort, friction: number): number[] {
  if (walk === null) return [];
  const { fromLever } = known.course;
  const sign = known.isPulled ? 1 : -1;
  const reached = fromLever.map(() => NaN);
  for (const { piece, tension } of walk.profile) reached[piece] = sign * tension;
  let carried = 1;
  const costs: number[] = [];
  for (let i = fromLever.length - 1; i >= 0; i--) {
    if (fromLever[i].kind !== 'bend') continue;
    const before = i === 0 ? sign * walk.profile[0].tension : reached[i - 1];
    costs.push((reached[i] - before) * carried);
    carried *= Math.exp(friction * fromLever[i].angle);
  }
  return costs;
}

function travelData(known: KnownCable, condition: Condition): CableTravel | null {
  const { rig } = known;
  const fuelOff = noFuelTaken(rig);
  if (Number.isNaN(fuelOff)) return null;
  const used = travelTo(known, fuelOff, condition);
  if (!Number.isFinite(used.handle)) return null;
  return {
    core_mm: inMillimetres(used.core),
    slack_mm: inMillimetres(used.slack),
    stretch_mm: inMillimetres(used.stretch),
    shortening_mm: inMillimetres(used.shortening),
    play_mm: inMillimetres(used.play),
    ratio: rig.ratio,
    handle_mm: inMillimetres(used.handle),
    available_mm: millimetres(rig.handleTravel),
  };
}

function calibratedData({ calibration }: CableRig): Calibrated | null {
  if (calibration === null || !calibration.agrees) return null;
  const { drag, friction } = calibration.calibration;
  return {
    drag_N: drag.value,
    friction: friction.value,
    frictionLow: friction.low,
    frictionHigh: friction.high,
  };
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
const millimetres = (metres: number): number | null => finite(fromSI(metres, 'mm'));
