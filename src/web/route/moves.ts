/** What moving, adding and taking away a corner does to the route, as changes with text as a person would type it. */
import type { Calibrated } from '../../assessment/cable/data.ts';
import { change, type Change } from '../../job/change.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import type { HandCable, Job } from '../../job/schema.ts';
import type { ViewFrame } from '../../sheets/route/route.ts';
import { echo, fromSI, toSI, type Quantity } from '../../units/quantity.ts';
import { nudge, put, type SheetPoint } from '../drawings/dragging.ts';
import { cableOf } from './cable.ts';

type Corner = HandCable['route'][number];
type Coordinate = 'x' | 'y' | 'z';

/** A drag goes in steps of this size: as a tape along a beam is read. */
const STEP_mm = 5;

/** Of a corner that is added where no other has a radius yet. */
const FIRST_RADIUS = '250 mm';

const coordinate = (axis: ViewFrame['across']): Coordinate => (axis === 'x_mm' ? 'x' : axis === 'y_mm' ? 'y' : 'z');

/** Puts a corner where it stands in this view; what the view does not show stays. */
export function movedTo(
  document: Job,
  corner: number,
  { across, up, origin }: ViewFrame,
  scale: number,
  to: SheetPoint,
): Change[] {
  const path = pathOf(document, corner);
  if (path === null) return [];
  return [
    ...put(document, `${path}.${coordinate(across)}`, 'length', (to.x - origin.x) / scale, STEP_mm),
    ...put(document, `${path}.${coordinate(up)}`, 'length', (to.y - origin.y) / scale, STEP_mm),
  ];
}

export function movedBy(
  document: Job,
  corner: number,
  { across, up }: ViewFrame,
  right_mm: number,
  up_mm: number,
): Change[] {
  const path = pathOf(document, corner);
  if (path === null) return [];
  return [
    ...nudge(document, `${path}.${coordinate(across)}`, 'length', right_mm),
    ...nudge(document, `${path}.${coordinate(up)}`, 'length', up_mm),
  ];
}

function pathOf(document: Job, corner: number): string | null {
  const found = cableOf(document);
  return found === null || corner >= found.cable.route.length ? null : `${found.path}.route[${corner}]`;
}

/** A corner half-way between this one and the next, which bends nothing until it is moved. */
export function addedAfter(document: Job, corner: number): Change[] {
  const found = cableOf(document);
  const [from, to] = [found?.cable.route[corner], found?.cable.route[corner + 1]];
  if (found === null || from === undefined || to === undefined) return [];
  const added: Corner = {
    x: between(from.x, to.x),
    y: between(from.y, to.y),
    z: between(from.z, to.z),
    radius: from.radius ?? to.radius ?? FIRST_RADIUS,
  };
  const { route } = found.cable;
  return [change(document, `${found.path}.route`, [...route.slice(0, corner + 1), added, ...route.slice(corner + 1)])];
}

function between(from: string, to: string): string {
  const [a, b] = [quantityIn(from, 'length'), quantityIn(to, 'length')];
  if (a === null || b === null) return 'not measured';
  const middle = toSI(Math.round(fromSI((a.value + b.value) / 2, 'mm')), 'mm', 'length');
  return echo({ text: '', value: middle, plusMinus: null, unit: a.unit }, 'length');
}

/** Both ends of a run stay: without them there is none. */
export function mayBeTakenAway({ route }: HandCable, corner: number): boolean {
  return corner > 0 && corner < route.length - 1;
}

export function takenAway(document: Job, corner: number): Change[] {
  const found = cableOf(document);
  if (found === null || !mayBeTakenAway(found.cable, corner)) return [];
  return [
    change(
      document,
      `${found.path}.route`,
      found.cable.route.filter((_, i) => i !== corner),
    ),
  ];
}

/** The distance of the survey; null where it was not measured. */
export function distanceOf({ survey }: Job): Quantity | null {
  return quantityIn(survey.run.distance, 'length');
}

/** Handle and lever end, as far apart as the survey says, one level straight between them. */
export function firstRun(document: Job): Change[] {
  const found = cableOf(document);
  const distance = distanceOf(document);
  if (found === null || distance === null) return [];
  const nought = echo({ text: '', value: 0, plusMinus: null, unit: distance.unit }, 'length');
  const far = echo({ ...distance, plusMinus: null }, 'length');
  return [
    change(document, `${found.path}.route`, [
      { name: 'Handle', x: nought, y: nought, z: nought },
      { name: 'Conduit end at the lever', x: far, y: nought, z: nought },
    ]),
  ];
}

/**
 * What two readings at the handle said of the core, written down as friction and drag, and the readings put away: they were
 * taken on the run as it was, and another run would be read into them anew.
 */
export function keepFriction(document: Job, { friction, frictionLow, frictionHigh, drag_N }: Calibrated): Change[] {
  const found = cableOf(document);
  if (found === null || found.cable.readings === undefined) return [];
  const digits = (value: number) => Number(value.toPrecision(3));
  const half = Math.max(frictionHigh - friction, friction - frictionLow);
  return [
    change(document, `${found.path}.friction`, `${digits(friction)} ± ${digits(half)}`),
    change(document, `${found.path}.drag`, `${digits(drag_N)} N`),
    change(document, `${found.path}.readings`, undefined),
  ];
}
