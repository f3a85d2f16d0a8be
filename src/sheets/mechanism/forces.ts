/** Arrows of force at the plunger pin, their length in proportion to the force. */
import { line, part, polygon, type Element, type Part } from '../drawing.ts';
import { along, plus, quarter, times, type Point } from '../plane.ts';
import type { Staged } from './stage.ts';
import { toSheet } from './view.ts';

/** An arrow of full length, mm on the sheet. */
export const FULL_ARROW = 36;

const HEAD = 4;
/** A shorter arrow would be all head, and is left out. */
export const SHORTEST_ARROW = 1.5;

/** Length of the arrow of a force, mm, and whether it is longer than the sheet can show. */
export function arrowLength(force: number, fullArrow: number): { length: number; cut: boolean } {
  const length = fullArrow > 0 ? (Math.abs(force) / fullArrow) * FULL_ARROW : FULL_ARROW;
  return { length: Math.min(FULL_ARROW, length), cut: length > FULL_ARROW * 1.0001 };
}

/** An arrow from `from`; hollow for what acts at another time or in another corner. A cut arrow carries two strokes. */
export function drawArrow(
  from: Point,
  heading: Point,
  length: number,
  as: 'solid' | 'hollow',
  cut: boolean,
): Element[] {
  if (length < SHORTEST_ARROW) return [];
  const headLength = Math.min(HEAD, length);
  const tip = along(from, heading, length);
  const foot = along(tip, heading, -headLength);
  const aside = quarter(heading);
  const head = [tip, along(foot, aside, headLength * 0.32), along(foot, aside, -headLength * 0.32)];
  const shaft: Element[] =
    length <= HEAD
      ? []
      : as === 'solid'
        ? [line('heavy', from, foot)]
        : [
            line('thin', along(from, aside, 0.45), along(foot, aside, 0.45)),
            line('thin', along(from, aside, -0.45), along(foot, aside, -0.45)),
          ];
  const middle = along(from, heading, length * 0.62);
  const breaks = cut
    ? [-0.6, 0.6].map((shift) => {
        const at = along(middle, heading, shift);
        const slant = plus(times(aside, 1.5), times(heading, 0.7));
        return line('thin', plus(at, slant), plus(at, times(slant, -1)));
      })
    : [];
  return [...shaft, polygon(as === 'solid' ? 'none' : 'thin', head, as === 'solid' ? 'solid' : 'paper'), ...breaks];
}

/** Which way each force acts on the plunger pin, and where its arrow starts. */
export function forceLines(staged: Staged): {
  readonly at: Point;
  readonly pull: Point;
  readonly back: Point;
  readonly aside: Point;
} | null {
  const { picture, frame, pull } = staged;
  if (picture.now.pin === null || pull === null) return null;
  return { at: toSheet(frame, picture.now.pin), pull, back: times(pull, -1), aside: quarter(pull) };
}

/** Distance of the return arrow from the line of pull: it acts at another time. */
export const RETURN_ASIDE = 4;

export function drawForces(staged: Staged): Part[] {
  const lines = forceLines(staged);
  const { forces } = staged.picture;
  if (lines === null || forces === null) return [];
  const { at, pull, back, aside } = lines;
  const { fullArrow } = forces;
  const parts: Part[] = [];
  const { pullLeast, pullGreatest, pullNeeded, side } = forces;
  const strongest = pullGreatest ?? pullLeast;
  if (strongest !== null && strongest > 0) {
    const elements: Element[] = [];
    const most = arrowLength(strongest, fullArrow);
    if (pullLeast === null) elements.push(...drawArrow(at, pull, most.length, 'hollow', most.cut));
    else {
      const least = arrowLength(pullLeast, fullArrow);
      if (most.length > least.length + 1)
        elements.push(
          ...drawArrow(along(at, pull, least.length), pull, most.length - least.length, 'hollow', most.cut),
        );
      elements.push(...drawArrow(at, pull, least.length, 'solid', least.cut));
    }
    parts.push(part('force-pull', 'pull', elements));
  }
  if (pullNeeded !== null && Math.abs(pullNeeded) > 0) {
    const { length, cut } = arrowLength(pullNeeded, fullArrow);
    parts.push(part('force-need', 'need', drawArrow(at, pullNeeded > 0 ? back : pull, length, 'solid', cut)));
  }
  if (side !== null && Math.abs(side) > 1e-3) {
    const { length, cut } = arrowLength(side, fullArrow);
    parts.push(part('force-side', 'side', drawArrow(at, side > 0 ? aside : times(aside, -1), length, 'solid', cut)));
  }
  const returned = forces.return;
  if (returned !== null && Math.abs(returned) > 1e-3) {
    const { length, cut } = arrowLength(returned, fullArrow);
    const start = along(at, aside, RETURN_ASIDE * staged.farSideOfPull);
    parts.push(
      part(
        'force-return',
        returned > 0 ? 'return' : 'fails',
        drawArrow(start, returned > 0 ? back : pull, length, 'hollow', cut),
      ),
    );
  }
  return parts;
}
