/**
 * What a reading may be off where no ± is written beside it: the usual limits of the instrument that such a reading is
 * taken with. All of them: common practice, no source. A ± on the reading itself always goes before.
 */
import { toSI } from '../../units/quantity.ts';

export interface Instrument {
  readonly name: string;
  readonly words: string;
  /** Limits each way at this value, base SI, never negative. */
  readonly limit: (value_SI: number) => number;
}

const MM = toSI(1, 'mm');
const DEGREE = toSI(1, '°');

const fixed = (half_SI: number) => () => half_SI;
const part =
  (share: number, least_SI = 0) =>
  (value: number) =>
    Math.max(least_SI, share * Math.abs(value));

export const instruments = [
  { name: 'caliper', words: 'caliper, ± 0.05 mm', limit: fixed(0.05 * MM) },
  { name: 'micrometer', words: 'micrometer, ± 0.01 mm', limit: fixed(0.01 * MM) },
  { name: 'feeler gauge', words: 'feeler gauge, ± 0.02 mm', limit: fixed(0.02 * MM) },
  { name: 'rule', words: 'steel rule, ± 0.5 mm', limit: fixed(0.5 * MM) },
  { name: 'protractor', words: 'protractor, ± 0.5°', limit: fixed(0.5 * DEGREE) },
  { name: 'balance', words: 'spring balance, ± 2 % and at least 0.2 N', limit: part(0.02, 0.2) },
  { name: 'scale', words: 'kitchen scale, ± 1 % and at least 2 g', limit: part(0.01, 2e-3) },
  {
    name: 'multimeter',
    words: 'multimeter, ± 1 % and 0.02 Ω of its leads',
    limit: (value: number) => 0.01 * Math.abs(value) + 0.02,
  },
  { name: 'volt drop', words: 'volt drop at a known current, ± 5 %', limit: part(0.05) },
  { name: 'voltmeter', words: 'voltmeter, ± 0.5 %', limit: part(0.005) },
  { name: 'clamp meter', words: 'clamp meter, ± 2 %', limit: part(0.02) },
  { name: 'thermometer', words: 'thermometer, ± 2 K', limit: fixed(2) },
  { name: 'count', words: 'turns counted, ± 0.25', limit: fixed(0.25) },
  { name: 'catalogue', words: 'data sheet or catalogue, ± 10 %', limit: part(0.1) },
] as const satisfies readonly Instrument[];

export type InstrumentName = (typeof instruments)[number]['name'];

/** Which instrument takes which reading, by the path without row numbers. The first that fits counts. */
const takenWith: readonly (readonly [RegExp, InstrumentName])[] = [
  [/^survey\.lever\.(runAngle|noFuelAngle|hardStopAngle|runStopAngle|armOffset|lash)$/, 'protractor'],
  [/^survey\.effort\.readings\[\]\.angle$/, 'protractor'],
  [/^survey\.effort\.(readings\[\]|firstPull)\.radius$/, 'rule'],
  [/^survey\.effort\.(readings\[\]|firstPull)\.(pull|easingBack)$/, 'balance'],
  [/^means\.plunger\.(stroke|diameter|guideLength|overhang)$/, 'caliper'],
  [/^means\.plunger\.boreClearance$/, 'feeler gauge'],
  [/^means\.plunger\.mass$/, 'scale'],
  [/^means\.force\[\]\.rows\[\]\.force$/, 'balance'],
  [/^means\.force\[\]\.drive\.voltage$/, 'voltmeter'],
  [/^means\.force\[\]\.drive\.current$/, 'clamp meter'],
  [/^means\.force\[\]\.drive\.coilTemperature$/, 'thermometer'],
  [/^means\.stickingForce$/, 'balance'],
  [/^means\.coil\.(resistance|pullInResistance|holdResistance|resistor)$/, 'multimeter'],
  [/^means\.coil\.readAt$/, 'thermometer'],
  [/^means\.endSwitch\.worksAtGap$/, 'caliper'],
  [/^means\.endSwitch\.operatingForce$/, 'balance'],
  [/^layout\.homePin\.[xy]$/, 'rule'],
  [/^layout\.pullDirection$/, 'protractor'],
  [/^layout\.connection\.(length|armRadius|slotFrom|slotTo)$/, 'caliper'],
  [/^layout\.connection\.(pinDiameter|holeDiameter)$/, 'micrometer'],
  [/^layout\.connection\.(sideClearance|sideFreedom)$/, 'feeler gauge'],
  [/^layout\.overTravel\.preload$/, 'balance'],
  [/^layout\.overTravel\.rate$/, 'catalogue'],
  [/^layout\.overTravel\.travel$/, 'caliper'],
  [/^layout\.bracketGive$/, 'caliper'],
  [/^return\.springs\[\]\.(anchor\.[xy]|radius|lengthAtHome)$/, 'rule'],
  [/^return\.springs\[\]\.(angle|spring\.freeAngle)$/, 'protractor'],
  [/^return\.springs\[\]\.spring\.(rate)$/, 'catalogue'],
  [/^return\.springs\[\]\.spring\.wireDiameter$/, 'micrometer'],
  [/^return\.springs\[\]\.spring\.outsideDiameter$/, 'caliper'],
  [/^return\.springs\[\]\.spring\.activeTurns$/, 'count'],
  [/^return\.springs\[\]\.spring\.freeLength$/, 'rule'],
  [/^return\.springs\[\]\.spring\.initialTension$/, 'balance'],
  [/^return\.springs\[\]\.spring\.(first|second)\.(force|moment)$/, 'balance'],
  [/^return\.springs\[\]\.spring\.(first|second)\.length$/, 'rule'],
  [/^return\.springs\[\]\.spring\.(first|second)\.angle$/, 'protractor'],
  [/^supply\.(internalResistance|back\.resistance)$/, 'volt drop'],
  [/^supply\.(stations\[\]\.)?contacts\[\]\.resistance$/, 'volt drop'],
];

/** The instrument of a reading; null for what is no reading: wishes, ratings, surroundings, states of the source. */
export function instrumentOf(path: string): Instrument | null {
  const place = path.replaceAll(/\[\d+\]/g, '[]');
  const name = takenWith.find(([pattern]) => pattern.test(place))?.[1];
  return instruments.find((one) => one.name === name) ?? null;
}
