/** From one kind of a part to another: what both have is kept. */
import { valueAt } from '../../job/path.ts';
import { blank, type Form, type Kind } from '../reckoning/form.ts';

/** A value of the kind called `name`, with every field that the value so far has in the same form. */
export function switchedTo(form: Form & { readonly kind: 'kinds' }, value: unknown, name: string): unknown {
  const to = form.kinds.find((kind) => kind.name === name);
  const from = form.kinds.find((kind) => kind.name === valueAt(value, form.tag));
  if (to === undefined) throw new RangeError(`there is no kind "${name}" here`);
  return { [form.tag]: name, ...fieldsOf(to, from, value) };
}

function fieldsOf(to: Kind, from: Kind | undefined, value: unknown): Record<string, unknown> {
  return Object.fromEntries(
    to.form.fields.flatMap(({ key, optional, form }) => {
      const before = valueAt(value, key);
      const formBefore = from?.form.fields.find((field) => field.key === key)?.form;
      const fits =
        before !== undefined && formBefore !== undefined && sameForm(formBefore, form) && mayHold(form, before);
      if (fits) return [[key, before]];
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
