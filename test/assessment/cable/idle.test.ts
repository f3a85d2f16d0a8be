/** A cable that hangs on the lever while something else turns it: by geometry and statics worked out here on their own. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cableDrag } from '../../../src/assessment/cable/idle.ts';
import { cableStudy } from '../../../src/assessment/cable/study.ts';
import { changed, demo } from '../../job/jobs.ts';
import { assertPlain } from '../plain-data.ts';
import { byLining, withCable } from './cables.ts';

const rad = (degrees: number) => (degrees * Math.PI) / 180;

function near(value: number | null | undefined, expected: number, tolerance: number, what: string): void {
  assert.ok(Math.abs((value ?? NaN) - expected) <= tolerance, `${what}: ${value}, worked out here ${expected}`);
}

/** The angles of the ferry's five bends, as its route has them: 90°, 90°, and three by their cosines. */
const turned =
  Math.PI
  + Math.acos(600 / Math.hypot(1100, 600))
  + Math.acos((1100 / Math.hypot(1100, 600)) * (500 / Math.hypot(500, 300)))
  + Math.acos(500 / Math.hypot(500, 300));
/** Distance of the point that the core holds from the end of the conduit, mm, and the arm of the pull, m. */
const freeLength = (angle: number) =>
  Math.hypot(-37 - 55 * Math.cos(rad(angle - 3)), 127 - 55 * Math.sin(rad(angle - 3)));
const armAt = (angle: number) => (freeLength(angle - 0.01) - freeLength(angle + 0.01)) / rad(0.02) / 1000;

test('an idle cable: nothing inside its slack, then its drag, and never more than the free core bears', () => {
  const { means } = withCable(byLining);
  assert.deepEqual(cableDrag(byLining, means, rad(30), 'stop'), { least_Nm: 0, most_Nm: 0, isInSlack: true });
  const drag = cableDrag(byLining, means, rad(50), 'run');
  assert.ok(drag !== null && !drag.isInSlack, 'beyond its slack');
  // Drawn out by the lever: 3 N at the handle through every bend, on the arm there.
  near(drag.least_Nm, 3 * Math.exp(0.04 * turned) * armAt(50), 0.03, 'least');
  near(drag.most_Nm, 3 * Math.exp(0.2 * turned) * armAt(50), 0.06, 'most');
  // A thin strand bows out long before it pushes its conduit through.
  const thin = changed(byLining, {
    'means.core.diameter': '1 mm',
    'means.core.construction': 'strand 7x19, stainless',
  });
  const pushed = cableDrag(thin, withCable(thin).means, rad(60), 'stop');
  const stiffness = (133 * 200e9 * Math.PI * (0.001 / 15) ** 4) / 64;
  const bears = (20.190728557 * stiffness) / (freeLength(60) / 1000) ** 2;
  near(pushed?.most_Nm, bears * armAt(60), 1e-5, 'bows out');
  assert.equal(
    cableDrag(
      changed(byLining, { 'means.conduit.bore': 'not measured' }),
      withCable(changed(byLining, { 'means.conduit.bore': 'not measured' })).means,
      rad(50),
      'stop',
    ),
    null,
  );
});

test('an idle cable carries along its second place of control too', () => {
  const square = [
    { x: '0 mm', y: '0 mm', z: '0 mm' },
    { x: '1500 mm', y: '0 mm', z: '0 mm', radius: '200 mm' },
    { x: '1500 mm', y: '900 mm', z: '0 mm' },
  ];
  const dragOf = (secondStation: unknown) => {
    const job = changed(byLining, { 'means.secondStation': secondStation });
    return cableDrag(job, withCable(job).means, rad(50), 'run');
  };
  const quarter = Math.exp((0.04 * Math.PI) / 2);
  const whole = Math.exp(0.04 * turned);
  const second = { name: 'Aft', route: square };
  // To the lever itself, its drag comes through its own bend alone; at a tee past the first bend, through the rest of the run.
  near(dragOf({ ...second, by: 'second cable' })?.least_Nm, 3 * (whole + quarter) * armAt(50), 0.06, 'second cable');
  const tee = { ...second, by: 'tee', joins: '1.5 m' };
  near(dragOf(tee)?.least_Nm, ((3 * quarter + 3 * quarter) * whole * armAt(50)) / quarter, 0.06, 'tee');
  // The main core's arm is half of the second's: a newton in the second core is two in the main one.
  const crank = { mainArm: '40 mm', secondArm: '80 mm', pinDiameter: '0.001 mm' };
  const cranked = dragOf({ ...second, by: 'bell-crank', joins: '1.5 m', crank });
  near(cranked?.least_Nm, ((3 * quarter + 2 * 3 * quarter) * whole * armAt(50)) / quarter, 0.09, 'bell-crank');
  for (const unread of ['not measured', { ...tee, joins: 'not measured' }, { ...tee, joins: '20 m' }])
    assert.equal(dragOf(unread), null);
});

test('an idle hand stop beside a solenoid is the same cable', () => {
  const { kind: _kind, ...cable } = withCable(byLining).means;
  const job = changed(demo('railcar'), {
    handStop: { kind: 'hand cable', ...cable, whileEffortWasRead: 'apart' },
  });
  assert.ok(job.handStop !== undefined, 'there is a hand stop');
  const drag = cableDrag(job, job.handStop, rad(80), 'stop');
  assert.ok(drag !== null && drag.most_Nm >= drag.least_Nm, 'it drags');
  const study = cableStudy(job, job.handStop);
  assertPlain(study);
  assert.ok(
    study.assumed.some(({ path }) => path === 'handStop.ageing'),
    'its paths are its own',
  );
  const open = changed(job, { 'handStop.core.diameter': 'not measured' });
  assert.deepEqual(cableStudy(open, open.handStop!).missing, ['handStop.core.diameter']);
});
