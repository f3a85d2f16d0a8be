/** The sentences with which a text is refused: what was read, and what would be right. */
import { quoted } from './characters.ts';
import { dimensionWords, type Dimension } from './dimension.ts';
import { dimensionSpelled } from './unit-table.ts';

/** "a length such as 42 mm or 1 5/8 in" */
export function whatWouldBeRight(dimension: Dimension): string {
  const { name, example } = dimensionWords[dimension];
  return `${name} such as ${example}`;
}

/** "42 mm ± 2 %", as one would type it in this dimension. */
export function exampleWithPlusMinus(dimension: Dimension): string {
  if (dimension === 'temperature') return '85 °C ± 4 °C';
  if (dimension === 'ratio') return '0.25 ± 0.02';
  return `${dimensionWords[dimension].example.split(/,| or /)[0] ?? ''} ± 2 %`;
}

export function noUnit(text: string, dimension: Dimension): string {
  return `${quoted(text)} has no unit: write ${whatWouldBeRight(dimension)}`;
}

export function noNumber(text: string, dimension: Dimension): string {
  return `${quoted(text)} does not begin with a number: write ${whatWouldBeRight(dimension)}`;
}

/** The unit is of another dimension, is no unit at all, or what stands there is a range or a lopsided tolerance. */
export function wrongUnit(unitText: string, dimension: Dimension, text: string): string {
  if (/^(?:-|to\b|\.\.) ?\d/.test(unitText))
    return `${quoted(text)} looks like a range: write its middle and half its spread, as ${exampleWithPlusMinus(dimension)}`;
  if (/[+-] ?\d/.test(unitText))
    return `${quoted(text)} has a + or - inside: write one ± half-width, as ${exampleWithPlusMinus(dimension)}`;
  if (dimension === 'length' && /^mils?$/i.test(unitText))
    return `${quoted(text)}: a mil is a thousandth of an inch to some and a millimetre to others: write thou or mm`;
  const other = dimensionSpelled(unitText);
  const right = whatWouldBeRight(dimension);
  if (!other)
    return `${quoted(text)}: ${quoted(unitText)} is not a unit of ${dimensionWords[dimension].name.replace(/^an? /, '')}: write ${right}`;
  const otherName = /^awg$/i.test(unitText) ? 'a wire size' : dimensionWords[other].name;
  return `${quoted(text)} is ${otherName}: write ${right}`;
}

export function wrongUnitOfPlusMinus(unitText: string, dimension: Dimension, text: string): string {
  const other = dimensionSpelled(unitText);
  const what = other
    ? `is ${dimensionWords[other].name}`
    : `has ${quoted(unitText)}, which is not a unit of ${dimensionWords[dimension].name.replace(/^an? /, '')}`;
  return `${quoted(text)}: what follows ± ${what}: write it in the unit of the value, as ${exampleWithPlusMinus(dimension)}`;
}

export function gaugeHasNoPlusMinus(text: string): string {
  return `${quoted(text)}: a wire gauge takes no ±: write 18 AWG, or an area such as 0.82 mm² ± 2 %`;
}

export function unitTwice(text: string): string {
  return `${quoted(text)} has a unit inside and outside the brackets: write (42 ± 0.5) mm`;
}
