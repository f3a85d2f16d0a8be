/** What a knob is, and the two usual ways to make one: a quantity resized by shares, a quantity shifted by steps. */
import { change, type Change } from '../../job/change.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import type { Job } from '../../job/schema.ts';
import { display, formatQuantity, fromSI, toSI, type Dimension, type DisplayUnits } from '../../units/quantity.ts';

export interface Setting {
  readonly words: string;
  readonly changes: readonly Change[];
}

/** One sense in which something can be turned: `settingAt(amount)` for any amount between those of the ladder. */
export interface Knob {
  readonly name: string;
  /** Amounts from small to large, in the knob's own unit. */
  readonly ladder: readonly number[];
  /** Smallest step worth naming: an amount is rounded up to it. Zero where the ladder is all there is. */
  readonly step: number;
  /** Null where this amount has no meaning (a length below zero, the setting that is there already). */
  settingAt(amount: number): Setting | null;
}

export const millimetres = [0.25, 0.5, 1, 1.5, 2, 3, 4, 6, 8, 11, 15, 20];
export const degrees = [0.5, 1, 2, 4, 6, 9, 13, 18];
export const shares = [0.05, 0.1, 0.2, 0.35, 0.5, 0.75, 1, 1.5, 2, 3];
export const fewer = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8];

export const MM = toSI(1, 'mm');
export const DEGREE = toSI(1, '°');

export type Say = (dimension: Dimension, value: number) => string;

/** Text of a quantity with another value: the unit and the ± of the old text are kept. */
export function rewritten(text: string, dimension: Dimension, value: number): string | null {
  const old = quantityIn(text, dimension);
  if (old === null) return null;
  const plain = formatQuantity(value, dimension, old.unit, { significantDigits: 5 });
  if (old.plusMinus === null || old.plusMinus === 0 || dimension === 'area') return plain;
  const half = fromSI(old.plusMinus, old.unit, dimension === 'temperature' ? 'temperatureDifference' : dimension);
  return `${plain} ± ${Number(half.toPrecision(3))}`;
}

export function valueAtPath(job: Job, path: string, dimension: Dimension): number {
  const text = change(job, path, undefined).from;
  return typeof text === 'string' ? (quantityIn(text, dimension)?.value ?? NaN) : NaN;
}

export function set(job: Job, path: string, dimension: Dimension, value: number): Change | null {
  const { from } = change(job, path, undefined);
  const to = typeof from === 'string' ? rewritten(from, dimension, value) : null;
  return to === null ? null : change(job, path, to);
}

/** The changes of a move along x and y that change anything; null where one of them cannot be made, or none does. */
export function moves(changes: readonly (Change | null)[]): readonly Change[] | null {
  const real = changes.filter((one) => one !== null);
  const felt = real.filter(({ from, to }) => from !== to);
  return real.length < changes.length || felt.length === 0 ? null : felt;
}

/** A quantity made larger (+1) or smaller (-1) by shares of itself. */
export function resize(
  job: Job,
  path: string,
  dimension: Dimension,
  units: DisplayUnits,
  ladder: readonly number[],
  way: 1 | -1,
  words: (to: string) => string,
): Knob[] {
  const value = valueAtPath(job, path, dimension);
  if (!(value > 0)) return [];
  return [
    {
      name: `${path} ${way === 1 ? 'up' : 'down'}`,
      ladder,
      step: 0.01,
      settingAt(share) {
        const to = value * (1 + way * share);
        const one = to > 0 ? set(job, path, dimension, to) : null;
        return one === null ? null : { words: words(display(to, dimension, units, 3)), changes: [one] };
      },
    },
  ];
}

/** A quantity moved by steps of a stated size, both ways. */
export function shift(
  job: Job,
  path: string,
  dimension: Dimension,
  unit: number,
  ladder: readonly number[],
  step: number,
  words: (to: number, way: 1 | -1) => string,
  least = -Infinity,
): Knob[] {
  const value = valueAtPath(job, path, dimension);
  if (Number.isNaN(value)) return [];
  return ([1, -1] as const).map((way) => ({
    name: `${path} ${way === 1 ? 'up' : 'down'}`,
    ladder,
    step,
    settingAt(amount) {
      const to = value + way * amount * unit;
      const one = to > least ? set(job, path, dimension, to) : null;
      return one === null ? null : { words: words(to, way), changes: [one] };
    },
  }));
}
