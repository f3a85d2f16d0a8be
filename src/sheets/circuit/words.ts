/** What is written on the drawing of a circuit, and all of it in sentences. */
import type {
  CircuitBranch,
  CircuitPart,
  CircuitPicture,
  CircuitStage,
  SourceState,
} from '../../assessment/circuit/picture.ts';
import type { CircuitLoad } from '../../assessment/circuit/load.ts';
import { wholeGauge } from '../../units/gauge.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { formatQuantity } from '../../units/format.ts';

export const stateWords: Readonly<Record<SourceState, string>> = {
  resting: 'source at rest',
  charging: 'charging',
  low: 'low battery',
  cranking: 'cranking',
};

export const stageWords: Readonly<Record<CircuitStage, string>> = { off: 'off', 'pull-in': 'pull-in', hold: 'hold' };

export function titleOf({ state, stage, coil, station }: CircuitPicture): string {
  const from = station === null ? '' : `, from "${station}"`;
  return `Circuit: ${stageWords[stage]}, ${stateWords[state]}, ${coil} coil${from}`;
}

/** Two places, so that the texts keep their width while values run; "? V" where it is not known. */
export function volts(value: number | null): string {
  return value === null ? '? V' : formatQuantity(value, 'voltage', 'V', { decimals: 2 });
}

export function amps(value: number | null): string {
  return value === null ? '? A' : formatQuantity(value, 'current', 'A', { significantDigits: 3 });
}

export function ohms(value: number | null): string {
  if (value === null) return '? Ω';
  return formatQuantity(value, 'resistance', value < 1 ? 'mΩ' : 'Ω', { significantDigits: 3 });
}

/** Along a run, metres or feet: millimetres and inches are too small to be read there. */
export function run(value: number | null, units: DisplayUnits): string {
  const unit = units.length === 'in' ? 'ft' : 'm';
  return value === null ? `? ${unit}` : formatQuantity(value, 'length', unit, { significantDigits: 3 });
}

export function section(value: number | null, units: DisplayUnits): string {
  const unit = value !== null && units.area === 'AWG' && wholeGauge(value) !== null ? 'AWG' : 'mm²';
  return value === null ? `? ${unit}` : formatQuantity(value, 'area', unit, { significantDigits: 3 });
}

/** Below the name of a part of the loop: what it is, and what it loses. */
export function partDetails(part: CircuitPart, units: DisplayUnits): string[] {
  const { kind, resistance, isCounted, isOpen, drop, rating } = part;
  const loses = isOpen ? 'open' : isCounted ? `drop ${volts(drop)}` : 'not counted';
  if (kind === 'source') return [ohms(resistance), loses];
  if (kind === 'conductor') return [`${section(part.section, units)}, ${run(part.length, units)}`, loses];
  const own = [...(kind === 'fuse' && rating !== null ? [amps(rating)] : []), ...(isCounted ? [ohms(resistance)] : [])];
  return [...(own.length > 0 ? [own.join(', ')] : []), loses];
}

export function suppressionWords({ suppression }: CircuitLoad): string {
  const { kind, polarity } = suppression;
  if (kind === 'none') return 'Nothing is fitted across the coil.';
  if (kind === 'not measured') return 'What is fitted across the coil is not known.';
  const lies =
    polarity === 'cathode to plus'
      ? ', cathode to plus'
      : polarity === 'anode to plus'
        ? ', the wrong way round: anode to plus'
        : polarity === 'not measured'
          ? ', which way round is not known'
          : '';
  return `Across the coil: ${kind}${lies}.`;
}

/** The drawing in words. */
export function sentencesOf(picture: CircuitPicture, units: DisplayUnits): string[] {
  const { source, out, load, back, others, remarks, missing } = picture;
  const said = [
    `${volts(source.fromVolts)} at the source, ${ohms(source.resistance)} inside: ${volts(source.toVolts)} at its terminals, ${amps(picture.amps)} drawn.`,
    ...out.map((part) => partSentence(part, units)),
    `At the solenoid ${volts(load.plusVolts)} against ${volts(load.minusVolts)}: ${volts(load.volts)} across it.`,
    ...load.windings.map(
      (winding) => `${winding.name}: ${ohms(winding.resistance)}, ${volts(winding.volts)}, ${amps(winding.amps)}.`,
    ),
  ];
  if (load.endSwitch?.isWired === true) said.push(`The end switch is ${load.endSwitch.isOpen ? 'open' : 'closed'}.`);
  if (load.resistor !== null)
    said.push(
      load.resistor.isBridged
        ? `The end switch bridges the resistor of ${ohms(load.resistor.resistance)}.`
        : `Resistor: ${ohms(load.resistor.resistance)}, ${volts(load.resistor.volts)}, ${amps(load.resistor.amps)}.`,
    );
  if (load.economiser !== null)
    said.push(
      `The economiser ${load.economiser.isReducing ? 'holds the coil volts down' : 'gives the coil all the volts'}.`,
    );
  said.push(suppressionWords(load), ...back.map((part) => partSentence(part, units)));
  said.push(...others.map((branch) => branchSentence(branch)));
  if (missing.length > 0) said.push(missingWords(missing.length));
  return [...said, ...remarks];
}

export function missingWords(count: number): string {
  return count === 1
    ? 'Volts and amps are not known: a reading has not been taken.'
    : `Volts and amps are not known: ${count} readings have not been taken.`;
}

function partSentence(part: CircuitPart, units: DisplayUnits): string {
  return `${part.name}: ${partDetails(part, units).join(', ')}; ${volts(part.toVolts)} after it.`;
}

export function branchSentence({ name, alsoFeeds, hasDiode, backVolts }: CircuitBranch): string {
  const diode = hasDiode ? 'its diode lets current out only' : 'no diode';
  const feeds =
    alsoFeeds === ''
      ? ''
      : `; also feeds ${alsoFeeds}${backVolts === null ? '' : backVolts > 0 ? `, to which ${volts(backVolts)} come back` : ''}`;
  return `${name}, open: ${diode}${feeds}.`;
}
