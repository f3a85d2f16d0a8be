/** Random routes in space whose bends fit, for properties that hold for every cable. */
import * as fc from 'fast-check';
import { layRoute, type Corner, type Route } from '../../../src/physics/cable/route.ts';

/** Evenly spread: floating-point numbers drawn bit by bit are nearly all next to nothing. */
export const between = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1_000_000 }).map((share) => least + ((most - least) * share) / 1_000_000);

const shares = between(-1, 1);

export const corners = (most = 8): fc.Arbitrary<Corner[]> =>
  fc
    .array(
      fc.record({
        x: shares,
        y: shares,
        z: shares,
        radius: between(0.05, 0.3),
      }),
      { minLength: 2, maxLength: most, size: 'max' },
    )
    .map((steps) => {
      // Each corner some way from the last: no two at one place.
      const list: Corner[] = [{ x: 0, y: 0, z: 0, radius: NaN }];
      for (const { x, y, z, radius } of steps) {
        const size = Math.hypot(x, y, z);
        const unit = size > 0.1 ? { x: x / size, y: y / size, z: z / size } : { x: 1, y: 0, z: 0 };
        const last = list[list.length - 1];
        const far = 0.4 + size;
        list.push({ x: last.x + unit.x * far, y: last.y + unit.y * far, z: last.z + unit.z * far, radius });
      }
      return list;
    });

/** With the radii that fit, where those drawn do not; null where it turns back on itself. */
export function laid(list: readonly Corner[]): { readonly corners: readonly Corner[]; readonly route: Route } | null {
  const outcome = layRoute(list);
  if (outcome.fits) return { corners: list, route: outcome.route };
  if (outcome.misfits.some(({ radiusThatFits }) => radiusThatFits === 0)) return null;
  const smaller = list.map((corner, i) => {
    const named = outcome.misfits.find((misfit) => misfit.corner === i);
    return named === undefined ? corner : { ...corner, radius: named.radiusThatFits };
  });
  const again = layRoute(smaller);
  if (!again.fits) throw new Error('the radii that were said to fit do not');
  return { corners: smaller, route: again.route };
}

/** Bends in which a run would turn by nearly half a circle have straights without end. */
export const isGentle = ({ pieces }: Route): boolean => pieces.every(({ angle }) => angle < 3);
