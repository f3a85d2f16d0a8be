/**
 * What a fitter can change on an installation, each as a row of settings from small to large.
 *
 * A knob offers settings; a setting is a change to the document with its words. Settings of one sense are ordered by the
 * size of the change, so that the first that mends is the smallest.
 */
import type { Job } from '../job/schema.ts';
import { display, type Dimension, type DisplayUnits } from '../units/quantity.ts';
import { airKnobs } from './knobs/air.ts';
import { bracket, hub } from './knobs/bracket.ts';
import { cabled, keepingReadings, type Cabled } from './knobs/cable-as-read.ts';
import { shaftSpring } from './knobs/cable-parts.ts';
import { cableKnobs } from './knobs/cable.ts';
import { conductors, electrics } from './knobs/electrics.ts';
import { handStopKnobs } from './knobs/hand-stop.ts';
import { adjuster, joint, overTravel } from './knobs/joint.ts';
import { fewer, resize, type Knob, type Say } from './knobs/knob.ts';
import { protection } from './knobs/protection.ts';
import { springs } from './knobs/springs.ts';

/** The knobs of an installation, the easiest on the job first. */
export function knobsOf(job: Job, units: DisplayUnits): Knob[] {
  const say = (dimension: Dimension, value: number) => display(value, dimension, units);
  switch (job.means.kind) {
    case 'solenoid':
      return [
        ...mechanics(job, units, say),
        ...conductors(job, units),
        ...electrics(job, units),
        ...protection(job, units),
        ...looseness(job, units),
        ...resize(
          job,
          'means.plunger.overhang',
          'length',
          units,
          fewer,
          -1,
          (to) => `Shorten the clevis until the pin stands ${to} from the mouth of the guide`,
        ),
        ...handStopKnobs(job, units, say),
      ];
    case 'air cylinder':
      return [
        ...mechanics(job, units, say),
        ...airKnobs(job, units, say),
        ...looseness(job, units),
        ...handStopKnobs(job, units, say),
      ];
    case 'hand cable': {
      const at: Cabled = { job, cable: job.means, prefix: 'means' };
      return [
        ...cableKnobs(at, units, say),
        ...keepingReadings(at, (kept) => [...springs(kept.job, units, say), ...shaftSpring(kept.job, say)]),
        ...looseness(job, units),
      ];
    }
  }
}

/** Bracket, connection, arm and springs: whatever moves the lever. */
function mechanics(job: Job, units: DisplayUnits, say: Say): Knob[] {
  return [
    ...bracket(job, say),
    ...joint(job, units),
    ...hub(job),
    ...adjuster(job, say),
    ...springsBeside(job, units, say),
    ...overTravel(job, units, say),
  ];
}

/** Springs on the lever: what readings at the handle of a hand stop said of its cable is kept, where it said anything. */
function springsBeside(job: Job, units: DisplayUnits, say: Say): Knob[] {
  const at = cabled(job);
  const kept = at === null ? [] : keepingReadings(at, (now) => springs(now.job, units, say));
  return kept.length > 0 ? kept : springs(job, units, say);
}

/** What gives and rocks. */
function looseness(job: Job, units: DisplayUnits): Knob[] {
  return [
    ...resize(
      job,
      'layout.bracketGive',
      'length',
      units,
      fewer,
      -1,
      (to) => `Stiffen the bracket until it gives no more than ${to} at full pull`,
    ),
    ...resize(
      job,
      'survey.lever.lash',
      'angle',
      units,
      fewer,
      -1,
      (to) => `Take up the play of the lever until it rocks no more than ${to}`,
    ),
  ];
}
