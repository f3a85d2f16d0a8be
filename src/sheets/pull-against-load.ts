/**
 * Pull against load: force over the gap, home at the left.
 *
 * Above, the band of pull from the weakest to the strongest corner and the band of pull needed; hatched where the need
 * lies above the weakest pull. Below, what drives the plunger out again and what is left of it; hatched where it stays.
 * Nothing is computed here but places on the sheet; values between two gaps of the sweep lie on a straight line.
 */
import type { Sweep, Travel } from '../assessment/finding.ts';
import { fromSI } from '../units/convert.ts';
import { metricUnits, type DisplayUnits } from '../units/display.ts';
import { amount, known } from './amounts.ts';
import {
  areas,
  axes,
  curve,
  endLabels,
  pieces,
  roundEnds,
  valueAtGap,
  xOf,
  yOf,
  type EndLabel,
  type Panel,
  type Values,
} from './chart/panel.ts';
import {
  circle,
  hatch,
  line,
  part,
  polygon,
  text,
  textBox,
  type Drawing,
  type Element,
  type Part,
  type Role,
} from './drawing.ts';
import { point, type Box } from './plane.ts';
import { Ground, placeLabels, type WantedLabel } from './placing.ts';
import { textWidth } from './text-width.ts';

export interface PullAgainstLoad {
  readonly sweep: Sweep | null;
  readonly travel: Travel | null;
  readonly endSwitchGap_mm: number | null;
  /** Where the travel control stands; null for paper. */
  readonly gap_mm: number | null;
}

export interface ChartOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
}

export interface ChartDrawing extends Drawing {
  /** Ends of the gap axis on the sheet, mm, and the gaps there, mm: for a cursor that is dragged. */
  readonly gapAxis: {
    readonly left: number;
    readonly right: number;
    readonly bottom: number;
    readonly top: number;
    readonly from_mm: number;
    readonly to_mm: number;
  } | null;
}

/** Most that the load may take of the upright axis before the pull is cut at the top. */
const PULL_OVER_NEED = 3;

export function drawPullAgainstLoad(given: PullAgainstLoad, options: ChartOptions = {}): ChartDrawing {
  const { width = 200, height = 130, units = metricUnits } = options;
  const title = 'Pull against load';
  const { sweep } = given;
  if (sweep === null || sweep.gap_mm.length < 2) return empty(title, width, height);
  const data = shown(sweep, units);
  const { gaps } = data;
  const last = gaps[gaps.length - 1] ?? 1;
  const returnKnown = [...data.drive, ...data.left].some((value) => value !== null);
  const right = width - Math.min(56, width * 0.3);
  const span = { left: 16, right, from: Math.min(0, gaps[0] ?? 0), to: last };
  const foot = 12;
  const split = returnKnown ? foot + (height - foot - 12) * 0.3 : foot;
  const top = forceCeiling(data);
  const upper: Panel = {
    ...span,
    name: 'pull',
    bottom: returnKnown ? split + 13 : foot,
    top: height - 12,
    low: 0,
    high: top,
  };
  const backValues = [...data.drive, ...data.left].filter((value) => known(value) !== null) as number[];
  const [backLow, backHigh] = roundEnds(Math.min(0, ...backValues), Math.max(0, ...backValues), 3);
  const lower: Panel = { ...span, name: 'return', bottom: foot, top: split, low: backLow, high: backHigh };
  const now = given.gap_mm === null ? null : inUnit(given.gap_mm, 'length', units);
  const parts: Part[] = [];
  parts.push(...axes(upper, { vertical: `Towards home, ${units.force}`, gapUnit: returnKnown ? null : units.length }));
  if (returnKnown)
    parts.push(...axes(lower, { vertical: `Back out without current, ${units.force}`, gapUnit: units.length }));
  parts.push(...bands(upper, data));
  if (returnKnown) parts.push(...backBands(lower, data));
  const bottom = returnKnown ? lower.bottom : upper.bottom;
  parts.push(...markers(given, units, upper, bottom));
  parts.push(...cursor(given, units, data, upper, returnKnown ? lower : null));
  parts.push(...names(data, now, units, upper, returnKnown ? lower : null, height));
  parts.push(...words(given, units, data, upper, returnKnown ? lower : null, parts, { width, height }));
  return {
    title,
    width,
    height,
    parts,
    sentences: sentences(given, data, units),
    gapAxis: {
      left: upper.left,
      right: upper.right,
      bottom,
      top: upper.top,
      from_mm: fromUnit(span.from, units),
      to_mm: fromUnit(span.to, units),
    },
  };
}

/** The sweep in the units shown. */
interface Shown {
  readonly gaps: readonly number[];
  readonly least: Values;
  readonly greatest: Values;
  readonly needed: Values;
  readonly neededLow: Values;
  readonly drive: Values;
  readonly left: Values;
}

const inUnit = (value: number, dimension: 'length' | 'force', units: DisplayUnits): number =>
  fromSI(dimension === 'length' ? value / 1000 : value, units[dimension], dimension);

const fromUnit = (value: number, units: DisplayUnits): number => value / fromSI(0.001, units.length, 'length');

function shown(sweep: Sweep, units: DisplayUnits): Shown {
  const force = (values: readonly (number | null)[]): Values =>
    values.map((value) => (value === null || Number.isNaN(value) ? null : inUnit(value, 'force', units)));
  return {
    gaps: sweep.gap_mm.map((gap) => inUnit(gap, 'length', units)),
    least: force(sweep.pullLeast_N),
    greatest: force(sweep.pullGreatest_N),
    needed: force(sweep.pullNeeded_N),
    neededLow: force(sweep.pullNeededLowFriction_N),
    drive: force(sweep.returnDrive_N),
    left: force(sweep.returnForce_N),
  };
}

/** Top of the force axis: the whole need is seen, and the pull as far as it matters. */
function forceCeiling({ least, greatest, needed }: Shown): number {
  const most = (values: Values): number =>
    Math.max(0, ...(values.filter((value) => known(value) !== null) as number[]));
  const need = most(needed);
  const pull = most(greatest);
  const atRest = (values: Values): number => known(values[values.length - 1]) ?? 0;
  const enough = Math.max(need * PULL_OVER_NEED, atRest(greatest) * 1.3, atRest(least) * 1.3);
  const wanted = enough > 0 ? Math.max(need * 1.15, Math.min(pull * 1.05, enough)) : pull > 0 ? pull * 1.05 : 1;
  return roundEnds(0, wanted, 5)[1];
}

function bands(panel: Panel, { gaps, least, greatest, needed, neededLow }: Shown): Part[] {
  const fill = (name: string, role: Role, high: Values, low: Values): Part =>
    part(
      name,
      role,
      areas(panel, gaps, high, low).map((ring) => polygon('none', ring, 'tint')),
    );
  const short = areas(panel, gaps, needed, least, 'above');
  return [
    fill('pull-band', 'pull', greatest, least),
    fill('need-band', 'need', needed, neededLow),
    part(
      'short',
      'fails',
      short.flatMap((ring) => [hatch([ring], 1.4), polygon('thin', ring)]),
    ),
    part('pull-greatest', 'pull', curve(panel, gaps, greatest, 'thin')),
    part('pull-least', 'pull', curve(panel, gaps, least, 'heavy')),
    part('need-low', 'need', curve(panel, gaps, neededLow, 'hidden')),
    part('need-high', 'need', curve(panel, gaps, needed, 'heavy')),
  ];
}

function backBands(panel: Panel, { gaps, drive, left }: Shown): Part[] {
  const zero = gaps.map(() => 0);
  const stays = areas(panel, gaps, zero, left, 'above');
  const level = yOf(panel, 0);
  return [
    part('return-zero', 'words', [line('outline', point(panel.left, level), point(panel.right, level))]),
    part(
      'stays',
      'fails',
      stays.flatMap((ring) => [hatch([ring], 1.4), polygon('thin', ring)]),
    ),
    part('return-drive', 'return', curve(panel, gaps, drive, 'hidden')),
    part('return-left', 'return', curve(panel, gaps, left, 'heavy')),
  ];
}

/** Gaps that matter, as upright lines through both plots. */
function markedGaps({ travel, endSwitchGap_mm }: PullAgainstLoad): { name: string; words: string; gap_mm: number }[] {
  const marks: { name: string; words: string; gap_mm: number | null }[] = [
    { name: 'end-switch', words: 'end switch works', gap_mm: known(endSwitchGap_mm) },
    { name: 'lever-stop', words: 'lever meets its stop', gap_mm: known(travel?.leverStopGap_mm) },
    { name: 'start', words: 'takes the load', gap_mm: known(travel?.startGap_mm) },
  ];
  return marks.flatMap(({ gap_mm, ...rest }) => (gap_mm === null ? [] : [{ ...rest, gap_mm }]));
}

function markers(given: PullAgainstLoad, units: DisplayUnits, upper: Panel, bottom: number): Part[] {
  return markedGaps(given).flatMap(({ name, gap_mm }) => {
    const x = xOf(upper, inUnit(gap_mm, 'length', units));
    if (x < upper.left - 1e-6 || x > upper.right + 1e-6) return [];
    return [part(`mark-${name}`, 'words', [line('centre', point(x, bottom), point(x, upper.top))])];
  });
}

function cursor(given: PullAgainstLoad, units: DisplayUnits, data: Shown, upper: Panel, lower: Panel | null): Part[] {
  const gap_mm = known(given.gap_mm);
  if (gap_mm === null) return [];
  const gap = inUnit(gap_mm, 'length', units);
  if (gap < upper.from - 1e-9 || gap > upper.to + 1e-9) return [];
  const x = xOf(upper, gap);
  const elements: Element[] = [line('outline', point(x, (lower ?? upper).bottom), point(x, upper.top + 1.5))];
  const dot = (panel: Panel, values: Values): void => {
    const value = valueAtGap(data.gaps, values, gap);
    if (value !== null && value >= panel.low && value <= panel.high) {
      elements.push(circle('outline', point(x, yOf(panel, value)), 1, 'paper'));
    }
  };
  for (const values of [data.least, data.greatest, data.needed]) dot(upper, values);
  if (lower !== null) dot(lower, data.left);
  const words = `gap ${amount(gap_mm / 1000, 'length', units)}`;
  const half = textWidth(words, 2.5, true) / 2;
  const middle = Math.max(upper.left + half, Math.min(upper.right - half, x));
  // Clear of the words of the axis, which stand at the left on the same line.
  const clear = upper.left + textWidth(`Towards home, ${units.force}`, 2.5) + half + 3;
  elements.push(text(point(Math.max(clear, middle), upper.top + 2.2), words, { align: 'middle', bold: true }));
  return [part('cursor', 'now', elements)];
}

/** Names of the curves at their right ends, with their values at the cursor. */
function names(
  data: Shown,
  now: number | null,
  units: DisplayUnits,
  upper: Panel,
  lower: Panel | null,
  height: number,
): Part[] {
  const label = (panel: Panel, name: string, words: string, role: Role, values: Values): EndLabel[] => {
    const drawn = pieces(panel, data.gaps, values);
    const end = drawn[drawn.length - 1];
    const at = end?.[end.length - 1];
    if (at === undefined) return [];
    const value = now === null ? null : valueAtGap(data.gaps, values, now);
    return [{ name: `name-${name}`, words, role, at, value: value === null ? null : inWords(value, units) }];
  };
  const above = [
    ...label(upper, 'greatest', 'pull, strongest', 'pull', data.greatest),
    ...label(upper, 'least', 'pull, weakest', 'pull', data.least),
    ...label(upper, 'needed', 'needed', 'need', data.needed),
  ];
  const below =
    lower === null
      ? []
      : [
          ...label(lower, 'drive', 'drives it out', 'return', data.drive),
          ...label(lower, 'left', 'left over', 'return', data.left),
        ];
  const parts = endLabels(upper, above, { bottom: lower === null ? 3 : lower.top + 3, top: height - 6 });
  return lower === null ? parts : [...parts, ...endLabels(lower, below, { bottom: 2, top: lower.top + 2 })];
}

/** A value that is already in the reader's unit. */
function inWords(value: number, units: DisplayUnits): string {
  return Number.isFinite(value) ? amount(value / fromSI(1, units.force, 'force'), 'force', units) : 'binds';
}

/** Words inside the plots: marked gaps, hatched areas, curves that leave through the top. */
function words(
  given: PullAgainstLoad,
  units: DisplayUnits,
  data: Shown,
  upper: Panel,
  lower: Panel | null,
  drawn: readonly Part[],
  sheet: { width: number; height: number },
): Part[] {
  const ground = new Ground(sheet.width, sheet.height);
  const occupied: Box[] = [];
  for (const { name, role, elements } of drawn) {
    if (role === 'grid' || name === 'cursor') continue;
    for (const element of elements) {
      ground.element(element, 1);
      if (element.kind === 'text') occupied.push(textBox(element));
    }
  }
  const wanted: WantedLabel[] = [];
  const inRing = (name: string, ring: ReturnType<typeof areas>[number] | undefined, label: string): void => {
    if (ring === undefined) return;
    const xs = ring.map(({ x }) => x);
    const ys = ring.map(({ y }) => y);
    const anchor = point((Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2);
    wanted.push({ name, role: 'fails', words: label, bold: true, anchor, towards: Math.PI / 2 });
  };
  const widest = (rings: ReturnType<typeof areas>): ReturnType<typeof areas>[number] | undefined =>
    [...rings].sort((a, b) => spread(b) - spread(a))[0];
  inRing(
    'word-short',
    widest(areas(upper, data.gaps, data.needed, data.least, 'above')),
    'fails: more needed than the weakest pull',
  );
  if (lower !== null) {
    inRing(
      'word-stays',
      widest(
        areas(
          lower,
          data.gaps,
          data.gaps.map(() => 0),
          data.left,
          'above',
        ),
      ),
      'fails: the plunger stays',
    );
  }
  const atHome = known(data.greatest[0]);
  const leastAtHome = known(data.least[0]);
  if (atHome !== null && atHome > upper.high) {
    const exit = pieces(upper, data.gaps, data.greatest)[0]?.[0];
    const both =
      leastAtHome !== null && leastAtHome > upper.high ? `${inWords(leastAtHome, units).split(' ')[0]} to ` : '';
    if (exit !== undefined) {
      wanted.push({
        name: 'word-beyond',
        role: 'pull',
        words: `at home ${both}${inWords(atHome, units)}`,
        anchor: exit,
        towards: -0.6,
      });
    }
  }
  markedGaps(given).forEach(({ name, words: label, gap_mm }, i) => {
    const x = xOf(upper, inUnit(gap_mm, 'length', units));
    if (x < upper.left - 1e-6 || x > upper.right + 1e-6) return;
    const value = amount(gap_mm / 1000, 'length', units);
    const anchor = point(x, upper.top - 6 - i * 5);
    wanted.push({
      name: `word-${name}`,
      role: 'words',
      words: `${label} ${value}`,
      anchor,
      towards: x > (upper.left + upper.right) / 2 ? Math.PI : 0,
      leaderBeyond: 2,
    });
  });
  const room = {
    left: upper.left + 0.5,
    right: upper.right - 0.5,
    bottom: (lower ?? upper).bottom + 0.5,
    top: upper.top - 0.5,
  };
  return placeLabels(wanted, room, ground, occupied).map((placed) => placed.part);
}

function spread(ring: readonly { readonly x: number }[]): number {
  const xs = ring.map(({ x }) => x);
  return Math.max(...xs) - Math.min(...xs);
}

function sentences(given: PullAgainstLoad, data: Shown, units: DisplayUnits): string[] {
  const found: string[] = [];
  const at = (gap: number): string => amount(fromUnit(gap, units) / 1000, 'length', units);
  const { gaps, least, needed, left } = data;
  const short = gaps.filter((_, i) => (needed[i] ?? -Infinity) > (least[i] ?? Infinity));
  if (short.length > 0)
    found.push(
      `More pull is needed than the weakest pull from ${at(Math.min(...short))} to ${at(Math.max(...short))} from home.`,
    );
  const compared = gaps.some((_, i) => known(needed[i]) !== null && known(least[i]) !== null);
  if (short.length === 0 && compared) found.push('The weakest pull lies above the need wherever both are known.');
  const stays = gaps.filter((_, i) => (left[i] ?? 1) < 0);
  if (stays.length > 0)
    found.push(
      `Without current the plunger stays from ${at(Math.min(...stays))} to ${at(Math.max(...stays))} from home.`,
    );
  for (const { words: label, gap_mm } of markedGaps(given))
    found.push(`${label.charAt(0).toUpperCase()}${label.slice(1)} at ${amount(gap_mm / 1000, 'length', units)}.`);
  const gap_mm = known(given.gap_mm);
  if (gap_mm !== null) {
    const gap = inUnit(gap_mm, 'length', units);
    const values = (
      [
        ['weakest pull', least],
        ['strongest pull', data.greatest],
        ['needed', needed],
        ['left to bring it out', left],
      ] as const
    ).flatMap(([name, curveValues]) => {
      const value = valueAtGap(gaps, curveValues, gap);
      return value === null ? [] : [`${name} ${inWords(value, units)}`];
    });
    found.push(
      `At ${amount(gap_mm / 1000, 'length', units)} from home: ${values.length > 0 ? values.join(', ') : 'nothing known'}.`,
    );
  }
  if (!compared) found.push('Pull and need are not both known: readings are missing.');
  return found;
}

function empty(title: string, width: number, height: number): ChartDrawing {
  const words = 'Not known yet: readings are missing.';
  return {
    title,
    width,
    height,
    parts: [part('notice', 'notice', [text(point(width / 2, height / 2), words, { align: 'middle' })])],
    sentences: [words],
    gapAxis: null,
  };
}
