/**
 * Numbers out of the texts of a job document. A reading that was not taken is NaN in here and nowhere else: the checks
 * look for missing readings by path before they judge, and nothing that is NaN leaves this room.
 */
import { defaults, type DefaultPath } from '../job/defaults.ts';
import { quantityIn } from '../job/quantity-text.ts';
import type { Dimension } from '../units/quantity.ts';
import type { Assumption } from './finding.ts';

/** A value with the ends of its ±. */
export interface Band {
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

/** SI value of a reading; NaN where it was not taken. */
export function valueOf(text: string, dimension: Dimension): number {
  return quantityIn(text, dimension)?.value ?? NaN;
}

/** Reads optional fields, and keeps the list of defaults that stood in for them. */
export class DefaultReader {
  readonly assumed: Assumption[] = [];

  /** @param key the default's own name where it differs from the path (rows of a list) */
  value(path: string, text: string | undefined, dimension: Dimension, key: DefaultPath = path as DefaultPath): number {
    return text === undefined ? this.band(path, text, dimension, key).value : valueOf(text, dimension);
  }

  band(path: string, text: string | undefined, dimension: Dimension, key: DefaultPath = path as DefaultPath): Band {
    if (text !== undefined) return bandOf(text, dimension);
    const used = defaults[key];
    this.assumed.push({ path, text: used.text, source: used.source });
    return bandOf(used.text, dimension);
  }
}

/** Reads the same and keeps no list: for a study that reads one document over and over. */
export class QuietReader extends DefaultReader {
  readonly #usual = new Map<DefaultPath, Band>();

  override band(path: string, text: string | undefined, dimension: Dimension, key?: DefaultPath): Band {
    if (text !== undefined) return bandOf(text, dimension);
    const name = key ?? (path as DefaultPath);
    const known = this.#usual.get(name) ?? bandOf(defaults[name].text, dimension);
    this.#usual.set(name, known);
    return known;
  }
}

function bandOf(text: string, dimension: Dimension): Band {
  const quantity = quantityIn(text, dimension);
  if (quantity === null) return { low: NaN, value: NaN, high: NaN };
  const half = quantity.plusMinus ?? 0;
  return { low: quantity.value - half, value: quantity.value, high: quantity.value + half };
}
