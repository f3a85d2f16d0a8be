/** From one kind of a part to another, or from a part to a word and back: nothing that was entered is lost. */
import { valueAt } from '../../job/path.ts';
import type { Steps } from '../desk/steps.ts';
import { blank, type Form, type Kind } from '../reckoning/form.ts';

/**
 * A value of the kind called `name`, with every field that the value so far has in the same form.
 *
 * @param before what stood there when it last was of that kind
 */
export function switchedTo(
  form: Form & { readonly kind: 'kinds' },
  value: unknown,
  name: string,
  before?: unknown,
): unknown {
  const to = form.kinds.find((kind) => kind.name === name);
  const from = form.kinds.find((kind) => kind.name === valueAt(value, form.tag));
  if (to === undefined) throw new RangeError(`there is no kind "${name}" here`);
  return { [form.tag]: name, ...fieldsOf(to, from, value, before) };
}

function fieldsOf(to: Kind, from: Kind | undefined, value: unknown, before: unknown): Record<string, unknown> {
  return Object.fromEntries(
    to.form.fields.flatMap(({ key, optional, form }) => {
      const now = valueAt(value, key);
      const formNow = from?.form.fields.find((field) => field.key === key)?.form;
      if (now !== undefined && formNow !== undefined && sameForm(formNow, form) && mayHold(form, now))
        return [[key, now]];
      const then = valueAt(before, key);
      if (then !== undefined) return [[key, then]];
      return optional ? [] : [[key, blank(form)]];
    }),
  );
}

function sameForm(a: Form, b: Form): boolean {
  if (a.kind === 'quantity' && b.kind === 'quantity') return a.rule.dimension === b.rule.dimension;
  if (a.kind === 'choice' && b.kind === 'choice') return true;
  return JSON.stringify(a) === JSON.stringify(b);
}

function mayHold(form: Form, value: unknown): boolean {
  return form.kind !== 'choice' || form.options.some((option) => option === value);
}

/**
 * What a part held before it was last switched away from something that fits; undefined where the undo steps do not say.
 * A change of the list that a row belongs to ends the search: under the same number another row may stand by now.
 */
export function stoodBefore({ list, done }: Steps, path: string, fits: (value: unknown) => boolean): unknown {
  for (const { changes } of list.slice(0, done).reverse())
    for (const { path: at, from } of [...changes].reverse()) {
      if (at === path && fits(from)) return from;
      if (path.startsWith(`${at}[`)) return undefined;
    }
  return undefined;
}
