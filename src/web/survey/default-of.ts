/** Which default stands in for a field of this job that is left out. */
import { defaults, type Default } from '../../job/defaults.ts';
import { pathSteps, valueAt } from '../../job/path.ts';

const known: Readonly<Record<string, Default>> = defaults;

/** Contacts of a further station age as the others do. */
const sameAs: readonly (readonly [string, string])[] = [['supply.stations[].contacts[]', 'supply.contacts[]']];

export function defaultOf(path: string, document: unknown): Default | undefined {
  const pattern = pathSteps(path).reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[]` : text === '' ? step : `${text}.${step}`),
    '',
  );
  // Energise to run: the return is what stops the engine, and wants more.
  if (pattern === 'wanted.return' && valueAt(document, 'means.works') === 'energise to run')
    return known['wanted.returnToStop'];
  const place = sameAs.reduce((text, [from, to]) => text.replace(from, to), pattern);
  return known[place] ?? known[`${place}.${String(valueAt(document, 'supply.nominal'))}`];
}
