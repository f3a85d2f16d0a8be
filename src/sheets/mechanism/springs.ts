/** Springs as ISO 2162-1:1993 simplifies them, a zigzag that stretches with the length, and what they are hooked to. */
import { circle, line, polyline, type Element, type LineStyle } from '../drawing.ts';
import { along, angleOf, direction, distance, plus, point, polar, quarter, times, type Point } from '../plane.ts';
import { onAxis, type Axis } from './view.ts';
import { groundStrokes } from './lever.ts';

/**
 * A spring between two points of the sheet.
 *
 * @param halfWidth half of the coil's diameter, mm on the sheet
 */
export function drawSpring(
  kind: 'extension' | 'compression',
  from: Point,
  to: Point,
  halfWidth: number,
  turns: number,
  slack: boolean,
): Element[] {
  const style: LineStyle = slack ? 'hidden' : 'outline';
  const length = distance(from, to);
  if (length < 0.5) return [circle(style, from, 0.6)];
  const heading = direction(from, to);
  const aside = quarter(heading);
  const half = Math.min(halfWidth, length * 0.4);
  const bends = 2 * Math.max(4, Math.min(14, Math.round(turns)));
  const lead = kind === 'extension' ? Math.min(length * 0.12, half * 1.6) : 0;
  const points: Point[] = [from];
  if (lead > 0) points.push(along(from, heading, lead));
  for (let i = 0; i < bends; i++) {
    const share = (i + 0.5) / bends;
    points.push(
      plus(along(from, heading, lead + share * (length - 2 * lead)), times(aside, i % 2 === 0 ? half : -half)),
    );
  }
  if (lead > 0) points.push(along(to, heading, -lead));
  points.push(to);
  const hook = kind === 'extension' ? [circle('outline', to, 0.8, 'paper')] : [];
  const plates =
    kind === 'compression'
      ? [from, to].map((end) => line('outline', plus(end, times(aside, half)), plus(end, times(aside, -half))))
      : [];
  return [polyline(style, points), ...plates, ...hook];
}

/** A fixed point, with ground strokes on the side away from the spring. */
export function drawAnchor(at: Point, away: Point): Element[] {
  const across = quarter(away);
  const foot = along(at, away, 1.6);
  const start = along(foot, across, -3);
  return [
    line('outline', start, along(foot, across, 3)),
    ...groundStrokes(start, across, 6, -1),
    line('thin', at, foot),
    circle('outline', at, 0.9, 'paper'),
  ];
}

/** A compression spring around the clevis, from the mouth outwards; the part inside the body is hidden. */
export function drawSpringOnPlunger(
  axis: Axis,
  length: number,
  outside: number,
  halfWidth: number,
  turns: number,
  slack: boolean,
): Element[] {
  const seat = Math.max(0, length - Math.max(outside, 0.5) * 0.85);
  const spring = drawSpring(
    'compression',
    onAxis(axis, seat, 0),
    onAxis(axis, seat - length, 0),
    halfWidth,
    turns,
    slack,
  );
  return seat === 0
    ? spring
    : spring.map((element) => (element.kind === 'polyline' ? { ...element, style: 'hidden' as const } : element));
}

/** Chain from a to b: round links in turn flat and edge-on, sagging towards `down` where slack. */
export function drawChain(a: Point, b: Point, length: number, slack: boolean, down: Point): Element[] {
  const straight = distance(a, b);
  const spare = Math.max(0, length * length - straight * straight);
  // A shallow arc of rise s over a chord c is about c + 8 s²/(3 c) long.
  const sag = slack ? Math.min(0.45 * length, Math.sqrt((3 / 8) * spare)) : 0;
  const at = (share: number): Point => {
    const p = point(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share);
    return along(p, down, 4 * sag * share * (1 - share));
  };
  const count = Math.max(3, Math.min(24, 2 * Math.round(Math.max(length, straight) / 5) + 1));
  return Array.from({ length: count }, (_, i) => {
    const [from, to] = [at(i / count), at((i + 1) / count)];
    const size = distance(from, to);
    const heading = angleOf(direction(from, to));
    if (i % 2 === 1)
      return line('outline', along(from, polar(1, heading), -size * 0.12), along(to, polar(1, heading), size * 0.12));
    const middle = point((from.x + to.x) / 2, (from.y + to.y) / 2);
    const half = polar(size * 0.42, heading);
    const radius = Math.min(size * 0.28, 1.6);
    const up = heading + Math.PI / 2;
    const [left, right] = [plus(middle, times(half, -0.6)), plus(middle, times(half, 0.6))];
    return {
      kind: 'path',
      style: 'outline',
      start: plus(left, polar(radius, up)),
      segments: [
        { centre: left, radius, from: up, to: up + Math.PI },
        { centre: right, radius, from: up - Math.PI, to: up },
      ],
      closed: true,
      fill: 'none',
    } as const;
  });
}
