/** The workers that calculate, seen from the page. */
import { wrap, type Remote } from 'comlink';
import type { CircuitCondition } from '../../assessment/circuit/picture.ts';
import type { Assessment } from '../../assessment/finding.ts';
import type { SupplyStudy } from '../../assessment/supply/study.ts';
import type { Job } from '../../job/schema.ts';
import { displayUnits } from '../show/units.ts';
import type { Form } from './form.ts';
import type { CircuitSheet, Drawn, Reading, Reckoning, SheetSizes } from './worker.ts';
import { workerFor } from '../hands/work.ts';

let first: Remote<Reckoning> | null = null;
let second: Remote<Reckoning> | null = null;

const start = (): Remote<Reckoning> => wrap<Reckoning>(workerFor('reckoning'));

const quick = (): Remote<Reckoning> => (first ??= start());
/** For what takes long, so that the verdict never waits for it. */
const patient = (): Remote<Reckoning> => (second ??= start());

export const reckoner = {
  begin: () => void quick(),
  /** Loads what the first change and the survey need, before they need it. */
  warm: (): Promise<void> => quick().warm(),
  /** Takes a document from the store, which was read when it was kept, and draws it from now on. */
  take: (document: Job): Promise<Reading> => quick().take(document, displayUnits()),
  /** Reads a candidate; if it reads, it is drawn from now on. */
  propose: (candidate: Job): Promise<Reading> => quick().propose(candidate, displayUnits()),
  /** Assesses another document, and goes on drawing the present one. */
  look: (document: Job): Promise<Reading> => quick().look(document, displayUnits()),
  remedies: (document: Job): Promise<Assessment> => patient().remedies(document, displayUnits()),
  draw: (gap_mm: number, sizes: SheetSizes): Promise<Drawn | null> => quick().draw(gap_mm, sizes, displayUnits()),
  circuit: (document: Job, condition: CircuitCondition, width: number): Promise<CircuitSheet | null> =>
    quick().circuit(document, condition, width, displayUnits()),
  /** Tries every conductor. */
  supply: (document: Job): Promise<SupplyStudy | null> => patient().supply(document, displayUnits()),
  form: (): Promise<Form> => quick().form(),
  blankText: (): Promise<string> => quick().blankText(),
};
