/** What dragging or nudging a handle of the drawing does to the readings behind it, as changes with text as a person would type it. */
import { change, type Change } from '../../job/change.ts';
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import { valueAt } from '../../job/path.ts';
import type { Frame, Handle } from '../../sheets/mechanism.ts';
import { echo, fromSI, readQuantity, toSI, type Dimension } from '../../units/quantity.ts';

export interface SheetPoint {
  /** Millimetres of the sheet, y up. */
  readonly x: number;
  readonly y: number;
}

/** A drag goes in steps of this size; a tenth of it with the alt key, ten times with shift. */
export const STEP = { length_mm: 0.1, angle_deg: 0.1 } as const;

/** The changes that put a handle to a place on the sheet. */
export function dragged(document: unknown, handle: Handle, frame: Frame, to: SheetPoint): Change[] {
  const path = handle.moves;
  if (path === null) return [];
  const dx = to.x - handle.about.x;
  const dy = to.y - handle.about.y;
  switch (handle.kind) {
    case 'place':
      return [
        ...moved(document, `${path}.x`, 'length', (to.x - frame.origin.x) / frame.scale),
        ...moved(document, `${path}.y`, 'length', (to.y - frame.origin.y) / frame.scale),
      ];
    case 'distance': {
      const { x, y } = handle.line ?? { x: 1, y: 0 };
      return moved(document, path, 'length', Math.max(STEP.length_mm, (dx * x + dy * y) / frame.scale));
    }
    case 'direction':
      return moved(document, path, 'angle', nearest(document, path, fromSI(Math.atan2(dy, dx) + handle.add, '°')));
    case 'travel':
      return [];
  }
}

/** The changes that an arrow key makes: `right` and `up` in millimetres, or in degrees of a direction. */
export function nudged(document: unknown, handle: Handle, right: number, up: number): Change[] {
  const path = handle.moves;
  if (path === null) return [];
  switch (handle.kind) {
    case 'place':
      return [...nudge(document, `${path}.x`, 'length', right), ...nudge(document, `${path}.y`, 'length', up)];
    case 'distance': {
      // Outwards along the arm is more, whichever way the arm points.
      const { x, y } = handle.line ?? { x: 1, y: 0 };
      const along =
        Math.abs(right * x) > Math.abs(up * y)
          ? Math.sign(right * x) * Math.abs(right)
          : Math.sign(up * y || right * x) * Math.max(Math.abs(up), Math.abs(right));
      return nudge(document, path, 'length', along);
    }
    case 'direction':
      return nudge(document, path, 'angle', up - right);
    case 'travel':
      return [];
  }
}

/** Changes a length or an angle by millimetres or degrees. */
export function nudge(document: unknown, path: string, dimension: 'length' | 'angle', by: number): Change[] {
  if (by === 0) return [];
  const text = valueAt(document, path);
  const read = typeof text === 'string' && text !== NOT_MEASURED ? readQuantity(text, dimension) : null;
  const now = read?.ok === true ? fromSI(read.quantity.value, dimension === 'length' ? 'mm' : '°') : 0;
  return put(document, path, dimension, now + by, 0.01);
}

function moved(document: unknown, path: string, dimension: 'length' | 'angle', value: number): Change[] {
  return put(document, path, dimension, value, dimension === 'length' ? STEP.length_mm : STEP.angle_deg);
}

/** Puts millimetres or degrees into a field in the unit that stands there, with its ±. */
export function put(document: unknown, path: string, dimension: Dimension, value: number, step: number): Change[] {
  const own = dimension === 'length' ? 'mm' : '°';
  const text = valueAt(document, path);
  const read = typeof text === 'string' && text !== NOT_MEASURED ? readQuantity(text, dimension) : null;
  const [unit, plusMinus] = read?.ok === true ? [read.quantity.unit, read.quantity.plusMinus] : [own, null];
  const stepped = Math.round(value / step) * step;
  const inUnit = fromSI(toSI(stepped, own, dimension), unit, dimension);
  // A thousandth of an inch is finer than a tenth of a millimetre.
  const places = unit === own ? 2 : 4;
  const quantity = { text: '', value: toSI(Number(inUnit.toFixed(places)), unit, dimension), plusMinus, unit };
  return [change(document, path, echo(quantity, dimension))];
}

/** The angle as near as whole turns allow to the one that stands there, so that 350° does not jump to -10°. */
function nearest(document: unknown, path: string, degrees: number): number {
  const text = valueAt(document, path);
  const read = typeof text === 'string' && text !== NOT_MEASURED ? readQuantity(text, 'angle') : null;
  if (read?.ok !== true) return degrees;
  const now = fromSI(read.quantity.value, '°');
  return degrees + Math.round((now - degrees) / 360) * 360;
}
