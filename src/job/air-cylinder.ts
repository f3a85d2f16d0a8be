/** A cylinder that moves the lever by compressed air; the air itself belongs to the survey. */
import { z } from 'zod';
import { defaulted, reading } from './fields.ts';
import { clearance, force, length, pressure } from './kinds-of-reading.ts';

/** What there is of compressed air, whoever uses it. */
export const air = z
  .union([
    z.literal(['none', 'not measured']),
    z.strictObject({
      low: pressure('lowest pressure above atmosphere at which the engine must still stop'),
      high: pressure('highest pressure above atmosphere'),
      reservoir: reading('volume', 'of the air vessel that feeds it', { above: 0, most: 100 }),
    }),
  ])
  .meta({ description: 'compressed air on board or on site' });

const flow = (description: string) => reading('sonicConductance', description, { above: 0, most: 1e-5 });

export const airCylinder = z.strictObject({
  kind: z.literal('air cylinder'),
  works: z.literal(['air to stop', 'air to run', 'not measured']),
  action: z
    .literal(['pull', 'push', 'not measured'])
    .meta({ description: 'whether the rod draws in or comes out when air is let in' }),
  bore: length('bore of the cylinder'),
  rod: length('diameter of the rod'),
  stroke: length('travel of the rod'),
  guideLength: length('length of the bearing that guides the rod'),
  overhang: clearance('from the mouth of that bearing to the pin, rod in'),
  rodClearance: clearance('bore of that bearing minus rod diameter'),
  movingMass: defaulted('mass', 'piston, rod and clevis; default 0.2 kg', { above: 0, most: 50 }),
  efficiency: defaulted('ratio', 'force at the rod over pressure times area; default 0.85', { above: 0, most: 1 }),
  sealDrag: defaulted('force', 'friction of its seals without air; default a fifth of a bar times its area', {
    least: 0,
    most: 1e5,
  }),
  returns: z.union([
    z.literal(['by air', 'not measured']),
    z.strictObject({
      preload: force('of the spring inside, with the rod where no air leaves it'),
      rate: reading('springRate', 'of the spring inside', { least: 0, most: 1e6 }),
    }),
  ]),
  valve: flow('of the valve from air to cylinder, ISO 6358'),
  exhaust: flow('of the way out with its silencer or restrictor, ISO 6358'),
  criticalRatio: defaulted('ratio', 'critical pressure ratio of valve and way out, ISO 6358; default 0.3', {
    least: 0,
    most: 0.528,
  }),
  line: z.strictObject({
    bore: length('bore of the pipe between valve and cylinder'),
    length: reading('length', 'length of that pipe', { least: 0, most: 1e3 }),
  }),
  deadVolume: defaulted(
    'volume',
    'left in the cylinder at the end of its travel; default a tenth of its swept volume',
    {
      least: 0,
      most: 1,
    },
  ),
});
