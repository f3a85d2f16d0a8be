/** Solenoids and cables of the drawer, each put into the job: margins as assessed, and why the others stay out. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { relativeMargin } from '../../src/assessment/finding.ts';
import { apply } from '../../src/job/change.ts';
import { readDrawer, writeDrawer } from '../../src/job/drawer/read.ts';
import type { Drawer, DrawerSolenoid } from '../../src/job/drawer/schema.ts';
import { readJob, writeJob } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';
import { ranked, type ItemFit, type ItemTried } from '../../src/proposal/drawer-item.ts';
import { itemsTried, itemTasks, notTriedWords, tryItem } from '../../src/proposal/drawer-others.ts';
import { changed, demo } from '../job/jobs.ts';

function exampleDrawer(): Drawer {
  const read = readDrawer(readFileSync(new URL('../../examples/drawer.json', import.meta.url), 'utf8'));
  assert.ok(read.ok, 'the example reads');
  return read.drawer;
}
const drawer = exampleDrawer();
const railcar = demo('railcar');
const ferry = demo('ferry');

const tried = (job: Job, of: Drawer) => {
  const tasks = itemTasks(job, of);
  return itemsTried(
    tasks,
    tasks.map((task) => tryItem(job, of, task)),
  );
};
const becauseOf = (list: readonly ItemTried[]) =>
  Object.fromEntries(list.flatMap((one) => (one.fits ? [] : [[one.name, one.because]])));

function assertClaims(job: Job, fit: ItemFit): void {
  const read = readJob(writeJob(apply(job, fit.changes)));
  assert.ok(read.ok, fit.name);
  const { findings, verdict } = assess(read.job);
  assert.equal(verdict, fit.verdict, fit.name);
  assert.deepEqual(
    fit.margins.map(({ id, margin, verdict: own }) => ({ id, margin, own })),
    findings.map(({ id, margin, verdict: own }) => ({ id, margin, own })),
    fit.name,
  );
  assert.equal(relativeMargin(findings.find(({ id }) => id === fit.decidedBy.id)!), fit.least, fit.name);
}

/** The solenoid of a job as it would lie in a drawer. */
function spareOf({ means, supply }: Job): DrawerSolenoid {
  assert.ok(means.kind === 'solenoid');
  const { kind: _kind, works: _works, action, plunger, force, ...rest } = means;
  const { stroke, ...ownPlunger } = plunger;
  const [first, ...others] = force;
  assert.ok(first !== undefined && first.drive.by === 'voltage' && first.stage === 'pull-in');
  const { voltage, coilTemperature } = first.drive;
  return {
    name: 'The same once more',
    stroke,
    action,
    nominal: supply.nominal,
    pulls: { by: 'table', voltage, coilTemperature, rows: first.rows },
    readings: { ...rest, plunger: ownPlunger, force: others },
  };
}

test('solenoids: every fit has the margins that are claimed, and every other says why', () => {
  const { solenoid } = tried(railcar, drawer);
  const fits = solenoid.filter((one) => one.fits);
  assert.ok(fits.length >= 2, `${fits.length} fit`);
  for (const fit of fits) {
    assertClaims(railcar, fit);
    assert.ok(fit.words.length > 0 && fit.changes[0].path === 'means', fit.name);
  }
  const [first] = fits;
  assert.deepEqual([first.name, first.verdict, first.notKnown], ['Two windings, 28 mm stroke', 'holds', []]);
  // Its stroke differs: the bracket has to move.
  assert.match(first.words.join('; '), /home pin/);
  const spare = fits.find(({ name }) => name === 'Spare, long stroke')!;
  assert.ok(
    spare.notKnown.length > 0 && spare.notKnown.every(({ missing }) => missing.length > 0),
    'readings are named',
  );
  const because = becauseOf(solenoid);
  assert.match(because['From a pump, 12 V'], /12 V, and the supply has 24 V/);
  assert.match(because['Ferry spare'], /solenoid document/);
  assert.match(because['Single coil, short'], /fails/);
});

test('the solenoid of the job itself, found once more in the drawer, comes out no worse than it stands', () => {
  for (const name of ['railcar', 'short-stroke']) {
    const job = demo(name);
    const same = { ...drawer, solenoids: [spareOf(job)], cables: [] };
    assert.ok(readDrawer(writeDrawer(same)).ok, 'it reads as a drawer');
    const [fit] = tried(job, same).solenoid;
    assert.ok(fit.fits, `${name}: ${fit.fits ? '' : fit.because}`);
    assertClaims(job, fit);
    const own = assess(job).findings.filter(({ needs }) => needs.some((path) => path.startsWith('means.')));
    const now = Math.min(...own.map(relativeMargin));
    assert.ok(fit.least >= Math.min(1, now) - 1e-9, `${name}: ${fit.least}, as it stands ${now}`);
  }
});

test('a job that lacks a reading of its lever says which before any solenoid is laid out', () => {
  const bare = changed(railcar, { 'survey.lever.lash': 'not measured' });
  const [first] = tried(bare, { ...drawer, solenoids: drawer.solenoids.slice(2, 3) }).solenoid;
  assert.ok(!first.fits && /must be read first/.test(first.because), JSON.stringify(first));
});

test('electric cables: length and cores decide which are laid, an assessment which fit', () => {
  const cable = (name: string, section: string, cores: number, length: string) => ({ name, section, cores, length });
  const { cable: list } = tried(railcar, {
    ...drawer,
    solenoids: [],
    cables: [
      cable('as laid', '6 mm²', 2, '4.2 m'),
      cable('single, twice', '6 mm²', 1, '8.4 m'),
      cable('single, once', '6 mm²', 1, '8.3 m'),
      cable('short', '16 mm²', 2, '4.1 m'),
      cable('thin', '0.75 mm²', 2, '50 m'),
      cable('unread', 'not measured', 2, '50 m'),
    ],
  });
  assert.deepEqual(
    list.filter((one) => one.fits).map(({ name }) => name),
    ['as laid', 'single, twice'],
  );
  for (const one of list) if (one.fits) assertClaims(railcar, one);
  const because = becauseOf(list);
  assert.match(because['single, once'], /2 times .* is wanted/);
  assert.match(because['short'], /is left/);
  assert.match(because['thin'], /fails/);
  assert.match(because['unread'], /not read/);
});

test('hand cables: the one that lies there comes out as it is assessed without its own readings', () => {
  assert.ok(ferry.means.kind === 'hand cable');
  const { core, conduit } = ferry.means;
  const list = tried(ferry, {
    ...drawer,
    handCables: [{ name: 'the same', length: '7 m', core, conduit }, ...(drawer.handCables ?? [])],
  })['hand cable'];
  for (const one of list) if (one.fits) assertClaims(ferry, one);
  const same = list.find(({ name }) => name === 'the same')!;
  const { findings } = assess(changed(ferry, { 'means.readings': undefined }));
  const own = findings.filter(
    ({ needs, verdict }) => verdict !== 'not known' && needs.some((path) => path.startsWith('means.')),
  );
  assert.equal(same.least, Math.min(...own.map(relativeMargin)));
  assert.ok(
    list.some((one) => one.fits),
    'one of the example fits',
  );
  assert.match(becauseOf(list)['Offcut'], /its route asks/);
});

test('a hand stop beside a solenoid has the hand cables tried on it', () => {
  assert.ok(ferry.means.kind === 'hand cable');
  const handStop = { ...ferry.means, whileEffortWasRead: 'apart' };
  const read = readJob(writeJob({ ...ferry, means: railcar.means, handStop } as Job));
  assert.ok(read.ok, JSON.stringify(read));
  const list = tried(read.job, { ...drawer, solenoids: [], cables: [] })['hand cable'];
  assert.equal(list.length, 3);
  assert.match(becauseOf(list)['Offcut'], /its route asks/);
  for (const one of list)
    if (one.fits) {
      assertClaims(read.job, one);
      assert.equal(one.changes[0].path, 'handStop');
    }
});

test('what is of no use to a job is not tried, and that is said', () => {
  assert.deepEqual(
    itemTasks(ferry, drawer).map(({ kind }) => kind),
    ['hand cable', 'hand cable', 'hand cable'],
  );
  assert.equal(notTriedWords(ferry, drawer).length, 2);
  assert.match(notTriedWords(railcar, drawer).join(), /3 hand cables .* of no use/);
  assert.deepEqual(notTriedWords(railcar, { ...drawer, handCables: [] }), []);
});

test('ranked: what is wholly known first, then the greatest least margin, then what is kept out, the nearest first', () => {
  const fit = (item: number, least: number, isKnown: boolean) =>
    ({ fits: true, item, least, notKnown: isKnown ? [] : [{ title: '', missing: [] }] }) as unknown as ItemFit;
  const out = (item: number, least: number | null): ItemTried => ({ fits: false, item, name: '', because: '', least });
  const order = ranked([out(0, null), out(1, -0.1), fit(2, 3, false), fit(3, 1, true), fit(4, 2, true)]);
  assert.deepEqual(
    order.map(({ item }) => item),
    [4, 3, 2, 1, 0],
  );
});
