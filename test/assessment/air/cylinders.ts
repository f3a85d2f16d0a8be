/** Invented installations with an air cylinder: by a spring and by air, to stop and to run, each kind of connection. */
import type { Job } from '../../../src/job/schema.ts';
import { changed, demo } from '../../job/jobs.ts';

const springReturn = {
  kind: 'air cylinder',
  works: 'air to stop',
  action: 'pull',
  bore: '25 mm',
  rod: '10 mm',
  stroke: '40 mm',
  guideLength: '28 mm',
  overhang: '22 mm',
  rodClearance: '0.06 mm',
  returns: { preload: '18 N', rate: '0.4 N/mm' },
  valve: '1.1 L/(s bar)',
  exhaust: '0.8 L/(s bar)',
  line: { bore: '4 mm', length: '5 m' },
};

const air = { low: '5 bar', high: '8 bar', reservoir: '12 L' };

/** The railcar's lever on its slot. */
const slotted = changed(demo('railcar'), { means: springReturn, 'survey.air': air, 'return.springs': [] });

export const cylinders: readonly { readonly name: string; readonly job: Job }[] = [
  { name: 'spring brings it back', job: slotted },
  { name: 'air brings it back', job: changed(slotted, { 'means.returns': 'by air' }) },
  {
    name: 'with a return spring on the lever and an over-travel spring',
    job: changed(slotted, {
      'return.springs': demo('railcar').return.springs,
      'layout.homePin.x': '-13.5 mm',
      'layout.overTravel': { preload: '90 N', rate: '3 N/mm', travel: '8 mm' },
    }),
  },
  {
    name: 'air to run on a link, pushed',
    job: changed(demo('pump-house'), {
      means: { ...springReturn, works: 'air to run', action: 'push', bore: '32 mm', rod: '12 mm' },
      'survey.air': air,
    }),
  },
  {
    name: 'short chain',
    job: changed(demo('pump-house'), {
      means: { ...springReturn, works: 'air to run', sealDrag: '4 N', deadVolume: '6 mL' },
      'survey.air': air,
      'layout.connection': { kind: 'short chain', length: '60 mm', armRadius: '45 mm' },
    }),
  },
  {
    name: 'plain pin, what the lever bears being known',
    job: changed(demo('binding-pin'), {
      means: { ...springReturn, stroke: '25 mm' },
      'survey.air': air,
      'survey.lever.bears': '12 N m',
    }),
  },
];
