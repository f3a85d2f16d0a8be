/** The legend of the picture of the field. */
import type { DisplayUnits } from '../../units/display.ts';
import { hatch, line, part, polygon, text, type Element, type Part } from '../drawing.ts';
import { point, type Point } from '../plane.ts';
import type { FieldPicture } from './flux.ts';
import { size } from './section.ts';

/** What the shades, the hatching and the lines mean; downwards from `at`, in columns where it stands below the picture. */
export function legend(
  { saturated, gap, ampereTurns }: FieldPicture,
  levels: readonly number[],
  flux: string,
  at: Point,
  isBelow: boolean,
  units: DisplayUnits,
): Part[] {
  const [wide, high, apart] = [5, 3.6, 4.4];
  const perColumn = isBelow ? 4 : 100;
  const place = (row: number): Point =>
    point(at.x + Math.floor(row / perColumn) * 23, at.y - 6 - (row % perColumn) * apart);
  const box = ({ x, y }: Point): Point[] => [
    point(x, y),
    point(x + wide, y),
    point(x + wide, y + high),
    point(x, y + high),
  ];
  const beside = (row: number, said: string): Element =>
    text(point(place(row).x + wide + 1.5, place(row).y + 0.6), said);
  const below = (row: number, said: string): Element => text(point(at.x, at.y - 7 - row * apart), said);
  const shades = levels.map((level, k) =>
    part(`legend-${k + 1}`, 'pull', [
      ...levels.slice(0, k + 1).map(() => polygon('none', box(place(k)), 'tint')),
      polygon('thin', box(place(k))),
    ]),
  );
  const [hatchRow, lineRow] = [levels.length, levels.length + 1];
  const saturatedBox = box(place(hatchRow));
  const { x, y } = place(lineRow);
  const words = [
    text(at, 'Flux density', { bold: true }),
    ...levels.map((level, k) => beside(k, isBelow ? `${level} T` : `${level} T and above`)),
    beside(hatchRow, 'saturated'),
    beside(lineRow, isBelow ? flux : `${flux} per line`),
  ];
  const about = [`gap ${size(gap, units)}`, `${Math.round(ampereTurns)} ampere-turns`];
  if (isBelow) words.push(text(point(at.x, at.y + 4.6), about.join(', ')));
  else {
    words.push(below(lineRow + 2, 'Saturated:'), below(lineRow + 3, saturated.words));
    about.forEach((said, i) => words.push(below(lineRow + 5 + i, said)));
  }
  return [
    ...shades,
    part('legend-saturated', 'need', [hatch([saturatedBox], 1.3, Math.PI / 4), polygon('thin', saturatedBox)]),
    part('legend-line', 'quiet', [line('thin', point(x, y + 1.8), point(x + wide, y + 1.8))]),
    part('legend-words', 'words', words),
  ];
}
