/** What "Springs" shows, as one immutable value, and how it follows the desk. */
import { create } from 'zustand';
import type { Problem } from '../../job/opening.ts';
import type { Job } from '../../job/schema.ts';
import type { SvgNode } from '../../sheets/svg.ts';
import { desk, useDesk } from '../desk/desk.ts';
import { useUnits } from '../show/units.ts';
import { bench } from './bench.ts';
import { keepDrawer, keptDrawer, type KeptDrawer } from './kept-drawer.ts';
import type { ItemsSummary } from './items-summary.ts';
import type { DrawerSummary, NamedChange, OrderSummary, WindowSummary } from './worker.ts';

type Word = 'working' | 'there' | 'stopped';

interface Springs {
  /** The document that everything here belongs to. */
  readonly of: Job | null;
  readonly window: WindowSummary | null;
  readonly openedBy: readonly NamedChange[] | null;
  readonly sheet: SvgNode | null;
  readonly trouble: string | null;
  readonly drawer: KeptDrawer | null;
  /** Of a file that could not be read. */
  readonly problems: readonly Problem[];
  readonly isForThisVisit: boolean;
  readonly fitting: {
    readonly word: Word;
    readonly progress: string;
    readonly share: number;
    readonly summary: DrawerSummary | null;
  } | null;
  /** Solenoids and cables of the drawer. */
  readonly items: { readonly word: Word; readonly summary: ItemsSummary | null } | null;
  readonly order: { readonly word: Word; readonly summary: OrderSummary | null } | null;
}

const empty = { window: null, openedBy: null, sheet: null, fitting: null, items: null, order: null, trouble: null };

export const useSprings = create<Springs>()(() => ({
  of: null,
  drawer: null,
  problems: [],
  isForThisVisit: false,
  ...empty,
}));

const springs = useSprings.getState;
const put = useSprings.setState;

let width = 0;
let isStudying = false;

/** Follows the document on the desk; the newest one is what is reckoned. */
async function study(): Promise<void> {
  if (isStudying) return;
  isStudying = true;
  try {
    for (let { document } = desk(); document !== null && document !== springs().of; { document } = desk()) {
      const asked = document;
      put({ of: asked, order: null, items: null });
      await reckon(asked);
    }
  } finally {
    isStudying = false;
  }
}

async function reckon(document: Job): Promise<void> {
  const isStill = () => springs().of === document && desk().document === document;
  try {
    const window = await bench.window(document);
    if (window === null || !isStill()) return;
    put({
      window,
      openedBy: null,
      trouble: null,
      ...(window.isSolenoid && window.missing.length === 0 ? {} : { sheet: null }),
    });
    await draw();
    if (isStill() && window.isSolenoid) await fit(document);
    if (!isStill()) return;
    const openedBy = await bench.openings(document);
    if (isStill()) put({ openedBy });
  } catch (error) {
    put({ ...empty, trouble: error instanceof Error ? error.message : String(error) });
  }
}

async function fit(document: Job): Promise<void> {
  const { drawer } = springs();
  if (drawer === null) {
    put({ fitting: null });
    return;
  }
  const before = springs().fitting?.summary ?? null;
  put({ fitting: { word: 'working', progress: '', share: 0, summary: before } });
  const isStill = () => springs().of === document && springs().drawer === drawer;
  const summary = await bench.fit(document, drawer.text, ({ share, words, soFar }) => {
    if (isStill()) put({ fitting: { word: 'working', progress: words, share, summary: soFar } });
  });
  if (summary === null || !isStill()) return;
  put({ fitting: { word: 'there', progress: '', share: 1, summary } });
  await draw();
}

async function draw(): Promise<void> {
  if (width === 0 || springs().window === null) return;
  const sheet = await bench.sheet(width);
  if (sheet !== null) put({ sheet });
}

export function setSheetWidth(next: number): void {
  if (next === width) return;
  width = next;
  void draw();
}

/** What is being reckoned belongs to a document that is past. */
function studyNext(): void {
  if (isStudying) bench.stop();
  void study();
}

/** Ends what is being reckoned and keeps what was found until then. */
export function stop(): void {
  bench.stop();
  const { fitting, items, order } = springs();
  if (fitting?.word === 'working') put({ fitting: { ...fitting, word: 'stopped' } });
  if (order?.word === 'working') put({ order: null });
  if (items?.word === 'working') put({ items: { ...items, word: 'stopped' } });
}

export function again(): void {
  put({ of: null });
  studyNext();
}

export async function orderOne(): Promise<void> {
  const { of, drawer } = springs();
  if (of === null) return;
  put({ order: { word: 'working', summary: null } });
  try {
    const summary = await bench.order(of, drawer?.text ?? null);
    if (springs().of === of && summary !== null) put({ order: { word: 'there', summary } });
  } catch (error) {
    put({ order: null, trouble: error instanceof Error ? error.message : String(error) });
  }
}

/** Every solenoid and cable of the drawer put into the job: some seconds of work. */
export async function tryItems(): Promise<void> {
  const { of, drawer } = springs();
  if (of === null || drawer === null) return;
  put({ items: { word: 'working', summary: null } });
  const isStill = () => springs().of === of && springs().items?.word === 'working';
  try {
    const summary = await bench.items(of, drawer.text, (soFar) => {
      if (isStill()) put({ items: { word: 'working', summary: soFar } });
    });
    if (summary !== null && isStill()) put({ items: { word: 'there', summary } });
  } catch (error) {
    put({ items: null, trouble: error instanceof Error ? error.message : String(error) });
  }
}

/** A file that was chosen or dropped: read, and kept beside this job where it reads. */
export async function openDrawer(file: File): Promise<void> {
  const job = desk().job?.id ?? null;
  const text = await file.text();
  const read = await bench.read(text);
  if (read === null || (desk().job?.id ?? null) !== job) return;
  if (read.problems.length > 0) {
    put({ problems: read.problems });
    return;
  }
  const drawer = { file: file.name, text };
  const isKept = job !== null && (await keepDrawer(job, drawer));
  put({ drawer, problems: [], isForThisVisit: !isKept });
  again();
}

export async function putDrawerAway(): Promise<void> {
  const { job } = desk();
  if (job !== null) await keepDrawer(job.id, null);
  put({ drawer: null, problems: [], fitting: null, items: null, isForThisVisit: false });
  again();
}

async function takeUpDrawer(): Promise<void> {
  const { job } = desk();
  const drawer = job === null ? null : await keptDrawer(job.id);
  if (desk().job?.id !== job?.id) return;
  put({ drawer, problems: [], fitting: null });
  again();
}

/** From now on what is shown follows the desk; gives the way to end that. */
export function followDesk(): () => void {
  const ends = [
    useDesk.subscribe((now, before) => {
      if (now.job?.id !== before.job?.id) void takeUpDrawer();
      else if (now.document !== before.document) studyNext();
    }),
    useUnits.subscribe(again),
  ];
  if (springs().of !== desk().document || springs().drawer === null) void takeUpDrawer();
  return () => ends.forEach((end) => end());
}
