/** What a study says, in sentences. */
import { display, type DisplayUnits } from '../../units/quantity.ts';
import type { Estimate } from '../../numerics/statistics-scrambles.ts';
import type { SpreadInput } from './inputs.ts';
import type { TighteningOption } from './tighten.ts';

/** "0.4 %", "below 0.04 %", "over 99.9 %": no more figures than the draws can bear. */
export function chanceWords({ value, lower, upper }: Estimate): string {
  if (value === 0) return upper === null ? 'none seen' : `below ${percent(Math.max(upper, 1e-6))}`;
  if (value === 1) return lower === null ? 'every draw' : `over ${percent(Math.min(lower, 1 - 1e-6), 'down')}`;
  return percent(value);
}

/** "± 0.3 %", twice the standard error; empty where it is not known or the chance is at an end. */
export function chanceErrorWords({ value, standardError }: Estimate): string {
  return standardError === null || value === 0 || value === 1 ? '' : ` ± ${percent(2 * standardError)}`;
}

function percent(share: number, round: 'near' | 'down' = 'near'): string {
  const hundredths = 100 * share;
  if (hundredths > 90 && hundredths < 100) {
    const digits = Math.max(0, Math.ceil(-Math.log10(100 - hundredths)) + 1);
    const factor = 10 ** Math.min(4, digits);
    const value = (round === 'down' ? Math.floor : Math.round)(hundredths * factor) / factor;
    return `${value} %`;
  }
  return `${Number(hundredths.toPrecision(2))} %`;
}

/** A half-width in the reader's units. */
export function plusMinusWords(value_SI: number, input: Pick<SpreadInput, 'dimension'>, units: DisplayUnits): string {
  const dimension = input.dimension === 'temperature' ? 'temperatureDifference' : input.dimension;
  return `± ${display(value_SI, dimension, units, 2)}`;
}

/** "Measure the stroke better: ± 0.1 mm in place of ± 0.2 mm", and what it brings. */
export function tighteningWords(
  option: TighteningOption,
  inputs: readonly SpreadInput[],
  nameOf: (path: string) => string,
  units: DisplayUnits,
): string {
  const parts = option.inputs.map(({ path, remedy, plusMinus_SI, needed_SI }) => {
    const input = inputs.find((one) => one.path === path);
    const verb = remedy === 'measure' ? 'measure' : 'hold';
    const how = remedy === 'measure' ? 'better' : 'tighter';
    if (input === undefined || !option.isEnough) return `${verb} ${nameOf(path)} ${how}`;
    const [now, then] = [plusMinus_SI, needed_SI].map((value) => plusMinusWords(value, input, units));
    return `${verb} ${nameOf(path)} ${how}: ${then} in place of ${now}`;
  });
  const said = parts.join('; and ');
  const sentence = said.charAt(0).toUpperCase() + said.slice(1);
  return option.isEnough
    ? `${sentence}. Chance of failing then: ${chanceWords(option.after)}.`
    : `${sentence}: not enough. Even exact, ${chanceWords(option.after)} would fail.`;
}
