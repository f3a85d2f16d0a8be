/** A choice of a few words, all of them in sight. */
import { useId } from 'react';
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import type { Form } from '../reckoning/form.ts';
import { useHolder, useValue } from './holder.ts';
import { set } from './typing.ts';

interface ChoiceFieldProps {
  readonly path: string;
  readonly form: Form & { readonly kind: 'choice' };
  readonly label: string;
  readonly optional: boolean;
}

export function ChoiceField({ path, form, label, optional }: ChoiceFieldProps) {
  const holder = useHolder();
  const value = useValue(path);
  return (
    <Options
      path={path}
      label={label}
      help={form.help}
      options={form.options}
      chosen={value}
      choose={(option) => set(holder, path, option)}
      {...(optional && value !== undefined && { leaveOut: () => set(holder, path, undefined) })}
    />
  );
}

interface OptionsProps {
  readonly path: string;
  readonly label: string;
  readonly help: string;
  readonly options: readonly (string | number)[];
  readonly chosen: unknown;
  readonly choose: (option: string | number) => void;
  /** Where nothing need be chosen and something is. */
  readonly leaveOut?: () => void;
}

export function Options({ path, label, help, options, chosen, choose, leaveOut }: OptionsProps) {
  const name = useId();
  const { words } = useHolder();
  const isMissing = chosen === NOT_MEASURED;
  return (
    <fieldset className={`field field-wide options${isMissing ? ' is-missing' : ''}`} id={`field-${path}`}>
      <legend>{label}</legend>
      <div className="options-row">
        {options.map((option) => (
          <label key={option} className="option">
            <input type="radio" name={name} checked={option === chosen} onChange={() => choose(option)} />
            <span>{words.optionWords(option, path)}</span>
          </label>
        ))}
        {leaveOut !== undefined && (
          <button type="button" className="small" onClick={leaveOut}>
            Leave out
          </button>
        )}
      </div>
      {isMissing && <p className="quiet">Not measured yet</p>}
      {help !== '' && <p className="field-help">{help}</p>}
    </fieldset>
  );
}
