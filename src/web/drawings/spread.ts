/** Handles that would lie under one finger are moved apart, each with a leader to the place that it stands for. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  /** Stays where it is; the others give way. */
  readonly isFixed: boolean;
}

const MOST_ROUNDS = 60;

/**
 * Places at least `apart` from each other and within `width` × `height` less half of that, as near to the spots as a few
 * rounds of pushing get them. The same spots always give the same places.
 */
export function spread(
  spots: readonly Spot[],
  apart: number,
  width: number,
  height: number,
): { x: number; y: number }[] {
  const places = spots.map(({ x, y }) => ({ x, y }));
  const rim = apart / 2;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    let isDone = true;
    for (let i = 0; i < places.length; i += 1) {
      for (let j = i + 1; j < places.length; j += 1) {
        if (push(places[i]!, places[j]!, spots[i]!.isFixed, spots[j]!.isFixed, apart, j)) isDone = false;
      }
    }
    for (const [i, place] of places.entries()) {
      if (spots[i]!.isFixed) continue;
      place.x = Math.min(width - rim, Math.max(rim, place.x));
      place.y = Math.min(height - rim, Math.max(rim, place.y));
    }
    if (isDone) break;
  }
  return places;
}

interface Place {
  x: number;
  y: number;
}

/** Pushes two apart along the line between them; two in one place part in a direction of their own. */
function push(
  a: Place,
  b: Place,
  isFirstFixed: boolean,
  isSecondFixed: boolean,
  apart: number,
  index: number,
): boolean {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const distance = Math.hypot(dx, dy);
  if (distance >= apart - 1e-6 || (isFirstFixed && isSecondFixed)) return false;
  const angle = distance < 1e-6 ? index * 2.4 : Math.atan2(dy, dx);
  const by = apart - distance + 1e-3;
  const first = isFirstFixed ? 0 : isSecondFixed ? by : by / 2;
  a.x -= Math.cos(angle) * first;
  a.y -= Math.sin(angle) * first;
  b.x += Math.cos(angle) * (by - first);
  b.y += Math.sin(angle) * (by - first);
  return true;
}
