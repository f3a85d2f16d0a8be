/** What the circuit panel shows, as one immutable value, and how it follows the desk. */
import { create } from 'zustand';
import type { CircuitCondition } from '../../assessment/circuit/picture.ts';
import type { SupplyStudy } from '../../assessment/supply/study.ts';
import type { Job } from '../../job/schema.ts';
import { desk, useDesk } from '../desk/desk.ts';
import { newestOnly } from '../panels/newest.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import type { CircuitSheet } from '../reckoning/worker.ts';
import { useUnits } from '../show/units.ts';

interface Circuit {
  readonly condition: CircuitCondition;
  /** Null before the first, and where the job has no circuit. */
  readonly sheet: CircuitSheet | null;
  readonly study: SupplyStudy | null;
  /** The document that the study belongs to. */
  readonly of: Job | null;
  readonly trouble: string | null;
}

export const useCircuit = create<Circuit>()(() => ({
  condition: { state: 'low', stage: 'pull-in', coil: 'hot' },
  sheet: null,
  study: null,
  of: null,
  trouble: null,
}));

const circuit = useCircuit.getState;
const put = useCircuit.setState;

let width = 0;

const fail = (trouble: string): void => put({ trouble });

const draw = newestOnly(async () => {
  const { document } = desk();
  if (document === null || width === 0) return;
  const sheet = await reckoner.circuit(document, circuit().condition, width);
  put({ sheet, trouble: null });
}, fail);

const study = newestOnly(async () => {
  const { document } = desk();
  if (document === null) return;
  const found = await reckoner.supply(document);
  if (desk().document === document) put({ study: found, of: document });
}, fail);

export function setSheetWidth(next: number): void {
  if (next === width) return;
  width = next;
  draw();
}

export function show(part: Partial<CircuitCondition>): void {
  put({ condition: { ...circuit().condition, ...part } });
  draw();
}

/** The first place of control is no index. */
export function showStation(station: number | null): void {
  const { state, stage, coil } = circuit().condition;
  put({ condition: { state, stage, coil, ...(station !== null && { station }) } });
  draw();
}

function both(): void {
  draw();
  study();
}

/** From now on what is shown follows the desk; gives the way to end that. */
export function followDesk(): () => void {
  const ends = [
    useDesk.subscribe((now, before) => {
      if (now.document !== before.document) both();
    }),
    useUnits.subscribe(both),
  ];
  both();
  return () => ends.forEach((end) => end());
}
