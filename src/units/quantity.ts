/** The door of this room: quantities as people write them, to base SI and back. */
export { converterFromSI, fromSI, toSI } from './convert.ts';
export { dimensions, dimensionWords, type Dimension, type Quantity, type QuantityReading } from './dimension.ts';
export { display, imperialUnits, kilogramForceUnits, metricUnits, type DisplayUnits } from './display.ts';
export { echo, formatQuantity, type FormatOptions } from './format.ts';
export { readQuantity } from './read.ts';
export { unitsOf } from './unit-table.ts';
