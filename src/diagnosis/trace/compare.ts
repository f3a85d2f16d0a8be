/** A trace beside what a job predicts. */
import type { Found } from './find-events.ts';
import type { Between, PredictedEvents } from './predicted.ts';
import { ampWords, msWords } from './words.ts';

export interface Compared {
  readonly what: 'home' | 'stage change' | 'heavy current' | 'hold current' | 'current in the dip';
  readonly unit: 's' | 'A';
  /** Null where the trace does not show it. */
  readonly seen: number | null;
  readonly predicted: Between;
  /** Beyond the nearer end of what was predicted, as a share of it; 0 between the ends, null where nothing was seen. */
  readonly differs: number | null;
  /** Beyond what trace and reckoning usually differ by. */
  readonly isFar: boolean;
}

/** Times of a reckoning without eddy currents are short by some tens of per cent; currents are not. Common practice, no source. */
const FAR = { s: 0.4, A: 0.15 } as const;

export function compareWithPrediction(found: Found, predicted: PredictedEvents): Compared[] {
  const since = (time_s: number | undefined): number | null =>
    time_s === undefined || found.on_s === null ? null : time_s - found.on_s;
  const rows: readonly (readonly [Compared['what'], Compared['unit'], number | null, Between | null])[] = [
    ['home', 's', since(found.landing?.time_s), predicted.home_s],
    ['stage change', 's', since(found.stage?.time_s), predicted.stage_s],
    ['heavy current', 'A', found.peak_A, predicted.heavy_A],
    ['hold current', 'A', found.stage?.hold_A ?? null, predicted.hold_A],
    ['current in the dip', 'A', found.landing?.dip_A ?? null, predicted.dip_A],
  ];
  return rows.flatMap(([what, unit, seen, value]) => {
    if (value === null) return [];
    const differs = seen === null ? null : beyond(seen, value);
    return [
      { what, unit, seen, predicted: value, differs, isFar: seen === null || Math.abs(differs ?? 0) > FAR[unit] },
    ];
  });
}

function beyond(seen: number, { least, greatest }: Between): number {
  if (seen < least) return seen / least - 1;
  return seen > greatest ? seen / greatest - 1 : 0;
}

export function comparedWords({ what, unit, seen, predicted, differs, isFar }: Compared): string {
  const say = (value: number): string => (unit === 's' ? msWords(value) : ampWords(value));
  const reckoned = `${say(predicted.least)} to ${say(predicted.greatest)} reckoned`;
  if (seen === null) return `${what}: not seen, ${reckoned}`;
  if (differs === null || differs === 0) return `${what}: ${say(seen)} seen, ${reckoned}`;
  const share = `${differs > 0 ? '+' : ''}${Math.round(100 * differs)} %`;
  return `${what}: ${say(seen)} seen, ${reckoned} (${share} beyond${isFar ? ', far off' : ''})`;
}
