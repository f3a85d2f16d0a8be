/**
 * A layout that a search tries: a handful of numbers, the linkage that they make, and the changes that put them into the
 * document. Numbers are those that a fitter can set: places in steps of half a millimetre, holes and lengths too.
 */
import { valueOf } from '../../assessment/readings.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';
import { change, type Change } from '../../job/change.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import type { Connection } from '../../job/schema.ts';
import { defaultSideFreedom, linkBranch, pinBranch, type LineOfPull, type Linkage } from '../../physics/linkage.ts';
import { formatQuantity, toSI } from '../../units/quantity.ts';
import { set, valueAtPath } from '../knobs/knob.ts';
import type { ConnectionKind } from './space.ts';

export interface Layout {
  readonly kind: ConnectionKind;
  readonly hub: number;
  /** Home pin, m. */
  readonly x: number;
  readonly y: number;
  /** Of the pull, rad. */
  readonly direction: number;
  /** Shaft centre to the hole in the arm, m; a slot's pin stands there at home. */
  readonly radius: number;
  /** Link and chain: between pin centres. Plain pin: radial clearance in its hole. Slot: not used, 0. m. */
  readonly length: number;
}

/** Sizes of the pins, m, as they are or, where the present connection has none, as is common practice (no source). */
export interface PinSizes {
  readonly slot: number;
  readonly link: number;
  readonly plain: number;
  readonly sideClearance: number;
}

const MM = toSI(1, 'mm');
const USUAL_PIN = 8 * MM;
const USUAL_SIDE_CLEARANCE = 0.2 * MM;
/** Room that a slot is given at each end beside the pin, over what is wanted. */
const SLOT_ROOM = 3 * MM;

export function pinSizesOf({ layout }: SolenoidJob): PinSizes {
  const { connection } = layout;
  const now = connection.kind === 'short chain' ? NaN : valueOf(connection.pinDiameter, 'length');
  const pin = now > 0 ? now : USUAL_PIN;
  const side = connection.kind === 'slotted lever' ? valueOf(connection.sideClearance, 'length') : USUAL_SIDE_CLEARANCE;
  return { slot: pin, link: pin, plain: pin, sideClearance: side >= 0 ? side : USUAL_SIDE_CLEARANCE };
}

/** The linkage of a layout: the numbers that `rigOf` makes of the document with the layout's changes. */
export function linkageFor(
  { kind, x, y, direction, radius, length }: Layout,
  pins: PinSizes,
  sense: 1 | -1,
  armAngleExpected: number,
): Linkage {
  const line: LineOfPull = {
    homeX: x,
    homeY: y,
    directionX: Math.cos(direction),
    directionY: Math.sin(direction),
  };
  if (kind === 'slotted lever') return { kind: 'slot', ...line, sense, armAngleExpected };
  if (kind === 'plain pin') {
    return {
      kind: 'pin',
      ...line,
      sense,
      armAngleExpected,
      armRadius: radius,
      length,
      armRubRadius: pins.plain / 2 + length,
      pinRubRadius: pins.plain / 2,
      sideFreedom: defaultSideFreedom(length),
      branch: pinBranch(sense),
    };
  }
  const rub = kind === 'pinned link' ? pins.link / 2 : 0;
  return {
    kind: kind === 'pinned link' ? 'link' : 'chain',
    ...line,
    sense,
    armAngleExpected,
    armRadius: radius,
    length,
    armRubRadius: rub,
    pinRubRadius: rub,
    sideFreedom: 0,
    branch: linkBranch(line, radius, length, armAngleExpected, sense),
  };
}

/** The layout that the document has; null where a reading is missing. */
export function layoutOf({ layout }: SolenoidJob): Layout | null {
  const { connection, homePin, hubPosition, pullDirection } = layout;
  const x = valueOf(homePin.x, 'length');
  const y = valueOf(homePin.y, 'length');
  const found: Layout = {
    kind: connection.kind,
    hub: hubPosition,
    x,
    y,
    direction: valueOf(pullDirection, 'angle'),
    radius: connection.kind === 'slotted lever' ? Math.hypot(x, y) : valueOf(connection.armRadius, 'length'),
    length:
      connection.kind === 'slotted lever'
        ? 0
        : connection.kind === 'plain pin'
          ? (valueOf(connection.holeDiameter, 'length') - valueOf(connection.pinDiameter, 'length')) / 2
          : valueOf(connection.length, 'length'),
  };
  return Object.values(found).some((value) => Number.isNaN(value)) ? null : found;
}

/**
 * The changes that make a layout of the document's own, only those that change something.
 *
 * @param slot the least and greatest distance of the pin from the shaft centre, m, where it runs in a slot: a slot that
 *             holds it with room stays, else one is cut that does
 */
export function layoutChanges(
  job: SolenoidJob,
  to: Layout,
  pins: PinSizes,
  slot: readonly [number, number] | null,
): Change[] {
  const hub = change(job, 'layout.hubPosition', to.hub);
  return [
    ...moved(job, 'layout.homePin.x', 'length', to.x),
    ...moved(job, 'layout.homePin.y', 'length', to.y),
    ...moved(job, 'layout.pullDirection', 'angle', to.direction),
    ...(hub.from === hub.to ? [] : [hub]),
    ...connectionChanges(job, to, pins, slot),
  ];
}

/** Nothing where the value is what it was, however it was written. */
function moved(job: SolenoidJob, path: string, dimension: 'length' | 'angle', value: number): Change[] {
  if (Math.abs(valueAtPath(job, path, dimension) - value) < 1e-7) return [];
  const one = set(job, path, dimension, value);
  return one === null ? [] : [one];
}

function connectionChanges(
  job: SolenoidJob,
  to: Layout,
  pins: PinSizes,
  slot: readonly [number, number] | null,
): Change[] {
  const { connection } = job.layout;
  const unit = quantityIn(job.layout.homePin.x, 'length')?.unit ?? 'mm';
  const text = (value: number) => formatQuantity(value, 'length', unit, { significantDigits: 5 });
  const at = (field: string, value: number): Change[] => moved(job, `layout.connection.${field}`, 'length', value);
  const whole = (made: Connection): Change[] => [change(job, 'layout.connection', made)];
  switch (to.kind) {
    case 'slotted lever': {
      const pin = pins.slot / 2;
      const least = slot?.[0] ?? to.radius;
      const greatest = slot?.[1] ?? to.radius;
      if (connection.kind === 'slotted lever') {
        const from = valueOf(connection.slotFrom, 'length');
        const until = valueOf(connection.slotTo, 'length');
        if (from <= least - pin - SLOT_ROOM / 2 && until >= greatest + pin + SLOT_ROOM / 2) return [];
      }
      const slotFrom = Math.max(MM, Math.floor((least - pin - SLOT_ROOM) / MM) * MM);
      const slotTo = Math.ceil((greatest + pin + SLOT_ROOM) / MM) * MM;
      if (connection.kind === 'slotted lever') return [...at('slotFrom', slotFrom), ...at('slotTo', slotTo)];
      return whole({
        kind: to.kind,
        slotFrom: text(slotFrom),
        slotTo: text(slotTo),
        pinDiameter: text(pins.slot),
        sideClearance: text(pins.sideClearance),
      });
    }
    case 'pinned link':
      if (connection.kind === to.kind) return [...at('length', to.length), ...at('armRadius', to.radius)];
      return whole({
        kind: to.kind,
        length: text(to.length),
        armRadius: text(to.radius),
        pinDiameter: text(pins.link),
      });
    case 'short chain':
      if (connection.kind === to.kind) return [...at('length', to.length), ...at('armRadius', to.radius)];
      return whole({ kind: to.kind, length: text(to.length), armRadius: text(to.radius) });
    case 'plain pin': {
      const hole = pins.plain + 2 * to.length;
      if (connection.kind === to.kind) {
        const drilled = [...at('armRadius', to.radius), ...at('holeDiameter', hole)];
        // A freedom that was felt belongs to the hole as it was.
        return connection.sideFreedom === undefined || drilled.length === 0
          ? drilled
          : [...drilled, change(job, 'layout.connection.sideFreedom', undefined)];
      }
      return whole({
        kind: to.kind,
        armRadius: text(to.radius),
        pinDiameter: text(pins.plain),
        holeDiameter: text(hole),
      });
    }
  }
}
