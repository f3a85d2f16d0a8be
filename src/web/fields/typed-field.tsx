/** Fields that are typed into: quantities, words, whole numbers. */
import { useId, useRef, useState, type ReactNode } from 'react';
import type { Default } from '../../job/defaults.ts';
import { problemWith } from '../../job/fields.ts';
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import { display, echo, readQuantity, type Dimension } from '../../units/quantity.ts';
import type { Form } from '../reckoning/form.ts';
import { useUnits } from '../show/units.ts';
import { useHeld, useHolder, useValue } from './holder.ts';
import { enterField, set, type, type Stay } from './typing.ts';

export interface FieldProps<F extends Form> {
  readonly path: string;
  readonly form: F;
  readonly optional: boolean;
  /** Instead of the label that the path has. */
  readonly label?: string;
}

type Of<Kind extends Form['kind']> = Required<FieldProps<Form & { readonly kind: Kind }>>;

export function QuantityField({ path, form, optional, label }: Of<'quantity'>) {
  const holder = useHolder();
  const value = useValue(path);
  const byDefault = useHeld(({ document }) => holder.defaultOf(path, document));
  const isNotMeasured = value === NOT_MEASURED;
  const read = (text: string): Typed => {
    const trimmed = text.trim();
    if (trimmed === '' && optional) return { problem: null, to: undefined };
    if (trimmed === '')
      return {
        problem: 'nothing is written here; press “Not measured” where the reading was not taken',
        to: undefined,
      };
    return { problem: problemWith(trimmed, form.rule), to: trimmed };
  };
  return (
    <TypedField
      path={path}
      label={label}
      help={form.help}
      shown={typeof value === 'string' && !isNotMeasured ? value : ''}
      placeholder={isNotMeasured ? NOT_MEASURED : (byDefault?.text ?? '')}
      read={read}
      isMissing={isNotMeasured}
      note={<QuantityNote value={value} dimension={form.rule.dimension} optional={optional} byDefault={byDefault} />}
    >
      {!isNotMeasured && !(optional && value === undefined) && (
        <button
          type="button"
          className="small not-measured"
          aria-label={optional && byDefault !== undefined ? `${label}: back to the default` : `${label}: not measured`}
          onClick={() => {
            holder.dropDraft(path);
            set(holder, path, optional ? undefined : NOT_MEASURED);
          }}
        >
          <span className="long-word">
            {optional ? (byDefault === undefined ? 'Leave out' : 'Default') : 'Not measured'}
          </span>
          <span className="short-word">{optional ? '✕' : '?'}</span>
        </button>
      )}
    </TypedField>
  );
}

export function TextField({ path, form, label }: Of<'text'>) {
  const value = useValue(path);
  const read = (text: string): Typed => ({
    problem:
      text.length > form.most
        ? `this has ${text.length} characters; at most ${form.most} have room here`
        : text.trim().length < form.least
          ? 'something must stand here'
          : null,
    to: text,
  });
  return (
    <TypedField
      path={path}
      label={label}
      help={form.help}
      shown={typeof value === 'string' ? value : ''}
      read={read}
      isLong={form.most >= 400}
      isWide
    />
  );
}

export function NumberField({ path, form, label }: Of<'number'>) {
  const value = useValue(path);
  const isMissing = form.word !== undefined && value === form.word;
  const read = (text: string): Typed => {
    if (text.trim() === '' && form.word !== undefined) return { problem: null, to: form.word };
    const number = Number(text);
    const isWhole = /^\s*\d{1,9}\s*$/.test(text) && number >= form.least && number <= form.most;
    return { problem: isWhole ? null : `write a whole number from ${form.least} to ${form.most}`, to: number };
  };
  return (
    <TypedField
      path={path}
      label={label}
      help={form.help}
      shown={typeof value === 'number' ? String(value) : ''}
      placeholder={form.word ?? ''}
      read={read}
      isMissing={isMissing}
      isNumber
    />
  );
}

interface Typed {
  /** Why it cannot stand in the document. */
  readonly problem: string | null;
  readonly to: unknown;
}

interface TypedFieldProps {
  readonly path: string;
  readonly label: string;
  readonly help: string;
  /** What stands in the document, as text. */
  readonly shown: string;
  readonly read: (text: string) => Typed;
  readonly placeholder?: string;
  readonly isMissing?: boolean;
  readonly isLong?: boolean;
  readonly isWide?: boolean;
  readonly isNumber?: boolean;
  readonly note?: ReactNode;
  readonly children?: ReactNode;
}

function TypedField({
  path,
  label,
  help,
  shown,
  read,
  placeholder,
  isMissing,
  isLong,
  isWide,
  isNumber,
  note,
  children,
}: TypedFieldProps) {
  const id = useId();
  const holder = useHolder();
  const draft = useHeld(({ drafts }) => drafts[path]);
  const [typed, setTyped] = useState<string | null>(null);
  const stay = useRef<Stay | null>(null);
  const take = (text: string) => {
    setTyped(text);
    stay.current ??= enterField(holder, path);
    const { problem, to } = read(text);
    type(holder, stay.current, text, problem, to);
  };
  const leave = () => {
    setTyped(null);
    stay.current = null;
    holder.endOfGesture();
  };
  const discard = () => {
    holder.dropDraft(path);
    setTyped(null);
  };
  const shared = {
    id,
    value: typed ?? draft?.text ?? shown,
    placeholder,
    autoComplete: 'off',
    spellCheck: isLong === true,
    'aria-invalid': draft !== undefined,
    'aria-describedby': `${id}-help ${id}-note`,
    'data-draft': draft === undefined ? 'no' : 'yes',
    'data-field': path,
    onFocus: () => {
      stay.current = enterField(holder, path);
    },
    onBlur: leave,
    onKeyDown: (event: { readonly key: string }) => {
      if (event.key === 'Escape' && draft !== undefined) discard();
    },
  };
  return (
    <div
      className={`field${isWide === true ? ' field-wide' : ''}${isMissing === true ? ' is-missing' : ''}`}
      id={`field-${path}`}
    >
      <label htmlFor={id}>{label}</label>
      <div className="field-line">
        {isLong === true ? (
          <textarea {...shared} rows={3} onChange={(event) => take(event.target.value)} />
        ) : (
          <input
            {...shared}
            type="text"
            inputMode={isNumber === true ? 'numeric' : 'text'}
            onChange={(event) => take(event.target.value)}
          />
        )}
        {children}
      </div>
      <div id={`${id}-note`} className="field-note">
        {draft === undefined ? (
          note
        ) : (
          <p className="field-error" role="status">
            <b>NOT kept</b>: {draft.problem}.{shown === '' ? '' : ` ${shown} still counts.`}{' '}
            <button type="button" className="link" onClick={discard}>
              Discard
            </button>
          </p>
        )}
      </div>
      {help !== '' && (
        <p id={`${id}-help`} className="field-help">
          {help}
        </p>
      )}
    </div>
  );
}

interface QuantityNoteProps {
  readonly value: unknown;
  readonly dimension: Dimension;
  readonly optional: boolean;
  readonly byDefault: Default | undefined;
}

/** How the text was understood, and what it is in the reader's units; or which default stands in for it. */
function QuantityNote({ value, dimension, optional, byDefault }: QuantityNoteProps) {
  const units = useUnits((state) => state.units);
  if (value === NOT_MEASURED) return <p className="quiet">Not measured yet</p>;
  if (typeof value !== 'string') {
    if (byDefault === undefined) return optional ? <p className="quiet">Left out</p> : null;
    return (
      <p className="quiet">
        Default {byDefault.text}, {byDefault.source}
      </p>
    );
  }
  const read = readQuantity(value, dimension);
  if (!read.ok) return null;
  const inUnits = display(read.quantity.value, dimension, units);
  const isOtherUnit = units[dimension] !== read.quantity.unit && units[dimension] !== '' && dimension !== 'ratio';
  return (
    <p className="quiet">
      read as {echo(read.quantity, dimension)}
      {isOtherUnit && ` = ${inUnits}`}
    </p>
  );
}
