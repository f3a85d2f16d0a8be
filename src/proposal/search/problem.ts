/** Everything that a search for layouts needs to know of one job, made anew from the job wherever the search goes on. */
import type { SolenoidJob } from '../../assessment/rig.ts';
import { rigOf, type Rig } from '../../assessment/rig.ts';
import { rigidPose } from '../../assessment/travel.ts';
import { apply, type Change } from '../../job/change.ts';
import type { Setting } from '../knobs/knob.ts';
import { axesOf, isInside } from './axes.ts';
import { barsOf, bodyOf } from './bars.ts';
import { judgeOf, type Judge } from './judge.ts';
import { entered, type Bar, type Shape } from './keep-out.ts';
import { layoutChanges, layoutOf, pinSizesOf, type Layout, type PinSizes } from './layout.ts';
import { screenOf, type Screened } from './screen.ts';
import { asItIs, electricSettings, springSettings } from './settings.ts';
import { spaceOf, type Space } from './space.ts';
import { noStock, type SpringChoices, type SpringSetting, type SpringStock } from './spring-choices.ts';
import { everyStepOf, stepCount } from './every-step.ts';

export interface Problem {
  readonly job: SolenoidJob;
  readonly space: Space;
  readonly pins: PinSizes;
  readonly judge: Judge;
  /** One for each kind of connection that can be made. */
  readonly screens: readonly Screened[];
  /** How many layouts of each of these kinds there are when every step that can be set is counted. */
  readonly stepCounts: readonly number[];
  /** The screen of all of those, made when it is asked for. */
  everyStep(screen: number): Screened;
  readonly springs: readonly SpringSetting[];
  /** What may be fitted to the layouts that come out best. */
  readonly stock: SpringStock;
  readonly electrics: readonly Setting[];
  readonly seed: number;
}

/** A layout with settings of springs and conductors. */
export interface Chosen {
  readonly layout: Layout;
  readonly spring: number;
  readonly electric: number;
  /** A spring that was found for this layout, in place of the setting. */
  readonly fitted?: SpringSetting;
}

/** How good it is. */
export interface Rated extends Chosen {
  readonly value: number;
}

/** Kept of each kind of connection by the quick look. */
export const KEPT_OF_A_KIND = 250;
/** Kept of every step, to be assessed: those that may be better than the best that is known. */
export const KEPT_OF_EVERY_STEP = 4000;

export interface ProblemOptions {
  readonly seed?: number;
  readonly space?: Space | null;
  /** Divides the fineness of the choices. */
  readonly coarse?: number;
  readonly keep?: number;
  /** Springs that may be fitted in place of the present one. */
  readonly others?: SpringChoices;
}

/** Null where a reading that every layout rests on is missing. */
export function problemOf(
  job: SolenoidJob,
  { seed = 1, space = spaceOf(job), coarse = 1, keep = KEPT_OF_A_KIND, others }: ProblemOptions = {},
): Problem | null {
  if (space === null) return null;
  const rig = rigOf(job);
  const { lever, homeStop, outStop, bracketGive } = rig;
  const must = [lever.run, lever.noFuel, lever.lash, lever.armMinusShaft, homeStop, outStop, bracketGive];
  if (must.some(Number.isNaN)) return null;
  const judge = judgeOf(job);
  const pins = pinSizesOf(job);
  const isQuick = coarse > 1;
  const springs = isQuick ? [asItIs] : [...springSettings(job), ...(others?.settings ?? [])];
  const electrics = isQuick ? [asItIs] : electricSettings(job);
  const screens = space.connections.map((kind) =>
    screenOf(job, space, pins, axesOf(job, rig, space, kind, { springs, electrics }, seed, coarse), judge, keep),
  );
  const everyStep: (Screened | undefined)[] = [];
  return {
    job,
    space,
    pins,
    judge,
    screens,
    stepCounts: space.connections.map((kind) => stepCount(job, space, kind)),
    everyStep(i) {
      const axes = () => everyStepOf(job, rig, space, space.connections[i], { springs, electrics });
      return (everyStep[i] ??= screenOf(job, space, pins, axes(), judge, KEPT_OF_EVERY_STEP, true));
    },
    springs,
    stock: others?.stock ?? noStock,
    electrics,
    seed,
  };
}

export function chosenAt(screen: Screened, choices: readonly number[]): Chosen {
  return { layout: screen.layoutOf(choices), spring: choices[6], electric: choices[7] };
}

/** The changes that make what a search found out of what is there. */
export function changesOf({ job, pins, springs, electrics }: Problem, chosen: Chosen): Change[] {
  const { layout, spring, electric, fitted } = chosen;
  return [
    ...layoutChanges(job, layout, pins, slotRange(job, layout)),
    ...(fitted ?? springs[spring]).changes,
    ...electrics[electric].changes,
  ];
}

export function jobOf(problem: Problem, chosen: Chosen): SolenoidJob {
  return apply(problem.job, changesOf(problem, chosen));
}

/** Least and greatest distance of a pin in a slot from the shaft centre, m; null of another connection. */
function slotRange(job: SolenoidJob, { kind, x, y, direction }: Layout): readonly [number, number] | null {
  if (kind !== 'slotted lever') return null;
  const stroke = rigOf(job).stroke;
  const along = x * Math.cos(direction) + y * Math.sin(direction);
  const at = (gap: number) => Math.hypot(x - gap * Math.cos(direction), y - gap * Math.sin(direction));
  return [at(Math.min(stroke, Math.max(0, along))), Math.max(at(0), at(stroke))];
}

/** What a job would enter; null where it stays clear of everything, or its places are not known. */
export function inTheWay(
  job: SolenoidJob,
  shapes: readonly Shape[],
): { readonly bar: Bar; readonly shape: Shape } | null {
  if (shapes.length === 0) return null;
  const rig = rigOf(job);
  const bars = [
    ...bodyOf(rig, rig.linkage),
    ...[0, 0.25, 0.5, 0.75, 1].flatMap((share) => barsAt(rig, share * rig.stroke)),
  ];
  return entered(bars, shapes);
}

function barsAt(rig: Rig, gap: number): Bar[] {
  const pose = rigidPose(rig, rig.linkage, gap);
  return pose.assembled ? barsOf(rig, rig.linkage, pose.armAngle - rig.lever.armMinusShaft, pose.armAngle, pose) : [];
}

/** Whether a job keeps inside the space that the survey allows. */
export function isAllowed({ space }: Pick<Problem, 'space'>, job: SolenoidJob): boolean {
  const layout = layoutOf(job);
  if (layout === null || !isInside(layout, space) || !space.connections.includes(layout.kind)) return false;
  const near = (list: readonly number[] | null, value: number) =>
    list === null || list.some((one) => Math.abs(one - value) < 1e-6);
  const hole = layout.kind === 'slotted lever' || near(space.armHoles, layout.radius);
  const link = (layout.kind !== 'pinned link' && layout.kind !== 'short chain') || near(space.links, layout.length);
  return hole && link && inTheWay(job, space.keepOut) === null;
}
