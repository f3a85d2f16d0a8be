/** The solenoid's fields in the words of the trade. What is not listed is said as its key reads. */
import { pathSteps } from '../../job/path.ts';

const labels: Readonly<Record<string, string>> = {
  outsideDiameter: 'Outside diameter',
  insideDiameter: 'Inside diameter',
  plates: 'Plates',
  'plates.bottom': 'Bottom plate',
  'plates.top': 'Top plate',
  faceBelowTop: 'Face below the top',
  includedAngle: 'Angle of the cone',
  'coil.readAt': 'Coil temperature at the reading',
  resistance: 'Ohms',
  ratedVoltage: 'Rated volts',
  'seat.shape': 'Shape of the seat',
  'plunger.bore': 'Hole in the plunger',
  'pulls.drive': 'Coil while it was read',
  'steel.rows': 'Magnetisation curve',
  'pulls.drive.voltage': 'Volts',
  'pulls.drive.current': 'Amps',
};

const rows: Readonly<Record<string, string>> = { pulls: 'Pull', readings: 'Reading', rows: 'Row' };

export function labelOf(path: string): string {
  const names = pathSteps(path).filter((step) => typeof step === 'string');
  const key = names.at(-1) ?? '';
  return labels[names.join('.')] ?? labels[key] ?? spaced(key);
}

/** A field with the part that it belongs to: "Can, length". */
export function placeLabel(path: string): string {
  const steps = pathSteps(path);
  const row = steps.find((step) => typeof step === 'number');
  const [first] = steps;
  const part = row === undefined ? labelOf(String(first)) : rowLabel(String(first), row);
  return steps.length < 2 ? part : `${part}, ${labelOf(path).toLowerCase()}`;
}

export function rowLabel(path: string, index: number): string {
  const key = pathSteps(path).findLast((step) => typeof step === 'string') ?? '';
  return `${rows[key] ?? 'Row'} ${index + 1}`;
}

export const optionLabel = (option: string | number): string => {
  const words = String(option);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

const spaced = (key: string): string => {
  const words = key.replaceAll(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
};
