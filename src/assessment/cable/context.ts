/** What the checks of a hand cable look at. */
import type { HandCable, Job } from '../../job/schema.ts';
import { inDegrees, once } from '../check.ts';
import type { Place } from '../finding.ts';
import type { Lever } from '../lever.ts';
import type { Words } from '../words.ts';
import { knownCable, type Effort, type KnownCable, type Returning } from './force.ts';
import { cableNeeds, type CableNeeds } from './needs.ts';
import { asItIs, hardestPull, worst, worstReturn, type Condition } from './reckon.ts';
import { cableRigOf, type CableRig } from './rig.ts';

export interface CableContext {
  readonly rig: CableRig;
  readonly needs: CableNeeds;
  readonly say: Words;
  /** Null where a reading is missing, or the route has no shape. */
  readonly known: KnownCable | null;
  /** Worn cable and cold oil, and as it is now; null where the friction is not known. */
  readonly worn: Condition | null;
  readonly now: Condition | null;
  /** The hardest pull in each condition, and the worst way back. */
  readonly hardest: () => Effort | null;
  readonly hardestNow: () => Effort | null;
  readonly worstBack: () => Returning | null;
  /** What to say, and what to read, where nothing can be reckoned although no reading is missing. */
  readonly unread: { readonly because: string; readonly readings: readonly string[] };
}

/** @param hung the lever with whatever else hangs on it; left out: as surveyed */
export function cableContext(job: Job, cable: HandCable, say: Words, hung?: Lever): CableContext {
  const rig = cableRigOf(job, cable, hung);
  const known = knownCable(rig);
  const { friction, lever } = rig;
  const worn = friction === null ? null : worst(rig, friction);
  const now = friction === null ? null : asItIs(rig, friction);
  const isLoaded = known !== null && lever.efforts !== null;
  const pull = (condition: Condition | null) =>
    once(() => (isLoaded && condition !== null ? hardestPull(known, condition) : null));
  return {
    rig,
    needs: cableNeeds(job, cable),
    say,
    known,
    worn,
    now,
    hardest: pull(worn),
    hardestNow: pull(now),
    worstBack: once(() => (isLoaded && worn !== null ? worstReturn(known, worn) : null)),
    unread: unreadOf(rig, say),
  };
}

/** Why nothing can be reckoned where no reading is missing. */
function unreadOf(rig: CableRig, say: Words): CableContext['unread'] {
  const { cable, prefix, course, calibration, end, lever } = rig;
  const at = (name: string) => `${prefix}.${name}`;
  const { route } = cable;
  if (route.length === 1) {
    return { because: 'A route needs two ends: only one corner is given.', readings: [at('route')] };
  }
  const bare = route.findIndex(({ radius }, i) => i > 0 && i < route.length - 1 && radius === undefined);
  if (bare > 0) {
    return {
      because: `The bend at ${cornerWords(rig, bare)} has no radius.`,
      readings: [at(`route[${bare}].radius`)],
    };
  }
  const stuck = course?.misfits.find(({ radiusThatFits }) => !(radiusThatFits > 0));
  if (stuck !== undefined) {
    const words =
      stuck.why === 'same place'
        ? `Two corners stand at one place: ${cornerWords(rig, stuck.corner)} and the one before it.`
        : `The route turns straight back on itself at ${cornerWords(rig, stuck.corner)}: no bend does that at one point.`;
    return { because: words, readings: [at(`route[${stuck.corner}]`)] };
  }
  if (route.length === 0 && course === null) {
    return {
      because: 'Neither the route nor the sum of its bends is known.',
      readings: [at('route'), 'survey.run.bendTotal'],
    };
  }
  if (calibration !== null && !calibration.agrees) {
    const words = {
      'less than the lever asks':
        'The two readings at the handle differ by less than the lever alone asks: one of them, or the effort of the lever, is misread.',
      'more than any friction':
        'The two readings at the handle differ by more than any friction explains: the cable is jammed or misread.',
      'no bends': 'Two readings at the handle say nothing of friction where no bend is, or the lever asks no pull.',
    }[calibration.why];
    return { because: words, readings: [at('readings.free'), at('readings.connected')] };
  }
  if (end !== null && !Number.isNaN(lever.run + lever.hardStop) && !rig.isClear) {
    return {
      because: `The lever would strike the end of the conduit, ${say.length(Math.hypot(end.conduitX, end.conduitY))} from the shaft centre.`,
      readings: [at('leverEnd.conduitEnd.x'), at('leverEnd.conduitEnd.y')],
    };
  }
  if (cable.readings !== undefined && calibration === null) {
    return {
      because:
        'Somewhere in the swing the core pulls in line with the arm, or the wrong way: the readings at the handle say nothing of its friction.',
      readings: [at('leverEnd.conduitEnd.x'), at('leverEnd.conduitEnd.y')],
    };
  }
  return { because: 'The readings do not reach far enough to decide this.', readings: [] };
}

/** "Under the deck", or "corner 3" where it has no name. */
export function cornerWords({ course, cable }: CableRig, corner: number): string {
  const name = course?.corners[corner]?.name ?? cable.route[corner]?.name;
  return name === null || name === undefined || name.trim() === '' ? `corner ${corner}` : `"${name}"`;
}

/** "bend 1", and its name in quotes where it has one. */
export function bendWords(rig: CableRig, bendIndex: number): string {
  const bends = (rig.course?.pieces ?? []).filter(({ kind }) => kind === 'bend');
  const corner = rig.course?.isDrawn === true ? bends[bendIndex]?.corner : undefined;
  const number = `bend ${bendIndex + 1}`;
  const name = corner === undefined ? null : (rig.course?.corners[corner]?.name ?? null);
  return name === null ? number : `${number}, "${name}"`;
}

export function placeAt(shaftAngle: number, friction: Place['friction'] = 'high'): Place {
  return {
    gap_mm: null,
    shaftAngle_deg: inDegrees(shaftAngle),
    supply: null,
    coil: null,
    friction,
    moved: null,
  };
}
