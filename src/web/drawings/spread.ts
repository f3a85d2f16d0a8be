/** Handles that would lie under one finger are moved apart, each with a leader to the place that it stands for. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  /** Stays where it is; the others give way. */
  readonly isFixed: boolean;
}

interface Place {
  x: number;
  y: number;
  readonly isFixed: boolean;
}

const MOST_ROUNDS = 60;

/**
 * Places at least `apart` from each other and within `width` × `height` less half of that, as near to the spots as a few
 * rounds of pushing get them. The same spots always give the same places.
 */
export function spread<S extends Spot>(spots: readonly S[], apart: number, width: number, height: number): S[] {
  const places: Place[] = spots.map(({ x, y, isFixed }) => ({ x, y, isFixed }));
  const rim = apart / 2;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    let isDone = true;
    for (const [i, a] of places.entries()) {
      for (const [j, b] of places.entries()) if (j > i && push(a, b, apart, j)) isDone = false;
    }
    for (const place of places) {
      if (place.isFixed) continue;
      place.x = Math.min(width - rim, Math.max(rim, place.x));
      place.y = Math.min(height - rim, Math.max(rim, place.y));
    }
    if (isDone) break;
  }
  return spots.map((spot, i) => ({ ...spot, x: places[i]?.x ?? spot.x, y: places[i]?.y ?? spot.y }));
}

/** Pushes two apart along the line between them; two in one place part in a direction of their own. */
function push(a: Place, b: Place, apart: number, index: number): boolean {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const distance = Math.hypot(dx, dy);
  if (distance >= apart - 1e-6 || (a.isFixed && b.isFixed)) return false;
  const angle = distance < 1e-6 ? index * 2.4 : Math.atan2(dy, dx);
  const by = apart - distance + 1e-3;
  const first = a.isFixed ? 0 : b.isFixed ? by : by / 2;
  a.x -= Math.cos(angle) * first;
  a.y -= Math.sin(angle) * first;
  b.x += Math.cos(angle) * (by - first);
  b.y += Math.sin(angle) * (by - first);
  return true;
}
