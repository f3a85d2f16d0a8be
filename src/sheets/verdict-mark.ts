/** A mark for each verdict, told apart by shape and hatch, never by colour alone. The word stands beside it. */
import type { Verdict } from '../assessment/finding.ts';
import { circle, hatch, line, polygon, polyline, text, type Element, type Role } from './drawing.ts';
import { plus, point, polar, type Point } from './plane.ts';

/** A mark of the given size, mm, around its centre: tick in a circle, triangle, hatched square with a cross, ring with "?". */
export function verdictMark(verdict: Verdict, centre: Point, size: number): Element[] {
  const half = size / 2;
  const at = (x: number, y: number): Point => plus(centre, point(x * half, y * half));
  switch (verdict) {
    case 'holds':
      return [circle('outline', centre, half), polyline('outline', [at(-0.5, 0), at(-0.1, -0.45), at(0.5, 0.45)])];
    case 'thin': {
      const corner = (turn: number): Point => plus(centre, polar(half * 1.1, turn));
      return [
        polygon('outline', [corner(Math.PI / 2), corner((7 * Math.PI) / 6), corner(-Math.PI / 6)]),
        line('outline', at(0, 0.45), at(0, -0.05)),
        circle('none', at(0, -0.3), half * 0.1, 'solid'),
      ];
    }
    case 'fails': {
      const square = [at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)];
      return [
        hatch([square], 0.9),
        polygon('outline', square),
        line('heavy', at(-0.6, -0.6), at(0.6, 0.6)),
        line('heavy', at(-0.6, 0.6), at(0.6, -0.6)),
      ];
    }
    case 'not known':
      return [
        circle('hidden', centre, half),
        text(at(0, -0.45), '?', { align: 'middle', height: size * 0.5, bold: true }),
      ];
  }
}

export function verdictRole(verdict: Verdict): Role {
  return verdict === 'fails' ? 'fails' : verdict === 'holds' ? 'return' : verdict === 'thin' ? 'need' : 'words';
}
