/** A trace beside what a job predicts. */
import type { Found } from './find-events.ts';
import type { PredictedEvents } from './predicted.ts';
import { ampWords, msWords } from './words.ts';

export interface Compared {
  readonly what: 'home' | 'stage change' | 'heavy current' | 'hold current' | 'current in the dip';
  readonly unit: 's' | 'A';
  /** Null where the trace does not show it. */
  readonly seen: number | null;
  readonly predicted: number;
  /** seen / predicted - 1; null where nothing was seen or nothing predicted. */
  readonly differs: number | null;
  /** Beyond what trace and reckoning usually differ by. */
  readonly isFar: boolean;
}

/** Times of a reckoning without eddy currents are short by some tens of per cent; currents are not. Common practice, no source. */
const FAR = { s: 0.4, A: 0.15 } as const;

export function compareWithPrediction(found: Found, predicted: PredictedEvents): Compared[] {
  const since = (time_s: number | undefined): number | null =>
    time_s === undefined || found.on_s === null ? null : time_s - found.on_s;
  const rows: readonly (readonly [Compared['what'], Compared['unit'], number | null, number | null])[] = [
    ['home', 's', since(found.landing?.time_s), predicted.home_s],
    ['stage change', 's', since(found.stage?.time_s), predicted.stage_s],
    ['heavy current', 'A', found.peak_A, predicted.heavy_A],
    ['hold current', 'A', found.stage?.hold_A ?? null, predicted.hold_A],
    ['current in the dip', 'A', found.landing?.dip_A ?? null, predicted.dip_A],
  ];
  return rows.flatMap(([what, unit, seen, value]) => {
    if (value === null) return [];
    const differs = seen === null || value === 0 ? null : seen / value - 1;
    return [
      { what, unit, seen, predicted: value, differs, isFar: seen === null || Math.abs(differs ?? 0) > FAR[unit] },
    ];
  });
}

export function comparedWords({ what, unit, seen, predicted, differs, isFar }: Compared): string {
  const say = (value: number): string => (unit === 's' ? msWords(value) : ampWords(value));
  if (seen === null) return `${what}: not seen, ${say(predicted)} reckoned`;
  const share =
    differs === null ? '' : ` (${differs >= 0 ? '+' : ''}${Math.round(100 * differs)} %${isFar ? ', far off' : ''})`;
  return `${what}: ${say(seen)} seen, ${say(predicted)} reckoned${share}`;
}
