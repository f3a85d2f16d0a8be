/** How the courses of one picture are told apart, each by its own dashes as well as its ink, and the legend that says so. */
import { line, part, text, type Element, type LineStyle, type Part, type Role } from '../drawing.ts';
import { point } from '../plane.ts';
import { linesOf, textWidth } from '../text-width.ts';

export interface Look {
  readonly role: Role;
  readonly style: LineStyle;
  /** The same rhythm in a narrow line, for a second course of the same thing. */
  readonly narrow: LineStyle;
}

const looks: readonly [Look, ...Look[]] = [
  { role: 'pull', style: 'heavy', narrow: 'thin' },
  { role: 'need', style: 'dashed', narrow: 'hidden' },
  { role: 'return', style: 'chain', narrow: 'centre' },
  { role: 'quiet', style: 'outline', narrow: 'thin' },
];

export const lookOf = (index: number): Look => looks[index % looks.length] ?? looks[0];

export interface LegendRow {
  readonly name: string;
  readonly role: Role;
  readonly style: LineStyle;
  readonly words: string;
  readonly more: string;
}

const STEP = 4.4;
const SAMPLE = 11;

/** Samples of lines with their words, from `top` down. `height` is what they take. */
export function legend(
  rows: readonly LegendRow[],
  box: { left: number; right: number; top: number },
): { parts: Part[]; height: number } {
  let y = box.top;
  const parts = rows.map(({ name, role, style, words, more }) => {
    y -= STEP;
    const start = style === 'none' ? box.left : box.left + SAMPLE + 2.5;
    const elements: Element[] = [];
    if (style !== 'none') elements.push(line(style, point(box.left, y + 0.9), point(box.left + SAMPLE, y + 0.9)));
    if (words !== '') elements.push(text(point(start, y), words, { bold: true }));
    if (more !== '') {
      const beside = words === '' ? start : start + textWidth(words, 2.5, true) + 2;
      const fits = beside + textWidth(more, 2.5) <= box.right;
      const lines = fits ? [more] : linesOf(more, box.right - start, 2.5);
      lines.forEach((said, i) => {
        if (!fits && (i > 0 || words !== '')) y -= STEP;
        elements.push(text(point(fits && i === 0 ? beside : start, y), said));
      });
    }
    return part(`legend-${name}`, role, elements);
  });
  return { parts, height: box.top - y };
}
