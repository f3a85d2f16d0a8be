/** What else a solenoid on the bench has for the job: its co-energy map, and dimensions that the job still lacks. */
import { change, type Change } from '../../job/change.ts';
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import type { Job, Solenoid } from '../../job/schema.ts';
import type { SolenoidDocument } from '../../job/solenoid/schema.ts';
import type { CoEnergyMap, SolvedMap } from '../../assessment/solenoid/map.ts';

/** A winding of the job whose turns a person has to give. */
export type Winding = 'pull-in' | 'hold';

/** Turns that must be typed before the job can have a map: those of both windings where it has two, since one was solved. */
export function windingsToName({ coil }: Solenoid, turns: number | null): readonly Winding[] {
  if (coil.stages === 'pull-in and hold windings') return ['pull-in', 'hold'];
  return turns === null ? ['pull-in'] : [];
}

/** A number of turns as typed; null where it is none. */
export function turnsTyped(text: string): number | null {
  const number = Number(text.trim().replace(',', '.'));
  return text.trim() !== '' && number >= 1 && number <= 1e6 ? number : null;
}

/** The map for this coil, pull-in winding first; null where turns are missing. */
export function mapOf(
  means: Solenoid,
  { lines, turns }: SolvedMap,
  typed: Readonly<Partial<Record<Winding, string>>>,
): CoEnergyMap | null {
  const wanted = windingsToName(means, turns);
  const found = wanted.length === 0 ? [turns] : wanted.map((winding) => turnsTyped(typed[winding] ?? ''));
  return found.every((one) => one !== null) ? { turns: found, lines } : null;
}

/** A reading of the solenoid that the job has not got. */
export interface BodyReading {
  readonly path: 'means.body.diameter' | 'means.body.length' | 'means.body.wireDiameter';
  readonly words: string;
  readonly text: string;
}

/** Can and wire as they were measured on the bench, where the job says "not measured". */
export function bodyReadings({ body }: Solenoid, { can, coil }: SolenoidDocument): readonly BodyReading[] {
  const readings = [
    { key: 'diameter', words: 'can diameter', text: can.outsideDiameter },
    { key: 'length', words: 'can length', text: can.length },
    { key: 'wireDiameter', words: 'bare wire', text: coil.wireDiameter },
  ] as const;
  return readings.flatMap(({ key, words, text }) =>
    body[key] === NOT_MEASURED && text !== NOT_MEASURED ? [{ path: `means.body.${key}` as const, words, text }] : [],
  );
}

export function mapIntoJob(job: Job, map: CoEnergyMap): readonly Change[] {
  return [change(job, 'means.map', map)];
}

export function bodyIntoJob(job: Job, solenoid: SolenoidDocument): readonly Change[] {
  if (job.means.kind !== 'solenoid') return [];
  return bodyReadings(job.means, solenoid).map(({ path, text }) => change(job, path, text));
}
