/** Which default stands in for a field of this job that is left out. */
import { defaults, type Default } from '../../job/defaults.ts';
import { pathSteps, valueAt } from '../../job/path.ts';

const known: Readonly<Record<string, Default>> = defaults;

/** Parts of one form have the same defaults: contacts of a further station, a hand cable beside the means, other means. */
const sameAs: readonly (readonly [string, string])[] = [
  ['supply.stations[].contacts[]', 'supply.contacts[]'],
  ['considered[].springs[]', 'return.springs[]'],
  ['considered[].', ''],
  ['handStop.', 'means.'],
];

export function defaultOf(path: string, document: unknown): Default | undefined {
  const pattern = pathSteps(path).reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[]` : text === '' ? step : `${text}.${step}`),
    '',
  );
  // Where the return is what stops the engine it wants more.
  if (
    pattern === 'wanted.return'
    && ['energise to run', 'air to run'].includes(String(valueAt(document, 'means.works')))
  )
    return known['wanted.returnToStop'];
  const place = sameAs.reduce((text, [from, to]) => text.replace(from, to), pattern);
  return known[place] ?? known[`${place}.${String(valueAt(document, 'supply.nominal'))}`];
}
