/** Installations with a hand cable, so that every kind of part occurs in at least one. */
import type { HandCable, Job } from '../../../src/job/schema.ts';
import { changed, demo } from '../../job/jobs.ts';

export interface Installation {
  readonly name: string;
  readonly job: Job & { readonly means: HandCable };
}

/** The demonstration without its readings at the handle: friction by the lining. */
export const byLining = changed(demo('ferry'), { 'means.readings': undefined });

const leverSpring = {
  on: 'lever',
  name: 'Helper spring',
  kind: 'extension',
  anchor: { x: '90 mm', y: '20 mm' },
  radius: '40 mm',
  angle: '-3°',
  spring: { by: 'rate', rate: '0.1 N/mm', freeLength: '40 mm', limitLength: '130 mm' },
};

/** On the far side of the lever: what is pulled in the demonstration is pushed here. */
const pushed = {
  'means.towardsStop': 'pushed',
  'means.core.construction': 'solid wire',
  'means.core.diameter': '2.5 mm',
  'means.core.moves': 'by pulling and pushing',
  'means.leverEnd.conduitEnd': { x: '85 mm', y: '-52 mm' },
  'means.leverEnd.slack': '0 mm',
};

/** The engine-room door, by a cable of its own. */
export const second = {
  name: 'Engine-room door',
  by: 'second cable',
  route: [
    { x: '0 mm', y: '0 mm', z: '1200 mm' },
    { x: '0 mm', y: '0 mm', z: '600 mm', radius: '220 mm' },
    { x: '900 mm', y: '0 mm', z: '600 mm' },
  ],
};

const list: readonly (readonly [string, Job])[] = [
  ['ferry', demo('ferry')],
  ['friction by the lining', byLining],
  [
    'friction stated, limit stated, a spring on the lever',
    changed(byLining, {
      'means.friction': '0.12 ± 0.02',
      'means.handle.allowed': '90 N',
      'means.handle.ratio': '1.5',
      'means.leverEnd.swing': '8°',
      'means.leverEnd.conduitDirection': '128°',
      'return.springs': [leverSpring],
    }),
  ],
  [
    'route not drawn, first pull not read',
    changed(byLining, { 'means.route': [], 'survey.effort.firstPull': undefined }),
  ],
  ['pushed', changed(byLining, pushed)],
  ['second cable', changed(byLining, { 'means.secondStation': second })],
  ['tee', changed(byLining, { 'means.secondStation': { ...second, by: 'tee', joins: '2.4 m' } })],
  [
    'bell-crank, pushed',
    changed(byLining, {
      ...pushed,
      'means.secondStation': {
        ...second,
        by: 'bell-crank',
        joins: '3.1 m',
        crank: { mainArm: '60 mm', secondArm: '80 mm' },
      },
    }),
  ],
  [
    'pedal, pushed by two bends',
    changed(byLining, {
      ...pushed,
      'means.handle.kind': 'pedal',
      'means.route': [],
      'survey.run.bends': 2,
      'survey.run.bendTotal': '90°',
    }),
  ],
];

export const cables: readonly Installation[] = list.map(([name, job]) => ({ name, job: withCable(job) }));

export function withCable(job: Job): Installation['job'] {
  if (job.means.kind !== 'hand cable') throw new Error('not a hand cable');
  return job as Installation['job'];
}
