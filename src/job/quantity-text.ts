/** The text that a quantity field holds, read back. It stands apart from the schema, which the reckoning never needs. */
import { readQuantity, type Dimension, type Quantity } from '../units/quantity.ts';

/** What a field holds when the reading has not been taken. It is a value of its own, not an absence. */
export const NOT_MEASURED = 'not measured';

/**
 * The quantity that a valid field holds; null when it was not measured. A drawn document (assessment/spread) holds
 * quantities that are already read in the place of texts; they are given back as they are.
 */
export function quantityIn(text: string | Quantity, dimension: Dimension): Quantity | null {
  if (typeof text !== 'string') return text;
  if (text === NOT_MEASURED) return null;
  const read = readQuantity(text, dimension);
  return read.ok ? read.quantity : null;
}
