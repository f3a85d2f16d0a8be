/**
 * Which solenoids of the drawer fit a job: each is put in place of the present one, its bracket, arm, hub and link moved as
 * a search for layouts moves them, and the best layout is assessed in all.
 */
import { isSolenoid } from '../assessment/assess.ts';
import { rigOf, type SolenoidJob } from '../assessment/rig.ts';
import { apply, change, type Change } from '../job/change.ts';
import type { Drawer, DrawerSolenoid } from '../job/drawer/schema.ts';
import { NOT_MEASURED } from '../job/quantity-text.ts';
import type { Job, Solenoid } from '../job/schema.ts';
import { display, metricUnits, type DisplayUnits } from '../units/quantity.ts';
import { itemTried, type ItemTried } from './drawer-item.ts';
import { bestMounted } from './search/mounted.ts';
import { layoutWords } from './search/words.ts';

/** Readings that a drawer leaves out, none of them guessed. */
const unread: NonNullable<DrawerSolenoid['readings']> = {
  plunger: {
    mass: NOT_MEASURED,
    diameter: NOT_MEASURED,
    guideLength: NOT_MEASURED,
    overhang: NOT_MEASURED,
    boreClearance: NOT_MEASURED,
  },
  force: [],
  stickingForce: NOT_MEASURED,
  coil: { stages: 'single coil', resistance: NOT_MEASURED, readAt: NOT_MEASURED },
  body: {
    diameter: NOT_MEASURED,
    length: NOT_MEASURED,
    mass: NOT_MEASURED,
    wireDiameter: NOT_MEASURED,
    thermalClass: NOT_MEASURED,
  },
  continuousPower: NOT_MEASURED,
  endSwitch: 'none',
};

/** The solenoid as a job describes it; null where its pulls stand in a document of their own. */
export function meansOf(
  { stroke, action, pulls, readings = unread }: DrawerSolenoid,
  works: Solenoid['works'],
): Solenoid | null {
  // prettier-ignore
  if (pulls.by !== 'table') return null;
  const { voltage, coilTemperature, rows } = pulls;
  return {
    ...readings,
    kind: 'solenoid',
    works,
    action,
    plunger: { ...readings.plunger, stroke },
    force: [{ stage: 'pull-in', drive: { by: 'voltage', voltage, coilTemperature }, rows }, ...readings.force],
  };
}

/** One solenoid of the drawer, tried in the job. */
export function solenoidTried(job: Job, drawer: Drawer, item: number, units: DisplayUnits = metricUnits): ItemTried {
  const solenoid = drawer.solenoids[item];
  const { name, place, nominal } = solenoid;
  const out = (because: string): ItemTried => ({ fits: false, item, name, because, least: null });
  if (!isSolenoid(job)) return out(`this job works by ${job.means.kind}, and has no layout for a solenoid`);
  if (nominal !== job.supply.nominal)
    return out(`it is wound for ${nominal} V, and the supply has ${job.supply.nominal} V`);
  const means = meansOf(solenoid, job.means.works);
  if (means === null)
    return out(
      'its pulls stand in a solenoid document: open that in the app, put its curve into a job, and enter the pulls here',
    );
  const put = change(job, 'means', means);
  const changed = apply(job, [put]);
  if (!isSolenoid(changed)) return out('it is no solenoid');
  const mounted = bestMounted(changed);
  if ('because' in mounted) return out(mounted.because);
  // Told as changes of the job as it is.
  const layout = mounted.changes.map(({ path, to }): Change => change(job, path, to));
  const words = layoutWords(apply<SolenoidJob>(changed, mounted.changes), mounted.changes, units);
  const stroke = display(rigOf(changed).stroke, 'length', units);
  return itemTried(
    job,
    {
      item,
      name,
      place,
      words: words.length === 0 ? [`Bracket and arm stay as they are; its stroke is ${stroke}`] : words,
      changes: [put, ...layout],
      restsOnIt: ({ needs }) => needs.some((path) => path.startsWith('means.')),
    },
    units,
  );
}
