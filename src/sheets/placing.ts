/**
 * Places labels so that none covers another, and, where it can be had, none covers a line of the drawing.
 *
 * Each label asks for a place near its anchor. Places are tried in rings around it, nearest first; the cheapest counts:
 * lines covered, distance, and leaders that would run through words. Whatever happens, no two boxes overlap: when every
 * ring is full the sheet is searched row by row, and a label for which there is no room at all is left out (the
 * drawing's sentences still say it). The outcome depends on the anchors, never on where the leaders end, so
 * that labels stay put while the mechanism moves.
 */
import { lettering, line, text, type Element, type Part, type Role } from './drawing.ts';
import { boxesOverlap, crosses, crossings, distance, grown, point, polar, type Box, type Point } from './plane.ts';
import { textWidth } from './text-width.ts';

export interface WantedLabel {
  /** Name of its part. */
  readonly name: string;
  readonly role: Role;
  readonly words: string;
  /** Widest words that can stand here at any gap; keeps the place still. */
  readonly widest?: string;
  readonly height?: number;
  readonly bold?: boolean;
  /** Around this it is placed. */
  readonly anchor: Point;
  /** Other anchors that would do as well. */
  readonly orAt?: readonly Point[];
  /** Where the leader ends; the anchor that was taken unless given. */
  readonly target?: Point;
  /** Where else the leader can end at other gaps: no leader may run through words there either. */
  readonly reaches?: readonly Point[];
  /** Direction in which it would rather stand, rad. */
  readonly towards?: number;
  /** Leaders are drawn only beyond this distance, mm. */
  readonly leaderBeyond?: number;
}

export interface PlacedLabel {
  readonly box: Box;
  readonly part: Part;
}

/** Which millimetres of the sheet carry ink, with sums that make any box quick to ask. */
export class Ground {
  readonly #columns: number;
  readonly #rows: number;
  readonly #ink: Float64Array;
  #summed: Float64Array | null = null;

  constructor(width: number, height: number) {
    this.#columns = Math.ceil(width) + 1;
    this.#rows = Math.ceil(height) + 1;
    this.#ink = new Float64Array(this.#columns * this.#rows);
  }

  /** Ink along a straight line. */
  line(from: Point, to: Point, weight: number): void {
    const steps = Math.min(2000, Math.ceil(distance(from, to)));
    for (let i = 0; i <= steps; i++) {
      const share = steps === 0 ? 0 : i / steps;
      this.#mark(from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share, weight);
    }
  }

  element(element: Element, weight: number): void {
    switch (element.kind) {
      case 'line':
        this.line(element.from, element.to, weight);
        return;
      case 'polyline':
        element.points.forEach((p, i) => {
          const next = element.points[i + 1] ?? (element.closed ? element.points[0] : undefined);
          if (next) this.line(p, next, weight);
        });
        return;
      case 'hatch':
        for (const [from, to] of element.lines) this.line(from, to, weight / 2);
        return;
      case 'circle':
        this.#arc(element.centre, element.radius, 0, 2 * Math.PI, weight);
        return;
      case 'arc':
        this.#arc(element.centre, element.radius, element.from, element.to, weight);
        return;
      case 'path': {
        let last = element.start;
        for (const segment of element.segments) {
          if ('centre' in segment) {
            const { centre, radius, from, to } = segment;
            this.line(last, onCircle(centre, radius, from), weight);
            this.#arc(centre, radius, from, to, weight);
            last = onCircle(centre, radius, to);
          } else {
            this.line(last, segment.to, weight);
            last = segment.to;
          }
        }
        if (element.closed) this.line(last, element.start, weight);
        return;
      }
      case 'text':
    }
  }

  /** Ink all over an area, given by its outline. */
  fill(outline: readonly Point[], weight: number): void {
    const rows = outline.map(({ y }) => y);
    const last = Math.min(this.#rows - 1, Math.floor(Math.max(...rows)));
    for (let row = Math.max(0, Math.floor(Math.min(...rows))); row <= last; row++) {
      const cuts = crossings(outline, row + 0.5);
      for (let i = 0; i + 1 < cuts.length; i += 2) {
        for (let x = cuts[i] ?? 0; x < (cuts[i + 1] ?? 0); x++) this.#mark(x, row + 0.5, weight);
      }
    }
  }

  /** Ink inside a box. */
  inside({ left, bottom, right, top }: Box): number {
    const sums = (this.#summed ??= this.#sum());
    const at = (x: number, y: number): number =>
      sums[Math.min(this.#rows, Math.max(0, y)) * (this.#columns + 1) + Math.min(this.#columns, Math.max(0, x))] ?? 0;
    const [x0, y0, x1, y1] = [Math.floor(left), Math.floor(bottom), Math.floor(right) + 1, Math.floor(top) + 1];
    return at(x1, y1) - at(x0, y1) - at(x1, y0) + at(x0, y0);
  }

  #arc(centre: Point, radius: number, from: number, to: number, weight: number): void {
    const steps = Math.max(4, Math.min(360, Math.ceil(Math.abs(to - from) * radius)));
    for (let i = 0; i <= steps; i++) {
      const { x, y } = onCircle(centre, radius, from + ((to - from) * i) / steps);
      this.#mark(x, y, weight);
    }
  }

  #mark(x: number, y: number, weight: number): void {
    const column = Math.floor(x);
    const row = Math.floor(y);
    if (column < 0 || row < 0 || column >= this.#columns || row >= this.#rows) return;
    const cell = row * this.#columns + column;
    this.#ink[cell] = Math.max(this.#ink[cell] ?? 0, weight);
    this.#summed = null;
  }

  #sum(): Float64Array {
    const wide = this.#columns + 1;
    const sums = new Float64Array(wide * (this.#rows + 1));
    for (let row = 0; row < this.#rows; row++) {
      let across = 0;
      for (let column = 0; column < this.#columns; column++) {
        across += this.#ink[row * this.#columns + column] ?? 0;
        sums[(row + 1) * wide + column + 1] = (sums[row * wide + column + 1] ?? 0) + across;
      }
    }
    return sums;
  }
}

const onCircle = (centre: Point, radius: number, angle: number): Point =>
  point(centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle));

const RINGS = [1.2, 2.5, 4.5, 7, 10, 14, 19, 25, 32];
const DIRECTIONS = 16;

/** Per millimetre, per square millimetre of ink covered, and for each leader that meets words. */
const COST_OF_DISTANCE = 1.2;
const COST_OF_INK = 0.8;
const COST_OF_CROSSING = 12;

/**
 * @param wanted   in order of claim: the first choose first
 * @param room     where labels may stand, mm
 * @param ground   ink already on the sheet
 * @param occupied boxes that stay free, such as the title block
 */
export function placeLabels(
  wanted: readonly WantedLabel[],
  room: Box,
  ground: Ground,
  occupied: readonly Box[] = [],
): PlacedLabel[] {
  const boxes: Box[] = [...occupied];
  const leaders: (readonly [Point, Point])[] = [];
  return wanted.flatMap((label) => {
    const best = bestPlace(label, room, ground, boxes, leaders);
    if (!best) return [];
    const { box, anchor } = best;
    boxes.push(box);
    leaders.push(...leadersFrom(box, [anchor, ...(label.reaches ?? [])]));
    return [{ box, part: drawn(label, box, anchor) }];
  });
}

interface Place {
  readonly box: Box;
  readonly anchor: Point;
}

function bestPlace(
  label: WantedLabel,
  room: Box,
  ground: Ground,
  boxes: readonly Box[],
  leaders: readonly (readonly [Point, Point])[],
): Place | null {
  const { height = lettering.small, bold = false, towards } = label;
  const width = Math.max(textWidth(label.words, height, bold), textWidth(label.widest ?? '', height, bold));
  const [halfWidth, halfHeight] = [width / 2 + 0.4, height * 0.71 + 0.2];
  const free = (box: Box): boolean =>
    box.left >= room.left
    && box.right <= room.right
    && box.bottom >= room.bottom
    && box.top <= room.top
    && !boxes.some((other) => boxesOverlap(box, other));
  let best: Place | null = null;
  let bestCost = Infinity;
  for (const anchor of [label.anchor, ...(label.orAt ?? [])]) {
    for (const ring of RINGS) {
      if (ring * COST_OF_DISTANCE > bestCost) break;
      for (let i = 0; i < DIRECTIONS; i++) {
        const heading = (towards ?? Math.PI / 4) + ((i % 2 === 0 ? i : -i - 1) / 2) * ((2 * Math.PI) / DIRECTIONS);
        const box = boxAt(anchor, heading, ring, halfWidth, halfHeight);
        const astray = towards === undefined ? 0 : (1 - Math.cos(heading - towards)) * 3;
        const nearCost = ring * COST_OF_DISTANCE + astray;
        if (nearCost >= bestCost || !free(box)) continue;
        const coverCost = nearCost + ground.inside(box) * COST_OF_INK;
        if (coverCost >= bestCost) continue;
        const own = leadersFrom(box, [anchor, ...(label.reaches ?? [])]);
        const crossed =
          boxes.filter((other) => own.some(([from, to]) => crosses(from, to, other))).length
          + leaders.filter(([from, to]) => crosses(from, to, box)).length;
        const cost = coverCost + crossed * COST_OF_CROSSING;
        if (cost < bestCost) [best, bestCost] = [{ box, anchor }, cost];
      }
    }
  }
  if (best) return best;
  const box = rowByRow(room, halfWidth, halfHeight, label.anchor, free);
  return box && { box, anchor: label.anchor };
}

function boxAt(anchor: Point, heading: number, ring: number, halfWidth: number, halfHeight: number): Box {
  const { x: cosine, y: sine } = polar(1, heading);
  // Flat directions slide along the box, so that the box touches the ring with its nearest point.
  const slide = (part: number, half: number): number => Math.max(-1, Math.min(1, part * 1.5)) * half;
  const x = anchor.x + cosine * ring + slide(cosine, halfWidth);
  const y = anchor.y + sine * ring + slide(sine, halfHeight);
  return { left: x - halfWidth, bottom: y - halfHeight, right: x + halfWidth, top: y + halfHeight };
}

function rowByRow(
  room: Box,
  halfWidth: number,
  halfHeight: number,
  anchor: Point,
  free: (box: Box) => boolean,
): Box | null {
  let best: Box | null = null;
  let bestDistance = Infinity;
  for (let y = room.top - halfHeight; y >= room.bottom + halfHeight; y -= 1) {
    for (let x = room.left + halfWidth; x <= room.right - halfWidth; x += 2) {
      const away = distance(point(x, y), anchor);
      if (away >= bestDistance) continue;
      const box = { left: x - halfWidth, bottom: y - halfHeight, right: x + halfWidth, top: y + halfHeight };
      if (free(box)) [best, bestDistance] = [box, away];
    }
  }
  return best;
}

/** From the middle of the nearest edge of the box to the target. */
function leaderFrom(box: Box, target: Point): readonly [Point, Point] | null {
  const start = point(clamp(target.x, box.left, box.right), clamp(target.y, box.bottom, box.top));
  return distance(start, target) < 1e-6 ? null : [start, target];
}

function leadersFrom(box: Box, targets: readonly Point[]): (readonly [Point, Point])[] {
  return targets.map((target) => leaderFrom(box, target)).filter((leader) => leader !== null);
}

const clamp = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));

function drawn(label: WantedLabel, box: Box, anchor: Point): Part {
  const { name, role, words, height = lettering.small, bold = false, leaderBeyond = 3 } = label;
  const leader = leaderFrom(grown(box, -0.2), label.target ?? anchor);
  const elements: Element[] = [];
  if (leader && distance(...leader) > leaderBeyond) elements.push(line('thin', ...leader));
  const right = anchor.x < box.left;
  const left = anchor.x > box.right;
  const align = right ? 'start' : left ? 'end' : 'middle';
  const x = right ? box.left + 0.4 : left ? box.right - 0.4 : (box.left + box.right) / 2;
  elements.push(text(point(x, (box.bottom + box.top) / 2 - height * 0.42), words, { height, align, bold }));
  return { name, role, elements };
}
