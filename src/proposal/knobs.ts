/**
 * What a fitter can change on an installation, each as a row of settings from small to large.
 *
 * A knob offers settings; a setting is a change to the document with its words. Settings of one sense are ordered by the
 * size of the change, so that the first that mends is the smallest.
 */
import type { Job } from '../job/schema.ts';
import { display, type Dimension, type DisplayUnits } from '../units/quantity.ts';
import { bracket, hub } from './knobs/bracket.ts';
import { conductors, electrics } from './knobs/electrics.ts';
import { adjuster, joint, overTravel } from './knobs/joint.ts';
import { fewer, resize, type Knob } from './knobs/knob.ts';
import { protection } from './knobs/protection.ts';
import { springs } from './knobs/springs.ts';

/** The knobs of an installation with a solenoid, the easiest on the job first. */
export function knobsOf(job: Job, units: DisplayUnits): Knob[] {
  const { means } = job;
  if (means.kind !== 'solenoid') return [];
  const say = (dimension: Dimension, value: number) => display(value, dimension, units);
  return [
    ...bracket(job, say),
    ...joint(job, units),
    ...hub(job),
    ...adjuster(job, say),
    ...springs(job, units, say),
    ...overTravel(job, units, say),
    ...conductors(job, units),
    ...electrics(job, units),
    ...protection(job, units),
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
    ...resize(
      job,
      'means.plunger.overhang',
      'length',
      units,
      fewer,
      -1,
      (to) => `Shorten the clevis until the pin stands ${to} from the mouth of the guide`,
    ),
  ];
}
