/** What a recorded current says of the installation, in one sentence. */
import type { Found } from '../../diagnosis/trace/find-events.ts';
import type { Reason, TraceOutcome } from '../../diagnosis/trace/outcome.ts';
import { durationWords } from '../../sheets/time/time-words.ts';

const amps = (value: number): string => `${Number(value.toPrecision(3))} A`;

const why: Readonly<Partial<Record<Reason, string>>> = {
  'seen too short': 'the recording ends too soon',
  'too noisy': 'no dip could be seen at this noise',
  'doubtful dip': 'there is a dip that may be noise',
  'switch-on not seen': 'switch-on was not recorded',
  'stage change alone': 'the stage changes, but no dip shows that the plunger came home',
  'timer without dip': 'the stage changes as by a timer, and no dip could be seen at this noise',
};

export function traceSays(found: Found, { outcome, reason, home_s }: TraceOutcome): string {
  const on = found.on_s ?? 0;
  const { stage, landing } = found;
  const isTimer = reason === 'dip and timer' || reason === 'timer without dip';
  const stageAt = stage === null ? null : durationWords(stage.time_s - on);
  switch (outcome) {
    case 'came home':
      if (reason === 'stage change alone')
        return `No dip can be seen; the stage change at ${stageAt} shows that it came home.`;
      if (stageAt === null) return `Came home at ${durationWords(home_s)}.`;
      return `Came home at ${durationWords(home_s)}, ${isTimer ? 'the stage changed' : 'end switch worked'} at ${stageAt}.`;
    case 'end switch did not work':
      return `Came home at ${landing === null ? 'some time' : durationWords(landing.time_s - on)}, but the end switch did not work: the full current stayed on.`;
    case 'never came home':
      return stageAt === null
        ? `Never came home: the current rose smoothly to ${amps(found.last_A)} and stayed there.`
        : `Never came home: no dip before the stage changed at ${stageAt}.`;
    case 'dropped out':
      return 'Dropped out: the current fell to hold and went back to the full current.';
    case 'chatters':
      return 'Chatters: the end switch opens and closes again and again.';
    case 'not known':
      return `Cannot be told: ${why[reason] ?? 'the recording does not show it'}.`;
  }
}
