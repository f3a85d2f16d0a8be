import type { ReturnSpring } from '../job/schema.ts';

/** Readings that the force, or the moment, of a return spring rests on. */
export function springPaths(spring: ReturnSpring, path: string): readonly string[] {
  const place = { lever: ['anchor.x', 'anchor.y', 'radius', 'angle'], plunger: ['lengthAtHome'], shaft: [] }[spring.on];
  const [free, at, load] = spring.on === 'shaft' ? ['freeAngle', 'angle', 'moment'] : ['freeLength', 'length', 'force'];
  const own = {
    rate: ['rate', free],
    dimensions: ['wireDiameter', 'outsideDiameter', 'activeTurns', free],
    'two readings': ['first', 'second'].flatMap((reading) => [`${reading}.${at}`, `${reading}.${load}`]),
  }[spring.spring.by];
  return [...place.map((name) => `${path}.${name}`), ...own.map((name) => `${path}.spring.${name}`)];
}
