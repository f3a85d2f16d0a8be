/**
 * Version 1 knew a lowest and a highest voltage. Version 2 tells the states of the source apart, and asks what the heat of
 * the coil, the fuse and the suppression rest on.
 *
 * What version 1 called lowest was read while cranking where the solenoid is energised to run, and stood for hold as well.
 * What was never asked is "not measured": it is not guessed.
 */
import { NOT_MEASURED } from '../quantity-text.ts';
import type { Migration } from './migrate.ts';
import { isPart, type Part } from './part.ts';

export const supplyStatesAndHeat: Migration = (document) => ({
  ...document,
  means: isPart(document['means']) ? meansOf(document['means']) : document['means'],
  supply: isPart(document['supply']) ? supplyOf(document['supply'], document['means']) : document['supply'],
});

function meansOf(means: Part): Part {
  if (means['kind'] !== 'solenoid') return means;
  const unread = { diameter: NOT_MEASURED, length: NOT_MEASURED, mass: NOT_MEASURED };
  return { ...means, body: { ...unread, wireDiameter: NOT_MEASURED, thermalClass: NOT_MEASURED } };
}

function supplyOf({ lowest, highest, contacts, ...rest }: Part, means: unknown): Part {
  const toRun = isPart(means) && means['works'] === 'energise to run';
  const read = (key: string, text: unknown) => (text === undefined || text === NOT_MEASURED ? {} : { [key]: text });
  return {
    ...rest,
    ...read('charging', highest),
    ...read('low', lowest),
    ...(toRun ? read('cranking', lowest) : {}),
    contacts: Array.isArray(contacts)
      ? contacts.map((contact: unknown) => (isPart(contact) ? { ...contact, kind: 'other' } : contact))
      : contacts,
    stations: [],
    fuse: NOT_MEASURED,
    cutOut: NOT_MEASURED,
    suppression: NOT_MEASURED,
    command: NOT_MEASURED,
    starterInterlock: 'not known',
  };
}
