/** Times and temperatures as people say them. */
import { formatQuantity } from '../../units/format.ts';
import type { DisplayUnits } from '../../units/display.ts';

const steps: readonly { readonly below_s: number; readonly unit: 'ms' | 's' | 'min' | 'h' }[] = [
  { below_s: 0.9995, unit: 'ms' },
  { below_s: 99.95, unit: 's' },
  { below_s: 5997, unit: 'min' },
  { below_s: Infinity, unit: 'h' },
];

/** "38.2 ms", "4.1 s", "12 min", "2.3 h": three figures, two from minutes on. */
export function durationWords(seconds: number | null): string {
  if (seconds === null || !Number.isFinite(seconds)) return 'not known';
  const unit = steps.find(({ below_s }) => Math.abs(seconds) < below_s)?.unit ?? 'h';
  const digits = unit === 'min' || unit === 'h' ? 2 : 3;
  return formatQuantity(seconds, 'time', unit, { significantDigits: digits });
}

/** Temperatures to whole degrees: nothing here is known closer. */
export function temperatureWords(kelvin: number | null, units: DisplayUnits): string {
  return formatQuantity(kelvin ?? Number.NaN, 'temperature', units.temperature, { decimals: 0 });
}
