/** Fields of the solenoid that are typed into: quantities with their unit, words, whole numbers. */
import { useId, useRef, useState, type ReactNode } from 'react';
import { change } from '../../job/change.ts';
import { problemWith } from '../../job/fields.ts';
import { valueAt } from '../../job/path.ts';
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import { display, echo, readQuantity, type Dimension } from '../../units/quantity.ts';
import type { Form } from '../reckoning/form.ts';
import { useUnits } from '../show/units.ts';
import { dropFromBench, endOfBenchGesture, holdOnBench, proposeOnBench, useBench } from './bench.ts';
import { labelOf } from './labels.ts';

export interface Props<F extends Form = Form> {
  readonly path: string;
  readonly form: F;
  readonly optional: boolean;
}
export type Of<Kind extends Form['kind']> = Props<Form & { readonly kind: Kind }>;

/** What the field itself shows. */
const AS_TYPED = / \([a-zA-Z]+; as typed[^()]*\)$/;

interface Typed {
  readonly problem: string | null;
  readonly to: unknown;
}

export function QuantityField({ path, form, optional }: Of<'quantity'>) {
  const value = useBench((state) => valueAt(state.document, path));
  const isNotMeasured = value === NOT_MEASURED;
  const read = (text: string): Typed => {
    const trimmed = text.trim();
    if (trimmed === '') return { problem: null, to: optional ? undefined : NOT_MEASURED };
    return { problem: problemWith(trimmed, form.rule), to: trimmed };
  };
  return (
    <TypedField
      path={path}
      help={form.help.replace(AS_TYPED, '')}
      shown={typeof value === 'string' && !isNotMeasured ? value : ''}
      placeholder={isNotMeasured ? NOT_MEASURED : optional ? 'left out' : ''}
      read={read}
      isMissing={isNotMeasured}
      note={typeof value === 'string' ? <QuantityNote text={value} dimension={form.rule.dimension} /> : null}
    />
  );
}

function QuantityNote({ text, dimension }: { readonly text: string; readonly dimension: Dimension }) {
  const units = useUnits((state) => state.units);
  if (text === NOT_MEASURED) return <p className="quiet">Not measured yet</p>;
  const read = readQuantity(text, dimension);
  if (!read.ok) return null;
  const isOtherUnit = units[dimension] !== read.quantity.unit && units[dimension] !== '' && dimension !== 'ratio';
  return (
    <p className="quiet">
      read as {echo(read.quantity, dimension)}
      {isOtherUnit && ` = ${display(read.quantity.value, dimension, units)}`}
    </p>
  );
}

export function TextField({ path, form }: Of<'text'>) {
  const value = useBench((state) => valueAt(state.document, path));
  return (
    <TypedField
      path={path}
      help={form.help}
      shown={typeof value === 'string' ? value : ''}
      isWide
      isLong={form.most >= 400}
      read={(text) => ({
        problem:
          text.length > form.most
            ? `this has ${text.length} characters; at most ${form.most} have room here`
            : text.trim().length < form.least
              ? 'something must stand here'
              : null,
        to: text,
      })}
    />
  );
}

export function NumberField({ path, form, optional }: Of<'number'>) {
  const value = useBench((state) => valueAt(state.document, path));
  return (
    <TypedField
      path={path}
      help={form.help}
      shown={typeof value === 'number' ? String(value) : ''}
      placeholder={form.word ?? ''}
      read={(text) => {
        if (text.trim() === '' && (optional || form.word !== undefined)) return { problem: null, to: form.word };
        const number = Number(text.replace(',', '.'));
        const fits = Number.isInteger(number) && number >= form.least && number <= form.most;
        return { problem: fits ? null : `write a whole number from ${form.least} to ${form.most}`, to: number };
      }}
    />
  );
}

interface TypedFieldProps {
  readonly path: string;
  readonly help: string;
  readonly shown: string;
  readonly read: (text: string) => Typed;
  readonly placeholder?: string;
  readonly isMissing?: boolean;
  readonly isWide?: boolean;
  readonly isLong?: boolean;
  readonly note?: ReactNode;
}

let stays = 0;

/** Everything typed in one stay in one field is one undo step. */
function TypedField({ path, help, shown, read, placeholder, isMissing, isWide, isLong, note }: TypedFieldProps) {
  const id = useId();
  const draft = useBench((state) => state.drafts[path]);
  const [typed, setTyped] = useState<string | null>(null);
  const stay = useRef('');
  const label = labelOf(path);
  const take = (text: string) => {
    setTyped(text);
    if (stay.current === '') stay.current = `typing ${(stays += 1)} ${path}`;
    const { problem, to } = read(text);
    if (problem !== null) return holdOnBench(path, text, problem);
    dropFromBench(path);
    void proposeOnBench({
      name: `${label}: ${typeof to === 'string' || typeof to === 'number' ? to : 'left out'}`,
      gesture: stay.current,
      changes: (document) => [change(document, path, to)],
      draft: { path, text },
    });
  };
  const shared = {
    id,
    value: typed ?? draft?.text ?? shown,
    placeholder,
    autoComplete: 'off',
    spellCheck: isLong === true,
    'aria-invalid': draft !== undefined,
    'aria-describedby': `${id}-help ${id}-note`,
    'data-field': path,
    'data-draft': draft === undefined ? 'no' : 'yes',
    onBlur: () => {
      setTyped(null);
      stay.current = '';
      endOfBenchGesture();
    },
    onKeyDown: (event: { readonly key: string }) => {
      if (event.key === 'Escape' && draft !== undefined) discard();
    },
  };
  const discard = () => {
    dropFromBench(path);
    setTyped(null);
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
          <input {...shared} type="text" onChange={(event) => take(event.target.value)} />
        )}
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
