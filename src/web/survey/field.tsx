/**
 * One field of the document, whichever form it has; parts that hold fields call upon this again for theirs. In one file
 * for that reason.
 */
import { pathSteps, valueAt } from '../../job/path.ts';
import { useDesk } from '../desk/desk.ts';
import { blank, type Field as FieldForm, type Form } from '../reckoning/form.ts';
import { ChoiceField, Options } from './choice-field.tsx';
import { labelOf, rowName } from './labels.ts';
import { switchedTo } from './switching.ts';
import { NumberField, QuantityField, TextField, type FieldProps } from './typed-field.tsx';
import { set } from './typing.ts';

type Of<Kind extends Form['kind']> = Required<FieldProps<Form & { readonly kind: Kind }>>;

function Fields({ path, fields }: { readonly path: string; readonly fields: readonly FieldForm[] }) {
  return fields.map(({ key, form, optional }) => (
    <Field key={key} path={path === '' ? key : `${path}.${key}`} form={form} optional={optional} />
  ));
}

export function Field({ path, form, optional, label = labelOf(path) }: FieldProps<Form>) {
  switch (form.kind) {
    case 'quantity':
      return <QuantityField path={path} form={form} optional={optional} label={label} />;
    case 'text':
      return <TextField path={path} form={form} optional={optional} label={label} />;
    case 'number':
      return <NumberField path={path} form={form} optional={optional} label={label} />;
    case 'choice':
      return <ChoiceField path={path} form={form} label={label} optional={optional} />;
    case 'list':
      return <ListField path={path} form={form} optional={optional} label={label} />;
    case 'kinds':
      return <KindsField path={path} form={form} optional={optional} label={label} />;
    case 'word or group':
      return <WordOrGroupField path={path} form={form} optional={optional} label={label} />;
    case 'group': {
      const isAllOptional = form.fields.every((field) => field.optional);
      const Group = optional && !isAllOptional ? OptionalGroup : GroupField;
      return <Group path={path} form={form} optional={optional} label={label} />;
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
  const isThere = useDesk((state) => valueAt(state.document, path) !== undefined);
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      {isThere && (
        <div className="fields">
          <Fields path={path} fields={form.fields} />
        </div>
      )}
      <button type="button" className="small" onClick={() => set(path, isThere ? undefined : blank(form))}>
        {isThere ? `Leave out: ${label.toLowerCase()}` : `Add: ${label.toLowerCase()}`}
      </button>
    </fieldset>
  );
}

function KindsField({ path, form, label }: Of<'kinds'>) {
  const value = useDesk((state) => valueAt(state.document, path));
  const chosen = valueAt(value, form.tag);
  const kind = form.kinds.find(({ name }) => name === chosen);
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
          set(path, switchedTo(form, value, String(name)), `${label === '' ? 'Means' : label}: ${String(name)}`)
        }
      />
      {kind !== undefined && (
        <div className="fields">
          <Fields path={path} fields={kind.form.fields} />
        </div>
      )}
    </fieldset>
  );
}

function WordOrGroupField({ path, form, label }: Of<'word or group'>) {
  const isGroup = useDesk((state) => typeof valueAt(state.document, path) === 'object');
  const fitted = 'fitted';
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      <Options
        path={`${path}.there`}
        label="Is there one?"
        help=""
        options={[form.word, fitted]}
        chosen={isGroup ? fitted : form.word}
        choose={(option) => set(path, option === fitted ? blank(form.group) : form.word, `${label}: ${String(option)}`)}
      />
      {isGroup && form.group.kind === 'group' && (
        <div className="fields">
          <Fields path={path} fields={form.group.fields} />
        </div>
      )}
    </fieldset>
  );
}

function ListField({ path, form, label }: Of<'list'>) {
  const rows = useDesk((state) => valueAt(state.document, path)) as readonly unknown[] | undefined;
  const key = pathSteps(path).findLast((step) => typeof step === 'string') ?? '';
  const length = rows?.length ?? 0;
  const add = () => set(path, [...(rows ?? []), nextRow(form.item, rows?.at(-1))], `${rowName(key, length)} added`);
  const remove = (at: number) =>
    set(
      path,
      rows?.filter((_, i) => i !== at),
      `${rowName(key, at)} removed`,
    );
  return (
    <fieldset className="group list" id={`field-${path}`}>
      <legend>{label}</legend>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      {length === 0 && <p className="quiet">None entered yet.</p>}
      {Array.from({ length }, (_, i) => (
        <div className="row" key={i} role="group" aria-label={rowName(key, i)}>
          <div className="row-head">
            <span className="row-name">{rowName(key, i)}</span>
            {length > form.least && (
              <button
                type="button"
                className="small"
                aria-label={`Remove ${rowName(key, i).toLowerCase()} of ${label}`}
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
          Add {rowName(key, length).toLowerCase()}
        </button>
      )}
    </fieldset>
  );
}

function Row({ path, form }: { readonly path: string; readonly form: Form }) {
  if (form.kind === 'group') return <Fields path={path} fields={form.fields} />;
  return <Field path={path} form={form} optional={false} label={form.kind === 'kinds' ? 'Which' : 'Words'} />;
}

/** A new row has what was chosen in the last one, such as the state of the engine, and nothing that was measured. */
function nextRow(form: Form, last: unknown): unknown {
  const fresh = blank(form);
  if (form.kind !== 'group') return fresh;
  const chosen = form.fields
    .filter((field) => field.form.kind === 'choice' && valueAt(last, field.key) !== undefined)
    .map(({ key }) => [key, valueAt(last, key)]);
  return { ...(fresh as object), ...Object.fromEntries(chosen) };
}
