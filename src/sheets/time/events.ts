/**
 * Events as a drawing says them: what happens at one moment is said once, bounces are counted, and a plunger that comes and
 * goes for ever is told by its first round.
 */
import type { TimeEvent, TimeRun } from '../../assessment/time/picture.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { amount } from '../amounts.ts';
import { durationWords } from './time-words.ts';

export interface ToldEvent {
  readonly kind: TimeEvent['kind'];
  readonly time_s: number;
  readonly words: string;
}

/** Moments closer than this are one to the eye. */
const SAME_MOMENT_S = 2e-5;

export function toldEvents({ events }: TimeRun, units: DisplayUnits): ToldEvent[] {
  const found: ToldEvent[] = [];
  const starts = events.filter(({ kind }) => kind === 'starts moving');
  for (let i = 0; i < events.length; i++) {
    const event = events[i];
    if (event === undefined) break;
    const { kind, time_s, gap_m } = event;
    const when = durationWords(time_s);
    // What time counts from is said by the axis.
    if (time_s <= 0) continue;
    if (kind === 'starts moving' && event !== starts[0]) {
      const more = starts.length - starts.indexOf(event) - 1;
      const times = more === 1 ? 'once more' : `${more} times more`;
      found.push({ kind, time_s, words: `starts again ${when}${more > 0 ? `, and so ${times}` : ''}` });
      break;
    }
    if (kind === 'stage changes' && found.some((one) => Math.abs(one.time_s - time_s) < SAME_MOMENT_S)) continue;
    if (kind !== 'comes home' && kind !== 'bounces') {
      const where = kind === 'stalls' && gap_m !== null ? ` ${amount(gap_m, 'length', units)} from home,` : '';
      found.push({ kind, time_s, words: `${kind}${where} ${when}` });
      continue;
    }
    // The landing with its bounces and its coming to rest, up to what else happens.
    let bounces = 0;
    let last = i;
    for (; last < events.length; last++) {
      const next = events[last]?.kind;
      if (next === 'bounces') bounces++;
      else if (next !== 'comes home' && next !== 'at rest') break;
    }
    const bounced = bounces === 0 ? '' : bounces === 1 ? ', bounces once' : `, bounces ${bounces} times`;
    // A bounce that no landing at home comes before is one at the outer stop.
    found.push({ kind, time_s, words: `${kind === 'bounces' ? 'fully out' : kind} ${when}${bounced}` });
    i = last - 1;
  }
  return found;
}
