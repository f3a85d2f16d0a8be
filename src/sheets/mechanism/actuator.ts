/**
 * What pulls the lever, in section. Mouth, guide length, plunger diameter and, for air, the bore are to scale; case, coil
 * and caps are drawn by proportion, for no survey measures them.
 */
import type { DrawnActuator } from '../../assessment/picture.ts';
import { known } from '../amounts.ts';
import { arrowHead, circle, hatch, line, polygon, polyline, type Element } from '../drawing.ts';
import { minus, times, type Point } from '../plane.ts';
import { intoBody, lengthOnSheet, onAxis, type Axis, type Frame } from './view.ts';

export interface ActuatorDrawing {
  readonly body: readonly Element[];
  readonly moving: readonly Element[];
  /** Two faces that meet at home, on the axis: the moving one and the fixed one. */
  readonly gap: { readonly moving: number; readonly fixed: number } | null;
  /** Half the height of the body, mm on the sheet. */
  readonly halfHeight: number;
  /** Depth of the body from its mouth, mm on the sheet. */
  readonly depth: number;
}

/** Lengths of the actuator, mm on the sheet. */
interface Sizes {
  readonly plunger: number;
  readonly guide: number;
  readonly stroke: number;
  readonly gap: number;
  readonly pin: number;
}

/**
 * @param axis line of pull; its `inward` points from the mouth into the body
 * @param pin  plunger pin now, on the sheet
 * @param gap  m; @param stroke m
 */
export function drawActuator(
  frame: Frame,
  actuator: DrawnActuator,
  axis: Axis,
  pin: Point,
  gap: number,
  stroke: number,
): ActuatorDrawing {
  const mm = (length: number): number => lengthOnSheet(frame, length);
  const plunger = mm(known(actuator.plungerDiameter) ?? (actuator.kind === 'hand cable' ? 0.002 : 0.014));
  const sizes: Sizes = {
    plunger,
    guide: mm(known(actuator.guideLength) ?? (actuator.kind === 'solenoid' ? stroke * 2 : stroke * 0.5)),
    stroke: mm(stroke),
    gap: mm(gap),
    pin: intoBody(axis, pin),
  };
  if (actuator.kind === 'hand cable') return drawCable(axis, sizes);
  if (actuator.kind === 'air cylinder') {
    const bore = mm(known(actuator.bore) ?? 0.025);
    return drawCylinder(axis, sizes, Math.max(bore, plunger * 1.3), actuator.action);
  }
  return actuator.action === 'pull' ? drawPullSolenoid(axis, sizes) : drawPushSolenoid(axis, sizes);
}

const rectangle = (axis: Axis, from: number, to: number, low: number, high: number): Point[] => [
  onAxis(axis, from, low),
  onAxis(axis, to, low),
  onAxis(axis, to, high),
  onAxis(axis, from, high),
];

/** Windings in section: a rectangle with its diagonals. */
function winding(axis: Axis, from: number, to: number, low: number, high: number): Element[] {
  const corners = rectangle(axis, from, to, low, high);
  const [a, b, c, d] = corners as [Point, Point, Point, Point];
  return [polygon('thin', corners, 'paper'), line('thin', a, c), line('thin', b, d)];
}

function drawPullSolenoid(axis: Axis, { plunger, guide, gap, pin }: Sizes): ActuatorDrawing {
  const bore = plunger / 2;
  const half = plunger * 1.15;
  const seat = Math.max(plunger * 0.35, 1.5);
  const [wall, flange] = [half * 0.14, Math.min(guide * 0.09, half * 0.3)];
  const outer = rectangle(axis, 0, guide + seat, -half, half);
  const hollow = rectangle(axis, 0, guide, -bore, bore);
  const coils = [1, -1].map((side) => {
    const edges = [side * (bore + wall * 0.7), side * (half - wall)] as const;
    return [flange, guide - flange, Math.min(...edges), Math.max(...edges)] as const;
  });
  const body: Element[] = [
    polygon('none', outer, 'paper'),
    hatch([outer, hollow, ...coils.map((coil) => rectangle(axis, ...coil))]),
    ...coils.flatMap((coil) => winding(axis, ...coil)),
    polygon('outline', outer),
    polyline('outline', [
      onAxis(axis, 0, -bore),
      onAxis(axis, guide, -bore),
      onAxis(axis, guide, bore),
      onAxis(axis, 0, bore),
    ]),
  ];
  const tail = guide - gap;
  // The head stays outside the mouth at home, between mouth and pin.
  const outside = Math.max(0, -(pin + gap));
  const head = -gap - Math.min(outside * 0.3, plunger * 0.4);
  return {
    body,
    moving: [
      ...clevis(axis, pin, head, plunger * 0.28, plunger * 0.34),
      polygon('outline', rectangle(axis, head, tail, -bore, bore), 'paper'),
      line('centre', onAxis(axis, pin, 0), onAxis(axis, guide + seat + 3, 0)),
    ],
    gap: { moving: tail, fixed: guide },
    halfHeight: half,
    depth: guide + seat,
  };
}

function drawPushSolenoid(axis: Axis, { plunger, guide, stroke, gap, pin }: Sizes): ActuatorDrawing {
  const bore = plunger / 2;
  const chamber = plunger * 0.95;
  const half = plunger * 1.6;
  const armature = plunger * 0.8;
  const depth = guide + stroke + armature + plunger * 0.3;
  const wall = half * 0.12;
  const outer = rectangle(axis, 0, depth, -half, half);
  const hollow = rectangle(axis, 0, guide, -bore, bore);
  const room = rectangle(axis, guide, depth - wall, -chamber, chamber);
  const coils = [1, -1].map((side) => {
    const edges = [side * (chamber + wall * 0.5), side * (half - wall)] as const;
    return [wall * 2, depth - wall * 2, Math.min(...edges), Math.max(...edges)] as const;
  });
  const face = guide + gap;
  return {
    body: [
      polygon('none', outer, 'paper'),
      hatch([outer, hollow, room, ...coils.map((coil) => rectangle(axis, ...coil))]),
      ...coils.flatMap((coil) => winding(axis, ...coil)),
      polygon('outline', outer),
      polygon('outline', room),
      polyline('outline', [onAxis(axis, 0, -bore), onAxis(axis, guide, -bore)]),
      polyline('outline', [onAxis(axis, 0, bore), onAxis(axis, guide, bore)]),
    ],
    moving: [
      ...clevis(axis, pin, pin + Math.max(plunger * 0.7, 2), plunger * 0.28, plunger * 0.34),
      polygon('outline', rectangle(axis, pin + Math.max(plunger * 0.7, 2), face, -bore * 0.94, bore * 0.94), 'paper'),
      polygon('outline', rectangle(axis, face, face + armature, -chamber * 0.94, chamber * 0.94), 'paper'),
      line('centre', onAxis(axis, pin, 0), onAxis(axis, depth + 3, 0)),
    ],
    gap: { moving: face, fixed: guide },
    halfHeight: half,
    depth,
  };
}

function drawCylinder(
  axis: Axis,
  { plunger, guide, stroke, gap, pin }: Sizes,
  bore: number,
  action: 'pull' | 'push',
): ActuatorDrawing {
  const piston = Math.max(plunger * 0.6, 3);
  const cap = Math.max(plunger * 0.5, 2.5);
  const depth = guide + stroke + piston + cap;
  const half = bore / 2 + Math.max(bore * 0.07, 1);
  const outer = rectangle(axis, 0, depth, -half, half);
  const room = rectangle(axis, guide, depth - cap, -bore / 2, bore / 2);
  const hollow = rectangle(axis, 0, guide, -plunger / 2, plunger / 2);
  const face = action === 'push' ? guide + gap : guide + stroke - gap;
  return {
    body: [
      polygon('none', outer, 'paper'),
      hatch([outer, room, hollow]),
      polygon('outline', outer),
      polygon('outline', room),
      line('outline', onAxis(axis, 0, -plunger / 2), onAxis(axis, guide, -plunger / 2)),
      line('outline', onAxis(axis, 0, plunger / 2), onAxis(axis, guide, plunger / 2)),
    ],
    moving: [
      ...clevis(axis, pin, pin + Math.max(plunger * 0.7, 2), plunger * 0.28, plunger * 0.34),
      polygon(
        'outline',
        rectangle(axis, pin + Math.max(plunger * 0.7, 2), face, -plunger * 0.47, plunger * 0.47),
        'paper',
      ),
      polygon('outline', rectangle(axis, face, face + piston, -bore * 0.48, bore * 0.48), 'paper'),
      line('centre', onAxis(axis, pin, 0), onAxis(axis, depth + 3, 0)),
    ],
    gap: action === 'push' ? { moving: face, fixed: guide } : { moving: face + piston, fixed: depth - cap },
    halfHeight: half,
    depth,
  };
}

function drawCable(axis: Axis, { plunger, guide, stroke, pin }: Sizes): ActuatorDrawing {
  const conduit = Math.max(plunger * 1.1, 1.2);
  const ferrule = Math.max(guide, stroke * 0.4, 6);
  const depth = ferrule + Math.max(stroke, 12);
  const bracket = Math.max(conduit * 3, 5);
  const run = (side: number): Element => polyline('outline', [onAxis(axis, ferrule, side), onAxis(axis, depth, side)]);
  return {
    body: [
      run(conduit),
      run(-conduit),
      line('thin', onAxis(axis, depth, -conduit * 1.6), onAxis(axis, depth, conduit * 1.6)),
      polygon('outline', rectangle(axis, 0, ferrule, -conduit * 1.4, conduit * 1.4), 'paper'),
      polygon('outline', rectangle(axis, ferrule * 0.35, ferrule * 0.55, -bracket, bracket), 'paper'),
    ],
    moving: [
      ...clevis(axis, pin, pin + Math.min(Math.max(plunger * 2, 3), Math.max(1, -pin * 0.4)), conduit, conduit * 1.2),
      line('outline', onAxis(axis, pin, 0), onAxis(axis, 0, 0)),
      line('hidden', onAxis(axis, 0, 0), onAxis(axis, depth, 0)),
      arrowHead(onAxis(axis, depth + 5, 0), minus(onAxis(axis, 1, 0), axis.mouth), 2.5),
      line('thin', onAxis(axis, depth + 1, 0), onAxis(axis, depth + 3, 0)),
    ],
    gap: null,
    halfHeight: Math.max(bracket, 4),
    depth: depth + 5,
  };
}

/** Fork between pin and plunger. */
function clevis(axis: Axis, pin: number, foot: number, half: number, eye: number): Element[] {
  const centre = onAxis(axis, pin, 0);
  return [
    circle('outline', centre, eye, 'paper'),
    polygon('none', rectangle(axis, pin, foot, -half, half), 'paper'),
    line(
      'outline',
      onAxis(axis, pin + Math.sqrt(Math.max(0, eye * eye - half * half)), half),
      onAxis(axis, foot, half),
    ),
    line(
      'outline',
      onAxis(axis, pin + Math.sqrt(Math.max(0, eye * eye - half * half)), -half),
      onAxis(axis, foot, -half),
    ),
  ];
}

/** Unit vector into the body. */
export function inwardOf(pullDirection: Point, action: 'pull' | 'push'): Point {
  return action === 'pull' ? pullDirection : times(pullDirection, -1);
}
