/**
 * What a search may change: the space that the survey allows, as numbers, with a stated default for every limit that the
 * job leaves out.
 */
import { valueOf } from '../../assessment/readings.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import type { Connection } from '../../job/schema.ts';
import { toSI } from '../../units/quantity.ts';
import type { Shape } from './keep-out.ts';

export type ConnectionKind = Connection['kind'];

export interface Range {
  readonly from: number;
  readonly to: number;
}

export interface Space {
  /** Of the home pin, m. */
  readonly x: Range;
  readonly y: Range;
  /** Of the pull, rad. */
  readonly direction: Range;
  readonly connections: readonly ConnectionKind[];
  /** Distances from the shaft centre, m; null where a hole may be drilled anywhere in `armRange`. */
  readonly armHoles: readonly number[] | null;
  readonly armRange: Range;
  /** Lengths of links and chains, m; null where one may be made as long as wanted in `linkRange`. */
  readonly links: readonly number[] | null;
  readonly linkRange: Range;
  readonly keepOut: readonly Shape[];
  /** Smallest step of a place, m, and of a direction, rad, that is worth setting. */
  readonly placeStep: number;
  readonly directionStep: number;
  /** Limits that the job does not state, in words. */
  readonly assumed: readonly string[];
}

const MM = toSI(1, 'mm');
const DEGREE = toSI(1, '°');

const allKinds: readonly ConnectionKind[] = ['slotted lever', 'pinned link', 'short chain', 'plain pin'];

/** Null where a reading that every layout rests on is missing: then nothing can be searched. */
export function spaceOf(job: SolenoidJob): Space | null {
  const { layout, space } = job;
  const x = valueOf(layout.homePin.x, 'length');
  const y = valueOf(layout.homePin.y, 'length');
  const direction = valueOf(layout.pullDirection, 'angle');
  const stroke = valueOf(job.means.plunger.stroke, 'length');
  if (Number.isNaN(x + y + direction + stroke)) return null;
  const assumed: string[] = [];
  const stated = (
    range: { readonly from: string; readonly to: string } | undefined,
    dimension: 'length' | 'angle',
    usual: Range,
    words: string,
  ): Range => {
    const ends = range === undefined ? [NaN, NaN] : [valueOf(range.from, dimension), valueOf(range.to, dimension)];
    if (ends.some(Number.isNaN)) {
      assumed.push(words);
      return usual;
    }
    return { from: Math.min(...ends), to: Math.max(...ends) };
  };
  const lengths = (list: readonly string[] | undefined): readonly number[] | null => {
    const known = (list ?? []).map((text) => valueOf(text, 'length')).filter((one) => one > 0);
    return known.length === 0 ? null : known.sort((a, b) => a - b);
  };
  const around = (middle: number, half: number): Range => ({ from: middle - half, to: middle + half });
  const arm = armOf(job, x, y);
  const armHoles = lengths(space?.armHoles);
  const links = lengths(space?.links);
  if (armHoles === null)
    assumed.push('a hole may be drilled in the arm, or a slot cut, at 0.6 to 1.5 of its present radius');
  if (links === null) assumed.push('a link or chain of any length between the stroke and three times it can be had');
  if (space?.connections === undefined) assumed.push('every kind of connection can be made');
  const found = {
    x: stated(
      space?.bracket?.x,
      'length',
      around(x, 40 * MM),
      'the bracket may be put 40 mm left or right of where it is',
    ),
    y: stated(
      space?.bracket?.y,
      'length',
      around(y, 40 * MM),
      'the bracket may be put 40 mm below or above where it is',
    ),
    direction: stated(
      space?.direction,
      'angle',
      around(direction, 20 * DEGREE),
      'the bracket may be turned 20° either way',
    ),
  };
  if (space?.keepOut === undefined) assumed.push('nothing stands in the way');
  return {
    ...found,
    connections:
      space?.connections === undefined ? allKinds : allKinds.filter((kind) => space.connections?.includes(kind)),
    armHoles,
    armRange: armHoles === null ? { from: 0.6 * arm, to: 1.5 * arm } : { from: armHoles[0], to: armHoles.at(-1)! },
    links,
    linkRange: links === null ? { from: stroke, to: 3 * stroke } : { from: links[0], to: links.at(-1)! },
    keepOut: (space?.keepOut ?? []).flatMap(shapeOf),
    placeStep: quantityIn(layout.homePin.x, 'length')?.unit === 'in' ? toSI(1 / 64, 'in') : 0.5 * MM,
    directionStep: 0.5 * DEGREE,
    assumed,
  };
}

/** Radius of the arm as it is: its hole, or the pin in its slot at home, m. */
function armOf({ layout }: SolenoidJob, x: number, y: number): number {
  const { connection } = layout;
  const hole = connection.kind === 'slotted lever' ? NaN : valueOf(connection.armRadius, 'length');
  return hole > 0 ? hole : Math.hypot(x, y);
}

type Drawn = NonNullable<NonNullable<SolenoidJob['space']>['keepOut']>[number];

/** A shape with a measure that was not taken bars nothing. */
function shapeOf(one: Drawn): Shape[] {
  const at = ({ x, y }: { readonly x: string; readonly y: string }) =>
    [valueOf(x, 'length'), valueOf(y, 'length')] as const;
  if (one.shape === 'circle') {
    const [x, y] = at(one.centre);
    const radius = valueOf(one.radius, 'length');
    return Number.isNaN(x + y + radius) ? [] : [{ shape: 'circle', name: one.name, x, y, radius }];
  }
  const [ax, ay] = at(one.from);
  const [bx, by] = at(one.to);
  if (Number.isNaN(ax + ay + bx + by)) return [];
  return [
    {
      shape: 'rectangle',
      name: one.name,
      left: Math.min(ax, bx),
      right: Math.max(ax, bx),
      bottom: Math.min(ay, by),
      top: Math.max(ay, by),
    },
  ];
}
