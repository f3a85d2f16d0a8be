/**
 * The workers of the solenoid's page. One reads, draws and gives a coarse curve at once; one makes the picture of the field;
 * one takes the time that a fine solve needs, so that typing waits for neither.
 */
import { proxy, wrap, type Remote } from 'comlink';
import type { SolenoidDocument } from '../../job/solenoid/schema.ts';
import { displayUnits } from '../show/units.ts';
import type { Form } from '../reckoning/form.ts';
import type { Outcome } from './outcome.ts';
import type {
  ChartRequest,
  MapSolved,
  Progress,
  Reading,
  SheetSize,
  Solved,
  SolenoidSheets,
  SolenoidWork,
  SolveRequest,
} from './worker.ts';
import { workerFor } from '../hands/work.ts';

let quickWorker: Remote<SolenoidWork> | null = null;
let pictureWorker: Remote<SolenoidWork> | null = null;
let patientWorker: Remote<SolenoidWork> | null = null;

const start = (): Remote<SolenoidWork> => wrap<SolenoidWork>(workerFor('solenoid'));
const quick = (): Remote<SolenoidWork> => (quickWorker ??= start());
const picture = (): Remote<SolenoidWork> => (pictureWorker ??= start());
const patient = (): Remote<SolenoidWork> => (patientWorker ??= start());

export const solver = {
  begin: () => {
    quick();
    picture();
    patient();
  },
  form: (): Promise<Form> => quick().form(),
  read: (document: unknown): Promise<Reading> => quick().read(document),
  readText: (text: string): Promise<Reading> => quick().readText(text),
  blank: (): Promise<SolenoidDocument> => quick().blank(),
  example: (): Promise<SolenoidDocument> => quick().example(),
  cutaway: (document: SolenoidDocument, gap: number, size: SheetSize): Promise<SolenoidSheets['cutaway']> =>
    quick().cutaway(document, gap, size, displayUnits()),
  chart: (request: ChartRequest, size: SheetSize): Promise<SolenoidSheets['chart']> =>
    quick().chart(request, size, displayUnits()),
  flux: (request: SolveRequest, gap: number, size: SheetSize): Promise<SolenoidSheets['flux']> =>
    picture().flux(request, gap, size, displayUnits()),
  coarse: (request: SolveRequest): Promise<Outcome | null> => quick().coarse(request, displayUnits()),
  /** The newest solve takes the place of one that is under way, which ends with null. */
  solve: (request: SolveRequest, tell: (progress: Progress) => void): Promise<Solved | null> =>
    patient().solve(request, displayUnits(), proxy(tell)),
  /** Ends with null as `solve` does; a solve that is under way gives way to it. */
  map: (document: SolenoidDocument, tell: (progress: Progress) => void): Promise<MapSolved | null> =>
    patient().map(document, displayUnits(), proxy(tell)),
  stop: (): Promise<void> => patient().stop(),
};
