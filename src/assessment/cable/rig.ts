/**
 * A hand cable out of a job document: base SI, radians, plain data. Readings that were not taken are NaN or null.
 *
 * Longer than 300 lines: one reason, that the whole crossing from document to physics is read in one place.
 */
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import type { HandCable, Job } from '../../job/schema.ts';
import { calibrate, type CalibrationOutcome, type ReadingBand } from '../../physics/cable/calibration.ts';
import { coreOf, liningFriction, type Core } from '../../physics/cable/strand.ts';
import { actionAt, humanLimits, stopControl, type HumanLimits } from '../../physics/cable/human-force.ts';
import { leverPose, middleOfSwing, turnBetween, type LeverEnd, type LeverPose } from '../../physics/cable/lever-end.ts';
import {
  layRoute,
  levelRun,
  reversed,
  type Corner,
  type Misfit,
  type Piece,
  type PlacedPiece,
} from '../../physics/cable/route.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import type { Assumption } from '../finding.ts';
import { DefaultReader, valueOf } from '../readings.ts';
import { leverOf, type Lever } from '../lever.ts';
import { springsOf, type RigSprings } from '../springs-of.ts';
import { leverLoad } from './lever-load.ts';

export type CablePrefix = 'means' | 'handStop';

export interface CableRig {
  readonly job: Job;
  readonly cable: HandCable;
  /** Where the cable stands in the document. */
  readonly prefix: CablePrefix;
  readonly lever: Lever;
  readonly springs: RigSprings;
  readonly course: Course | null;
  /** The other place of control; null where there is none, or its route is not known. */
  readonly second: Course | null;
  readonly core: Core | null;
  /** NaN where it was not read. */
  readonly bore: number;
  readonly conduitStiffness: number;
  readonly end: LeverEnd | null;
  /** Whether the lever swings clear of the mouth of the conduit; false where that is not known. */
  readonly isClear: boolean;
  /** Axis of the conduit end, rad. */
  readonly axis: number;
  /** How far the core may stand off it, rad. */
  readonly swingAllowed: number;
  readonly slack: number;
  /** True pulled to stop, false pushed; null not known. */
  readonly isPulled: boolean | null;
  /** null: not known. */
  readonly mayPush: boolean | null;
  readonly ratio: number;
  readonly handleTravel: number;
  readonly leastRadius: number;
  readonly friction: Friction | null;
  /** Drag at the handle with nothing connected, N. */
  readonly drag: number;
  readonly ageing: number;
  readonly limit: Limit | null;
  readonly calibration: CalibrationOutcome | null;
  readonly wanted: { readonly pull: number; readonly return: number; readonly noFuel: number };
  readonly assumed: readonly Assumption[];
}

/** The course of a conduit, from the handle to the lever. */
export interface Course {
  readonly isDrawn: boolean;
  readonly pieces: readonly (Piece | PlacedPiece)[];
  /** The same from the lever to the handle. */
  readonly fromLever: readonly Piece[];
  /** Bends for which there is no room; the pieces then have the radii that fit. */
  readonly misfits: readonly Misfit[];
  /** Corners in the order of the document; radius as written. */
  readonly corners: readonly (Corner & { readonly name: string | null })[];
}

export interface Friction {
  readonly from: 'readings at the handle' | 'a reading' | 'its lining';
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

export interface Limit {
  readonly source: string;
  readonly recommended: number;
  readonly avoidBeyond: number;
  /** Margin below which more than the recommended is asked. */
  readonly wanted: number;
}

/** How far the core may stand off the axis of the conduit end: common practice, no source. */
export const usualSwing = { nipple: 8, clamp: 4, swivel: 12 } as const;

export function prefixOf(job: Job, cable: HandCable): CablePrefix {
  return job.handStop === cable ? 'handStop' : 'means';
}

/** @param hung the lever with whatever else hangs on it; left out: as surveyed */
export function cableRigOf(job: Job, cable: HandCable, hung?: Lever): CableRig {
  const reader = new DefaultReader();
  const prefix = prefixOf(job, cable);
  const surveyed = leverOf(job, reader);
  const lever = hung ?? surveyed;
  const springs = springsOf(job.return.springs, lever.toStop, reader);
  const { leverEnd, handle } = cable;
  const at = (name: string) => `${prefix}.${name}`;
  const leastRadius = reader.value(at('core.leastRadius'), cable.core.leastRadius, 'length', 'means.core.leastRadius');
  const core = coreIn(cable);
  const bore = valueOf(cable.conduit.bore, 'length');
  const end = leverEndIn(leverEnd);
  const course = courseOf(cable.route, job, leastRadius);
  const second = typeof cable.secondStation === 'string' ? null : routeOf(cable.secondStation.route);
  const isPulled = cable.towardsStop === NOT_MEASURED ? null : cable.towardsStop === 'pulled';
  const poses = end === null ? null : swingOf(end, lever);
  const axis =
    leverEnd.conduitDirection !== undefined
      ? valueOf(leverEnd.conduitDirection, 'angle')
      : poses === null
        ? NaN
        : middleOfSwing(poses);
  const calibration = calibrationOf(cable, { job, lever: surveyed, springs, course, core, end, isPulled, axis });
  const isCalibrated = cable.readings !== undefined;
  const read = calibration !== null && calibration.agrees ? calibration.calibration : null;
  return {
    job,
    cable,
    prefix,
    lever,
    springs,
    course,
    second,
    core,
    bore,
    conduitStiffness: reader.value(
      at('conduit.stiffness'),
      cable.conduit.stiffness,
      'force',
      'means.conduit.stiffness',
    ),
    end,
    isClear: poses !== null,
    axis,
    swingAllowed: swingAllowedOf(cable),
    slack: valueOf(leverEnd.slack, 'length'),
    isPulled,
    mayPush: cable.core.moves === NOT_MEASURED ? null : cable.core.moves === 'by pulling and pushing',
    ratio: reader.value(at('handle.ratio'), handle.ratio, 'ratio', 'means.handle.ratio'),
    handleTravel: valueOf(handle.travel, 'length'),
    leastRadius,
    friction: isCalibrated
      ? read === null
        ? null
        : { from: 'readings at the handle', ...read.friction }
      : frictionOf(cable),
    drag: isCalibrated ? (read?.constantDrag ?? NaN) : reader.value(at('drag'), cable.drag, 'force', 'means.drag'),
    ageing: reader.value(at('ageing'), cable.ageing, 'ratio', 'means.ageing'),
    limit: limitOf(cable, isPulled, reader.value('wanted.pull', job.wanted?.pull, 'ratio')),
    calibration,
    wanted: {
      pull: reader.value('wanted.pull', job.wanted?.pull, 'ratio'),
      return: reader.value('wanted.return', job.wanted?.return, 'ratio'),
      noFuel: reader.value('wanted.noFuel', job.wanted?.noFuel, 'angle'),
    },
    assumed: onceEach(reader.assumed),
  };
}

function onceEach(assumed: readonly Assumption[]): Assumption[] {
  return [...new Map(assumed.map((one) => [one.path, one])).values()];
}

function coreIn({ core }: HandCable): Core | null {
  const diameter = valueOf(core.diameter, 'length');
  return core.construction === NOT_MEASURED || Number.isNaN(diameter) ? null : coreOf(core.construction, diameter);
}

function leverEndIn({ conduitEnd, radius, angle }: HandCable['leverEnd']): LeverEnd | null {
  const end = {
    conduitX: valueOf(conduitEnd.x, 'length'),
    conduitY: valueOf(conduitEnd.y, 'length'),
    radius: valueOf(radius, 'length'),
    angle: valueOf(angle, 'angle'),
  };
  return Object.values(end).some(Number.isNaN) ? null : end;
}

/** Places between run and the hard stop at which the swing is looked at. */
export const SWING_PLACES = 49;

/** Null where the lever's angles are not known, or it would swing through the mouth of the conduit. */
export function swingOf(end: LeverEnd, { run, hardStop }: Lever): LeverPose[] | null {
  if (Number.isNaN(run + hardStop)) return null;
  const angles = Array.from({ length: SWING_PLACES }, (_, i) => run + ((hardStop - run) * i) / (SWING_PLACES - 1));
  return angles.every((angle) => isClear(end, angle)) ? angles.map((angle) => leverPose(end, angle)) : null;
}

function isClear({ conduitX, conduitY, radius, angle }: LeverEnd, shaftAngle: number): boolean {
  const away = Math.hypot(
    conduitX - radius * Math.cos(shaftAngle + angle),
    conduitY - radius * Math.sin(shaftAngle + angle),
  );
  return away > 1e-3 * radius;
}

function courseOf(route: HandCable['route'], { survey }: Job, leastRadius: number): Course | null {
  if (route.length > 0) return routeOf(route);
  const { distance, bends, bendTotal } = survey.run;
  const length = valueOf(distance, 'length');
  const turned = bends === 0 ? 0 : bendTotal === undefined ? NaN : valueOf(bendTotal, 'angle');
  if (!(length > 0) || Number.isNaN(turned)) return null;
  const pieces = levelRun(length, bends, turned, leastRadius);
  return { isDrawn: false, pieces, fromLever: reversed(pieces), misfits: [], corners: [] };
}

/** Null where a corner was not measured, where there are not two of them, or where no radius makes the route fit. */
export function routeOf(route: HandCable['route']): Course | null {
  if (route.length < 2) return null;
  const corners = route.map(({ name, x, y, z, radius }, i) => ({
    name: name === undefined || name.trim() === '' ? null : name,
    x: valueOf(x, 'length'),
    y: valueOf(y, 'length'),
    z: valueOf(z, 'length'),
    // The radius at an end is of no use.
    radius: i === 0 || i === route.length - 1 || radius === undefined ? NaN : valueOf(radius, 'length'),
  }));
  const isWhole = corners.every(
    ({ x, y, z, radius }, i) => !Number.isNaN(x + y + z) && (i === 0 || i === corners.length - 1 || radius > 0),
  );
  if (!isWhole) return null;
  const outcome = layRoute(corners);
  const misfits = outcome.fits ? [] : outcome.misfits;
  const fitting = misfits.every(({ radiusThatFits }) => radiusThatFits > 0)
    ? outcome.fits
      ? outcome
      : layRoute(
          corners.map((corner, i) => {
            const misfit = misfits.find((one) => one.corner === i);
            // A hair less, so that rounding does not make it a misfit again.
            return misfit === undefined ? corner : { ...corner, radius: misfit.radiusThatFits * (1 - 1e-9) };
          }),
        )
    : null;
  const pieces = fitting !== null && fitting.fits ? fitting.route.pieces : [];
  return { isDrawn: true, pieces, fromLever: reversed(pieces), misfits, corners };
}

function swingAllowedOf({ leverEnd: { swing, fitting } }: HandCable): number {
  if (swing !== undefined) return valueOf(swing, 'angle');
  return fitting === NOT_MEASURED ? NaN : (usualSwing[fitting] * Math.PI) / 180;
}

function frictionOf({ friction, conduit }: HandCable): Friction | null {
  if (friction !== undefined) {
    const read = quantityIn(friction, 'ratio');
    if (read === null) return null;
    const half = read.plusMinus ?? 0;
    return { from: 'a reading', low: Math.max(0, read.value - half), value: read.value, high: read.value + half };
  }
  if (conduit.lining === NOT_MEASURED) return null;
  const [low, high] = liningFriction[conduit.lining];
  return { from: 'its lining', low, value: (low + high) / 2, high };
}

function limitOf({ handle }: HandCable, isPulled: boolean | null, wantedPull: number): Limit | null {
  if (handle.allowed !== undefined) {
    const allowed = valueOf(handle.allowed, 'force');
    const source = 'stated in the document as acceptable at this handle';
    return { source, recommended: allowed, avoidBeyond: allowed, wanted: wantedPull };
  }
  const { kind, posture } = handle;
  if (kind === NOT_MEASURED || posture === NOT_MEASURED || isPulled === null) return null;
  const action = actionAt(kind, posture, isPulled ? 'pull' : 'push');
  const limits: HumanLimits = humanLimits(action, 'professional', stopControl);
  return {
    source: `EN 1005-3, ${action}: half of ${Math.round(limits.capability)} N is recommended, more than 0.7 of it is to be avoided`,
    recommended: limits.recommended,
    avoidBeyond: limits.avoidBeyond,
    // From what is to be avoided down to what is recommended.
    wanted: limits.avoidBeyond / limits.recommended - 1,
  };
}

interface ForCalibration {
  readonly job: Job;
  readonly lever: Lever;
  readonly springs: RigSprings;
  readonly course: Course | null;
  readonly core: Core | null;
  readonly end: LeverEnd | null;
  readonly isPulled: boolean | null;
  readonly axis: number;
}

/** Friction from the readings at the handle; null where there are none, or something that they rest on is missing. */
function calibrationOf(cable: HandCable, known: ForCalibration): CalibrationOutcome | null {
  const { readings } = cable;
  const { lever, springs, course, core, end, isPulled } = known;
  if (readings === undefined || course === null || core === null || end === null || isPulled === null) return null;
  const [free, connected] = [bandIn(readings.free), bandIn(readings.connected)];
  if (free === null || connected === null) return null;
  const poses = swingOf(end, lever);
  if (poses === null || lever.efforts === null || course.pieces.length === 0) return null;
  const forces = poses.map(({ arm, shaftAngle, direction }) => {
    const acting = (isPulled ? 1 : -1) * lever.toStop * arm;
    const load = leverLoad(lever, springs, shaftAngle, lever.frictionFactor.low).towardsStop;
    return {
      force: acting > 0 ? Math.max(0, load) / acting : NaN,
      offAxis: Math.abs(turnBetween(known.axis, direction)),
    };
  });
  if (forces.some(({ force }) => Number.isNaN(force))) return null;
  const hardest = forces.reduce((most, next) => (next.force > most.force ? next : most));
  // The mouth of the conduit is one more bend.
  const mouth: Piece = {
    kind: 'bend',
    length: 1e-9,
    angle: Math.max(hardest.offAxis, 1e-12),
    radius: 1e-9 / Math.max(hardest.offAxis, 1e-12),
    tangentZ: 0,
    normalZ: 0,
    corner: -1,
  };
  // The load on the lever was read with a balance too: its own ± carries over.
  const share = effortShare(known.job);
  const pull: ReadingBand = {
    low: hardest.force * (1 - share),
    value: hardest.force,
    high: hardest.force * (1 + share),
  };
  const sliding = { weight: core.weight, bendingStiffness: 0, radialClearance: 0 };
  // A push follows the same law: signs change, sizes do not.
  return calibrate([mouth, ...course.fromLever], sliding, pull, free, connected);
}

/** The largest share that the ± of a pull at the lever is of it. */
function effortShare({ survey }: Job): number {
  return survey.effort.readings.reduce((most, { pull }) => {
    const read = quantityIn(pull, 'force');
    return read === null || !(read.value > 0) ? most : Math.max(most, (read.plusMinus ?? 0) / read.value);
  }, 0);
}

function bandIn(text: string): ReadingBand | null {
  const quantity = quantityIn(text, 'force');
  if (quantity === null) return null;
  const half = quantity.plusMinus ?? 0;
  return { low: Math.max(0, quantity.value - half), value: quantity.value, high: quantity.value + half };
}
