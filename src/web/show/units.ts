/** The units in which this reader wants to see numbers. A choice of display: it changes nothing that is kept. */
import { create } from 'zustand';
import { imperialUnits, kilogramForceUnits, metricUnits, type DisplayUnits } from '../../units/quantity.ts';

export type Length = 'mm' | 'in';
export type Force = 'N' | 'kgf' | 'lbf';
export type Temperature = '°C' | '°F';
export type Wire = 'mm²' | 'AWG';

export interface UnitChoice {
  readonly length: Length;
  readonly force: Force;
  readonly temperature: Temperature;
  readonly area: Wire;
}

const PLACE = 'stopwright units';
const metric: UnitChoice = { length: 'mm', force: 'N', temperature: '°C', area: 'mm²' };

const forceUnits: Readonly<Record<Force, DisplayUnits>> = {
  N: metricUnits,
  kgf: kilogramForceUnits,
  lbf: imperialUnits,
};

/** Rates and torques go with the force; what is a length or a force only in name keeps its own unit. */
export function unitsFor({ length, force, temperature, area }: UnitChoice): DisplayUnits {
  const byForce = forceUnits[force];
  return {
    ...metricUnits,
    length,
    force,
    temperature,
    area,
    springRate: byForce.springRate,
    torque: byForce.torque,
    torsionRate: byForce.torsionRate,
    temperatureDifference: temperature === '°F' ? '°F' : 'K',
  };
}

const allowed: Readonly<Record<keyof UnitChoice, readonly string[]>> = {
  length: ['mm', 'in'],
  force: ['N', 'kgf', 'lbf'],
  temperature: ['°C', '°F'],
  area: ['mm²', 'AWG'],
};

interface Units {
  readonly choice: UnitChoice;
  readonly units: DisplayUnits;
}

export const useUnits = create<Units>()(() => {
  const choice = { ...metric, ...remembered() };
  return { choice, units: unitsFor(choice) };
});

export const displayUnits = (): DisplayUnits => useUnits.getState().units;

export function chooseUnits(part: Partial<UnitChoice>): void {
  const choice = { ...useUnits.getState().choice, ...part };
  useUnits.setState({ choice, units: unitsFor(choice) });
  try {
    localStorage.setItem(PLACE, JSON.stringify(choice));
  } catch {
    // The choice then holds for this visit only.
  }
}

function remembered(): Partial<UnitChoice> {
  try {
    const kept = JSON.parse(localStorage.getItem(PLACE) ?? '{}') as Record<string, unknown>;
    return Object.fromEntries(
      Object.entries(allowed).flatMap(([part, words]) =>
        words.includes(String(kept[part])) ? [[part, kept[part]]] : [],
      ),
    );
  } catch {
    return {};
  }
}
