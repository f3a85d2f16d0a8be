/**
 * One field of the document, whichever form it has; parts that hold fields call upon this again for theirs. In one file
 * for that reason.
 */
import { valueAt } from '../../job/path.ts';
import { blank, type Field as FieldForm, type Form } from '../reckoning/form.ts';
import { computedWords } from '../show/computed.ts';
import { ChoiceField, Options } from './choice-field.tsx';
import { useHeld, useHolder, useValue, type Holder } from './holder.ts';
import { stoodBefore, switchedTo } from './switching.ts';
import { NumberField, QuantityField, TextField, type FieldProps } from './typed-field.tsx';
import { set } from './typing.ts';

type Of<Kind extends Form['kind']> = Required<FieldProps<Form & { readonly kind: Kind }>>;

/** The fields of the part at `path`; '' for those of the whole document. */
export function Fields({ path, fields }: { readonly path: string; readonly fields: readonly FieldForm[] }) {
  return fields.map(({ key, form, optional }) => (
    <Field key={key} path={path === '' ? key : `${path}.${key}`} form={form} optional={optional} />
  ));
}

export function Field({ path, form, optional, label: own }: FieldProps<Form>) {
  const label = useHolder().words.labelOf(path);
  const props = { path, optional, label: own ?? label };
  switch (form.kind) {
    case 'quantity':
      return <QuantityField {...props} form={form} />;
    case 'text':
      return <TextField {...props} form={form} />;
    case 'number':
      return <NumberField {...props} form={form} />;
    case 'choice':
      return <ChoiceField {...props} form={form} />;
    case 'list':
      return <ListField {...props} form={form} />;
    case 'kinds':
      return <KindsField {...props} form={form} />;
    case 'word or group':
      return <WordOrGroupField {...props} form={form} />;
    case 'computed':
      return <ComputedField {...props} form={form} />;
    case 'group': {
      const isAllOptional = form.fields.every((field) => field.optional);
      const Group = optional && !isAllOptional ? OptionalGroup : GroupField;
      return <Group {...props} form={form} />;
    }
  }
}

function GroupField({ path, form, label }: Of<'group'>) {
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      <div className="fields">
        <Fields path={path} fields={form.fields} />
      </div>
    </fieldset>
  );
}

function OptionalGroup({ path, form, label }: Of<'group'>) {
  const holder = useHolder();
  const isThere = useValue(path) !== undefined;
  const turn = () => set(holder, path, isThere ? undefined : (partBefore(holder, path) ?? blank(form)));
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      {isThere && (
        <div className="fields">
          <Fields path={path} fields={form.fields} />
        </div>
      )}
      <button type="button" className="small" onClick={turn}>
        {isThere ? `Leave out: ${label.toLowerCase()}` : `Add: ${label.toLowerCase()}`}
      </button>
    </fieldset>
  );
}

/** What the part held when it last was one. */
function partBefore({ store }: Holder, path: string): unknown {
  return stoodBefore(store.getState().steps, path, (value) => typeof value === 'object' && value !== null);
}

/** A value of this kind, with everything that is in the part now or was when it last was of that kind. */
function ofKind({ store }: Holder, path: string, form: Form & { readonly kind: 'kinds' }, name: string): unknown {
  const { document, steps } = store.getState();
  const before = stoodBefore(steps, path, (value) => valueAt(value, form.tag) === name);
  return switchedTo(form, valueAt(document, path), name, before);
}

function KindsField({ path, form, label }: Of<'kinds'>) {
  const holder = useHolder();
  const chosen = useHeld(({ document }) => valueAt(document, `${path}.${form.tag}`));
  return (
    <fieldset className="group" id={`field-${path}`}>
      {label !== '' && <legend>{label}</legend>}
      <Options
        path={`${path}.${form.tag}`}
        label={form.help === '' ? 'Kind' : form.help}
        help=""
        options={form.kinds.map(({ name }) => name)}
        chosen={chosen}
        choose={(name) =>
          set(
            holder,
            path,
            ofKind(holder, path, form, String(name)),
            `${label === '' ? 'Means' : label}: ${String(name)}`,
          )
        }
      />
      <KindFields path={path} form={form} chosen={chosen} />
    </fieldset>
  );
}

interface KindFieldsProps {
  readonly path: string;
  readonly form: Form & { readonly kind: 'kinds' };
  readonly chosen: unknown;
}

function KindFields({ path, form, chosen }: KindFieldsProps) {
  const kind = form.kinds.find(({ name }) => name === chosen);
  if (kind === undefined || kind.form.fields.length === 0) return null;
  return (
    <div className="fields">
      <Fields path={path} fields={kind.form.fields} />
    </div>
  );
}

/** The words, and beside them that there is one; where it may be of several kinds, each of these. */
function WordOrGroupField({ path, form, label }: Of<'word or group'>) {
  const holder = useHolder();
  const { words, part } = form;
  const { question, fitted } = holder.words.askWords(path);
  const names = part.kind === 'kinds' ? part.kinds.map(({ name }) => name) : [fitted];
  const chosen = useHeld(({ document }) => {
    const value = valueAt(document, path);
    if (typeof value !== 'object') return value;
    return part.kind === 'kinds' ? valueAt(value, part.tag) : fitted;
  });
  const choose = (option: string) => {
    if (words.includes(option)) return option;
    return part.kind === 'kinds' ? ofKind(holder, path, part, option) : (partBefore(holder, path) ?? blank(part));
  };
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      <Options
        path={`${path}.there`}
        label={question}
        help={form.help}
        options={[...words, ...names]}
        chosen={chosen}
        choose={(option) =>
          set(holder, path, choose(String(option)), `${label}: ${holder.words.optionWords(option, path).toLowerCase()}`)
        }
      />
      {part.kind === 'kinds' && <KindFields path={path} form={part} chosen={chosen} />}
      {part.kind === 'group' && chosen === fitted && (
        <div className="fields">
          <Fields path={path} fields={part.fields} />
        </div>
      )}
    </fieldset>
  );
}

/** What a calculation left behind: one line, and the way to take it away. */
function ComputedField({ path, form, label }: Of<'computed'>) {
  const holder = useHolder();
  const value = useValue(path);
  const isThere = value !== undefined;
  return (
    <fieldset className="group" id={`field-${path}`} data-computed={isThere ? 'there' : 'none'}>
      <legend>{label}</legend>
      <p>{isThere ? `${computedWords(value) ?? label}.` : 'None yet. The page of the solenoid solves one.'}</p>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      {isThere && (
        <button
          type="button"
          className="small"
          onClick={() => set(holder, path, undefined, `${holder.words.placeName(path)} taken away`)}
        >
          Take away: {label.toLowerCase()}
        </button>
      )}
    </fieldset>
  );
}

function ListField({ path, form, label, optional }: Of<'list'>) {
  const holder = useHolder();
  const rows = useValue(path) as readonly unknown[] | undefined;
  const length = rows?.length ?? 0;
  const nameOf = (index: number): string => holder.words.rowName(path, index);
  const add = () =>
    set(holder, path, [...(rows ?? []), nextRow(holder, form.item, rows?.at(-1))], `${nameOf(length)} added`);
  // A list that may be left out is left out when its last row goes, where it may not be empty.
  const least = optional ? 0 : form.least;
  const remove = (at: number) => {
    const left = rows?.filter((_, i) => i !== at) ?? [];
    set(holder, path, left.length < form.least ? undefined : left, `${nameOf(at)} removed`);
  };
  return (
    <fieldset className="group list" id={`field-${path}`}>
      <legend>{label}</legend>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      {length === 0 && <p className="quiet">None entered yet.</p>}
      {Array.from({ length }, (_, i) => (
        <div className="row" key={i} role="group" aria-label={nameOf(i)}>
          <div className="row-head">
            <span className="row-name">{nameOf(i)}</span>
            {length > least && (
              <button
                type="button"
                className="small"
                aria-label={`Remove ${nameOf(i).toLowerCase()} of ${label}`}
                onClick={() => remove(i)}
              >
                Remove
              </button>
            )}
          </div>
          <div className="fields">
            <Row path={`${path}[${i}]`} form={form.item} />
          </div>
        </div>
      ))}
      {length < form.most && (
        <button type="button" className="small" onClick={add}>
          Add {nameOf(length).toLowerCase()}
        </button>
      )}
    </fieldset>
  );
}

function Row({ path, form }: { readonly path: string; readonly form: Form }) {
  if (form.kind === 'group') return <Fields path={path} fields={form.fields} />;
  return <Field path={path} form={form} optional={false} label={rowLabels[form.kind] ?? 'Words'} />;
}

const rowLabels: Partial<Record<Form['kind'], string>> = { kinds: 'Which', choice: 'Which', quantity: 'Size' };

/** A new row begins with what the holder keeps of the last one, such as the state of the engine. */
function nextRow({ keepsInNextRow }: Holder, form: Form, last: unknown): unknown {
  const fresh = blank(form);
  if (form.kind !== 'group') return fresh;
  const kept = form.fields
    .filter((field) => keepsInNextRow(field.form) && valueAt(last, field.key) !== undefined)
    .map(({ key }) => [key, valueAt(last, key)]);
  return { ...(fresh as object), ...Object.fromEntries(kept) };
}
