/** The other place of control out of a job document. Readings that were not taken are NaN or null. */
import type { HandCable } from '../../job/schema.ts';
import { frictionCircle } from '../../physics/cable/bell-crank.ts';
import { lengthOf } from '../../physics/cable/route.ts';
import { valueOf, type DefaultReader } from '../readings.ts';
import type { Words } from '../words.ts';
import { routeOf, type Course } from './course.ts';
import type { CablePrefix, CableRig } from './rig.ts';

export interface Second {
  /** Who works it, and from where. */
  readonly name: string;
  readonly by: 'tee' | 'bell-crank' | 'second cable';
  /** From the second handle to where it joins; null where it is not known. */
  readonly course: Course | null;
  /** Along the main run from the handle, m; of no use for a second cable. */
  readonly joins: number;
  /** Null where it is not told. */
  readonly crank: Crank | null;
}

/** m */
export interface Crank {
  readonly mainArm: number;
  readonly secondArm: number;
  readonly frictionCircle: number;
}

/** Null where there is no other place, or it is not known whether there is. */
export function secondOf({ secondStation }: HandCable, reader: DefaultReader, prefix: CablePrefix): Second | null {
  if (typeof secondStation === 'string') return null;
  const { name, by, route, joins, crank } = secondStation;
  return {
    name,
    by,
    course: routeOf(route),
    joins: joins === undefined ? NaN : valueOf(joins, 'length'),
    crank: by === 'bell-crank' && crank !== undefined ? crankOf(crank, reader, prefix) : null,
  };
}

type CrankAsTold = NonNullable<Exclude<HandCable['secondStation'], string>['crank']>;

function crankOf(told: CrankAsTold, reader: DefaultReader, prefix: CablePrefix): Crank {
  const at = (name: 'pinDiameter' | 'friction') => `secondStation.crank.${name}` as const;
  const pin = at('pinDiameter');
  const rubs = at('friction');
  return {
    mainArm: valueOf(told.mainArm, 'length'),
    secondArm: valueOf(told.secondArm, 'length'),
    frictionCircle: frictionCircle(
      reader.value(`${prefix}.${pin}`, told.pinDiameter, 'length', `means.${pin}`),
      reader.value(`${prefix}.${rubs}`, told.friction, 'ratio', `means.${rubs}`),
    ),
  };
}

/** Why nothing can be reckoned of the other place although no reading is marked as not taken; null where something can. */
export function secondUnread(
  { cable, second, course, prefix }: CableRig,
  say: Words,
): { readonly because: string; readonly readings: readonly string[] } | null {
  if (second === null || typeof cable.secondStation === 'string') return null;
  const at = (name: string) => [`${prefix}.secondStation.${name}`];
  const { by, joins } = second;
  if (cable.secondStation.route.length === 0)
    return { because: 'The route of the other place of control is not drawn.', readings: at('route') };
  if (second.course === null || second.course.pieces.length === 0)
    return {
      because:
        'The route of the other place of control has no shape: two ends apart, and a radius for each bend between.',
      readings: at('route'),
    };
  if (by === 'second cable') return null;
  if (Number.isNaN(joins))
    return { because: `Where the ${by} stands on the main run is not told.`, readings: at('joins') };
  if (by === 'bell-crank' && second.crank === null)
    return { because: 'The arms of the bell-crank are not told.', readings: at('crank') };
  const run = course === null ? NaN : lengthOf(course.pieces);
  if (joins > run)
    return {
      because: `The ${by} is told to stand at ${say.length(joins)} along a run of ${say.length(run)}: from 0 to ${say.length(run)} would do.`,
      readings: at('joins'),
    };
  return null;
}
