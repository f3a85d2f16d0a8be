/**
 * The drawer document: what lies at hand, springs, solenoids, electric cables and hand cables, and where on the job a spring may be hooked.
 *
 * Quantities are text as typed, "not measured" where a reading was not taken, as in a job document.
 */
import { z } from 'zod';
import { defaulted, reading } from '../fields.ts';
import { angle, length, point, text } from '../kinds-of-reading.ts';
import { handCable } from '../hand-cable.ts';
import { linearSpring, solenoid, torsionByDimensions, type DeepReadonly } from '../schema.ts';

export const DRAWER_FORMAT = 'stopwright drawer';
export const DRAWER_VERSION = 1;
export const MOST_SPRINGS = 20_000;

const item = {
  name: z.string().min(1).max(80).meta({ description: 'what it is called' }),
  count: z.int().min(0).max(1_000_000).meta({ description: 'how many are there; left out: 1' }).optional(),
  place: text('where in the drawer it lies', 80).optional(),
  note: text('anything worth knowing', 400).optional(),
};

const mostWound = () => angle('how far it may be wound from rest at most');
const wound = (description: string) =>
  z
    .strictObject({
      wound: angle('how far it is wound from rest'),
      moment: reading('torque', 'that it holds there', { least: 0, most: 1e4 }),
    })
    .meta({ description });

/** A torsion spring in the hand: its legs may be set to rest anywhere on the shaft. */
const torsionInHand = z.discriminatedUnion('by', [
  z.strictObject({
    by: z.literal('rate'),
    rate: reading('torsionRate', 'moment for each degree', { above: 0, most: 1e5 }),
    mostWound: mostWound(),
  }),
  z.strictObject(torsionByDimensions),
  z.strictObject({
    by: z.literal('two readings'),
    first: wound('one winding and the moment there'),
    second: wound('another winding, as far from the first as the lever swings, and the moment there'),
    mostWound: mostWound(),
  }),
]);

const drawerSpring = z.discriminatedUnion('kind', [
  z.strictObject({
    ...item,
    kind: z.literal(['extension', 'compression']).meta({ description: 'whether it is drawn or pressed' }),
    spring: linearSpring,
  }),
  z.strictObject({ ...item, kind: z.literal('torsion'), spring: torsionInHand }),
]);

const drawerSolenoid = z.strictObject({
  ...item,
  stroke: length('travel of the plunger from home to its outer stop'),
  action: z.literal(['pull', 'push']),
  nominal: z.literal([12, 24, 32]).meta({ description: 'nominal volts' }),
  pulls: z.discriminatedUnion('by', [
    z.strictObject({
      by: z.literal('table'),
      voltage: reading('voltage', 'volts at the coil while the pulls were read', { above: 0, most: 1000 }),
      coilTemperature: reading('temperature', 'of the coil while the pulls were read', { least: 173.15, most: 773.15 }),
      rows: z
        .array(
          z.strictObject({
            gap: reading('length', 'gap from home', { least: 0, most: 1 }),
            force: reading('force', 'pull read at this gap', { above: 0, most: 1e5 }),
          }),
        )
        .min(1)
        .max(500),
    }),
    z.strictObject({
      by: z.literal('solenoid document'),
      name: z.string().min(1).max(120).meta({ description: 'the name that the solenoid document bears' }),
    }),
  ]),
  readings: solenoid
    .omit({ kind: true, works: true, action: true })
    .extend({
      plunger: solenoid.shape.plunger
        .omit({ stroke: true })
        .meta({ description: 'the plunger, its stroke told above' }),
    })
    .meta({
      description:
        'everything else that a job asks of its solenoid; "force" holds pulls of other states of the coil. '
        + 'Left out: not measured, and what rests on it is not known',
    })
    .optional(),
});

const drawerCable = z.strictObject({
  ...item,
  section: reading('area', 'copper section of each conductor', { above: 0, most: 1e-2 }),
  cores: z.int().min(1).max(100).meta({ description: 'conductors in it' }),
  length: reading('length', 'what is left of it', { least: 0, most: 1e5 }),
});

const drawerHandCable = z.strictObject({
  ...item,
  length: length('from end to end of its conduit'),
  core: handCable.shape.core,
  conduit: handCable.shape.conduit,
  friction: handCable.shape.friction,
  drag: handCable.shape.drag,
});

/** Where springs may be hooked or seated, beyond what the job says. */
const places = z
  .strictObject({
    anchors: z
      .array(z.strictObject({ name: text('what the hole is called', 80), at: point('centre of the hole') }))
      .max(200)
      .meta({ description: 'holes for the fixed end; given, only these are tried' })
      .optional(),
    slide: z
      .strictObject({
        towards: defaulted('length', 'towards the lever; default 25 mm', { least: 0, most: 1 }),
        away: defaulted('length', 'away from the lever; default 25 mm', { least: 0, most: 1 }),
        step: defaulted('length', 'from one place to the next; default 1 mm', { least: 1e-4, most: 0.1 }),
      })
      .meta({ description: 'how far the present anchor may be moved along its spring, where no holes are given' })
      .optional(),
    plunger: z
      .strictObject({
        roomAtHome: length('room for a spring round the plunger, from seat to seat, with the plunger home'),
        outsideMost: length('bore that the spring must go into'),
      })
      .meta({ description: 'room for a compression spring round the plunger' })
      .optional(),
    shaft: z
      .strictObject({
        diameter: length('of the shaft, or of the mandrel that the coil goes over'),
        outsideMost: length('room for the coil'),
      })
      .meta({ description: 'room for a torsion spring round the shaft of the lever' })
      .optional(),
  })
  .meta({ description: 'where a spring may be hooked or seated' });

export const drawerSchema = z
  .strictObject({
    format: z.literal(DRAWER_FORMAT),
    version: z.literal(DRAWER_VERSION),
    name: z.string().min(1).max(120).meta({ description: 'what this drawer is called' }),
    notes: text('anything worth keeping', 20000),
    places: places.optional(),
    springs: z.array(drawerSpring).max(MOST_SPRINGS),
    solenoids: z.array(drawerSolenoid).max(500),
    cables: z.array(drawerCable).max(500).meta({ description: 'electric cables' }),
    handCables: z.array(drawerHandCable).max(500).meta({ description: 'flexible cables pulled by hand' }).optional(),
  })
  .meta({
    title: 'Stopwright drawer document',
    description:
      'What lies at hand: springs, solenoids, electric cables, hand cables, and where a spring may be hooked.',
  });

export type Drawer = DeepReadonly<z.infer<typeof drawerSchema>>;
export type DrawerSpring = Drawer['springs'][number];
export type TorsionInHand = Extract<DrawerSpring, { readonly kind: 'torsion' }>;
export type LinearInHand = Exclude<DrawerSpring, TorsionInHand>;
export type DrawerSolenoid = Drawer['solenoids'][number];
