/** `stopwright springs`: the window in words and as data, a drawer, a spring to order, refusals. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { usualQuestion, windowOf } from '../../src/assessment/window/window.ts';
import type { SolenoidJob } from '../../src/assessment/rig.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import type { Job } from '../../src/job/schema.ts';
import { changed, demo } from '../job/jobs.ts';
import { assertReadable, stopwright, type Outcome } from './command.ts';

const drawer = fileURLToPath(new URL('../../examples/drawer.json', import.meta.url));
const springs = (job: Job, ...args: string[]): Promise<Outcome> =>
  stopwright(['springs', '-', ...args], { input: JSON.stringify(job) });

test('it says the window, what fits of the drawer, and what a spring-maker must be told', async () => {
  const { code, out, err } = await springs(demo('railcar'), '--drawer', drawer, '--order');
  assert.deepEqual([code, err], [0, '']);
  assertReadable(out);
  const flat = out.replaceAll(/\s+/g, ' ');
  for (const wanted of [
    'The window is open.',
    'The present spring lies inside',
    'What moves its ceiling:',
    'Drawer under the bench: 9 springs',
    'Anchor 1 mm nearer to the lever',
    'Gate spring, stiff: too strong',
    'Rate never read: a reading of it is missing',
    'Outside diameter',
    'EN 15800 grade 2',
    'Isolate fuel and battery',
  ])
    assert.ok(flat.includes(wanted), wanted);
});

test('the exit code goes by the present spring in its window', async () => {
  const railcar = demo('railcar');
  const outside = changed(railcar, { 'return.springs[0].spring.initialTension': '25 N' });
  const shut = changed(railcar, { 'supply.low': '19 V' });
  const unread = changed(railcar, { 'means.plunger.mass': NOT_MEASURED });
  const [one, two, three] = await Promise.all([outside, shut, unread].map((job) => springs(job)));
  assert.deepEqual([one.code, two.code, three.code], [1, 2, 3]);
  assert.match(two.out, /Would open it:/);
  assert.match(three.out, /Take this reading: means\.plunger\.mass/);
});

test('--json holds the window as reckoned, the fits with their margins, the offers', async () => {
  const job = demo('pump-house');
  const { code, out } = await springs(job, '--drawer', drawer, '--order', '--json');
  assert.equal(code, 0);
  const said = JSON.parse(out);
  const solenoid = job as SolenoidJob;
  const { stations } = windowOf(solenoid, usualQuestion(solenoid)).scenes[0];
  assert.deepEqual(
    said.window.scenes[0].floor,
    stations.map(({ floor }) => floor.value),
  );
  assert.ok(said.fitting.isComplete && said.fitting.fits.length > 0 && said.order.offers.length > 0, 'all parts');
  assert.ok(!out.includes('NaN') && !out.includes('Infinity'), 'plain numbers');
});

test('inch units, one spring by number, a bad drawer, a job without a solenoid', async () => {
  const [inch, number, none, broken, hand] = await Promise.all([
    springs(demo('railcar'), '--units', 'inch'),
    springs(demo('railcar'), '--spring', '1'),
    springs(demo('railcar'), '--spring', '4'),
    stopwright(['springs', drawer, '--drawer', '-'], { input: '{}' }),
    springs(demo('ferry')),
  ]);
  assert.match(inch.out, /lbf in/);
  assert.deepEqual([inch.code, number.code, none.code, broken.code, hand.code], [0, 0, 64, 65, 65]);
  assert.match(none.err, /counted from 1/);
  const badDrawer = await springs(
    demo('railcar'),
    '--drawer',
    fileURLToPath(new URL('../../package.json', import.meta.url)),
  );
  assert.equal(badDrawer.code, 65);
  assert.match(badDrawer.err, /format: /);
});
