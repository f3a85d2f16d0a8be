/** A hand cable out of a job document: base SI, radians, plain data. Readings that were not taken are NaN or null. */
import { NOT_MEASURED, quantityIn } from '../../job/quantity-text.ts';
import type { HandCable, Job } from '../../job/schema.ts';
import type { CalibrationOutcome } from '../../physics/cable/calibration.ts';
import { actionAt, humanLimits, momentary, stopControl } from '../../physics/cable/human-force.ts';
import { middleOfSwing, type LeverEnd } from '../../physics/cable/lever-end.ts';
import { coreOf, liningFriction, type Core } from '../../physics/cable/strand.ts';
import { toSI } from '../../units/quantity.ts';
import type { Assumption } from '../finding.ts';
import { leverOf, type Lever } from '../lever.ts';
import { DefaultReader, valueOf } from '../readings.ts';
import { springsOf, type RigSprings } from '../springs-of.ts';
import { calibrationOf } from './calibrated.ts';
import { courseOf, type Course } from './course.ts';
import { secondOf, type Second } from './second.ts';
import { swingOf } from './swing.ts';

export type CablePrefix = 'means' | 'handStop';

export interface CableRig {
  readonly job: Job;
  readonly cable: HandCable;
  /** Where the cable stands in the document. */
  readonly prefix: CablePrefix;
  readonly lever: Lever;
  readonly springs: RigSprings;
  readonly course: Course | null;
  /** The other place of control; null where there is none, or it is not known whether there is. */
  readonly second: Second | null;
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
  /** Travel of the hand until fuel is off, as it was read at the handle; null where it was not. */
  readonly travelRead: number | null;
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
  /** What the weaker of two groups can do once, N; null for a pedal, and where it is not known which way the handle goes. */
  readonly momentary: number | null;
  /** Margin below which more than the recommended is asked. */
  readonly wanted: number;
}

/** How far the core may stand off the axis of the conduit end, degrees: common practice, no source. */
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
  const second = secondOf(cable, reader, prefix);
  const isPulled = cable.towardsStop === NOT_MEASURED ? null : cable.towardsStop === 'pulled';
  const poses = end === null ? null : swingOf(end, lever);
  const axis =
    leverEnd.conduitDirection !== undefined
      ? valueOf(leverEnd.conduitDirection, 'angle')
      : poses === null
        ? NaN
        : middleOfSwing(poses);
  const ratio = reader.value(at('handle.ratio'), handle.ratio, 'ratio', 'means.handle.ratio');
  const wantedPull = reader.value('wanted.pull', job.wanted?.pull, 'ratio');
  const calibration = calibrationOf(cable, { job, lever: surveyed, springs, course, core, end, isPulled, axis, ratio });
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
    ratio,
    handleTravel: valueOf(handle.travel, 'length'),
    travelRead: cable.readings?.travel === undefined ? null : valueOf(cable.readings.travel, 'length'),
    leastRadius,
    friction: isCalibrated
      ? read === null
        ? null
        : { from: 'readings at the handle', ...read.friction }
      : frictionOf(cable),
    drag: isCalibrated ? (read?.constantDrag ?? NaN) : reader.value(at('drag'), cable.drag, 'force', 'means.drag'),
    ageing: reader.value(at('ageing'), cable.ageing, 'ratio', 'means.ageing'),
    limit: limitOf(cable, isPulled, wantedPull),
    calibration,
    wanted: {
      pull: wantedPull,
      return: reader.value('wanted.return', job.wanted?.return, 'ratio'),
      noFuel: reader.value('wanted.noFuel', job.wanted?.noFuel, 'angle'),
    },
    assumed: reader.assumed,
  };
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

function swingAllowedOf({ leverEnd: { swing, fitting } }: HandCable): number {
  if (swing !== undefined) return valueOf(swing, 'angle');
  return fitting === NOT_MEASURED ? NaN : toSI(usualSwing[fitting], '°');
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
  const once = handle.kind === 'pedal' || isPulled === null ? null : momentary[isPulled ? 'pull' : 'push'].weaker;
  if (handle.allowed !== undefined) {
    const allowed = valueOf(handle.allowed, 'force');
    const source = 'stated in the document as acceptable at this handle';
    return { source, recommended: allowed, avoidBeyond: allowed, momentary: once, wanted: wantedPull };
  }
  const { kind, posture } = handle;
  if (kind === NOT_MEASURED || posture === NOT_MEASURED || isPulled === null) return null;
  const action = actionAt(kind, posture, isPulled ? 'pull' : 'push');
  const limits = humanLimits(action, 'professional', stopControl);
  return {
    source: `EN 1005-3, ${action}: half of ${Math.round(limits.capability)} N is recommended, more than 0.7 of it is to be avoided`,
    recommended: limits.recommended,
    avoidBeyond: limits.avoidBeyond,
    momentary: once,
    // From what is to be avoided down to what is recommended.
    wanted: limits.avoidBeyond / limits.recommended - 1,
  };
}
