/** The smallest single change that opens a window that is shut: every knob is turned until floor and ceiling part. */
import { isSolenoid } from '../assessment/assess.ts';
import type { SolenoidJob } from '../assessment/rig.ts';
import { windowOf } from '../assessment/window/window.ts';
import type { WindowQuestion } from '../assessment/window/kinds.ts';
import { apply, type Change } from '../job/change.ts';
import { readDocument } from '../job/read.ts';
import { metricUnits, type DisplayUnits } from '../units/quantity.ts';
import type { Knob, Setting } from './knobs/knob.ts';
import { knobsOf } from './knobs.ts';

export interface Opening {
  readonly words: string;
  readonly changes: readonly Change[];
  /** Ceiling minus floor where they come nearest, afterwards: N m or N. */
  readonly width: number;
}

const COARSE = 17;
const HALVINGS = 5;
const MOST = 4;

/** Changes that open the window, one for each knob that can: those that are easiest on the job first. */
export function openings(job: SolenoidJob, question: WindowQuestion, units: DisplayUnits = metricUnits): Opening[] {
  const found: Opening[] = [];
  for (const knob of knobsOf(job, units)) {
    if (found.length >= MOST) break;
    const one = openedBy(job, question, knob);
    if (one !== null) found.push(one);
  }
  return found;
}

function openedBy(job: SolenoidJob, question: WindowQuestion, knob: Knob): Opening | null {
  const path = `return.springs[${question.index}]`;
  // The spring in question is taken out: turning it moves nothing.
  const isOwn = ({ changes }: Setting) => changes.every((one) => one.path.startsWith(path));
  const widthAt = (setting: Setting | null, coarse: number | null): number => {
    if (setting === null || isOwn(setting)) return -Infinity;
    const changed = apply(job, setting.changes);
    return isSolenoid(changed) ? (windowOf(changed, question, coarse).tightest?.width ?? -Infinity) : -Infinity;
  };
  const opens = (amount: number) => widthAt(knob.settingAt(amount), COARSE) >= 0;
  const at = knob.ladder.findIndex(opens);
  if (at < 0) return null;
  for (const amount of [...narrowed(knob, opens, at), ...knob.ladder.slice(at)]) {
    const setting = knob.settingAt(amount);
    const width = widthAt(setting, null);
    if (setting !== null && width >= 0 && readDocument(apply(job, setting.changes)).ok)
      return { words: setting.words, changes: setting.changes, width };
  }
  return null;
}

/** Amounts between the last that does not open and the first that does, rounded up to what can be set; the smallest first. */
function narrowed({ ladder, step }: Knob, opens: (amount: number) => boolean, at: number): number[] {
  if (step === 0) return [];
  let low = at === 0 ? 0 : ladder[at - 1];
  let best = ladder[at];
  for (let i = 0; i < HALVINGS && best - low > step; i++) {
    const middle = (low + best) / 2;
    if (opens(middle)) best = middle;
    else low = middle;
  }
  const steps = Math.ceil(best / step - 1e-9);
  return [steps, steps + 1, steps + 2].map((count) => Number((count * step).toPrecision(6)));
}
