/** A second place of control by tee, bell-crank and second cable: capstan, arms and work, worked out here on their own. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import { knownCable, poseOnLever, type KnownCable } from '../../../src/assessment/cable/force.ts';
import { placesOf, type Places } from '../../../src/assessment/cable/places.ts';
import { hardestPull, travelTo } from '../../../src/assessment/cable/reckon.ts';
import { cableRigOf } from '../../../src/assessment/cable/rig.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { lengthOf } from '../../../src/physics/cable/route.ts';
import { altered, changed } from '../../job/jobs.ts';
import { assertConsistent } from '../plain-data.ts';
import { byLining, second, withCable } from './cables.ts';

/** From the second handle down 600 mm and on at 45°. */
const route = [
  { x: '0 mm', y: '0 mm', z: '1200 mm' },
  { x: '0 mm', y: '0 mm', z: '600 mm', radius: '220 mm' },
  { x: '600 mm', y: '0 mm', z: '0 mm' },
];
const tee = { ...second, route, by: 'tee', joins: '1.5 m' };
const crank = { mainArm: '60 mm', secondArm: '80 mm', friction: '0' };
const bellCrank = { ...tee, by: 'bell-crank', crank };
const withSecond = (secondStation: object, places: object = {}): Job =>
  changed(byLining, { ...places, 'means.secondStation': secondStation });

const MU = 0.2;
const DRAG = 3;
const bent = (turned: number) => Math.exp(MU * turned);

/** Without weight, and snug in its conduit so that a push does not make a helix of it: then the capstan holds. */
function weightless(job: Job, bore?: number): KnownCable {
  const known = knownCable(cableRigOf(job, withCable(job).means));
  assert.ok(known !== null, 'known');
  const core = { ...known.core, weight: 0 };
  return { ...known, core, rig: { ...known.rig, bore: bore ?? core.diameter } };
}

function both(job: Job, friction = MU, bore?: number) {
  const known = weightless(job, bore);
  const condition = { friction, leverFriction: 1.25 };
  const places = placesOf(known, condition);
  assert.ok(places !== null, 'both places known');
  const pull = ({ known: from, idle }: Places['first']) => hardestPull(from, condition, idle);
  return {
    known,
    condition,
    places,
    alone: hardestPull(known, condition),
    first: pull(places.first),
    far: pull(places.second),
  };
}

const turnedOf = ({ course }: KnownCable) => course.pieces.reduce((sum, { angle }) => sum + angle, 0);

function near(value: number, expected: number, tolerance: number, what: string): void {
  assert.ok(Math.abs(value - expected) <= tolerance, `${what}: ${value}, worked out here ${expected}`);
}

/** What an idle branch with so much bend asks to be pushed in, before its free core bows out: 4.4934² E I/L². */
function idleOf(known: KnownCable, turned: number): number {
  const angles = Array.from({ length: 361 }, (_, i) => (30 + i / 10) * (Math.PI / 180));
  const shortest = Math.min(...angles.map((angle) => poseOnLever(known, angle).freeLength));
  return Math.min(DRAG * bent(turned), (4.493409457909064 ** 2 * known.core.bendingStiffness) / shortest ** 2);
}

test('a tee in mid-run, by capstan: the bends up to it, the idle branch, the bends beyond', () => {
  const { known, alone, first, far, places } = both(withSecond(tee));
  // Of the main run bend 1, of 90°, lies between handle and tee.
  const common = turnedOf(known) - Math.PI / 2;
  const [handle, other] = [Math.PI / 2, Math.PI / 4];
  const atTee = alone.atLever * alone.mouth * bent(common);
  near(first.atHandle, (atTee + idleOf(known, other)) * bent(handle) + DRAG, 1e-6, 'first handle');
  near(far.atHandle, (atTee + idleOf(known, handle)) * bent(other) + DRAG, 1e-6, 'second handle');
  const drawn = (DRAG * bent(handle) + DRAG * bent(other)) * bent(common);
  near(places.both.drawnOut, drawn, 1e-6, 'drawn along on the way back');
});

test('a bell-crank in mid-run: the arms carry the force over, the pivot rubs', () => {
  const { known, alone, first, far } = both(withSecond(bellCrank));
  const common = turnedOf(known) - Math.PI / 2;
  const [handle, other] = [Math.PI / 2, Math.PI / 4];
  const atCrank = alone.atLever * alone.mouth * bent(common);
  near(far.atHandle, (atCrank + idleOf(known, handle)) * (60 / 80) * bent(other) + DRAG, 1e-6, 'second handle');
  near(first.atHandle, (atCrank + idleOf(known, other) * (80 / 60)) * bent(handle) + DRAG, 1e-6, 'first handle');
  const rubbing = both(withSecond({ ...bellCrank, crank: { ...crank, friction: '0.15' } }));
  assert.ok(rubbing.far.atHandle > far.atHandle * 1.001, 'a pivot that rubs asks more at the second handle');
  assert.ok(rubbing.first.atHandle > first.atHandle, 'and at the first');
  assert.ok(rubbing.places.both.drawnOut > both(withSecond(bellCrank)).places.both.drawnOut, 'and on the way back');
});

test('without friction and drag the effort is the load, by the arms, to the last bit', () => {
  const free = { 'means.drag': '0 N' };
  const byTee = both(withSecond(tee, free), 0);
  assert.equal(byTee.far.atHandle, byTee.alone.atLever);
  assert.equal(byTee.first.atHandle, byTee.alone.atLever);
  const byCrank = both(withSecond(bellCrank, free), 0);
  const { mainArm, secondArm } = byCrank.known.rig.second!.crank!;
  assert.equal(byCrank.far.atHandle, byCrank.alone.atLever * (mainArm / secondArm));
  assert.equal(byCrank.first.atHandle, byCrank.alone.atLever);
});

test('virtual work, without friction and drag: what the second handle moves times what it asks is what the lever takes', () => {
  for (const secondStation of [tee, bellCrank, { ...bellCrank, crank: { ...crank, secondArm: '35 mm' } }]) {
    const { places, condition } = both(withSecond(secondStation, { 'means.drag': '0 N' }), 0);
    const { known } = places.second;
    for (const degrees of [34, 45, 60]) {
      const angle = (degrees * Math.PI) / 180;
      const step = 1e-5;
      const core = (at: number) => travelTo(known, at, condition).core;
      const moved = (core(angle + step) - core(angle - step)) / (2 * step);
      const { force } = travelTo(known, angle, condition);
      const bare = travelTo({ ...known, junction: null }, angle, condition).force;
      near(force * moved, bare * poseOnLever(known, angle).turning, 1e-7, `${degrees}°`);
    }
  }
});

test('a junction at the end at the lever is a second cable, but for the mouth of the conduit', () => {
  const end = `${lengthOf(weightless(byLining).course.pieces)} m`;
  const [atEnd, cable] = [
    { ...tee, joins: end },
    { ...tee, by: 'second cable' },
  ].map((one) => both(withSecond(one), 0));
  near(atEnd.first.atHandle, cable.first.atHandle, 1e-9, 'first handle, no friction');
  near(atEnd.far.atHandle, cable.far.atHandle, 1e-9, 'second handle, no friction');
  near(atEnd.places.both.drawnOut, cable.places.both.drawnOut, 1e-9, 'way back');
  const [rubs, over] = [
    { ...tee, joins: end },
    { ...tee, by: 'second cable' },
  ].map((one) => both(withSecond(one)));
  near(rubs.places.both.drawnOut, over.places.both.drawnOut, 1e-9, 'way back with friction');
  // The idle second cable rubs over its own mouth, and what it adds over that of the one that is pulled.
  const added = idleOf(rubs.known, turnedOf(rubs.known)) * (rubs.alone.mouth ** 2 - 1) * bent(Math.PI / 4);
  near(over.far.atHandle - rubs.far.atHandle, added, 1e-6, 'twice over the mouth');
});

test('a junction at the first handle carries the whole run', () => {
  const { alone, first, far, known } = both(withSecond({ ...tee, joins: '0 m' }));
  const whole = alone.atHandle - DRAG;
  near(far.atHandle, (whole + idleOf(known, 0)) * bent(Math.PI / 4) + DRAG, 1e-6, 'second handle');
  near(first.atHandle, whole + idleOf(known, Math.PI / 4) + DRAG, 1e-6, 'first handle');
});

test('a bell-crank with arms alike and no friction at its pivot is a tee', () => {
  const [one, other] = [tee, { ...bellCrank, crank: { ...crank, secondArm: '60 mm' } }].map((it) =>
    both(withSecond(it)),
  );
  assert.equal(one.far.atHandle, other.far.atHandle);
  assert.equal(one.first.atHandle, other.first.atHandle);
  assert.deepEqual(one.places.both, other.places.both);
  const travel = ({ places, condition }: typeof one) => travelTo(places.second.known, 1, condition);
  assert.deepEqual(travel(one), travel(other));
});

test('travel at the second handle: what is before the crank by its arms, what is beyond as it is', () => {
  const byTee = both(withSecond(tee), MU, 3.2e-3);
  const taken = travelTo(byTee.places.second.known, 1, byTee.condition);
  const longer = both(withSecond({ ...bellCrank, crank: { ...crank, secondArm: '120 mm' } }), MU, 3.2e-3);
  const doubled = travelTo(longer.places.second.known, 1, longer.condition);
  near(doubled.core, 2 * taken.core, 1e-12, 'core');
  near(doubled.slack, 2 * taken.slack, 1e-12, 'slack');
  const room = 0.7e-3;
  near(taken.play, (turnedOf(byTee.known) - Math.PI / 2 + Math.PI / 4) * room, 1e-9, 'play, tee');
  near(doubled.play, (2 * (turnedOf(byTee.known) - Math.PI / 2) + Math.PI / 4) * room, 1e-9, 'play, crank');
  assert.ok(doubled.stretch < 2 * taken.stretch + 1e-12 && doubled.stretch > taken.stretch, 'stretch');
});

function found(job: Job, id: string) {
  const assessment = assess(job);
  assertConsistent(assessment);
  const finding = assessment.findings.find((one) => one.id === id);
  assert.ok(finding !== undefined, id);
  return finding;
}

test('the friction at which one of both places fails is where a margin is nought', () => {
  for (const station of [tee, bellCrank, { ...tee, by: 'second cable' }]) {
    const light = { 'means.drag': '0.3 N' };
    const fails = found(withSecond(station, light), 'second-worn').value!;
    const at = (mu: number) => {
      const job = withSecond(station, { ...light, 'means.friction': `${mu}`, 'means.ageing': '1' });
      return Math.min(found(job, 'second-station').margin!, found(job, 'second-back').margin!);
    };
    assert.ok(at(fails - 0.002) > 0 && at(fails + 0.002) < 0, `changes sign at ${fails}`);
  }
});

const ids = ['second-station', 'second-travel', 'second-worn', 'second-back'];

test('what is not told of a junction leaves its findings not known, and names what to tell', () => {
  const cases: readonly (readonly [object, RegExp, string])[] = [
    [{ ...tee, joins: undefined }, /Where the tee stands on the main run is not told/, 'means.secondStation.joins'],
    [{ ...bellCrank, crank: undefined }, /arms of the bell-crank are not told/, 'means.secondStation.crank'],
    [
      { ...tee, joins: '9 m' },
      /told to stand at 9000 mm along a run of (\d+) mm: from 0 to \1 mm would do/,
      'means.secondStation.joins',
    ],
    [{ ...tee, route: [] }, /route of the other place of control is not drawn/, 'means.secondStation.route'],
    [{ ...tee, route: [route[0]] }, /has no shape/, 'means.secondStation.route'],
  ];
  for (const [station, because, path] of cases) {
    const job = withSecond(JSON.parse(JSON.stringify(station)) as object);
    for (const id of ids) {
      const finding = found(job, id);
      assert.equal(finding.verdict, 'not known', id);
      assert.match(finding.because, because);
      assert.deepEqual(finding.missing, [path]);
    }
    assert.notEqual(found(job, 'handle-pull').verdict, 'not known');
  }
});

test('a place before the run and arms of nothing are refused where they are read', () => {
  const job = withSecond(bellCrank);
  for (const [path, text, words] of [
    ['joins', '-1 m', /at least 0/],
    ['crank.mainArm', '0 mm', /above 0/],
    ['crank.secondArm', '0 mm', /above 0/],
    ['crank.pinDiameter', '0 mm', /above 0/],
    ['crank.friction', '-0.1', /at least 0/],
  ] as const) {
    const read = readDocument(altered(job, { [`means.secondStation.${path}`]: text }));
    assert.ok(!read.ok, path);
    assert.match(read.problems[0].problem, words, path);
  }
});

test('a pivot that jams: no effort turns the lever from the second handle', () => {
  const jammed = { ...bellCrank, crank: { mainArm: '60 mm', secondArm: '10 mm', pinDiameter: '60 mm', friction: '1' } };
  const finding = found(withSecond(jammed), 'second-station');
  assert.equal(finding.verdict, 'fails');
  assert.match(finding.because, /no effort that the core bears/);
  assert.equal(found(withSecond(jammed), 'second-travel').verdict, 'fails');
});
