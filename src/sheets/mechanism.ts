/**
 * The mechanism at one gap, to true scale: lever, shaft, stops, plunger in its guide, connection, springs, forces.
 *
 * Scale and labels depend on the whole travel and not on the gap of the moment, so that the sheet stands still while the
 * lever swings. Draws what the picture says and computes none of it. Lines after ISO 128-2, springs after ISO 2162-1,
 * scales after ISO 5455.
 */
import type { DrawnPosition, MechanismPicture } from '../assessment/picture.ts';
import { metricUnits, type DisplayUnits } from '../units/display.ts';
import { known } from './amounts.ts';
import { arc, lettering, line, part, text, textBox, type Drawing, type Element, type Part } from './drawing.ts';
import { drawGapDimension, gapReach } from './mechanism/dimension.ts';
import { endsOfSwing, leverAngles } from './mechanism/fit.ts';
import { drawForces } from './mechanism/forces.ts';
import { handlesOf, type Handle } from './mechanism/handles.ts';
import { drawKeepOut, keepOutHandles, keepOutLabels } from './mechanism/keep-out.ts';
import { drawJoint, leverPoint } from './mechanism/joint.ts';
import { wantedLabels } from './mechanism/labels.ts';
import { drawAngles, drawLever, drawPointer, drawShaft } from './mechanism/lever.ts';
import { missingReadings, sentencesOf } from './mechanism/sentences.ts';
import { drawAnchor, drawSpring, drawSpringOnPlunger } from './mechanism/springs.ts';
import { stage, type Staged } from './mechanism/stage.ts';
import { intoBody, lengthOnSheet, onAxis, toSheet, type Frame } from './mechanism/view.ts';
import {
  along,
  boxesOverlap,
  direction,
  minus,
  plus,
  point,
  polar,
  quarter,
  times,
  type Box,
  type Point,
} from './plane.ts';
import { Ground, placeLabels } from './placing.ts';
import { scaleBar, scaleWords } from './scale.ts';

export type { Frame } from './mechanism/view.ts';
export { fromSheet, toSheet } from './mechanism/view.ts';
export type { Handle } from './mechanism/handles.ts';

export interface MechanismOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
  /** standard: a scale of ISO 5455, for paper. free: the largest that fits, stated by the bar alone, for the screen. */
  readonly scales?: 'free' | 'standard';
  /** Keeps scale and place, for instance while something is dragged. */
  readonly frame?: Frame;
}

export interface MechanismDrawing extends Drawing {
  readonly frame: Frame;
  /** Places that can be dragged, on the sheet. */
  readonly handles: readonly Handle[];
}

/** Narrower sheets carry fewer words, mm. */
const ROOMY = 140;

export function drawMechanism(given: MechanismPicture, options: MechanismOptions = {}): MechanismDrawing {
  const { width = 200, height = 130, units = metricUnits, scales = 'free' } = options;
  const staged = stage(given, { width, height, units, scales, frame: options.frame });
  const { picture, frame } = staged;
  const sheet: Box = { left: 0, right: width, bottom: 0, top: height };
  const still = [...drawKeepOut(frame, picture.keepOut, sheet), ...drawStill(staged)];
  const moving = drawMoving(staged);
  const bottom = drawFoot(staged, width);
  const missing = missingReadings(picture);
  const notices = [
    ...(picture.trouble === null
      ? []
      : [part('trouble', 'fails', [text(point(6, height - 8), picture.trouble, { bold: true })])]),
    ...missing.map((what, i) => {
      const row = i + (picture.trouble === null ? 0 : 1);
      return part(`missing-${i + 1}`, 'notice', [text(point(6, height - 8 - row * 4.5), `Not measured: ${what}`)]);
    }),
  ];
  const ground = new Ground(width, height);
  for (const outline of sweptAreas(staged)) ground.fill(outline, 0.5);
  const reach = gapReach(staged);
  if (reach !== null) ground.line(...reach, 1);
  for (const { elements, name } of still)
    for (const element of elements) ground.element(element, name.endsWith('ghost') ? 0.5 : 1);
  const occupied: Box[] = [bottom.box];
  if (notices.length > 0)
    occupied.push({ left: 0, right: width, top: height, bottom: height - 9 - notices.length * 4.5 });
  const labels = placeLabels(
    [...wantedLabels(staged, width >= ROOMY), ...keepOutLabels(frame, picture.keepOut, sheet)],
    { left: 3, right: width - 3, bottom: 3, top: height - 3 },
    ground,
    occupied,
  );
  return {
    title: 'Mechanism',
    width,
    height,
    parts: [
      ...still,
      ...moving,
      ...labels.map(({ part }) => part),
      ...(staged.shape === null && staged.axis === null ? [] : [bottom.part]),
      ...notices,
    ],
    sentences: sentencesOf(picture, units, missing),
    frame,
    handles: [...handlesOf(staged), ...keepOutHandles(frame, picture.keepOut, sheet)],
  };
}

/** What stands where it is at every gap. */
function drawStill(staged: Staged): Part[] {
  const { picture, frame, shape, marks, axis, body, pull } = staged;
  const angles = drawAngles(frame, marks);
  const parts: Part[] = [];
  if (axis !== null && picture.homePin !== null) {
    const home = toSheet(frame, picture.homePin);
    const away = pull === null ? axis.inward : times(pull, -1);
    const beyond = lengthOnSheet(frame, picture.stroke ?? 0) + 10;
    parts.push(part('line-of-pull', 'quiet', [line('centre', along(home, away, beyond), axis.mouth)]));
  }
  parts.push(part('swing', 'quiet', drawSwing(staged)));
  if (body !== null) parts.push(part('actuator-body', 'mechanism', body.body));
  parts.push(part('fuel-off', 'quiet', angles.fuelOff), part('angles', 'mechanism', angles.rays));
  parts.push(part('stops', 'mechanism', angles.stops));
  for (const [name, position] of [
    ['home-ghost', picture.home],
    ['rest-ghost', picture.rest],
  ] as const) {
    if (position !== null) parts.push(part(name, 'quiet', drawGhost(staged, position)));
  }
  picture.springs.forEach(({ from, to }, i) => {
    if (from === null) return;
    const at = toSheet(frame, from);
    const towards = to === null ? at : toSheet(frame, to);
    parts.push(part(`anchor-${i + 1}`, 'mechanism', drawAnchor(at, direction(towards, at))));
  });
  if (shape !== null && picture.now.armAngle === null) parts.push(part('shaft', 'mechanism', drawShaft(frame, shape)));
  return parts;
}

/** What lever and plunger pass over, which labels had better leave free. */
function sweptAreas({ picture, frame, shape, axis, body }: Staged): Point[][] {
  const areas: Point[][] = [];
  if (shape !== null) {
    const hub = lengthOnSheet(frame, shape.hubRadius) + 1;
    areas.push([0, 1, 2, 3, 4, 5, 6, 7].map((i) => plus(frame.origin, polar(hub, (i * Math.PI) / 4))));
  }
  for (const { from, to, coilDiameter } of picture.springs) {
    if (from === null || to === null) continue;
    const half = lengthOnSheet(frame, coilDiameter ?? 0.01) / 2 + 1;
    for (const end of endsOfSwing(picture, to)) {
      const [a, b] = [toSheet(frame, from), toSheet(frame, end)];
      const aside = times(quarter(direction(a, b)), half);
      areas.push([plus(a, aside), plus(b, aside), minus(b, aside), minus(a, aside)]);
    }
  }
  const angles = [picture.home, picture.rest].map((position) => known(position?.armAngle)).filter((a) => a !== null);
  if (shape !== null && angles.length > 0) {
    const radius = lengthOnSheet(frame, shape.reach + shape.endRadius) + 3;
    const [from, to] = [Math.min(...angles) - 0.2, Math.max(...angles) + 0.2];
    const rim = Array.from({ length: 13 }, (_, i) => plus(frame.origin, polar(radius, from + ((to - from) * i) / 12)));
    areas.push([frame.origin, ...rim]);
  }
  if (axis !== null && body !== null && picture.homePin !== null) {
    const half = Math.min(body.halfHeight, 8);
    const outer = intoBody(axis, toSheet(frame, picture.homePin)) - lengthOnSheet(frame, picture.stroke ?? 0) - 6;
    const inner = Math.max(body.depth * 0.6, 0);
    areas.push(
      [
        [outer, half],
        [inner, half],
        [inner, -half],
        [outer, -half],
      ].map(([into = 0, aside = 0]) => onAxis(axis, into, aside)),
    );
  }
  return areas;
}

/** The arc on which hole or pin swings. */
function drawSwing({ picture, frame, shape }: Staged): Element[] {
  const angles = leverAngles(picture);
  if (shape === null || angles.length < 2 || picture.connection.kind === 'slotted lever') return [];
  const radius = lengthOnSheet(frame, shape.reach);
  return [arc('centre', frame.origin, radius, Math.min(...angles) - 0.06, Math.max(...angles) + 0.06)];
}

function drawGhost({ picture, frame, shape, pull }: Staged, position: DrawnPosition): Element[] {
  const lever = shape === null || position.armAngle === null ? [] : drawLever(frame, shape, position.armAngle, 'ghost');
  const at = leverPoint(frame, picture.connection, position, pull);
  if (at === null) return lever;
  const pin = position.pin === null ? null : toSheet(frame, position.pin);
  const { connection } = picture;
  const size = connection.kind === 'short chain' ? 2 : lengthOnSheet(frame, connection.pinDiameter ?? 0.006) / 2;
  const circle: Element = { kind: 'circle', style: 'ghost', centre: pin ?? at, radius: size, fill: 'none' };
  const linked = connection.kind === 'pinned link' || connection.kind === 'short chain';
  return [...lever, circle, ...(linked && pin !== null ? [line('ghost', at, pin)] : [])];
}

/** What moves with the gap. */
function drawMoving(staged: Staged): Part[] {
  const { picture, frame, shape, marks, axis, body, pull } = staged;
  const { now, connection } = picture;
  const parts: Part[] = [];
  if (body !== null && now.pin !== null) parts.push(part('plunger', 'mechanism', body.moving));
  picture.springs.forEach((spring, i) => {
    if (spring.on !== 'plunger' || axis === null || spring.length === null || now.pin === null) return;
    const outside = -intoBody(axis, toSheet(frame, now.pin));
    const half = lengthOnSheet(frame, spring.coilDiameter ?? (picture.actuator.plungerDiameter ?? 0.014) * 1.2) / 2;
    const length = lengthOnSheet(frame, spring.length);
    const drawn = drawSpringOnPlunger(axis, length, outside, half, spring.turns ?? 6, spring.slack);
    parts.push(part(`spring-${i + 1}`, 'mechanism', drawn));
  });
  if (shape !== null && now.armAngle !== null) {
    parts.push(part('lever', 'mechanism', drawLever(frame, shape, now.armAngle, 'outline')));
  }
  const down = picture.down === null ? point(0, -1) : polar(1, picture.down);
  parts.push(part('connection', 'mechanism', drawJoint(frame, connection, now, pull, down)));
  if (shape !== null && now.armAngle !== null) {
    parts.push(part('shaft', 'mechanism', drawShaft(frame, shape)));
    parts.push(part('pointer', 'now', drawPointer(frame, marks.radius, now.armAngle)));
  }
  picture.springs.forEach((spring, i) => {
    if (spring.from === null || spring.to === null) return;
    const half = lengthOnSheet(frame, spring.coilDiameter ?? 0.01) / 2;
    const [from, to] = [toSheet(frame, spring.from), toSheet(frame, spring.to)];
    parts.push(
      part(`spring-${i + 1}`, 'mechanism', drawSpring(spring.kind, from, to, half, spring.turns ?? 8, spring.slack)),
    );
  });
  parts.push(part('gap', 'now', drawGapDimension(staged)));
  parts.push(...drawForces(staged));
  return parts;
}

/** Scale bar and what is schematic, along the lower edge. */
function drawFoot({ frame, units }: Staged, width: number): { part: Part; box: Box } {
  const at = point(8, 5);
  const bar = scaleBar(at, frame.scale, Math.min(45, width / 4), units);
  const words = scaleWords(frame.scale);
  const note = 'Case, coil and lever outline: schematic. Points, radii and angles: to scale.';
  const scaleText = text(plus(at, point(bar.length + 12, 0)), `Scale ${words ?? ''}`, { height: lettering.middle });
  const low = text(point(width - 6, 5), note, { align: 'end', height: 2 });
  const stepsAside = words !== null && boxesOverlap(textBox(scaleText), textBox(low));
  const elements: Element[] = [
    ...bar.elements,
    ...(words === null ? [] : [scaleText]),
    ...(width < ROOMY ? [] : [stepsAside ? { ...low, at: point(width - 6, 10) } : low]),
  ];
  return { part: part('scale', 'words', elements), box: { left: 0, right: width, bottom: 0, top: 13 } };
}
