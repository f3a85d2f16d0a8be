import type { Dimension } from './dimension.ts';
import { formatQuantity } from './format.ts';
import { wholeGauge } from './gauge.ts';

/** The unit in which a reader wants to see each dimension. A choice of display changes nothing that is stored. */
export type DisplayUnits = Readonly<Record<Dimension, string>>;

export const metricUnits: DisplayUnits = {
  length: 'mm',
  angle: '°',
  force: 'N',
  mass: 'kg',
  temperature: '°C',
  temperatureDifference: 'K',
  voltage: 'V',
  current: 'A',
  resistance: 'Ω',
  power: 'W',
  area: 'mm²',
  volume: 'L',
  ratio: '',
  springRate: 'N/mm',
  torsionRate: 'N mm/°',
  acceleration: 'm/s²',
  time: 's',
  pressure: 'bar',
  stress: 'MPa',
  sonicConductance: 'L/(s bar)',
  torque: 'N m',
  inductance: 'mH',
  frequency: 'Hz',
  velocity: 'm/s',
  magneticFluxDensity: 'T',
  magneticFieldStrength: 'A/m',
};

/** Metric, with forces as a spring balance marked in kilograms shows them. */
export const kilogramForceUnits: DisplayUnits = {
  ...metricUnits,
  force: 'kgf',
  springRate: 'kgf/mm',
  torque: 'kgf cm',
  torsionRate: 'kgf cm/°',
};

export const imperialUnits: DisplayUnits = {
  ...metricUnits,
  length: 'in',
  force: 'lbf',
  mass: 'lb',
  temperature: '°F',
  temperatureDifference: '°F',
  area: 'AWG',
  springRate: 'lbf/in',
  torsionRate: 'lbf in/°',
  acceleration: 'g_n',
  pressure: 'psi',
  volume: 'in³',
  stress: 'ksi',
  torque: 'lbf in',
  velocity: 'ft/s',
};

/** A base SI value as this reader wants to see it. An area that is no whole wire gauge is shown in mm². */
export function display(value_SI: number, dimension: Dimension, displayUnits: DisplayUnits, digits = 4): string {
  const wanted = displayUnits[dimension];
  const unit = wanted === 'AWG' && wholeGauge(value_SI) === null ? 'mm²' : wanted;
  return formatQuantity(value_SI, dimension, unit, { significantDigits: digits });
}
