/** The one travel control: a slider from home outwards, for both drawings. */
import { fromSI, toSI } from '../../units/quantity.ts';
import { put, useDesk } from '../desk/desk.ts';
import { useUnits } from '../show/units.ts';
import { amount } from '../show/words.ts';
import { reachOf } from './reach.ts';

export function Travel() {
  const gap_mm = useDesk((state) => state.gap_mm);
  const reach_mm = useDesk((state) => reachOf(state));
  const travel = useDesk((state) => state.assessment?.travel ?? null);
  const units = useUnits((state) => state.units);
  if (reach_mm === null) return null;
  const places = [
    { words: 'Home', gap: travel?.homeGap_mm ?? 0 },
    { words: 'Lever takes the load', gap: travel?.startGap_mm ?? null },
    { words: 'Fully out', gap: reach_mm },
  ].filter((place, i, all) => place.gap !== null && all.findIndex((other) => isNear(other.gap, place.gap)) === i);
  return (
    <div className="travel">
      <label className="travel-words" htmlFor="travel">
        Travel: <b>{amount(gap_mm, 'mm', units)}</b> from home
      </label>
      <input
        id="travel"
        className="travel-slider"
        type="range"
        min={0}
        max={reach_mm}
        step={0.1}
        value={gap_mm}
        aria-valuetext={`${amount(gap_mm, 'mm', units)} from home`}
        onChange={(event) => put({ gap_mm: Number(event.target.value) })}
      />
      <div className="travel-places">
        {places.map(({ words, gap }) => (
          <button key={words} type="button" className="small" onClick={() => put({ gap_mm: gap! })}>
            {words}
          </button>
        ))}
        <label className="travel-typed">
          or type
          <input
            type="text"
            inputMode="decimal"
            size={6}
            aria-label={`Travel from home in ${units.length}`}
            key={gap_mm.toFixed(2) + units.length}
            defaultValue={Number(fromSI(toSI(gap_mm, 'mm'), units.length).toFixed(2))}
            onKeyDown={(event) => {
              if (event.key !== 'Enter') return;
              const typed = Number(event.currentTarget.value.replace(',', '.'));
              if (!Number.isFinite(typed)) return;
              put({ gap_mm: Math.min(reach_mm, Math.max(0, fromSI(toSI(typed, units.length, 'length'), 'mm'))) });
            }}
          />
          {units.length}
        </label>
      </div>
    </div>
  );
}

const isNear = (a: number | null, b: number | null): boolean => a !== null && b !== null && Math.abs(a - b) < 0.05;
