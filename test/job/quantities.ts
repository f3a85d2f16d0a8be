/** Every quantity that stands in a document, found by walking the schema beside it. */
import type { z } from 'zod';
import { ruleOf, type FieldRule } from '../../src/job/fields.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import { pathText } from '../../src/job/path.ts';
import { jobSchema, type Job } from '../../src/job/schema.ts';
import { readQuantity, unitsOf, type Dimension, type Quantity } from '../../src/units/quantity.ts';

export interface Found {
  readonly path: string;
  readonly text: string;
  readonly rule: FieldRule;
  /** Fields with a default; the others are readings that may be "not measured". */
  readonly isOptional: boolean;
}

export interface Definition {
  readonly type: string;
  readonly innerType?: z.ZodType;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly element?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly discriminator?: string;
  readonly values?: readonly (string | number)[];
  readonly checks?: readonly {
    readonly _zod: { readonly def: { check?: string; minimum?: number; maximum?: number; value?: number } };
  }[];
}

export const definition = (schema: z.ZodType): Definition => schema._zod.def;

export function quantitiesOf(job: Job): Found[] {
  const found: Found[] = [];
  const walk = (schema: z.ZodType, value: unknown, steps: readonly PropertyKey[], isOptional: boolean): void => {
    if (value === undefined) return;
    const rule = ruleOf(schema);
    if (rule !== undefined) {
      found.push({ path: pathText(steps), text: value as string, rule, isOptional });
      return;
    }
    const def = definition(schema);
    if (def.type === 'optional') walk(def.innerType!, value, steps, true);
    else if (def.type === 'array')
      (value as unknown[]).forEach((item, i) => walk(def.element!, item, [...steps, i], false));
    else if (def.type === 'union') walk(optionFor(def, value), value, steps, false);
    else if (def.type === 'object') {
      for (const [key, field] of Object.entries(def.shape!))
        walk(field, (value as Record<string, unknown>)[key], [...steps, key], false);
    }
  };
  walk(jobSchema, job, [], false);
  return found;
}

function optionFor({ options, discriminator }: Definition, value: unknown): z.ZodType {
  const chosen = options!.find((option) => {
    const { type, shape, values } = definition(option);
    if (type !== 'object') return values?.includes(value as string) ?? false;
    if (discriminator === undefined) return typeof value === 'object';
    return definition(shape![discriminator]).values!.includes((value as Record<string, string>)[discriminator]);
  });
  if (chosen === undefined) throw new Error(`no kind of this part fits ${JSON.stringify(value)}`);
  return chosen;
}

export function isMeasured({ text }: Found): boolean {
  return text !== NOT_MEASURED;
}

/** The quantity in a field that was measured. */
export function quantityOf({ text, rule, path }: Found): Quantity {
  const read = readQuantity(text, rule.dimension);
  if (!read.ok) throw new Error(`${path}: ${read.problem}`);
  return read.quantity;
}

const baseUnits: Partial<Record<Dimension, string>> = {
  length: 'm',
  angle: 'rad',
  force: 'N',
  mass: 'kg',
  temperature: 'K',
  temperatureDifference: 'K',
  voltage: 'V',
  current: 'A',
  resistance: 'Ω',
  power: 'W',
  area: 'm²',
  ratio: '',
  springRate: 'N/m',
  torsionRate: 'N m/rad',
  torque: 'N m',
  acceleration: 'm/s²',
  time: 's',
  pressure: 'Pa',
  volume: 'm³',
  sonicConductance: 'm³/(s Pa)',
};

/** A base SI value as text that reads back to every digit. */
export function exactly(value: number, dimension: Dimension, plusMinus: number | null = null): string {
  const unit = baseUnits[dimension];
  if (unit === undefined || !unitsOf(dimension).includes(unit)) throw new Error(`no base unit for ${dimension}`);
  const half = plusMinus === null ? '' : ` ± ${String(plusMinus)}`;
  return `${String(value)}${half} ${unit}`.trim();
}
