/** What is written on current, gap and volts over time, and the same in sentences. */
import type { MeasuredTrace, TimeEvent, TimeRun } from '../../assessment/time/picture.ts';
import { sureness } from '../../diagnosis/trace/words.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { amount, known } from '../amounts.ts';
import { valueAtGap, xOf, yOf, type Panel } from '../chart/panel.ts';
import { point, type Box } from '../plane.ts';
import { toldEvents } from './events.ts';
import type { Note } from './notes.ts';
import { durationWords } from './time-words.ts';
import type { Plot, ShownCourse, TimeUnit, Traces } from './traces.ts';

/** One tick on the curves with its words. */
export interface EventMark {
  readonly kind: TimeEvent['kind'];
  /** In the unit of the time axis. */
  readonly at: number;
  /** Beside the tick. */
  readonly words: string;
  /** In a list, where nothing shows whose it is. */
  readonly listed: string;
}

const electrical: readonly TimeEvent['kind'][] = [
  'current off',
  'end switch works',
  'stage changes',
  'end switch recloses',
];

export function marksOf(run: TimeRun, to_s: number, time: TimeUnit, units: DisplayUnits): EventMark[] {
  return toldEvents(run, units)
    .filter(({ time_s }) => time_s <= to_s)
    .map(({ kind, time_s, words }) => ({ kind, at: time.of(time_s), words, listed: `${run.words}: ${words}` }));
}

export function measuredMarks(trace: MeasuredTrace, to_s: number, time: TimeUnit): EventMark[] {
  return trace.events.flatMap(({ kind, time_s, confidence }) => {
    if (time_s <= 0 || time_s > to_s) return [];
    const words = `${kind} ${durationWords(time_s)}, ${sureness(confidence)}`;
    return [{ kind, at: time.of(time_s), words, listed: `measured: ${words}` }];
  });
}

/** Electrical events at the current, those of the plunger at the gap; a measured trace has a current only. */
export function traceNotes(courses: readonly ShownCourse[], panels: Readonly<Partial<Record<Plot, Panel>>>): Note[] {
  const rooms: Partial<Record<Plot, Box>> = {};
  for (const [name, { left, right, bottom, top }] of Object.entries(panels) as [Plot, Panel][])
    rooms[name] = { left: left + 0.6, right: right - 0.6, bottom: bottom + 0.6, top: top - 0.6 };
  return courses.flatMap(({ name, role, time, values, marks }) =>
    marks.flatMap((mark, i): Note[] => {
      const likes: readonly Plot[] = electrical.includes(mark.kind) ? ['current', 'gap'] : ['gap', 'current'];
      for (const plot of likes) {
        const [panel, room] = [panels[plot], rooms[plot]];
        const value = valueAtGap(time, values[plot], mark.at);
        if (panel === undefined || room === undefined || value === null) continue;
        const anchor = point(xOf(panel, mark.at), Math.min(panel.top, yOf(panel, value)));
        return [
          {
            name: `note-${name}-${i + 1}`,
            role,
            words: mark.words,
            listed: mark.listed,
            isLong: true,
            anchor,
            towards: anchor.x > (panel.left + panel.right) / 2 ? (2 * Math.PI) / 3 : Math.PI / 4,
            room,
          },
        ];
      }
      return [];
    }),
  );
}

const outcomes: Readonly<Record<TimeRun['outcome'], string>> = {
  'comes home': 'comes home',
  stalls: 'stalls and stays short of home',
  'does not start': 'does not start moving',
  'drops out': 'comes home and drops out again',
  'comes out': 'comes out',
  'stays at home': 'stays at home',
  'not finished': 'has not come to an end when the reckoning stops',
};

export function sentences({ runs, measured, from, missing }: Traces, units: DisplayUnits): string[] {
  const found = runs.flatMap((run) => {
    const peak = Math.max(...run.supplyCurrent_A.filter((value) => known(value) !== null).map(Number));
    const said = toldEvents(run, units)
      .map(({ words }) => words)
      .join(', ');
    return [
      `${run.words}, ${run.conditions}: ${outcomes[run.outcome]}.`,
      ...(said === '' ? [] : [`After ${from}: ${said}.`]),
      ...(Number.isFinite(peak) ? [`Greatest supply current ${amount(peak, 'current', units)}.`] : []),
      ...run.cautions,
    ];
  });
  if (measured !== null)
    found.push(`Measured, ${measured.words}: ${measured.findings.join(' ')}`, ...measured.cautions);
  return [...found, ...missing];
}
