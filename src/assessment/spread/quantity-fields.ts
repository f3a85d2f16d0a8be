/** Every quantity that is written in a document, with the rule of its field. */
import type { z } from 'zod';
import { ruleOf, type FieldRule } from '../../job/fields.ts';
import { pathText } from '../../job/path.ts';
import { NOT_MEASURED, quantityIn } from '../../job/quantity-text.ts';
import { jobSchema, type Job } from '../../job/schema.ts';
import type { Quantity } from '../../units/quantity.ts';

export interface QuantityField {
  readonly path: string;
  readonly steps: readonly (string | number)[];
  readonly rule: FieldRule;
  readonly quantity: Quantity;
}

/** In the order of the schema; readings that were not taken are left out. */
export function quantityFields(job: Job): readonly QuantityField[] {
  const found: QuantityField[] = [];
  walk(jobSchema, job, [], found);
  return found;
}

interface Definition {
  readonly type: string;
  readonly innerType?: z.ZodType;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly element?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly values?: readonly unknown[];
}

const definition = (schema: z.ZodType): Definition => schema._zod.def;

function walk(schema: z.ZodType, value: unknown, steps: readonly (string | number)[], found: QuantityField[]): void {
  if (value === undefined || value === NOT_MEASURED) return;
  const rule = ruleOf(schema);
  if (rule !== undefined) {
    const quantity = quantityIn(value as string, rule.dimension);
    if (quantity !== null) found.push({ path: pathText(steps), steps, rule, quantity });
    return;
  }
  const { type, innerType, shape, element, options } = definition(schema);
  if (type === 'optional' && innerType !== undefined) walk(innerType, value, steps, found);
  else if (type === 'object' && shape !== undefined) {
    const fields = value as Readonly<Record<string, unknown>>;
    for (const [key, field] of Object.entries(shape)) walk(field, fields[key], [...steps, key], found);
  } else if (type === 'array' && element !== undefined) {
    (value as readonly unknown[]).forEach((item, i) => walk(element, item, [...steps, i], found));
  } else if (type === 'union') {
    const option = options?.find((one) => isFor(one, value));
    if (option !== undefined) walk(option, value, steps, found);
  }
}

/** Whether a value is of this option of a union: one of its words, or a group whose fixed words are the value's. */
function isFor(option: z.ZodType, value: unknown): boolean {
  const { type, shape, values, options } = definition(option);
  if (type === 'union') return options?.some((one) => isFor(one, value)) ?? false;
  if (type === 'literal') return values?.includes(value) ?? false;
  if (type !== 'object' || shape === undefined || typeof value !== 'object' || value === null) return false;
  return Object.entries(shape).every(([key, field]) => {
    const { type: kind, values: words } = definition(field);
    return kind !== 'literal' || words === undefined || words.length !== 1 || words[0] === Reflect.get(value, key);
  });
}
