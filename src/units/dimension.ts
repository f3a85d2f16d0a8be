/** What is measured, in the words of a message. Values are base SI inside; see `unit-table.ts` for what people type. */
export type Dimension =
  | 'length'
  | 'angle'
  | 'force'
  | 'mass'
  | 'temperature'
  | 'temperatureDifference'
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'power'
  | 'area'
  | 'volume'
  | 'ratio'
  | 'springRate'
  | 'torsionRate'
  | 'acceleration'
  | 'time'
  | 'pressure'
  | 'stress'
  | 'sonicConductance'
  | 'torque'
  | 'inductance'
  | 'frequency'
  | 'velocity'
  | 'magneticFluxDensity'
  | 'magneticFieldStrength';

/** A quantity that a person wrote. `text` is theirs to the letter and is what gets stored. */
export interface Quantity {
  readonly text: string;
  /** Base SI: m, rad, N, kg, K, V, A, Ω, W, m², m³, 1, N/m, N m/rad, m/s², s, Pa, m³/(s Pa), N m, H, Hz, m/s, T, A/m. */
  readonly value: number;
  /** Half-width as written, base SI, never negative; null where none was written. Of a temperature: kelvins of difference. */
  readonly plusMinus: number | null;
  /** Symbol as understood: "mm", "kgf" (also where "kg" was written for a force), "°C", "AWG"; "" for a bare ratio. */
  readonly unit: string;
}

export type QuantityReading =
  | { readonly ok: true; readonly quantity: Quantity }
  | { readonly ok: false; readonly problem: string };

interface DimensionWords {
  /** With its article: "a length". */
  readonly name: string;
  /** What would be right, as one would type it. */
  readonly example: string;
}

export const dimensionWords: Readonly<Record<Dimension, DimensionWords>> = {
  length: { name: 'a length', example: '42 mm or 1 5/8 in' },
  angle: { name: 'an angle', example: '35° or 0.6 rad' },
  force: { name: 'a force', example: '12 N, 1.2 kgf or 3 lbf' },
  mass: { name: 'a mass', example: '0.35 kg or 12 oz' },
  temperature: { name: 'a temperature', example: '85 °C or 185 °F' },
  temperatureDifference: { name: 'a temperature difference', example: '10 K or 18 °F' },
  voltage: { name: 'a voltage', example: '24 V' },
  current: { name: 'a current', example: '10 mA or 30 A' },
  resistance: { name: 'a resistance', example: '1.2 ohm or 300 mΩ' },
  power: { name: 'a power', example: '15 W' },
  area: { name: 'an area', example: '1.5 mm² or 18 AWG' },
  volume: { name: 'a volume', example: '5 L or 300 cm³' },
  ratio: { name: 'a ratio', example: '0.25 or 25 %' },
  springRate: { name: 'a spring rate', example: '0.2 N/mm or 3 lbf/in' },
  torsionRate: { name: 'a torsion rate', example: '15 N mm/° or 0.9 N m/rad' },
  acceleration: { name: 'an acceleration', example: '5 m/s² or 0.5 g' },
  time: { name: 'a time', example: '250 ms or 1.5 s' },
  pressure: { name: 'a pressure', example: '7 bar or 100 psi' },
  stress: { name: 'a stress', example: '600 MPa or 87 ksi' },
  sonicConductance: { name: 'a sonic conductance', example: '2 L/(s bar)' },
  torque: { name: 'a torque', example: '1.5 N m or 13 lbf in' },
  inductance: { name: 'an inductance', example: '35 mH' },
  frequency: { name: 'a frequency', example: '25 Hz or 1500 rpm' },
  velocity: { name: 'a speed', example: '0.8 m/s or 30 in/s' },
  magneticFluxDensity: { name: 'a flux density', example: '1.2 T' },
  magneticFieldStrength: { name: 'a magnetic field strength', example: '800 A/m' },
};

export const dimensions = Object.keys(dimensionWords) as readonly Dimension[];
