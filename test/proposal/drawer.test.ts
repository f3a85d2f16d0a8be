/** What fits of a drawer: nothing is missed, every margin is that of an assessment, and everything kept out says why. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { assess, isSolenoid } from '../../src/assessment/assess.ts';
import { relativeMargin } from '../../src/assessment/finding.ts';
import type { SolenoidJob } from '../../src/assessment/rig.ts';
import { usualQuestion, windowOf } from '../../src/assessment/window/window.ts';
import { windowChecks } from '../../src/assessment/window/kinds.ts';
import { apply } from '../../src/job/change.ts';
import { readDrawer } from '../../src/job/drawer/read.ts';
import type { Drawer, DrawerSpring, LinearInHand } from '../../src/job/drawer/schema.ts';
import { readJob, writeJob } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';
import { fitting, fittingSteps } from '../../src/proposal/drawer.ts';
import { fitted, targetsOf } from '../../src/proposal/drawer-mounts.ts';
import { openings } from '../../src/proposal/drawer-opens.ts';
import { closingWords, mountWords } from '../../src/proposal/drawer-words.ts';
import { metricUnits } from '../../src/units/quantity.ts';
import { randomInstallations } from '../assessment/random-installation.ts';
import { changed, demo } from '../job/jobs.ts';

const solenoid = (job: Job) => job as SolenoidJob;
const railcar = solenoid(demo('railcar'));
const pumpHouse = solenoid(demo('pump-house'));

function exampleDrawer(): Drawer {
  const read = readDrawer(readFileSync(new URL('../../examples/drawer.json', import.meta.url), 'utf8'));
  assert.ok(read.ok, 'the example reads');
  return read.drawer;
}
const drawer = exampleDrawer();

const rated = (name: string, rate: number, free: number, tension: number, limit = 140): LinearInHand => ({
  name,
  kind: 'extension',
  spring: {
    by: 'rate',
    rate: `${rate} N/mm`,
    freeLength: `${free} mm`,
    initialTension: `${tension} N`,
    limitLength: `${limit} mm`,
  },
});

const holding = (springs: readonly DrawerSpring[], places?: Drawer['places']): Drawer => ({
  ...drawer,
  places,
  springs,
});

test('every fit, written to a file and assessed, shows the margins that were said', () => {
  for (const job of [railcar, pumpHouse]) {
    const { fits, isComplete } = fitting(job, drawer);
    assert.ok(isComplete && fits.length >= 4, `${fits.length} fit`);
    for (const fit of fits) {
      const read = readJob(writeJob(apply(job, fit.changes)));
      assert.ok(read.ok, fit.name);
      const { findings, verdict } = assess(read.job);
      if (fit.isWhole) assert.equal(verdict, fit.verdict, fit.name);
      for (const { id, margin, verdict: said } of fit.margins) {
        const found = findings.find((one) => one.id === id)!;
        assert.deepEqual([found.margin, found.verdict], [margin, said], `${fit.name}: ${id}`);
      }
      const deciding = findings.find(({ id }) => id === fit.decidedBy)!;
      assert.equal(relativeMargin(deciding), fit.least, fit.name);
    }
    fits.forEach(({ least }, i) => assert.ok(i === 0 || least <= fits[i - 1].least, 'the best first'));
  }
});

test('against every mount of every spring assessed one by one: none that holds is missed, none that does not is kept', () => {
  const springs = Array.from({ length: 24 }, (_, i) =>
    rated(`s${i}`, 0.3 + 0.35 * (i % 6), 40 + 6 * Math.floor(i / 6), 3 * (i % 4), 95 + (i % 3) * 12),
  );
  const coarse = { slide: { towards: '20 mm', away: '20 mm', step: '5 mm' } };
  const small = holding(springs, coarse);
  const { fits, misfits } = fitting(railcar, small);
  const [target] = targetsOf(railcar, small, null);
  const ids: ReadonlySet<string> = new Set([...windowChecks, 'spring-1', 'full-current-ends', 'side-load']);
  springs.forEach((spring, i) => {
    let best = -Infinity;
    for (const mount of target.mounts) {
      const { findings } = assess(apply(railcar, [fitted(railcar, spring, mount)!]), metricUnits, 'at rest');
      best = Math.max(best, Math.min(...findings.filter(({ id }) => ids.has(id)).map(relativeMargin)));
    }
    const fit = fits.find((one) => one.spring === i);
    // Between two gaps an assessment looks a little closer than the screen.
    if (Math.abs(best - 1) > 0.01) assert.equal(fit !== undefined, best > 1, `${spring.name}: best ${best}`);
    if (fit !== undefined) assert.ok(fit.least >= best - 0.01, `${spring.name}: ${fit.least}, best ${best}`);
    else
      assert.ok(
        misfits.some((one) => one.spring === i),
        `${spring.name} says why it is out`,
      );
  });
  assert.ok(fits.length > 3 && misfits.length > 3, `${fits.length} in, ${misfits.length} out`);
});

test('what is kept out says by what: too weak, too strong, too long, no reading, no place', () => {
  const { misfits } = fitting(
    railcar,
    holding(
      [
        rated('weak', 0.02, 60, 0),
        rated('strong', 9, 40, 30),
        { ...rated('short-lived', 1.2, 46, 5, 66) },
        {
          ...rated('unread', 1, 46, 5),
          spring: { by: 'rate', rate: 'not measured', freeLength: '46 mm', limitLength: '90 mm' },
        },
      ],
      { anchors: [{ name: 'as now', at: { x: '76 mm', y: '4 mm' } }] },
    ),
  );
  const by = Object.fromEntries(misfits.map(({ name, closing }) => [name, closing.by]));
  assert.deepEqual(by, { weak: 'floor', strong: 'ceiling', 'short-lived': 'length', unread: 'not known' });
  for (const { closing } of misfits) assert.ok(closingWords(closing, 'moment', metricUnits).length > 10);
  const short = misfits.find(({ name }) => name === 'short-lived')!;
  const asNow = solenoid(
    changed(railcar, {
      'return.springs[0].spring': {
        by: 'rate',
        rate: '1.2 N/mm',
        freeLength: '46 mm',
        initialTension: '5 N',
        limitLength: '66 mm',
      },
    }),
  );
  const own = assess(asNow, metricUnits, 'at rest').findings.find(({ id }) => id === 'spring-1')!;
  assert.ok(short.closing.by === 'length' && Math.abs(short.closing.margin - own.margin!) < 1e-12, 'its own margin');
  const bare = solenoid(changed(railcar, { return: { springs: [] } }));
  const none = fitting(bare, holding([rated('any', 1, 46, 5)]));
  assert.deepEqual([none.targets.length, none.misfits[0].closing.by], [0, 'no place']);
});

test('a drawer of nothing gives nothing, in words', () => {
  const { fits, misfits, springs, isComplete } = fitting(railcar, holding([]));
  assert.deepEqual([fits, misfits, springs, isComplete], [[], [], 0, true]);
});

test('an anchor that is moved lies on the line of the present spring at rest', () => {
  const [{ mounts }] = targetsOf(railcar, drawer, null);
  const now = mounts.find((one) => one.on === 'lever' && one.moved === 0)!;
  assert.ok(now.on === 'lever' && mounts.length === 51, `${mounts.length} mounts`);
  for (const mount of mounts) {
    if (mount.on !== 'lever') continue;
    const moved = mount.moved ?? NaN;
    // Told in tenths of a millimetre.
    assert.ok(Math.abs(mount.lengthAtRest - now.lengthAtRest - moved) < 1e-4, `${moved}: ${mount.lengthAtRest}`);
    assert.ok(Math.abs(Math.hypot(mount.x - now.x, mount.y - now.y) - Math.abs(moved)) < 1e-4, `${moved}`);
  }
});

test('holes that are given are the only places, and are named', () => {
  const holes = {
    anchors: [
      { name: 'A', at: { x: '76 mm', y: '4 mm' } },
      { name: 'B', at: { x: '300 mm', y: '4 mm' } },
    ],
  };
  const { fits, targets } = fitting(railcar, { ...drawer, places: holes });
  assert.equal(targets[0].mounts, 2);
  assert.ok(fits.length > 0, 'some fit');
  for (const { mount } of fits) assert.match(mountWords(mount, metricUnits), /hole "A"/);
});

test('a compression spring goes round the plunger where its room is told, and not where it would not go in', () => {
  const press = (outside: string): DrawerSpring => ({
    name: outside,
    kind: 'compression',
    spring: {
      by: 'dimensions',
      wire: 'EN 10270-1 SH',
      wireDiameter: '1.6 mm',
      outsideDiameter: outside,
      activeTurns: '9',
      freeLength: '90 mm',
      ends: 'closed and ground',
    },
  });
  const room = { plunger: { roomAtHome: '42 mm', outsideMost: '40 mm' } };
  const { fits, misfits, targets } = fitting(
    pumpHouse,
    holding([press('30 mm'), press('50 mm'), press('12 mm')], room),
  );
  assert.equal(targets.length, 2);
  const found = misfits.filter(({ closing }) => closing.by === 'room').map(({ name }) => name);
  for (const name of found) assert.ok(name !== '30 mm', 'the one that goes in is judged by its window');
  for (const fit of fits.filter(({ mount }) => mount.on === 'plunger')) {
    const after = apply(pumpHouse, fit.changes);
    assert.equal(after.return.springs.length, pumpHouse.return.springs.length + 1);
    assert.ok(readJob(writeJob(after)).ok, 'it reads');
  }
});

test('a search that is stopped has what it found until then, and says that it is not complete', () => {
  const many = holding(Array.from({ length: 600 }, (_, i) => rated(`s${i}`, 0.5 + (i % 40) * 0.05, 46, 5)));
  const steps = fittingSteps(railcar, many);
  const first = steps.next();
  assert.ok(first.done !== true, 'not done at once');
  const soFar = first.value.soFar();
  assert.deepEqual([soFar.screened, soFar.isComplete, soFar.springs], [250, false, 600]);
  assert.ok(soFar.fits.length > 0, 'the best so far are there');
  for (const { changes, decidedBy, least } of soFar.fits) {
    const { findings } = assess(apply(railcar, changes), metricUnits, 'at rest');
    assert.equal(relativeMargin(findings.find(({ id }) => id === decidedBy)!), least);
  }
  const whole = fitting(railcar, many);
  assert.ok(
    whole.isComplete && whole.fits.length + whole.furtherFits + whole.misfits.length === 600,
    'all accounted for',
  );
  assert.deepEqual(fitting(railcar, many), whole, 'the same again');
});

test('a window that is shut is opened by the change that is named', () => {
  const shut = solenoid(changed(railcar, { 'supply.low': '19 V' }));
  const question = usualQuestion(shut);
  assert.equal(windowOf(shut, question).isOpen, false);
  const found = openings(shut, question);
  assert.ok(found.length > 0, 'something opens it');
  for (const { words, changes, width } of found) {
    const window = windowOf(solenoid(apply(shut, changes)), question);
    assert.ok(window.isOpen && window.tightest!.width === width, words);
  }
});

test('a connection held fast and pulls that were never read: the window is not known, and nothing is made of it', () => {
  const job = randomInstallations(24, 77).find(
    (one) =>
      isSolenoid(one)
      && windowOf(one, usualQuestion(one)).missing.includes('means.force')
      && assess(one).findings.some(({ id, verdict }) => id === 'pulls-in-everywhere' && verdict === 'fails'),
  );
  assert.ok(job !== undefined && isSolenoid(job), 'there is one among them');
  const { fits, misfits } = fitting(job, drawer);
  assert.equal(fits.length, 0);
  for (const { closing, name } of misfits)
    assert.ok(['not known', 'no place'].includes(closing.by), `${name}: ${closing.by}`);
});
