/** The numbers where the travel control stands. */
import { fromSI, type DisplayUnits } from '../../units/quantity.ts';
import { useUnits } from '../show/units.ts';
import { amount } from '../show/words.ts';
import { useDrawn } from './drawn.ts';

export function Numbers() {
  const picture = useDrawn((state) => state.drawn?.picture ?? null);
  const units = useUnits((state) => state.units);
  if (picture === null) return null;
  const { now, forces, armMinusShaft } = picture;
  const shaft = now.armAngle === null || armMinusShaft === null ? null : now.armAngle - armMinusShaft;
  const force = (newtons: number | null | undefined) => say(newtons ?? null, 'N', units);
  return (
    <dl className="cursor-numbers" aria-label="Numbers where the travel control stands">
      <Number_ name="Gap" value={say(now.gap === null ? null : fromSI(now.gap, 'mm'), 'mm', units)} />
      <Number_ name="Shaft angle" value={say(shaft === null ? null : fromSI(shaft, '°'), '°', units)} />
      <Number_ name="Pull, least" value={force(forces?.pullLeast)} />
      <Number_ name="Pull, greatest" value={force(forces?.pullGreatest)} />
      <Number_ name="Pull needed" value={force(forces?.pullNeeded)} />
      <Number_
        name="Side force"
        value={force(forces === null || forces.side === null ? null : Math.abs(forces.side))}
      />
      <Number_ name="Left to return" value={force(forces?.return)} />
    </dl>
  );
}

function Number_({ name, value }: { readonly name: string; readonly value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}

/** Whole tenths, so that a running number keeps its width. */
function say(value: number | null, unit: string, units: DisplayUnits): string {
  return value === null ? 'not known' : amount(value, unit, units);
}
