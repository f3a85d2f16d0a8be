/**
 * Random job documents that read: made from the schema itself, so that every kind of every part occurs, every quantity in
 * every unit, with and without ±, measured or not; then brought into agreement where readings would contradict each other.
 */
import * as fc from 'fast-check';
import type { z } from 'zod';
import { ruleOf, type FieldRule } from '../../src/job/fields.ts';
import { NOT_MEASURED, quantityIn } from '../../src/job/quantity-text.ts';
import { jobSchema, type Job } from '../../src/job/schema.ts';
import { formatQuantity, readQuantity, unitsOf, type Dimension } from '../../src/units/quantity.ts';
import { readable } from './jobs.ts';
import { definition, exactly, type Definition } from './quantities.ts';

/** Values as they occur, SI, where the rule leaves more room than is of use. */
const usual: Partial<Record<Dimension, readonly [number, number]>> = {
  length: [1e-4, 0.2],
  angle: [-3, 3],
  force: [0, 400],
  temperature: [250, 370],
  resistance: [1e-3, 50],
  voltage: [8, 35],
  current: [0.5, 60],
  area: [5e-7, 3e-5],
};

function quantity({ dimension, above, least, most }: FieldRule): fc.Arbitrary<string> {
  const [low, high] = usual[dimension] ?? [0, 10];
  const from = Math.max(low, least ?? (above === undefined ? -Infinity : above + 1e-6 * Math.max(1, above)));
  const to = Math.max(from, Math.min(high, most ?? Infinity));
  const units = unitsOf(dimension).filter((unit) => unit !== 'AWG');
  return fc
    .record({
      value: fc.double({ min: from, max: to, noNaN: true }),
      unit: fc.constantFrom(...units),
      digits: fc.integer({ min: 2, max: 6 }),
      half: fc.option(fc.integer({ min: 0, max: 9 }), { freq: 1 }),
    })
    .map(({ value, unit, digits, half }) => {
      const plain = formatQuantity(value, dimension, unit, { significantDigits: digits });
      const text = half === null || unit === '%' || unit === '‰' ? plain : `${plain} ± 0.${half}`;
      const back = readQuantity(text, dimension);
      const isWithin =
        back.ok
        && (above === undefined || back.quantity.value > above)
        && back.quantity.value >= (least ?? -Infinity)
        && back.quantity.value <= (most ?? Infinity);
      return isWithin ? text : exactly(value, dimension);
    });
}

const words = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 40 }),
  fc.constantFrom('<b>Bold</b>', '"; DROP', '=1+1', '\u001b[31mred', 'Ærø–π 中文 😀', '__proto__', NOT_MEASURED),
);

function valueOf(schema: z.ZodType): fc.Arbitrary<unknown> {
  const rule = ruleOf(schema);
  if (rule !== undefined) return quantity(rule);
  const def = definition(schema);
  switch (def.type) {
    case 'string':
      return words.map((text) =>
        text.slice(0, bound(def, 'max_length') ?? 40).padEnd(bound(def, 'min_length') ?? 0, 'x'),
      );
    case 'number':
      return fc.integer({ min: bound(def, 'greater_than') ?? 0, max: bound(def, 'less_than') ?? 1000 });
    case 'literal':
      return fc.constantFrom(...def.values!);
    case 'union':
      return fc.oneof(...def.options!.map(valueOf));
    case 'array':
      return fc.array(valueOf(def.element!), {
        minLength: bound(def, 'min_length') ?? 0,
        maxLength: Math.min(4, bound(def, 'max_length') ?? 4),
      });
    case 'object': {
      const fields = Object.entries(def.shape!).map(([key, field]) => [key, fieldOf(field)] as const);
      return fc.record(Object.fromEntries(fields)).map((record) => {
        for (const [key, value] of Object.entries(record)) if (value === undefined) delete record[key];
        return record;
      });
    }
    default:
      throw new Error(`no random value for a ${def.type} of the document`);
  }
}

/** A field: readings are missing now and then, optional fields often. */
function fieldOf(schema: z.ZodType): fc.Arbitrary<unknown> {
  const def = definition(schema);
  if (def.type === 'optional') return fc.option(valueOf(def.innerType!), { nil: undefined, freq: 2 });
  const value = valueOf(schema);
  return ruleOf(schema) === undefined
    ? value
    : fc.oneof({ arbitrary: value, weight: 15 }, { arbitrary: fc.constant(NOT_MEASURED), weight: 1 });
}

function bound({ checks }: Definition, name: string): number | undefined {
  const found = checks?.map(({ _zod }) => _zod.def).filter(({ check }) => check === name);
  const [first] = found ?? [];
  return first === undefined ? undefined : (first.minimum ?? first.maximum ?? first.value);
}

type Open<T> = T extends readonly (infer Item)[]
  ? Open<Item>[]
  : T extends object
    ? { -readonly [Key in keyof T]: Open<T[Key]> }
    : T;

/** Any document that reads. */
export const randomJob: fc.Arbitrary<Job> = valueOf(jobSchema).map((drawn) => readable(agreed(drawn as Open<Job>)));

/** Readings that could not all be true are exchanged, moved or dropped. */
function agreed(job: Open<Job>): Open<Job> {
  const { lever, effort } = job.survey;
  agreedAngles(lever);
  job.layout.hubPosition %= lever.hubPositions;
  for (const reading of effort.readings) inOrder(reading, 'easingBack', 'pull', 'force');
  effort.readings = distinct(effort.readings, ({ engine, angle }) => {
    const at = rounded(angle, 'angle', 6);
    return at === undefined ? undefined : `${engine} ${at}`;
  });
  if (job.means.kind === 'solenoid') agreedMap(job.means);
  if (job.means.kind === 'solenoid')
    for (const table of job.means.force) table.rows = distinct(table.rows, ({ gap }) => rounded(gap, 'length', 7));
  for (const { spring } of job.return.springs) {
    // Two readings mostly contradict each other when drawn blindly: then the second was not taken.
    if (spring.by === 'two readings') {
      if ('length' in spring.second) spring.second.length = NOT_MEASURED;
      else spring.second.angle = NOT_MEASURED;
    }
    if (spring.by !== 'dimensions') continue;
    const wire = quantityIn(spring.wireDiameter, 'length')?.value ?? 0;
    if ((quantityIn(spring.outsideDiameter, 'length')?.value ?? Infinity) <= 2.5 * wire)
      spring.outsideDiameter = exactly(6 * wire, 'length');
  }
  const { connection } = job.layout;
  if (connection.kind === 'slotted lever') inOrder(connection, 'slotFrom', 'slotTo', 'length');
  if (connection.kind === 'plain pin') inOrder(connection, 'pinDiameter', 'holeDiameter', 'length');
  const { supply } = job;
  for (const state of ['resting', 'low', 'cranking'] as const) {
    const [under, over] = [supply[state], supply.charging].map((text) =>
      text === undefined ? undefined : quantityIn(text, 'voltage')?.value,
    );
    if (under !== undefined && over !== undefined && under > over) delete supply[state];
  }
  inOrder(job.surroundings, 'coldest', 'hottest', 'temperature');
  if (typeof job.survey.air !== 'string') inOrder(job.survey.air, 'low', 'high', 'pressure');
  for (const { means } of [job, ...(job.considered ?? [])])
    if (means.kind === 'air cylinder') inOrder(means, 'rod', 'bore', 'length');
  return job;
}

/** A map is computed: its lists belong together. */
function agreedMap(means: Extract<Open<Job>['means'], { kind: 'solenoid' }>): void {
  if (means.map === undefined) return;
  const levels = [0.3, 300, 1200, 5000];
  const lines = [1e-4, 1e-2, 2e-2].map((gap_m) => {
    const permeance = 1e-9 / (gap_m + 1e-3);
    return {
      gap_m,
      ampereTurns: levels,
      coEnergy_J: levels.map((level) => (permeance * level * level) / 2),
      fluxLinkage_Wb: levels.map((level) => permeance * level),
      force_N: levels.map((level) => (permeance * level * level) / 2 / (gap_m + 1e-3)),
    };
  });
  const turns = means.coil.stages === 'pull-in and hold windings' ? [150, 900] : [800];
  means.map = { turns, lines };
}

/** Run stop, run, no-fuel, hard stop: in this order, one way or the other. */
function agreedAngles(lever: Open<Job>['survey']['lever']): void {
  const [run, noFuel, hardStop, runStop] = [
    lever.runAngle,
    lever.noFuelAngle,
    lever.hardStopAngle,
    lever.runStopAngle,
  ].map((text) => quantityIn(text, 'angle')?.value);
  if (run === undefined || noFuel === undefined) return;
  const way = noFuel < run ? -1 : 1;
  const swing = Math.min(3, Math.max(0.1, Math.abs(noFuel - run)));
  lever.noFuelAngle = exactly(run + way * swing, 'angle');
  if (hardStop !== undefined)
    lever.hardStopAngle = exactly(run + way * Math.max(0.05, Math.abs(hardStop - run)), 'angle');
  if (runStop !== undefined && way * (run + way * swing - runStop) <= 0)
    lever.runStopAngle = exactly(run - way * 0.02, 'angle');
}

function inOrder<Key extends string>(part: Record<Key, string>, lower: Key, upper: Key, dimension: Dimension): void {
  const from = quantityIn(part[lower], dimension)?.value;
  const to = quantityIn(part[upper], dimension)?.value;
  if (from === undefined || to === undefined || from < to) return;
  if (from === to) part[upper] = NOT_MEASURED;
  else [part[lower], part[upper]] = [part[upper], part[lower]];
}

function distinct<Row>(rows: Row[], keyOf: (row: Row) => string | undefined): Row[] {
  const keys = rows.map(keyOf);
  return rows.filter((_, i) => keys[i] === undefined || keys.indexOf(keys[i]) === i);
}

function rounded(text: string, dimension: Dimension, places: number): string | undefined {
  return quantityIn(text, dimension)?.value.toFixed(places);
}
