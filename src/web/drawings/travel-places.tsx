/** Beside a travel control: places to go to with one tap, and a gap to go to, typed in the reader's unit. */
import { useState } from 'react';
import { fromSI, toSI } from '../../units/quantity.ts';
import { useUnits } from '../show/units.ts';

export interface TravelPlace {
  readonly words: string;
  readonly gap_mm: number;
}

interface TravelPlacesProps {
  readonly places: readonly TravelPlace[];
  readonly reach_mm: number;
  readonly go: (gap_mm: number) => void;
}

export function TravelPlaces({ places, reach_mm, go }: TravelPlacesProps) {
  return (
    <div className="travel-places">
      {places.map(({ words, gap_mm }) => (
        <button key={words} type="button" className="small" onClick={() => go(gap_mm)}>
          {words}
        </button>
      ))}
      <TypedGap reach_mm={reach_mm} go={go} />
    </div>
  );
}

function TypedGap({ reach_mm, go }: Omit<TravelPlacesProps, 'places'>) {
  const { length } = useUnits((state) => state.units);
  const [typed, setTyped] = useState('');
  const goThere = () => {
    const value = Number(typed.replace(',', '.'));
    if (typed.trim() === '' || !Number.isFinite(value)) return;
    go(Math.min(reach_mm, Math.max(0, fromSI(toSI(value, length, 'length'), 'mm'))));
  };
  return (
    <form
      className="travel-typed"
      onSubmit={(event) => {
        event.preventDefault();
        goThere();
      }}
    >
      <span>Go to</span>
      <input
        type="text"
        inputMode="decimal"
        size={6}
        aria-label={`Go to this gap, in ${length}`}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
      {length}
      <button type="submit" className="small">
        Go
      </button>
    </form>
  );
}
