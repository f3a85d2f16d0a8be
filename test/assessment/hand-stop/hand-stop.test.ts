/**
 * A hand cable and another means on one lever. Checks by free bodies are derived here from the statics of lever, link and core
 * (any statics text); the readings are invented.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import { cableDrag } from '../../../src/assessment/cable/idle.ts';
import type { Finding } from '../../../src/assessment/finding.ts';
import { leverMoments } from '../../../src/assessment/lever-moments.ts';
import { turnWithMoverStuck } from '../../../src/assessment/hand-stop/free-turn.ts';
import { carriedAlong, carriedAt } from '../../../src/assessment/hand-stop/means-at-rest.ts';
import { hasHandStop, togetherStates } from '../../../src/assessment/hand-stop/states.ts';
import { missingReadings } from '../../../src/assessment/needs.ts';
import { rigOf, type SolenoidJob } from '../../../src/assessment/rig.ts';
import { mechanicalScenesOf } from '../../../src/assessment/scene.ts';
import type { Job } from '../../../src/job/schema.ts';
import { altered, changed, demo } from '../../job/jobs.ts';
import { isMeasured, quantitiesOf } from '../../job/quantities.ts';
import { assertConsistent } from '../plain-data.ts';
import { beside, ferryByAir } from './beside.ts';

const radians = (degrees: number) => (degrees * Math.PI) / 180;
const degrees = (angle: number) => (angle * 180) / Math.PI;

const railcar = demo('railcar');
const pumpHouse = demo('pump-house');

function finding(job: Job, id: string): Finding {
  const found = assess(job).findings.find((one) => one.id === id);
  assert.ok(found !== undefined, `no finding ${id}`);
  return found;
}

function asSolenoid(job: Job): SolenoidJob {
  if (job.means.kind !== 'solenoid') throw new Error('this installation has no solenoid');
  return { ...job, means: job.means };
}

test('every job with a hand stop gives consistent findings: solenoid, energised to run, and air', () => {
  for (const job of [beside(railcar), beside(pumpHouse), beside(ferryByAir)]) {
    const assessment = assess(job);
    assertConsistent(assessment, job.means.kind === 'air cylinder' ? true : undefined);
    assert.ok(
      assessment.findings.some(({ id }) => id === 'hand-stop-handle-pull'),
      job.name,
    );
  }
});

test('what the idle cable lays on the lever is what the means must overcome more, and return less by', () => {
  const [bare, hung] = [railcar, beside(railcar)].map((job) => rigOf(asSolenoid(job)));
  const { handStop } = beside(railcar);
  for (const share of [0, 0.25, 0.5, 0.75, 1]) {
    const angle = bare.lever.run + share * (bare.lever.hardStop - bare.lever.run);
    const most = Math.max(
      ...(['stop', 'run'] as const).map((way) => cableDrag(beside(railcar), handStop!, angle, way)?.most_Nm ?? NaN),
    );
    const added =
      leverMoments(hung, angle, 'high', 'home').friction - leverMoments(bare, angle, 'high', 'home').friction;
    // Places lie 1.4° apart along the swing, between them a shape-keeping cubic.
    assert.ok(Math.abs(added - most) < 0.02 * most + 1e-4, `${degrees(angle)}°: ${added} and ${most} N m`);
    // Within its slack of 2 mm the core does not move.
    assert.equal(most > 0, share > 0, `${degrees(angle)}°`);
  }
  const pull = (job: Job) => finding(job, 'pulls-in-everywhere').margin!;
  const back = (job: Job) => finding(job, 'returns-from-every-gap').margin!;
  const [pulls, backs] = [pull, back].map((of) => [of(railcar), of(beside(railcar))]);
  assert.ok(pulls[1] < pulls[0], `pull ${pulls.join(' and ')}`);
  assert.ok(backs[1] < backs[0], `return ${backs.join(' and ')}`);
});

test('a cable that hung on the lever while it was read is in the readings already', () => {
  const same = beside(railcar, { 'handStop.whileEffortWasRead': 'connected' });
  assert.equal(finding(same, 'pulls-in-everywhere').margin, finding(railcar, 'pulls-in-everywhere').margin);
});

test('slack that reaches over the whole swing leaves the means as if no cable were there', () => {
  const loose = beside(railcar, { 'handStop.leverEnd.slack': '80 mm' });
  assert.equal(finding(loose, 'pulls-in-everywhere').margin, finding(railcar, 'pulls-in-everywhere').margin);
  assert.equal(finding(loose, 'means-hand-stop-stuck').verdict, 'holds');
});

test('without guide friction, spring, weight and sticking the plunger at rest adds what moving its mass asks: nothing', () => {
  const light = changed(railcar, {
    'means.plunger.mass': '0.000001 kg',
    'return.springs': [],
    'layout.friction': { slot: '0', pins: '0', guide: '0' },
    'means.endSwitch': 'none',
    'surroundings.vibration': '0 m/s²',
  });
  const rig = rigOf(asSolenoid(light));
  const [scene] = mechanicalScenesOf(rig);
  const carried = carriedAlong(rig, scene);
  for (let i = 0; i <= 10; i++)
    assert.ok(carriedAt(carried, radians(3.4 * i)) < 1e-6, `${3.4 * i}°: ${carriedAt(carried, radians(3.4 * i))} N m`);
});

test('a spring on the plunger is carried along with its force times the rate of the linkage, by virtual work', () => {
  const spring = {
    on: 'plunger',
    name: 'On the plunger',
    kind: 'compression',
    lengthAtHome: '40 mm',
    spring: { by: 'rate', rate: '0.2 N/mm', freeLength: '90 mm', limitLength: '20 mm' },
  };
  const places = {
    'means.plunger.mass': '0.000001 kg',
    'layout.friction': { slot: '0', pins: '0', guide: '0' },
    'means.endSwitch': 'none',
    'surroundings.vibration': '0 m/s²',
    'return.springs': [spring],
  };
  const rig = rigOf(asSolenoid(changed(railcar, places)));
  const [scene] = mechanicalScenesOf(rig);
  const carried = carriedAlong(rig, scene);
  for (const { gap, pose, shaftAngle } of scene.travel.stations) {
    const force = 200 * (0.09 - (0.04 + gap));
    const turned = rig.lever.toStop * (shaftAngle - rig.lever.run);
    const moment = carriedAt(carried, turned);
    assert.ok(Math.abs(moment - force / pose.rate) < 1e-6 * moment + 1e-6, `${gap * 1e3} mm: ${moment} N m`);
  }
});

test('with the plunger stuck out a chain leaves the lever free, a link not at all, a slot and a pin by their play', () => {
  const turn = (layout: Readonly<Record<string, unknown>>) => {
    const rig = rigOf(asSolenoid(changed(railcar, layout)));
    return degrees(turnWithMoverStuck(rig, mechanicalScenesOf(rig)[0]).turn);
  };
  const clearance = parseFloat((railcar.layout.connection as { sideClearance: string }).sideClearance);
  const rig = rigOf(asSolenoid(railcar));
  const [{ travel }] = mechanicalScenesOf(rig);
  const radius = travel.stations[travel.stations.length - 1].pose.radius * 1e3;
  assert.ok(Math.abs(turn({}) - degrees(clearance / radius)) < 1e-9, 'slot');
  const link = { kind: 'pinned link', length: '60 mm', armRadius: '48 mm', pinDiameter: '6 mm' };
  const chain = { kind: 'short chain', length: '60 mm', armRadius: '48 mm' };
  assert.equal(turn({ 'layout.connection': link }), 0);
  const free = turn({ 'layout.connection': chain });
  assert.ok(free > 30, `the chain leaves ${free}°`);
});

test('energised to run, a chain stuck at home holds the lever at run: the hand stop finds no play', () => {
  const chain = { kind: 'short chain', length: '60 mm', armRadius: '45 mm' };
  const job = beside(pumpHouse, { 'layout.connection': chain, 'layout.overTravel': 'none' });
  const { value, verdict } = finding(job, 'hand-stop-means-stuck');
  assert.ok(value !== null && value < 1 && verdict === 'fails', `${value}°`);
});

test('energised to run, the travel of the over-travel spring is play for the hand stop, and must have been read', () => {
  const id = 'hand-stop-means-stuck';
  const play = (travel: string) => finding(beside(pumpHouse, { 'layout.overTravel.travel': travel }), id).value!;
  // At home the pin of the lever stands still against the link: 3 mm more to give at some 45 mm of leverage.
  const more = play('11 mm') - play('8 mm');
  assert.ok(more > 3 && more < 5.5, `${more}°`);
  const unread = finding(beside(pumpHouse, { 'layout.overTravel.travel': 'not measured' }), id);
  assert.deepEqual([unread.verdict, unread.missing], ['not known', ['layout.overTravel.travel']]);
  for (const other of ['preload', 'rate'])
    assert.notEqual(
      finding(beside(pumpHouse, { [`layout.overTravel.${other}`]: 'not measured' }), id).verdict,
      'not known',
    );
});

test('a stuck strand bows out where the lever runs ahead of it, a stuck solid wire leaves its slack alone', () => {
  const soft = finding(beside(railcar), 'means-hand-stop-stuck');
  assert.equal(soft.verdict, 'holds');
  const wire = finding(beside(railcar, { 'handStop.core.construction': 'solid wire' }), 'means-hand-stop-stuck');
  assert.equal(wire.verdict, 'fails');
  // 2 mm of slack on an arm of 45 mm that stands within 17° of square to the core: some 2.5° of turn, in steps of 1/4°.
  assert.ok(wire.value !== null && Math.abs(wire.value - degrees(2 / 45)) < 0.5, `${wire.value}°`);
});

test('the four states: each alone, both together, each with the other stuck', () => {
  const job = beside(railcar);
  assert.ok(hasHandStop(job));
  const states = togetherStates(job, assess);
  const { handStop: _, ...alone } = job;
  assert.equal(states[0].verdict, assess(alone).verdict);
  assert.deepEqual(
    states.slice(4).map(({ finding: id }) => id),
    ['hand-stop-means-stuck', 'means-hand-stop-stuck'],
  );
  assert.ok(states.every(({ because }) => because !== ''));
});

test('each reading of the hand stop that is taken away makes not known what rests on it, and nothing else', () => {
  const job = beside(railcar);
  const known = assess(job).findings;
  assert.ok(known.every(({ verdict }) => verdict !== 'not known'));
  for (const place of quantitiesOf(job).filter(({ path }) => path.startsWith('handStop.') && path !== 'x')) {
    if (!isMeasured(place)) continue;
    const without = altered(job, { [place.path]: 'not measured' });
    if (!missingReadings(without).has(place.path)) continue;
    const after = assess(without).findings;
    for (const { id, verdict, missing, needs } of after) {
      const rests = known.find((one) => one.id === id)?.needs.includes(place.path) ?? needs.includes(place.path);
      assert.equal(verdict === 'not known', rests, `${place.path}: ${id} is ${verdict}`);
      if (rests) assert.ok(missing.includes(place.path), `${id} does not name ${place.path}`);
    }
  }
});
