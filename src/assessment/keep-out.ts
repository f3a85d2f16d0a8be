/** What stands in the way, as plain data for a drawing. */
import type { Job } from '../job/schema.ts';
import type { DrawnKeepOut, Point } from './picture.ts';
import { valueOf } from './readings.ts';

/** A shape with a measure that was not taken has no place on the drawing, and bars nothing. */
export function keepOutOf(job: Job): DrawnKeepOut[] {
  return (job.space?.keepOut ?? []).flatMap((one, index): DrawnKeepOut[] => {
    const { name } = one;
    if (one.shape === 'circle') {
      const centre = placeOf(one.centre);
      const radius = valueOf(one.radius, 'length');
      return centre === null || Number.isNaN(radius) ? [] : [{ index, name, shape: 'circle', centre, radius }];
    }
    const [from, to] = [placeOf(one.from), placeOf(one.to)];
    return from === null || to === null ? [] : [{ index, name, shape: 'rectangle', from, to }];
  });
}

function placeOf(written: { readonly x: string; readonly y: string }): Point | null {
  const [x, y] = [valueOf(written.x, 'length'), valueOf(written.y, 'length')];
  return Number.isNaN(x + y) ? null : { x, y };
}
