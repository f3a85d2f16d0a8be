/** Works out the remedies once the document has not changed for a moment, in a worker of its own. */
import { reckoner } from '../reckoning/reckoner.ts';
import { displayUnits } from '../show/units.ts';
import { desk, put, useDesk } from './desk.ts';

const QUIET_MS = 350;

export function findRemediesWhenQuiet(): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  useDesk.subscribe((now, before) => {
    if (now.document === before.document || now.document === null) return;
    clearTimeout(timer);
    timer = setTimeout(() => void findRemedies(), QUIET_MS);
  });
}

async function findRemedies(): Promise<void> {
  const { document } = desk();
  if (document === null || desk().assessment === null) return;
  const units = displayUnits();
  try {
    const assessment = await reckoner.remedies(document);
    // The answer to an older document, or in other units, is no answer.
    if (desk().document === document && displayUnits() === units) put({ assessment, remedies: 'there' });
  } catch {
    if (desk().document === document) put({ remedies: 'failed' });
  }
}

/** Sentences hold numbers in the reader's units: another choice of units means saying them again. */
export async function sayAgain(): Promise<void> {
  const { document } = desk();
  if (document === null) return;
  const reading = await reckoner.take(document);
  if (desk().document !== document || !reading.ok) return;
  put({ ...reading.reckoned, remedies: 'waiting' });
  await findRemedies();
}
