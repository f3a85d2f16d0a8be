/**
 * Graphical symbols of IEC 60617, drawn here from their published descriptions: battery, fuse, make and break contact,
 * plug and socket, resistor, winding, diode, breakdown diode, earth.
 *
 * Each lies on a straight wire through `at`; the current goes with `heading`. Its leads reach `reach` either way. Contacts
 * are drawn as they stand now, where the standard shows circuits at rest.
 */
import { arc, circle, line, polygon, polyline, text, type Element, type LineStyle } from '../drawing.ts';
import { plus, point, turned, type Point } from '../plane.ts';

export type SymbolKind =
  | 'battery'
  | 'fuse'
  | 'switch'
  | 'relay'
  | 'connector'
  | 'resistor'
  | 'conductor'
  | 'earth'
  | 'winding'
  | 'end switch'
  | 'diode'
  | 'breakdown diode'
  | 'economiser';

export interface Placed {
  readonly at: Point;
  /** Direction of the current, rad. */
  readonly heading: number;
  /** From the middle to the end of each lead, mm. */
  readonly reach: number;
  /** The side on which what works a contact is drawn: +1 to the left of the current. */
  readonly side: 1 | -1;
  readonly style: LineStyle;
  readonly isOpen: boolean;
}

/** Half the length of a symbol's own body, mm. */
const BODY = 4;

type Local = (x: number, y: number) => Point;

export function symbol(kind: SymbolKind, placed: Placed): Element[] {
  const { at, heading, side, reach, style } = placed;
  const to: Local = (x, y) => plus(at, turned(point(x, y * side), heading));
  const leads = (inner: number): Element[] => [
    line(style, to(-reach, 0), to(-inner, 0)),
    line(style, to(inner, 0), to(reach, 0)),
  ];
  // What works a contact, and the ends of a run, are told from the wire only where the wire is heavy.
  const beside: LineStyle = style === 'heavy' ? 'outline' : style;
  const box = (halfLength: number, halfWidth: number): Element =>
    polygon(style, [
      to(-halfLength, -halfWidth),
      to(halfLength, -halfWidth),
      to(halfLength, halfWidth),
      to(-halfLength, halfWidth),
    ]);
  switch (kind) {
    case 'battery':
      return [...leads(3), ...cells(to, style), text(plus(to(5.2, 2.6), point(0, -1.25)), '+', { align: 'middle' })];
    case 'fuse':
      return [line(style, to(-reach, 0), to(reach, 0)), box(BODY, 1.5)];
    case 'resistor':
      return [...leads(BODY), box(BODY, 1.5)];
    case 'conductor':
      return [
        line(style, to(-reach, 0), to(reach, 0)),
        circle(beside, to(-BODY, 0), 0.7, 'paper'),
        circle(beside, to(BODY, 0), 0.7, 'paper'),
      ];
    case 'connector':
      return [
        line(style, to(-reach, 0), to(-2.4, 0)),
        polygon('none', [to(-2.4, -0.7), to(0.6, -0.7), to(0.6, 0.7), to(-2.4, 0.7)], 'solid'),
        arc(style, to(0.4, 0), 1.8, heading - Math.PI / 2, heading + Math.PI / 2),
        line(style, to(2.2, 0), to(reach, 0)),
      ];
    case 'winding':
      return [...leads(6), ...[-4.5, -1.5, 1.5, 4.5].map((x) => halfTurn(style, to(x, 0), heading, side))];
    case 'switch':
      return [
        ...contact(to, placed),
        line('hidden', to(0, placed.isOpen ? 1.7 : 0.6), to(0, 6)),
        line(beside, to(-1.6, 6), to(1.6, 6)),
      ];
    case 'relay':
      return [
        ...contact(to, placed),
        line('hidden', to(0, placed.isOpen ? 1.7 : 0.6), to(0, 5)),
        polygon(beside, [to(-2.2, 5), to(2.2, 5), to(2.2, 7.6), to(-2.2, 7.6)]),
      ];
    case 'end switch':
      return [
        ...breakContact(to, placed),
        line('hidden', to(0, placed.isOpen ? 1.9 : 1.1), to(0, 6)),
        ...plunger(to, beside),
      ];
    case 'earth':
      return [
        line(style, to(-reach, 0), to(-BODY, 0)),
        ...[-1, 1].flatMap((end) =>
          [2.4, 1.6, 0.8].map((half, i) => line(beside, to(end * (BODY - i), -half), to(end * (BODY - i), half))),
        ),
        line('hidden', to(-1.6, 0), to(1.6, 0)),
        line(style, to(BODY, 0), to(reach, 0)),
      ];
    case 'diode':
      return [...leads(1.8), triangle(to, style), line(style, to(1.8, -1.9), to(1.8, 1.9))];
    case 'breakdown diode':
      return [...leads(1.8), triangle(to, style), polyline(style, [to(0.9, -1.9), to(1.8, -1.9), to(1.8, 1.9)])];
    case 'economiser':
      return [...leads(3.4), box(3.4, 3.4), text(plus(to(0, 0), point(0, -1.2)), 't', { align: 'middle' })];
  }
}

/** Long thin stroke: plus. Two cells stand for as many as there are. */
function cells(to: Local, style: LineStyle): Element[] {
  return [
    line('heavy', to(-3, -1.4), to(-3, 1.4)),
    line('outline', to(-1.6, -3), to(-1.6, 3)),
    line('hidden', to(-1.6, 0), to(1.6, 0)),
    line('heavy', to(1.6, -1.4), to(1.6, 1.4)),
    line(style === 'heavy' ? 'outline' : style, to(3, -3), to(3, 3)),
  ];
}

function triangle(to: Local, style: LineStyle): Element {
  return polygon(style, [to(-1.8, -1.9), to(1.8, 0), to(-1.8, 1.9)], 'paper');
}

function halfTurn(style: LineStyle, centre: Point, heading: number, side: 1 | -1): Element {
  return side === 1
    ? arc(style, centre, 1.5, heading, heading + Math.PI)
    : arc(style, centre, 1.5, heading - Math.PI, heading);
}

/** Closed, the blade lies on the foot of the fixed contact; open, it stands off. */
function contact(to: Local, { style, reach, isOpen }: Placed): Element[] {
  return [
    line(style, to(-reach, 0), to(-3, 0)),
    line(style, to(-3, 0), isOpen ? to(2.6, 3.2) : to(3, 1)),
    line(style, to(3, isOpen ? 0 : 1), to(3, 0)),
    line(style, to(3, 0), to(reach, 0)),
  ];
}

/** The blade rests on a foot that reaches to its side, and is lifted off when it is worked. */
function breakContact(to: Local, { style, reach, isOpen }: Placed): Element[] {
  return [
    line(style, to(-reach, 0), to(-3, 0)),
    line(style, to(-3, 0), isOpen ? to(3.2, 4) : to(3.8, 2)),
    line(style, to(3, 1.75), to(3, 0)),
    line(style, to(3, 0), to(reach, 0)),
  ];
}

/** The end of the plunger that works it. */
function plunger(to: Local, style: LineStyle): Element[] {
  return [polygon(style, [to(-1.3, 6), to(1.3, 6), to(1.3, 8), to(-1.3, 8)]), line('centre', to(0, 5.2), to(0, 9))];
}
