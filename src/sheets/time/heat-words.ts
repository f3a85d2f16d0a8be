/** What is written on the heat of the coil over time, and the same in sentences. */
import type { HeatLimit, HeatMark, HeatPicture } from '../../assessment/time/picture.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { formatQuantity } from '../../units/format.ts';
import { known } from '../amounts.ts';
import { xOf, yOf, type Panel } from '../chart/panel.ts';
import { point, type Point } from '../plane.ts';
import { inDegrees } from './degrees.ts';
import { lookOf, type LegendRow } from './looks.ts';
import type { Note } from './notes.ts';
import { durationWords, temperatureWords } from './time-words.ts';

const meanOf = ({ class_K, hotSpot_K }: HeatLimit): number => class_K - hotSpot_K;

/** "mean of the winding 120 °C, its hottest place 10 K more". */
function meanWords(limit: HeatLimit, units: DisplayUnits): string {
  const allowance = formatQuantity(limit.hotSpot_K, 'temperatureDifference', units.temperatureDifference, {
    significantDigits: 2,
  });
  return `mean of the winding ${temperatureWords(meanOf(limit), units)}, its hottest place ${allowance} more`;
}

/** Legend of the level lines. */
export function lineRows({ limits, touch }: HeatPicture, units: DisplayUnits): LegendRow[] {
  const own = limits.filter(({ isOwn }) => isOwn);
  const rows: LegendRow[] = own.map((limit) => ({
    name: limit.name,
    role: 'fails',
    style: 'outline',
    words: limit.words,
    more: meanWords(limit, units),
  }));
  if (touch !== null)
    rows.push({ name: 'touch', role: 'side', style: 'ghost', words: HOT_TO_TOUCH, more: touchWords(touch, units) });
  return rows;
}

function markWords({ words, from_s, to_s }: HeatMark): string {
  if (to_s === from_s) return `${words} ${durationWords(from_s)}`;
  if (to_s === null) return `${words}, ${durationWords(from_s)} at the fastest; the slowest never`;
  return `${words}, ${durationWords(from_s)} to ${durationWords(to_s)}`;
}

const HOT_TO_TOUCH = 'hot to touch';

const touchWords = ({ temperature_K, contact_s }: NonNullable<HeatPicture['touch']>, units: DisplayUnits): string =>
  `bare metal at ${temperatureWords(temperature_K, units)} burns in ${durationWords(contact_s)}`;

const alongShares = [0.97, ...Array.from({ length: 24 }, (_, i) => 0.03 + i * 0.04)];
const downShares = Array.from({ length: 12 }, (_, i) => 0.97 - i * 0.08);

export function heatNotes(given: HeatPicture, panel: Panel, units: DisplayUnits): Note[] {
  const { left, right, bottom, top } = panel;
  const room = { left: left + 0.6, right: right - 0.6, bottom: bottom + 0.6, top: top - 0.6 };
  const degrees = (kelvin: number): number => yOf(panel, inDegrees(kelvin, units));
  const along = (y: number): Point[] => alongShares.map((share) => point(left + share * (right - left), y));
  const down = (x: number): Point[] => downShares.map((share) => point(x, bottom + share * (top - bottom)));
  const note = (name: string, role: Note['role'], words: string, anchors: readonly Point[], towards: number): Note => {
    const [anchor = point(left, bottom), ...orAt] = anchors;
    return { name: `note-${name}`, role, words, listed: words, isLong: false, anchor, orAt, towards, room };
  };
  const seen = (y: number): boolean => y > bottom && y < top;
  const crossings = given.crossings.flatMap(({ course, limit, time_s }) => {
    const of = given.limits.find(({ name }) => name === limit);
    const index = given.courses.findIndex(({ name }) => name === course);
    const time = Math.log10(time_s);
    if (of === undefined || index < 0 || time < panel.from || time > panel.to) return [];
    const at = point(xOf(panel, time), degrees(meanOf(of)));
    const said = note(`${course}-${limit}`, lookOf(index).role, durationWords(time_s), [at], (3 * Math.PI) / 4);
    return [{ ...said, listed: `${given.courses[index]?.words ?? ''}: ${of.words} after ${durationWords(time_s)}` }];
  });
  const limits = given.limits.flatMap((limit) => {
    const y = degrees(meanOf(limit));
    return seen(y) ? [note(limit.name, limit.isOwn ? 'fails' : 'quiet', limit.words, along(y), Math.PI / 2)] : [];
  });
  const marks = given.marks.flatMap((mark) => {
    const place = (at: number): number => xOf(panel, Math.max(panel.from, Math.log10(at)));
    const sides = [place(mark.from_s), place(mark.to_s ?? Infinity)].filter((x) => x < right);
    const anchors = sides.flatMap(down);
    const words = markWords(mark);
    return anchors.length > 0 ? [{ ...note(mark.name, 'now', words, anchors, 0), isLong: true }] : [];
  });
  const { touch } = given;
  const y = touch === null ? null : degrees(touch.temperature_K);
  const touched =
    touch === null || y === null || !seen(y) ? [] : [note('touch', 'side', HOT_TO_TOUCH, along(y), Math.PI / 2)];
  // The coil's own class has the first claim to a place, those beside it the last.
  const own = limits.filter(({ role }) => role === 'fails');
  const beside = limits.filter(({ role }) => role !== 'fails');
  return [...own, ...crossings, ...marks, ...touched, ...beside];
}

export function heatSentences(
  { courses, limits, crossings, marks, touch, cautions, missing }: HeatPicture,
  units: DisplayUnits,
): string[] {
  const found: string[] = [];
  for (const { name, words, conditions, time_s, winding_K, case_K } of courses) {
    const last = time_s.length - 1;
    const end = temperatureWords(known(winding_K[last]), units);
    found.push(
      `${words}, ${conditions}: winding ${end} after ${durationWords(time_s[last] ?? null)}, can ${temperatureWords(known(case_K[last]), units)}.`,
    );
    for (const limit of limits) {
      const crossing = crossings.find((one) => one.course === name && one.limit === limit.name);
      if (crossing !== undefined)
        found.push(`Passes ${limit.words} (${meanWords(limit, units)}) after ${durationWords(crossing.time_s)}.`);
      else if (limit.isOwn) found.push(`Stays below ${limit.words} (${meanWords(limit, units)}).`);
    }
  }
  for (const mark of marks) found.push(`${markWords(mark)}.`);
  if (touch !== null) found.push(`${HOT_TO_TOUCH}: ${touchWords(touch, units)}.`);
  return [...found, ...cautions, ...missing].map((said) => said.charAt(0).toUpperCase() + said.slice(1));
}
