/** Volts at the coil and its temperature, for which the curve is drawn. */
import { useId } from 'react';
import { readQuantity, type Dimension } from '../../units/quantity.ts';
import { bench, putOnBench, useBench, type Bench } from './bench.ts';

export function DriveFields() {
  return (
    <div className="solenoid-drive" role="group" aria-label="Curve at">
      <DriveField label="Curve at, volts on the coil" of="voltage" dimension="voltage" />
      <DriveField label="Temperature of the coil" of="coilTemperature" dimension="temperature" />
    </div>
  );
}

interface DriveFieldProps {
  readonly label: string;
  readonly of: keyof Bench['drive'];
  readonly dimension: Dimension;
}

function DriveField({ label, of, dimension }: DriveFieldProps) {
  const id = useId();
  const text = useBench((state) => state.drive[of]);
  const read = readQuantity(text, dimension);
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        value={text}
        data-drive={of}
        aria-invalid={text !== '' && !read.ok}
        aria-describedby={`${id}-note`}
        onChange={(event) => putOnBench({ drive: { ...bench().drive, [of]: event.target.value } })}
      />
      <p id={`${id}-note`} className={text !== '' && !read.ok ? 'field-error' : 'quiet'}>
        {text === '' ? 'Not stated: ampere-turns are taken instead' : read.ok ? '' : `${read.problem}.`}
      </p>
    </div>
  );
}
