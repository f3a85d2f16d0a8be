/**
 * Force of a solenoid over its gap, home at the left: a curve for each drive, with the band of 95 % where one is known, the
 * readings as points with what is left between them and the curve, and the cursor of the travel control.
 * Draws; computes nothing but places on the sheet.
 */
import { fromSI } from '../../units/convert.ts';
import { metricUnits, type DisplayUnits } from '../../units/display.ts';
import { amount, known } from '../amounts.ts';
import {
  axes,
  areas,
  curve,
  endLabelRoom,
  endLabels,
  pieces,
  roundEnds,
  valueAtGap,
  xOf,
  yOf,
  type EndLabel,
  type Panel,
  type Values,
} from '../chart/panel.ts';
import { circle, line, part, polygon, text, type Element, type LineStyle, type Part, type Role } from '../drawing.ts';
import { point } from '../plane.ts';
import { textWidth } from '../text-width.ts';
import { sentences, words } from './force-curve-words.ts';

/** SI throughout: metres and newtons. */
export interface ForceCurve {
  readonly name: string;
  readonly words: string;
  /** The one that the readings and the job are about stands out. */
  readonly isChief: boolean;
  readonly gaps: readonly number[];
  readonly force: readonly number[];
  readonly band: { readonly low: readonly number[]; readonly high: readonly number[] } | null;
}

export interface ForceReading {
  readonly name: string;
  readonly words: string;
  readonly gap: number;
  readonly force: number;
  /** Half-width of the reading, newtons. */
  readonly plusMinus: number | null;
  /** What the curve says there. */
  readonly expected: number | null;
  /** Lies further from the curve than the two can explain. */
  readonly contradicts: boolean;
}

export interface ForceCurves {
  readonly curves: readonly ForceCurve[];
  readonly readings: readonly ForceReading[];
  readonly gap: number | null;
  /** Where the next reading would tell most. */
  readonly next: { readonly gap: number; readonly words: string } | null;
  /** Said under the title, such as that a finer solve is still running. */
  readonly isCoarse: boolean;
}

export interface ForceCurvesDrawing {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly parts: readonly Part[];
  readonly sentences: readonly string[];
  readonly gapAxis: {
    readonly left: number;
    readonly right: number;
    readonly from: number;
    readonly to: number;
  } | null;
}

export interface ForceCurvesOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
}

export function drawForceCurves(given: ForceCurves, options: ForceCurvesOptions = {}): ForceCurvesDrawing {
  const { width = 200, height = 110, units = metricUnits } = options;
  const title = 'Force over the gap';
  const { curves, readings } = given;
  const gaps = curves.flatMap((one) => one.gaps);
  const last = Math.max(...gaps, ...readings.map((reading) => reading.gap));
  if (curves.length === 0 || !(last > 0)) {
    const words = 'No curve yet.';
    return {
      title,
      width,
      height,
      parts: [part('notice', 'notice', [text(point(width / 2, height / 2), words, { align: 'middle' })])],
      sentences: [words],
      gapAxis: null,
    };
  }
  const values = width < 150 ? 'below' : 'beside';
  const inLength = (metres: number): number => fromSI(metres, units.length, 'length');
  const inForce = (newtons: number): number => fromSI(newtons, units.force, 'force');
  const panel: Panel = {
    name: 'force',
    left: 16,
    right: width - (values === 'below' ? endLabelRoom.narrow : endLabelRoom.wide),
    bottom: 12,
    top: height - 12,
    from: 0,
    to: inLength(last),
    low: 0,
    high: roundEnds(0, inForce(ceiling(given)), 5)[1],
  };
  const drawn = curves.map((one) => ({
    ...one,
    x: one.gaps.map(inLength),
    y: one.force.map(inForce) as Values,
    low: one.band?.low.map(inForce) as Values | undefined,
    high: one.band?.high.map(inForce) as Values | undefined,
  }));
  const now = given.gap === null ? null : inLength(given.gap);
  const parts: Part[] = axes(panel, { vertical: `Force towards home, ${units.force}`, across: `gap, ${units.length}` });
  for (const one of drawn) {
    if (one.low && one.high)
      parts.push(
        part(
          `band-${one.name}`,
          'pull',
          areas(panel, one.x, one.high, one.low).map((ring) => polygon('none', ring, 'tint')),
        ),
      );
    parts.push(part(`curve-${one.name}`, roleOf(one), curve(panel, one.x, one.y, styleOf(one, given.isCoarse))));
  }
  parts.push(...readings.flatMap((reading) => readingPart(panel, reading, inLength, inForce)));
  if (given.next !== null) parts.push(nextMark(panel, inLength(given.next.gap)));
  if (now !== null && now <= panel.to + 1e-9)
    parts.push(cursor(panel, drawn, now, amountOfGap(given.gap ?? 0, units), units));
  const labels: EndLabel[] = drawn.flatMap((one) => {
    const piece = pieces(panel, one.x, one.y).at(-1);
    const end = piece?.[piece.length - 1];
    if (end === undefined) return [];
    const value = now === null ? null : valueAtGap(one.x, one.y, now);
    return [
      {
        name: `name-${one.name}`,
        words: one.words,
        role: roleOf(one),
        at: end,
        value: value === null ? null : amount(value / fromSI(1, units.force, 'force'), 'force', units),
      },
    ];
  });
  parts.push(...endLabels(panel, labels, { bottom: 4, top: height - 4 }, values));
  parts.push(...words(given, panel, parts, { width, height }, inLength, inForce, units));
  return {
    title,
    width,
    height,
    parts,
    sentences: sentences(given, units),
    gapAxis: { left: panel.left, right: panel.right, from: 0, to: last },
  };
}

const roleOf = (one: ForceCurve): Role => (one.isChief ? 'pull' : 'quiet');
const styleOf = (one: ForceCurve, isCoarse: boolean): LineStyle =>
  isCoarse ? 'hidden' : one.isChief ? 'heavy' : 'thin';

/** The force near home is many times that of the stroke; the axis shows the stroke, the readings and the band round it. */
function ceiling({ curves, readings }: ForceCurves): number {
  const most = Math.max(...curves.flatMap((one) => one.force));
  const last = Math.max(...curves.flatMap((one) => one.gaps));
  const beyond = curves.flatMap((one) => one.force.filter((_, i) => (one.gaps[i] ?? 0) >= last / 8));
  const read = readings.map((reading) => reading.force + (reading.plusMinus ?? 0));
  return Math.max(Math.min(most, 1.6 * Math.max(0, ...beyond)), 1.15 * Math.max(0, ...read), 1e-3);
}

const amountOfGap = (gap: number, units: DisplayUnits): string => amount(gap, 'length', units);

/** A ring with its ±, and a line to where the curve lies. */
function readingPart(
  panel: Panel,
  { name, gap, force, plusMinus, expected, contradicts }: ForceReading,
  inLength: (metres: number) => number,
  inForce: (newtons: number) => number,
): Part[] {
  const at = point(xOf(panel, inLength(gap)), yOf(panel, inForce(force)));
  const elements: Element[] = [];
  const up = (newtons: number): number => Math.min(panel.top, yOf(panel, inForce(Math.max(0, newtons))));
  if (known(expected) !== null) elements.push(line('outline', at, point(at.x, up(expected ?? 0))));
  if (plusMinus !== null) {
    const [low, high] = [up(force - plusMinus), up(force + plusMinus)];
    elements.push(line('thin', point(at.x, low), point(at.x, high)));
    for (const y of [low, high]) elements.push(line('thin', point(at.x - 1, y), point(at.x + 1, y)));
  }
  elements.push(circle('outline', at, 1.1, 'paper'));
  if (contradicts) {
    const reach = 1.9;
    elements.push(line('outline', point(at.x - reach, at.y - reach), point(at.x + reach, at.y + reach)));
    elements.push(line('outline', point(at.x - reach, at.y + reach), point(at.x + reach, at.y - reach)));
  }
  return [part(`reading-${name}`, contradicts ? 'fails' : 'need', elements)];
}

function nextMark(panel: Panel, gap: number): Part {
  const x = xOf(panel, gap);
  return part('next-reading', 'now', [line('hidden', point(x, panel.bottom), point(x, panel.top))]);
}

interface Drawn {
  readonly x: readonly number[];
  readonly y: Values;
}

function cursor(panel: Panel, curves: readonly Drawn[], now: number, gap: string, units: DisplayUnits): Part {
  const x = xOf(panel, now);
  const elements: Element[] = [line('outline', point(x, panel.bottom), point(x, panel.top))];
  for (const one of curves) {
    const value = valueAtGap(one.x, one.y, now);
    if (value !== null && value <= panel.high)
      elements.push(circle('outline', point(x, yOf(panel, value)), 1, 'paper'));
  }
  const said = `gap ${gap}`;
  const half = textWidth(said, 2.5, true) / 2;
  const clear = panel.left + textWidth(`Force towards home, ${units.force}`, 2.5) + half + 3;
  const at = Math.max(clear, Math.min(panel.right - half, x));
  elements.push(text(point(at, panel.top + 2.2), said, { align: 'middle', bold: true }));
  return part('cursor', 'now', elements);
}
