/**
 * The survey as plain data: which fields there are, what may stand in them. `job-form.ts` makes it from the schema of the
 * job document, in the worker, so that the page itself need not carry the schema.
 */
import { type FieldRule } from '../../job/fields.ts';
import { NOT_MEASURED } from '../../job/quantity-text.ts';

export type Form =
  | { readonly kind: 'quantity'; readonly help: string; readonly rule: FieldRule }
  | { readonly kind: 'text'; readonly help: string; readonly least: number; readonly most: number }
  /** `word` is what stands for a number that was not read. */
  | {
      readonly kind: 'number';
      readonly help: string;
      readonly least: number;
      readonly most: number;
      readonly word?: string;
    }
  | { readonly kind: 'choice'; readonly help: string; readonly options: readonly (string | number)[] }
  | { readonly kind: 'group'; readonly help: string; readonly fields: readonly Field[] }
  | { readonly kind: 'list'; readonly help: string; readonly item: Form; readonly least: number; readonly most: number }
  /** One of several groups, told apart by the field `tag`. */
  | { readonly kind: 'kinds'; readonly help: string; readonly tag: string; readonly kinds: readonly Kind[] }
  /** One of the words, or the part, which is of one kind or of several. */
  | {
      readonly kind: 'word or group';
      readonly help: string;
      readonly words: readonly string[];
      readonly part: Form & { readonly kind: 'group' | 'kinds' };
    }
  /** Numbers that a calculation left behind, which nobody types. */
  | { readonly kind: 'computed'; readonly help: string };

export interface Field {
  readonly key: string;
  readonly optional: boolean;
  readonly form: Form;
}

export interface Kind {
  readonly name: string;
  readonly form: Form & { readonly kind: 'group' };
}

/** A value of this form in which nothing has been measured yet. */
export function blank(form: Form): unknown {
  switch (form.kind) {
    case 'quantity':
      return NOT_MEASURED;
    case 'text':
      return form.least > 0 ? 'New installation' : '';
    case 'number':
      return form.word ?? form.least;
    case 'choice':
      return form.options.find(isUnknown) ?? form.options[0];
    case 'group':
      return blankFields(form);
    case 'list':
      return Array.from({ length: form.least }, () => blank(form.item));
    case 'kinds': {
      const [first] = form.kinds;
      return first === undefined ? {} : { [form.tag]: first.name, ...blankFields(first.form) };
    }
    case 'word or group':
      return form.words.find(isUnknown) ?? form.words[0];
    case 'computed':
      return undefined;
  }
}

const isUnknown = (word: string | number): boolean => word === NOT_MEASURED || word === 'not known';

function blankFields({ fields }: Form & { readonly kind: 'group' }): Record<string, unknown> {
  return Object.fromEntries(fields.filter(({ optional }) => !optional).map(({ key, form }) => [key, blank(form)]));
}
