/** What a margin hangs on, most first: a bar for the share of its variance, with the reach of its error. */
import type { Estimate } from '../../numerics/statistics-scrambles.ts';
import { line, part, polygon, text, type Drawing, type Part } from '../drawing.ts';
import { point } from '../plane.ts';
import { fitted, textWidth } from '../text-width.ts';
import { notKnownFor } from '../not-known.ts';

export interface InfluenceBar {
  readonly words: string;
  readonly share: Estimate;
}

export interface InfluenceOptions {
  /** Sheet, mm. */
  readonly width?: number;
}

const ROW = 9.6;
const EDGE = 6;

export function drawInfluences(
  title: string,
  bars: readonly InfluenceBar[],
  { width = 120 }: InfluenceOptions = {},
): Drawing {
  if (bars.length === 0) return notKnownFor(title, width, ['No single quantity matters by itself.']);
  const height = 12 + bars.length * ROW;
  const room = textWidth('100 %', 2.5) + 2;
  const [left, right] = [EDGE, width - EDGE - room];
  const x = (share: number): number => left + Math.min(1, Math.max(0, share)) * (right - left);
  const percent = ({ value }: Estimate): string => `${Math.round(100 * Math.max(0, value))} %`;
  const parts: Part[] = [
    part('title', 'words', [text(point(EDGE, height - 6), fitted(title, width - 2 * EDGE, 2.5, true), { bold: true })]),
  ];
  bars.forEach(({ words, share }, i) => {
    const y = height - 12 - i * ROW;
    const [foot, head] = [y - 6.4, y - 3.6];
    parts.push(
      part(`words-${i + 1}`, 'words', [
        text(point(left, y - 2.4), fitted(words, width - 2 * EDGE, 2.5)),
        text(point(width - EDGE, foot + 0.2), percent(share), { align: 'end' }),
      ]),
      part(`bar-${i + 1}`, 'pull', [
        polygon(
          'thin',
          [point(left, foot), point(x(share.value), foot), point(x(share.value), head), point(left, head)],
          'tint',
        ),
      ]),
    );
    const { lower, upper } = share;
    if (lower !== null && upper !== null)
      parts.push(
        part(`error-${i + 1}`, 'words', [
          line('thin', point(x(lower), (foot + head) / 2), point(x(upper), (foot + head) / 2)),
        ]),
      );
  });
  return { title, width, height, parts, sentences: bars.map(({ words, share }) => `${words}: ${percent(share)}`) };
}
