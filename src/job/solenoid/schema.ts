/**
 * The solenoid document: one plunger solenoid as it lies stripped on the bench, with what was read on it.
 *
 * The single source of the TypeScript types, of validation and of the published JSON Schema
 * (`schema/solenoid.schema.json`). Quantities are text as typed (`../fields.ts`); a reading that was not taken holds
 * `not measured`. What a caliper measures across is a diameter here. docs/solenoid-document.md says where each is taken.
 */
import { z } from 'zod';
import { reading } from '../fields.ts';

export const SOLENOID_FORMAT = 'stopwright solenoid';
export const SOLENOID_VERSION = 1;

const text = (description: string, most: number) => z.string().max(most).meta({ description });
const length = (description: string) => reading('length', description, { above: 0, most: 10 });
const lengthOrNone = (description: string) => reading('length', description, { least: 0, most: 10 });
const temperature = (description: string) => reading('temperature', description, { least: 173.15, most: 773.15 });
const none = (description: string) => z.literal('none').meta({ description });

const plunger = z.strictObject({
  diameter: length('diameter where the plunger runs in the top plate'),
  length: length('from the shoulder (of a flat plunger: its pole face) to the tail'),
  stroke: length('travel from home to the outer stop'),
  bore: z.union([
    none('no hole along the axis'),
    z.strictObject({
      from: z.literal(['tip', 'tail']).meta({ description: 'which end the hole was drilled from' }),
      diameter: length('diameter of the hole along the axis'),
      depth: length('depth of the hole; as long as the plunger: right through'),
    }),
  ]),
});

const seat = z.strictObject({
  diameter: length('diameter of the fixed core that the plunger comes home on'),
  faceBelowTop: length('from the outer face of the top plate down to the face, or to the rim of the cone'),
  shape: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('flat') }),
    z.strictObject({
      kind: z.literal('cone'),
      includedAngle: reading('angle', 'angle from one flank of the cone to the other', { above: 0, most: Math.PI }),
      tipDiameter: length('flat at the tip of the plunger and at the bottom of the cone'),
    }),
  ]),
  residualShim: lengthOrNone('thickness of a shim or plating that is not magnetic, left between the faces at home'),
});

const steel = z.discriminatedUnion('by', [
  z.strictObject({
    by: z.literal('table'),
    table: z
      .literal(['low-carbon steel plate', 'structural steel', 'medium-carbon steel bar'])
      .meta({ description: 'one of the published magnetisation tables that are built in' }),
  }),
  z.strictObject({
    by: z.literal('own readings'),
    source: text('where the readings come from', 400),
    rows: z
      .array(
        z.strictObject({
          fluxDensity: reading('magneticFluxDensity', 'flux density in the steel', { least: 0, most: 10 }),
          fieldStrength: reading('magneticFieldStrength', 'field strength that it takes', { least: 0, most: 1e7 }),
        }),
      )
      .min(4)
      .max(500)
      .meta({ description: 'initial magnetisation curve, rising from 0 T at 0 A/m' }),
  }),
]);

const coil = z.strictObject({
  insideDiameter: length('inside diameter of the winding itself: outside of the bobbin or paper'),
  outsideDiameter: length('outside diameter of the winding itself'),
  bottomCheek: lengthOrNone('from the bottom plate to the winding: cheek of the bobbin and any washer'),
  topCheek: lengthOrNone('from the winding to the top plate'),
  resistance: reading('resistance', 'ohms of the winding', { above: 0, most: 1e5 }),
  readAt: temperature('temperature of the coil when its ohms were read'),
  wireDiameter: reading('length', 'bare diameter of the wire, enamel taken off', { above: 0, most: 0.01 }),
  turns: z
    .union([z.int().min(1).max(1_000_000), z.literal('not measured')])
    .meta({ description: 'turns, if a plate or drawing says them or they were counted; else "not measured"' }),
  ratedVoltage: reading('voltage', 'volts that the solenoid works on', { above: 0, most: 1000 }),
});

const drive = z.discriminatedUnion('by', [
  z.strictObject({
    by: z.literal('voltage'),
    voltage: reading('voltage', 'volts at the coil while the pull was read', { above: 0, most: 1000 }),
    coilTemperature: temperature('temperature of the coil while the pull was read'),
  }),
  z.strictObject({
    by: z.literal('current'),
    current: reading('current', 'amps in the coil while the pull was read', { above: 0, most: 1000 }),
  }),
  z.strictObject({
    by: z.literal('ampere-turns'),
    ampereTurns: reading('current', 'ampere-turns while the pull was read, typed as amps', { above: 0, most: 1e6 }),
  }),
]);

const pull = z.strictObject({
  gap: lengthOrNone('gap from home at which the balance was read'),
  pull: reading('force', 'magnetic pull: what the balance showed less spring and weight of the plunger', {
    above: 0,
    most: 1e5,
  }),
  drive: drive.meta({ description: 'what drove the coil' }),
});

export const solenoidSchema = z
  .strictObject({
    format: z.literal(SOLENOID_FORMAT),
    version: z.literal(SOLENOID_VERSION),
    name: z.string().min(1).max(120).meta({ description: 'what this solenoid is called on the shelf' }),
    notes: text('anything worth keeping', 20000),
    can: z
      .strictObject({
        outsideDiameter: length('outside diameter of the can'),
        wall: length('thickness of its wall'),
        length: length('length over both plates'),
      })
      .meta({ description: 'the steel tube around the coil, plates included' }),
    plates: z
      .strictObject({
        bottom: length('thickness of the plate that carries the seat'),
        top: length('thickness of the plate that the plunger enters through'),
      })
      .meta({ description: 'the two steel plates that close the can' }),
    plunger: plunger.meta({ description: 'the moving core' }),
    radialClearance: length(
      'between plunger and top plate on each side, as the field sees it: a brass tube there counts as clearance',
    ),
    seat: seat.meta({ description: 'the fixed core at the bottom, and what lies between the faces' }),
    guideTube: z.union([
      none('the plunger runs in the bobbin or the plates'),
      z.strictObject({
        insideDiameter: length('inside diameter of the tube'),
        outsideDiameter: length('outside diameter of the tube'),
      }),
    ]),
    steel: steel.meta({ description: 'what can, plates, seat and plunger are made of' }),
    coil: coil.meta({ description: 'the winding' }),
    pulls: z.array(pull).max(200).meta({ description: 'pulls read on a balance: none, one, two or many' }),
  })
  .meta({ title: 'Stopwright solenoid document' });

export type SolenoidDocument = z.infer<typeof solenoidSchema>;
export type PullDrive = z.infer<typeof drive>;
