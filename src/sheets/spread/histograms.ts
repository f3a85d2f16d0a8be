/**
 * How margins spread: for each finding the draws in bins, with the limit below which it fails, the margin that is wanted,
 * the margin as written, and the shortest interval that holds 95 % of the draws. What fails stands on the left of the
 * limit in another tint: its place tells it, not its colour alone.
 */
import { scaleLinear } from 'd3-scale';
import type { FindingSpread } from '../../assessment/spread/outcome.ts';
import { chanceErrorWords, chanceWords } from '../../assessment/spread/words.ts';
import { line, part, polygon, text, type Drawing, type Element, type Part } from '../drawing.ts';
import { point } from '../plane.ts';
import { fitted, linesOf, textWidth } from '../text-width.ts';

export interface HistogramOptions {
  /** Sheet, mm. */
  readonly width?: number;
}

const PLOT = 20;
const EDGE = 6;
const STEP = 4.6;
const BELOW = 12;

export function drawHistograms(findings: readonly FindingSpread[], options: HistogramOptions = {}): Drawing {
  const { width = 120 } = options;
  const shown = findings.filter(({ histogram }) => histogram !== null && histogram.width > 0);
  const rows = shown.map((one) => ({ one, words: linesOf(rowWords(one), width - 2 * EDGE, 2.5) }));
  const heightOf = (lines: number) => 7 + lines * STEP + 5 + PLOT + BELOW;
  const height = rows.reduce((sum, { words }) => sum + heightOf(words.length), 4);
  const parts: Part[] = [];
  let top = height - 2;
  rows.forEach(({ one, words }, i) => {
    const name = `spread-${i + 1}`;
    parts.push(
      part(`${name}-words`, 'words', [
        text(point(EDGE, top - 5), fitted(one.title, width - 2 * EDGE, 2.5, true), { bold: true }),
        ...words.map((said, k) => text(point(EDGE, top - 5 - (k + 1) * STEP), said)),
      ]),
    );
    const plotTop = top - 7 - words.length * STEP - 5;
    parts.push(...plotOf(one, name, width, plotTop));
    top -= heightOf(words.length);
  });
  return {
    title: 'How margins spread',
    width,
    height,
    parts,
    sentences: shown.map((one) => `${one.title}: ${rowWords(one)}`),
  };
}

const scaleOf = ({ marginUnit }: FindingSpread): number => (marginUnit === 'share' ? 100 : 1);
const unitOf = ({ marginUnit }: FindingSpread): string =>
  marginUnit === 'share' ? '%' : marginUnit === 'ratio' ? '' : marginUnit;
const rounded = (value: number): string => String(Number(value.toPrecision(3))).replace('-', '−');

function rowWords(one: FindingSpread): string {
  const { failing, thin, interval, undecided } = one;
  const unit = unitOf(one) === '' ? '' : ` ${unitOf(one)}`;
  const ends =
    interval === null
      ? ''
      : `; 95 % between ${rounded(interval.from * scaleOf(one))} and ${rounded(interval.to * scaleOf(one))}${unit}`;
  const open = undecided === 0 ? '' : `; ${undecided} draws could not be decided`;
  return `fails ${chanceWords(failing)}${chanceErrorWords(failing)}, thin ${chanceWords(thin)}${ends}${open}`;
}

function plotOf(one: FindingSpread, name: string, width: number, top: number): Part[] {
  const { histogram, interval, wanted, nominal } = one;
  if (histogram === null) return [];
  const bottom = top - PLOT;
  const [left, right] = [EDGE, width - EDGE];
  const scale = scaleOf(one);
  const to = histogram.from + histogram.width * histogram.counts.length;
  // The limit is in sight where the draws come near it; far away it would press them into a line.
  const isLimitNear = histogram.from < 2 * (to - histogram.from);
  const axis = scaleLinear()
    .domain([Math.min(histogram.from, isLimitNear ? 0 : histogram.from), Math.max(to, histogram.from > 0 ? to : 0)])
    .range([left + 1, right - 1]);
  const x = (margin: number): number => axis(margin);
  const most = Math.max(...histogram.counts);
  const bars = (isWanted: (from: number) => boolean): Element[] =>
    histogram.counts.flatMap((count, i) => {
      const from = histogram.from + i * histogram.width;
      if (count === 0 || !isWanted(from + histogram.width / 2)) return [];
      const height = bottom + (count / most) * PLOT * 0.94;
      const [a, b] = [x(from), x(from + histogram.width)];
      return [polygon('thin', [point(a, bottom), point(b, bottom), point(b, height), point(a, height)], 'tint')];
    });
  const [low, high] = axis.domain() as [number, number];
  const isInside = (margin: number): boolean => margin >= low && margin <= high;
  const ticks = scaleLinear()
    .domain([low * scale, high * scale])
    .ticks(Math.max(2, Math.floor((right - left) / 18)));
  const unit = unitOf(one);
  const room = unit === '' ? 0 : textWidth(unit, 2.5) + 4;
  const numbers = ticks.flatMap((tick): Element[] => {
    const at = x(tick / scale);
    const words = String(Number(tick.toPrecision(6))).replace('-', '−');
    const half = textWidth(words, 2.5) / 2;
    const tickLine = line('thin', point(at, bottom), point(at, bottom - 1));
    return at - half > left - 4 && at + half < right - room
      ? [tickLine, text(point(at, bottom - 4.8), words, { align: 'middle' })]
      : [tickLine];
  });
  const frame: Element[] = [line('outline', point(left, bottom), point(right, bottom)), ...numbers];
  if (unit !== '') frame.push(text(point(right, bottom - 4.8), unit, { align: 'end' }));
  const parts: Part[] = [
    part(
      `${name}-holds`,
      'pull',
      bars((middle) => middle >= wanted),
    ),
    part(
      `${name}-thin`,
      'need',
      bars((middle) => middle >= 0 && middle < wanted),
    ),
    part(
      `${name}-fails`,
      'fails',
      bars((middle) => middle < 0),
    ),
    part(`${name}-axis`, 'words', frame),
  ];
  if (interval !== null)
    parts.push(
      part(`${name}-interval`, 'words', [
        line('heavy', point(x(interval.from), bottom - 7.2), point(x(interval.to), bottom - 7.2)),
      ]),
    );
  if (isInside(wanted) && wanted > 0)
    parts.push(part(`${name}-wanted`, 'need', [line('dashed', point(x(wanted), bottom), point(x(wanted), top))]));
  if (isInside(nominal))
    parts.push(part(`${name}-as-written`, 'now', [line('chain', point(x(nominal), bottom), point(x(nominal), top))]));
  if (isInside(0)) {
    const words = 'fails';
    const isLeft = x(0) - textWidth(words, 2.5) - 1.5 > left;
    parts.push(
      part(`${name}-limit`, 'fails', [
        line('heavy', point(x(0), bottom), point(x(0), top + 1.5)),
        ...(isLeft ? [text(point(x(0) - 1.5, top + 1.2), words, { align: 'end' })] : []),
      ]),
    );
  }
  return parts.filter(({ elements }) => elements.length > 0);
}
