/**
 * The kinds of field that a job document is made of. Quantities stay the text that a person typed; what they mean is
 * read from the text whenever it is wanted, so nothing is rounded or re-written on the way.
 */
import { z } from 'zod';
import { echo, formatQuantity, metricUnits, readQuantity, type Dimension } from '../units/quantity.ts';
import { NOT_MEASURED } from './quantity-text.ts';

export interface FieldRule {
  readonly dimension: Dimension;
  /** SI. The value must be above this. */
  readonly above?: number;
  /** SI. The value must be at least this. */
  readonly least?: number;
  /** SI. The value must be at most this. */
  readonly most?: number;
}

const rules = new WeakMap<z.ZodType, FieldRule>();

/** The rule behind a quantity field, or undefined for any other schema. */
export function ruleOf(schema: z.ZodType): FieldRule | undefined {
  return rules.get(schema);
}

/** A quantity that may be missing: text with unit and, if wanted, ±; or `not measured`. */
export function reading(dimension: Dimension, description: string, bounds: Omit<FieldRule, 'dimension'> = {}) {
  const rule: FieldRule = { dimension, ...bounds };
  const schema = z
    .string()
    .superRefine((text, context) => {
      const problem = problemWith(text, rule);
      if (problem !== null) context.addIssue({ code: 'custom', message: problem });
    })
    .meta({ description: `${description} (${dimension}; as typed, with unit and ±, or "${NOT_MEASURED}")` });
  rules.set(schema, rule);
  return schema;
}

/** A quantity with a default: left out, the default is used. It cannot be "not measured", which would mean the same. */
export function defaulted(dimension: Dimension, description: string, bounds: Omit<FieldRule, 'dimension'> = {}) {
  const rule: FieldRule = { dimension, ...bounds };
  const schema = z
    .string()
    .superRefine((text, context) => {
      const problem =
        text === NOT_MEASURED ? 'leave this field out where there is no reading' : problemWith(text, rule);
      if (problem !== null) context.addIssue({ code: 'custom', message: problem });
    })
    .meta({ description: `${description} (${dimension}; as typed, with unit and ±; may be left out)` });
  rules.set(schema, rule);
  return schema.optional();
}

/** What is wrong with the text for this rule, in one sentence, or null. */
export function problemWith(text: string, rule: FieldRule): string | null {
  if (text === NOT_MEASURED) return null;
  const read = readQuantity(text, rule.dimension);
  if (!read.ok) return read.problem;
  const { value } = read.quantity;
  const said = () => echo(read.quantity, rule.dimension);
  if (rule.above !== undefined && !(value > rule.above))
    return `read as ${said()}, which must be above ${bound(rule, rule.above)}`;
  if (rule.least !== undefined && value < rule.least)
    return `read as ${said()}, which must be at least ${bound(rule, rule.least)}`;
  if (rule.most !== undefined && value > rule.most)
    return `read as ${said()}, which must be at most ${bound(rule, rule.most)}`;
  return null;
}

function bound(rule: FieldRule, value_SI: number): string {
  return formatQuantity(value_SI, rule.dimension, metricUnits[rule.dimension], { significantDigits: 4 });
}
