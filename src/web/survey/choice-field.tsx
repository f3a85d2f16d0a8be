/** A choice of a few words, all of them in sight. */
import { useId } from 'react';
import { valueAt } from '../../job/path.ts';
import { useDesk } from '../desk/desk.ts';
import type { Form } from '../reckoning/form.ts';
import { optionWords } from './labels.ts';
import { set } from './typing.ts';

interface ChoiceFieldProps {
  readonly path: string;
  readonly form: Form & { readonly kind: 'choice' };
  readonly label: string;
  readonly optional: boolean;
}

export function ChoiceField({ path, form, label, optional }: ChoiceFieldProps) {
  const value = useDesk((state) => valueAt(state.document, path));
  return (
    <Options
      path={path}
      label={label}
      help={form.help}
      options={form.options}
      chosen={value}
      choose={(option) => set(path, option)}
      {...(optional && value !== undefined && { leaveOut: () => set(path, undefined) })}
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
  return (
    <fieldset className="field field-wide options" id={`field-${path}`}>
      <legend>{label}</legend>
      <div className="options-row">
        {options.map((option) => (
          <label key={option} className="option">
            <input type="radio" name={name} checked={option === chosen} onChange={() => choose(option)} />
            <span>{optionWords(option, path)}</span>
          </label>
        ))}
        {leaveOut !== undefined && (
          <button type="button" className="small" onClick={leaveOut}>
            Leave out
          </button>
        )}
      </div>
      {help !== '' && <p className="field-help">{help}</p>}
    </fieldset>
  );
}
