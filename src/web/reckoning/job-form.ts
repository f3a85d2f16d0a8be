/** The schema of the job document as a `Form`. */
import type { z } from 'zod';
import { apply, change } from '../../job/change.ts';
import { ruleOf } from '../../job/fields.ts';
import { coEnergyMap, jobSchema } from '../../job/schema.ts';
import { blank, type Form, type Kind } from './form.ts';

export function jobForm(): Form {
  return describe(jobSchema);
}

interface Definition {
  readonly type: string;
  readonly innerType?: z.ZodType;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly element?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly discriminator?: string;
  readonly values?: readonly (string | number)[];
  readonly checks?: readonly { readonly _zod: { readonly def: Check } }[];
}

interface Check {
  readonly check?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly value?: number;
}

const definition = (schema: z.ZodType): Definition => schema._zod.def;

/** What a schema of the document asks for, as a form. */
export function describe(schema: z.ZodType): Form {
  const help = helpOf(schema);
  const rule = ruleOf(schema);
  if (rule !== undefined) return { kind: 'quantity', help, rule };
  if (schema === coEnergyMap) return { kind: 'computed', help };
  const def = definition(schema);
  switch (def.type) {
    case 'optional':
      return describe(def.innerType!);
    case 'string':
      return { kind: 'text', help, ...bounds(def, 0, 4000) };
    case 'number':
      return { kind: 'number', help, ...bounds(def, 0, 1e6) };
    case 'literal':
      return { kind: 'choice', help, options: def.values! };
    case 'object':
      return {
        kind: 'group',
        help,
        fields: Object.entries(def.shape!).map(([key, field]) => ({
          key,
          optional: definition(field).type === 'optional',
          form: describe(field),
        })),
      };
    case 'array':
      return { kind: 'list', help, item: describe(def.element!), ...bounds(def, 0, 1000) };
    case 'union':
      return def.discriminator === undefined ? wordOrGroup(def, help) : kinds(def, help, def.discriminator);
    default:
      throw new RangeError(`the survey has no field for a "${def.type}" of the document`);
  }
}

function kinds(def: Definition, help: string, tag: string): Form {
  return kindsOf(def.options!.map(describe), help, tag);
}

function kindsOf(options: readonly Form[], help: string, tag: string): Form & { readonly kind: 'kinds' } {
  return {
    kind: 'kinds',
    help,
    tag,
    kinds: options.map((form): Kind => {
      if (form.kind !== 'group') throw new RangeError('a kind of a part must be a group of fields');
      const of = form.fields.find(({ key }) => key === tag)?.form;
      const name = of?.kind === 'choice' ? String(of.options[0]) : '';
      return { name, form: { ...form, fields: form.fields.filter(({ key }) => key !== tag) } };
    }),
  };
}

/** A few words and one group, a few words and groups that each say their kind, or a number and the word for none. */
function wordOrGroup(def: Definition, help: string): Form {
  const [first, ...others] = def.options!.map(describe);
  const [second] = others;
  if (first?.kind === 'number' && second?.kind === 'choice') return { ...first, help, word: String(second.options[0]) };
  if (first?.kind !== 'choice' || second?.kind !== 'group')
    throw new RangeError('a part without kinds must be a word or a group');
  const words = first.options.map(String);
  return {
    kind: 'word or group',
    help,
    words,
    part: others.length === 1 ? second : kindsOf(others, '', tagOf(second)),
  };
}

/** The field by which groups tell their kind: the one with nothing to choose. */
function tagOf({ fields }: Form & { readonly kind: 'group' }): string {
  const tag = fields.find(({ form }) => form.kind === 'choice' && form.options.length === 1);
  if (tag === undefined) throw new RangeError('groups beside words must say their kind');
  return tag.key;
}

function bounds(def: Definition, least: number, most: number): { least: number; most: number } {
  for (const { _zod } of def.checks ?? []) {
    const { check, minimum, maximum, value } = _zod.def;
    if (check === 'min_length') least = minimum ?? least;
    if (check === 'max_length') most = maximum ?? most;
    if (check === 'greater_than') least = value ?? least;
    if (check === 'less_than') most = value ?? most;
  }
  return { least, most };
}

/** The schema's description without what the field itself shows: dimension and form. */
function helpOf(schema: z.ZodType): string {
  return (schema.description ?? '').replace(/ \([a-zA-Z]+; as typed[^()]*\)$/, '');
}

/** A whole new document: it reads, and nothing in it has been measured. */
export function blankJob(): unknown {
  const form = jobForm();
  // Nearly every installation has an adjuster: to say that there is none is a person's statement.
  const adjuster = 'layout.adjuster';
  const there = formAt(form, adjuster);
  const job = blank(form);
  return there?.kind === 'word or group' ? apply(job, [change(job, adjuster, blank(there.part))]) : job;
}

function formAt(form: Form, path: string): Form | undefined {
  return path
    .split('.')
    .reduce<Form | undefined>(
      (at, key) => (at?.kind === 'group' ? at.fields.find((field) => field.key === key)?.form : undefined),
      form,
    );
}
