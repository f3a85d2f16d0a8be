/**
 * The fields of the solenoid, laid out by the schema of its document. One file, because a field may hold fields.
 */
import { useId } from 'react';
import { change } from '../../job/change.ts';
import { valueAt } from '../../job/path.ts';
import { blank, type Field as FieldForm, type Form } from '../reckoning/form.ts';
import { switchedTo } from '../survey/switching.ts';
import { dropFromBench, proposeOnBench, useBench } from './bench.ts';
import { labelOf, optionLabel, rowLabel } from './labels.ts';
import { NumberField, QuantityField, TextField, type Of, type Props } from './typed-fields.tsx';

export function Field(props: Props) {
  const { path, form, optional } = props;
  switch (form.kind) {
    case 'quantity':
      return <QuantityField path={path} form={form} optional={optional} />;
    case 'text':
      return <TextField path={path} form={form} optional={optional} />;
    case 'number':
      return <NumberField path={path} form={form} optional={optional} />;
    case 'choice':
      return <ChoiceField path={path} form={form} optional={optional} />;
    case 'list':
      return <ListField path={path} form={form} optional={optional} />;
    case 'kinds':
      return <KindsField path={path} form={form} optional={optional} />;
    case 'word or group':
      return <WordOrGroupField path={path} form={form} optional={optional} />;
    case 'group':
      return <GroupField path={path} form={form} optional={optional} />;
  }
}

export function Fields({ path, fields }: { readonly path: string; readonly fields: readonly FieldForm[] }) {
  return fields.map(({ key, form, optional }) => (
    <Field key={key} path={path === '' ? key : `${path}.${key}`} form={form} optional={optional} />
  ));
}

/** Puts a value at a path, as one step. */
function set(path: string, to: unknown, name: string): void {
  dropFromBench(path);
  void proposeOnBench({ name, changes: (document) => [change(document, path, to)] });
}

function GroupField({ path, form, optional }: Of<'group'>) {
  const isThere = useBench((state) => valueAt(state.document, path) !== undefined);
  const label = labelOf(path);
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      {isThere && (
        <div className="fields">
          <Fields path={path} fields={form.fields} />
        </div>
      )}
      {optional && (
        <button
          type="button"
          className="small"
          onClick={() => set(path, isThere ? undefined : blank(form), isThere ? `${label} left out` : `${label} added`)}
        >
          {isThere ? `Leave out: ${label.toLowerCase()}` : `Add: ${label.toLowerCase()}`}
        </button>
      )}
    </fieldset>
  );
}

function ListField({ path, form }: Of<'list'>) {
  const rows = useBench((state) => valueAt(state.document, path)) as readonly unknown[] | undefined;
  const length = rows?.length ?? 0;
  const label = labelOf(path);
  const name = (at: number): string => rowLabel(path, at);
  return (
    <fieldset className="group list" id={`field-${path}`}>
      <legend>{label}</legend>
      {form.help !== '' && <p className="field-help">{form.help}</p>}
      {length === 0 && <p className="quiet">None entered yet.</p>}
      {Array.from({ length }, (_, i) => (
        <div className="row" key={i} role="group" aria-label={name(i)}>
          <div className="row-head">
            <span className="row-name">{name(i)}</span>
            {length > form.least && (
              <button
                type="button"
                className="small"
                aria-label={`Remove ${name(i).toLowerCase()}`}
                onClick={() =>
                  set(
                    path,
                    rows?.filter((_row, at) => at !== i),
                    `${name(i)} removed`,
                  )
                }
              >
                Remove
              </button>
            )}
          </div>
          <div className="fields">
            {form.item.kind === 'group' ? (
              <Fields path={`${path}[${i}]`} fields={form.item.fields} />
            ) : (
              <Field path={`${path}[${i}]`} form={form.item} optional={false} />
            )}
          </div>
        </div>
      ))}
      {length < form.most && (
        <button
          type="button"
          className="small"
          onClick={() => set(path, [...(rows ?? []), nextRow(form.item, rows?.at(-1))], `${name(length)} added`)}
        >
          Add {name(length).toLowerCase()}
        </button>
      )}
    </fieldset>
  );
}

/** A further row keeps what is set for a series (volts, temperature of the coil); what is read each time starts empty. */
function nextRow(form: Form, before: unknown): unknown {
  if (form.kind !== 'group') return blank(form);
  const kept = form.fields.flatMap(({ key, form: inner }) => {
    const value = valueAt(before, key);
    const isRead = inner.kind === 'quantity' && ['length', 'force'].includes(inner.rule.dimension);
    return value === undefined || isRead ? [] : [[key, value] as const];
  });
  return { ...(blank(form) as object), ...Object.fromEntries(kept) };
}

function KindsField({ path, form, optional }: Of<'kinds'>) {
  const value = useBench((state) => valueAt(state.document, path));
  const chosen = valueAt(value, form.tag);
  const kind = form.kinds.find(({ name }) => name === chosen);
  const label = labelOf(path);
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      <Options
        label={form.help === '' ? label : form.help}
        options={[...(optional ? [NONE] : []), ...form.kinds.map(({ name }) => name)]}
        chosen={chosen ?? NONE}
        choose={(name) =>
          set(
            path,
            name === NONE ? undefined : switchedTo(form, value ?? {}, String(name)),
            `${label}: ${optionLabel(name)}`,
          )
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

const NONE = 'none';

function WordOrGroupField({ path, form }: Of<'word or group'>) {
  const isGroup = useBench((state) => typeof valueAt(state.document, path) === 'object');
  const fitted = 'fitted';
  const label = labelOf(path);
  return (
    <fieldset className="group" id={`field-${path}`}>
      <legend>{label}</legend>
      <Options
        label={form.help === '' ? 'Is there one?' : form.help}
        options={[form.word, fitted]}
        chosen={isGroup ? fitted : form.word}
        choose={(option) => set(path, option === fitted ? blank(form.group) : form.word, `${label}: ${option}`)}
      />
      {isGroup && form.group.kind === 'group' && (
        <div className="fields">
          <Fields path={path} fields={form.group.fields} />
        </div>
      )}
    </fieldset>
  );
}

function ChoiceField({ path, form, optional }: Of<'choice'>) {
  const value = useBench((state) => valueAt(state.document, path));
  const label = labelOf(path);
  return (
    <Options
      label={label}
      help={form.help}
      options={[...(optional ? [NONE] : []), ...form.options]}
      chosen={value ?? NONE}
      choose={(option) => set(path, option === NONE ? undefined : option, `${label}: ${optionLabel(option)}`)}
    />
  );
}

interface OptionsProps {
  readonly label: string;
  readonly help?: string;
  readonly options: readonly (string | number)[];
  readonly chosen: unknown;
  readonly choose: (option: string | number) => void;
}

function Options({ label, help = '', options, chosen, choose }: OptionsProps) {
  const name = useId();
  return (
    <fieldset className="field field-wide options">
      <legend>{label}</legend>
      <div className="options-row">
        {options.map((option) => (
          <label key={option} className="option">
            <input type="radio" name={name} checked={option === chosen} onChange={() => choose(option)} />
            <span>{optionLabel(option)}</span>
          </label>
        ))}
      </div>
      {help !== '' && <p className="field-help">{help}</p>}
    </fieldset>
  );
}
