/** "Circuit": volts and amps of the whole loop in a chosen state, and which conductor it needs. */
import { useEffect, useId, useLayoutEffect, useRef } from 'react';
import type { CircuitCondition } from '../../assessment/circuit/picture.ts';
import { goToField, useDesk } from '../desk/desk.ts';
import { showSheet } from '../drawings/sheet-view.ts';
import { FieldLink } from '../findings/field-link.tsx';
import type { CircuitSheet } from '../reckoning/worker.ts';
import { followDesk, setSheetWidth, show, showStation, useCircuit } from './circuit.ts';
import './circuit.css';
import { Conductors } from './conductors.tsx';
import { useFitting, widthInto } from '../panels/fitting.ts';

const fit = widthInto(setSheetWidth);

export default function CircuitPanel() {
  const isSolenoid = useDesk((state) => state.document?.means.kind === 'solenoid');
  const trouble = useCircuit((state) => state.trouble);
  const box = useRef<HTMLDivElement>(null);
  useEffect(followDesk, []);
  useFitting(box, fit);
  return (
    <div className="circuit-panel" ref={box}>
      {trouble !== null && <p className="field-error">The circuit could not be reckoned: {trouble}</p>}
      {isSolenoid ? (
        <>
          <Choices />
          <Sheet />
          <Conductors />
        </>
      ) : (
        <p>This job has no solenoid, and so no circuit.</p>
      )}
    </div>
  );
}

const states: readonly (readonly [CircuitCondition['state'], string])[] = [
  ['resting', 'At rest'],
  ['charging', 'Charging'],
  ['low', 'Low battery'],
  ['cranking', 'Cranking'],
];
const stages: readonly (readonly [CircuitCondition['stage'], string])[] = [
  ['off', 'Off'],
  ['pull-in', 'Pull-in'],
  ['hold', 'Hold'],
];
const coils: readonly (readonly [CircuitCondition['coil'], string])[] = [
  ['hot', 'Hot'],
  ['cold', 'Cold'],
];

function Choices() {
  const { state, stage, coil, station } = useCircuit((now) => now.condition);
  const works = useDesk((now) => (now.document?.means.kind === 'solenoid' ? now.document.means.works : null));
  const stations = useDesk((now) => now.document?.supply.stations ?? none);
  return (
    <div className="circuit-choices">
      <Choice legend="Source" options={states} chosen={state} choose={(one) => show({ state: one })} />
      <Choice legend="Stage" options={stages} chosen={stage} choose={(one) => show({ stage: one })} />
      <Choice legend="Coil and wiring" options={coils} chosen={coil} choose={(one) => show({ coil: one })} />
      {works === 'energise to stop' && stations.length > 0 && (
        <Choice
          legend="Worked from"
          options={[[null, 'First place'], ...stations.map(({ name }, i) => [i, name] as const)]}
          chosen={station ?? null}
          choose={showStation}
        />
      )}
    </div>
  );
}

interface ChoiceProps<Option extends string | number | null> {
  readonly legend: string;
  readonly options: readonly (readonly [Option, string])[];
  readonly chosen: Option;
  readonly choose: (option: Option) => void;
}

function Choice<Option extends string | number | null>({ legend, options, chosen, choose }: ChoiceProps<Option>) {
  const group = useId();
  return (
    <fieldset className="options">
      <legend>{legend}</legend>
      <div className="options-row">
        {options.map(([option, words]) => (
          <label key={words} className="option">
            <input type="radio" name={group} checked={option === chosen} onChange={() => choose(option)} />
            <span>{words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** The drawing, with a button over each part that leads to its field. */
function Sheet() {
  const sheet = useCircuit((state) => state.sheet);
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (host.current === null) return;
    if (sheet === null) host.current.replaceChildren();
    else showSheet(host.current, sheet.tree);
  }, [sheet]);
  return (
    <>
      <div className="circuit-sheet" data-circuit={sheet === null ? 'waiting' : 'there'}>
        <div ref={host} />
        {sheet !== null && <Targets sheet={sheet} />}
      </div>
      {sheet === null && (
        <p className="quiet" role="status">
          One moment…
        </p>
      )}
      {sheet !== null && sheet.missing.length > 0 && (
        <section aria-label="Readings to take">
          <p>Volts and amps are not known yet. These readings would tell:</p>
          <ul className="paths">
            {sheet.missing.map((path) => (
              <li key={path}>
                <FieldLink path={path} />
              </li>
            ))}
          </ul>
        </section>
      )}
      <p className="quiet circuit-hint">Tap a part to go to its field.</p>
    </>
  );
}

function Targets({ sheet: { targets, width, height } }: { readonly sheet: CircuitSheet }) {
  return targets.map(({ name, words, path, box: { left, right, bottom, top } }) => (
    <button
      key={name}
      type="button"
      className="circuit-target"
      aria-label={`${words}: go to its field`}
      data-target={name}
      style={{
        left: `${(100 * left) / width}%`,
        top: `${100 * (1 - top / height)}%`,
        width: `${(100 * (right - left)) / width}%`,
        height: `${(100 * (top - bottom)) / height}%`,
      }}
      onClick={() => goToField(path)}
    />
  ));
}

const none: readonly never[] = [];
