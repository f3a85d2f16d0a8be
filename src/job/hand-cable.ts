/**
 * A flexible cable, pulled or pushed by hand: from the handle along its route to the lever.
 *
 * The route has a frame of its own: x and y in plan, z up, any origin. The lever end stands in the frame of the lever.
 */
import { z } from 'zod';
import { defaulted, reading } from './fields.ts';
import { angle, clearance, force, length, point, text } from './kinds-of-reading.ts';

const away = (description: string) => reading('length', description, { least: -1000, most: 1000 });

const corner = z.strictObject({
  name: text('what is there', 80).optional(),
  x: away('in plan, to the right'),
  y: away('in plan, to the top of the sheet'),
  z: away('height'),
  radius: reading('length', 'radius of the bend at this corner; of no use at both ends of the run', {
    above: 0,
    most: 100,
  }).optional(),
});

const route = z
  .array(corner)
  .max(400)
  .meta({
    description:
      'from the end of the conduit at the handle to its end at the lever: both ends, and the corner of each bend between; '
      + 'empty: not drawn, then length and bends of the run count',
  });

const handle = z.strictObject({
  kind: z.literal(['knob', 'T-handle', 'lever', 'pedal', 'not measured']),
  posture: z
    .literal(['standing', 'seated', 'not measured'])
    .meta({ description: 'how the person stands or sits who works it' }),
  travel: length('travel that the handle has'),
  ratio: defaulted('ratio', 'travel of hand or foot over travel of the core; default 1', { above: 0, most: 50 }),
  allowed: defaulted('force', 'effort that is acceptable at this handle; left out: from published limits', {
    above: 0,
    most: 2000,
  }),
});

const crank = z.strictObject({
  mainArm: length('from the pivot to the core of the main run'),
  secondArm: length('from the pivot to the core of the second route'),
  pinDiameter: defaulted('length', 'pin on which it turns; default 10 mm', { above: 0, most: 1 }),
  friction: defaulted('ratio', 'of its pivot; default 0.15', { least: 0, most: 1.5 }),
});

/** Another place from which the same lever is worked by cable. */
const secondStation = z.strictObject({
  name: text('who works it, and from where', 80),
  by: z
    .literal(['tee', 'bell-crank', 'second cable'])
    .meta({ description: 'how it joins: into the same core, by a crank with two arms, or to the lever itself' }),
  joins: reading(
    'length',
    'along the conduit of the main run, from its end at the handle to the tee or bell-crank; of no use for a second cable',
    { least: 0, most: 1000 },
  ).optional(),
  crank: crank.meta({ description: 'arms of the bell-crank, at a right angle; of no use otherwise' }).optional(),
  route: route.meta({
    description:
      'from the end of the conduit at the second handle to the tee, bell-crank or lever: both ends, and the corner of each '
      + 'bend between; empty: not drawn',
  }),
});

export const handCable = z.strictObject({
  kind: z.literal('hand cable'),
  handle,
  route,
  core: z.strictObject({
    construction: z.literal([
      'solid wire',
      'strand 1x19, stainless',
      'strand 7x7, stainless',
      'strand 7x19, stainless',
      'strand 1x19, galvanised',
      'strand 7x7, galvanised',
      'strand 7x19, galvanised',
      'not measured',
    ]),
    diameter: length('diameter of the core'),
    moves: z
      .literal(['by pulling only', 'by pulling and pushing', 'not measured'])
      .meta({ description: 'whether this core may be pushed' }),
    leastRadius: defaulted('length', 'least radius of a bend that its maker allows; default 200 mm', {
      above: 0,
      most: 10,
    }),
  }),
  conduit: z.strictObject({
    bore: length('bore of the conduit or its liner'),
    lining: z
      .literal(['PTFE', 'plastic', 'steel, greased', 'steel, dry', 'corroded or dirty', 'not measured'])
      .meta({ description: 'what the core slides on' }),
    stiffness: defaulted('force', 'force that would shorten it by its own length; default 100 kN', {
      above: 0,
      most: 1e9,
    }),
  }),
  towardsStop: z
    .literal(['pulled', 'pushed', 'not measured'])
    .meta({ description: 'what the core does to take the lever to stop' }),
  friction: defaulted('ratio', 'core in conduit; left out: by its lining', { least: 0, most: 1.5 }),
  ageing: defaulted('ratio', 'friction when worn over friction now; default 2', { least: 1, most: 20 }),
  drag: defaulted('force', 'of seals and stiff core, with nothing connected; default 3 N', { least: 0, most: 1000 }),
  readings: z
    .strictObject({
      free: force('balance at the handle, core moved with the lever end free'),
      connected: force('balance at the handle, the most while the lever is taken from run to stop'),
      travel: defaulted('length', 'travel of the handle from rest until fuel is off', { above: 0, most: 10 }),
    })
    .meta({ description: 'a spring balance at the handle of this very cable, in place of what is assumed' })
    .optional(),
  leverEnd: z.strictObject({
    conduitEnd: point('where the conduit ends, in the frame of the lever'),
    radius: length('from the shaft centre to where the core is fastened'),
    angle: angle('direction of that point from the shaft centre, minus shaft angle'),
    fitting: z.literal(['nipple', 'clamp', 'swivel', 'not measured']),
    slack: clearance('how far the core moves before it takes the lever along (slot, chain, loose nipple); 0 mm: none'),
    swing: defaulted('angle', 'how far the core may stand off the axis of the conduit end; default by fitting', {
      above: 0,
      most: Math.PI / 2,
    }),
    conduitDirection: defaulted(
      'angle',
      'direction in which the core leaves the conduit; left out: at the middle of its swing',
      { least: -4 * Math.PI, most: 4 * Math.PI },
    ),
  }),
  secondStation: z.union([z.literal(['none', 'not measured']), secondStation]),
});
