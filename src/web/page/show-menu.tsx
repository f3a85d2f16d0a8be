/** How things are shown: units, light or dark, on paper. Nothing here changes what is kept. */
import { useEffect, useRef } from 'react';
import { sayAgain } from '../desk/remedies.ts';
import { chooseTheme, themes, useTheme } from '../show/theme.ts';
import { chooseUnits, useUnits, type UnitChoice } from '../show/units.ts';

const parts: readonly {
  readonly part: keyof UnitChoice;
  readonly words: string;
  readonly options: readonly string[];
}[] = [
  { part: 'length', words: 'Lengths', options: ['mm', 'in'] },
  { part: 'force', words: 'Forces', options: ['N', 'kgf', 'lbf'] },
  { part: 'temperature', words: 'Temperatures', options: ['°C', '°F'] },
  { part: 'area', words: 'Wires', options: ['mm²', 'AWG'] },
];

export function ShowMenu() {
  const box = useRef<HTMLDetailsElement>(null);
  const choice = useUnits((state) => state.choice);
  const theme = useTheme((state) => state.theme);
  useEffect(() => {
    const close = (event: Event) => {
      const element = box.current;
      if (element === null || !element.open) return;
      const isEscape = event instanceof KeyboardEvent && event.key === 'Escape';
      const isOutside = event.type === 'pointerdown' && event.target instanceof Node && !element.contains(event.target);
      if (isEscape || isOutside) element.open = false;
    };
    document.addEventListener('keydown', close);
    document.addEventListener('pointerdown', close);
    return () => {
      document.removeEventListener('keydown', close);
      document.removeEventListener('pointerdown', close);
    };
  }, []);
  return (
    <details className="show-menu" ref={box}>
      <summary>Units and view</summary>
      <div className="show-menu-box">
        <p className="quiet">Shows numbers in your units. What you entered stays as you wrote it.</p>
        {parts.map(({ part, words, options }) => (
          <Choice
            key={part}
            words={words}
            options={options}
            chosen={choice[part]}
            choose={(option) => {
              chooseUnits({ [part]: option });
              void sayAgain();
            }}
          />
        ))}
        <Choice words="Sheet" options={themes} chosen={theme} choose={(option) => chooseTheme(option)} />
        <button
          type="button"
          onClick={() => {
            if (box.current !== null) box.current.open = false;
            window.print();
          }}
        >
          Print these results
        </button>
      </div>
    </details>
  );
}

interface ChoiceProps<Option extends string> {
  readonly words: string;
  readonly options: readonly Option[];
  readonly chosen: string;
  readonly choose: (option: Option) => void;
}

function Choice<Option extends string>({ words, options, chosen, choose }: ChoiceProps<Option>) {
  return (
    <fieldset className="options">
      <legend>{words}</legend>
      <div className="options-row">
        {options.map((option) => (
          <label key={option} className="option">
            <input type="radio" name={`show ${words}`} checked={option === chosen} onChange={() => choose(option)} />
            <span>
              {option.charAt(0) === 'a' || option === 'light' || option === 'dark'
                ? option.charAt(0).toUpperCase() + option.slice(1)
                : option}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
