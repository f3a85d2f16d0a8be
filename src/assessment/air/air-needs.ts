/** Which readings the questions of an air cylinder rest on, as paths. */
import { mechanicalNeedsOf, type MechanicalNeeds } from '../needs.ts';
import type { AirJob } from './air-rig.ts';

export interface AirNeeds {
  readonly mechanical: MechanicalNeeds;
  /** What its rod gives at the lowest and at the highest pressure. */
  readonly forceLow: readonly string[];
  readonly forceHigh: readonly string[];
  readonly vessel: readonly string[];
  /** Its chambers and the way of the air. */
  readonly flow: readonly string[];
  readonly coldest: readonly string[];
  readonly hottest: readonly string[];
}

const own = (...names: string[]): readonly string[] => names.map((name) => `means.${name}`);

export function airNeedsOf({ job }: { readonly job: AirJob }): AirNeeds {
  const { means, survey } = job;
  const isTold = typeof survey.air !== 'string';
  const air = (name: 'low' | 'high' | 'reservoir') => [isTold ? `survey.air.${name}` : 'survey.air'];
  return {
    mechanical: mechanicalNeedsOf(job, {
      travel: own('stroke', 'works'),
      guide: {
        length: 'means.guideLength',
        overhang: 'means.overhang',
        clearance: 'means.rodClearance',
        diameter: 'means.rod',
      },
      action: own('action'),
      mass: [],
      switchForce: [],
      // The drag of its seals, where that was not read, goes by its bore.
      sticking: means.sealDrag === undefined ? own('bore') : [],
      springInside:
        means.returns === 'by air'
          ? []
          : typeof means.returns === 'string'
            ? own('returns')
            : own('returns.preload', 'returns.rate'),
    }),
    forceLow: [...own('bore', 'rod', 'stroke', 'action'), ...air('low')],
    forceHigh: [...own('bore', 'rod', 'stroke', 'action'), ...air('high')],
    vessel: air('reservoir'),
    flow: own('valve', 'exhaust', 'line.bore', 'line.length'),
    coldest: ['surroundings.coldest'],
    hottest: ['surroundings.hottest'],
  };
}
