/**
 * Heat, motion, fuse and stations: where physics says which way a finding goes, it goes that way, and what is known to be
 * wrong fails for its reason.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import type { Finding } from '../../src/assessment/finding.ts';
import { coilInHeat, steadyIn, timeToClass } from '../../src/assessment/time/heat-of.ts';
import { LATEST, letGo, pullIn, SLOWEST } from '../../src/assessment/time/motion-of.ts';
import { rigOf, type SolenoidJob } from '../../src/assessment/rig.ts';
import { electricCorners, scenesOf } from '../../src/assessment/scene.ts';
import type { Job } from '../../src/job/schema.ts';
import { altered, changed, demo } from '../job/jobs.ts';
import { installations } from './installations.ts';
import { assertConsistent } from './plain-data.ts';
import { randomInstallations } from './random-installation.ts';

const jobs = [...installations.map(({ job }) => job), ...randomInstallations(40, 71)];
/** Relative error of an integration in time. */
const IN_TIME = 1e-3;

function finding(job: Job, id: string): Finding {
  const found = assess(job).findings.find((one) => one.id === id);
  assert.ok(found !== undefined, `${job.name} has no finding ${id}`);
  return found;
}

function asSolenoid(job: Job): SolenoidJob {
  if (job.means.kind !== 'solenoid') throw new Error('this installation has no solenoid');
  return { ...job, means: job.means };
}

function lasts(job: Job): number {
  const rig = rigOf(asSolenoid(job));
  const coil = coilInHeat(rig);
  return coil === null ? NaN : timeToClass(rig, coil, 'high');
}

test('hotter surroundings never lengthen the time to the class, nor cool a coil in hold', () => {
  let told = 0;
  for (const job of jobs) {
    const rows = ['20 °C', '45 °C', '70 °C'].map((hottest) =>
      altered(job, { 'surroundings.hottest': hottest, 'surroundings.coldest': '0 °C' }),
    );
    const times = rows.map(lasts);
    const holds = rows.map((row) => {
      const rig = rigOf(asSolenoid(row));
      const coil = coilInHeat(rig);
      const steady = coil === null ? null : steadyIn(rig, coil, 'hold', 'high');
      return steady?.kind === 'steady' ? steady.winding : Infinity;
    });
    for (const i of [1, 2]) {
      if (Number.isNaN(times[0])) continue;
      assert.ok(times[i] <= times[i - 1] * (1 + IN_TIME), `${job.name}: ${times.join(', ')} s`);
      assert.ok(holds[i] >= holds[i - 1] - 1e-6, `${job.name}: ${holds.join(', ')} K`);
      if (times[i] < times[i - 1]) told++;
    }
  }
  assert.ok(told > 40, `told in ${told} only`);
});

test('thicker wire of the same ohms lengthens the time to the class', () => {
  let told = 0;
  for (const job of jobs) {
    const times = ['0.7 mm', '0.8 mm', '0.9 mm'].map((wire) =>
      lasts(altered(job, { 'means.body.wireDiameter': wire, 'means.body.mass': '4 kg' })),
    );
    for (const i of [1, 2]) {
      assert.ok(!(times[i] < times[i - 1] * (1 - IN_TIME)), `${job.name}: ${times.join(', ')} s`);
      if (times[i] < 600) {
        assert.ok(times[i] > times[i - 1], `${job.name}: ${times.join(', ')} s`);
        told++;
      }
    }
  }
  assert.ok(told > 40, `told in ${told} only`);
});

test('a hotter coil never comes home sooner', () => {
  const home = (job: Job) => {
    const rig = rigOf(asSolenoid(job));
    const [scene] = scenesOf(rig, electricCorners(rig));
    const found = pullIn(rig, scene, SLOWEST, { tolerance: 1e-6 });
    return found.known ? (found.motion.timeToHome ?? Infinity) : NaN;
  };
  let told = 0;
  for (const job of jobs) {
    const times = ['20 K', '60 K', '100 K'].map((rise) => home(altered(job, { 'means.riseInHold': rise })));
    for (const i of [1, 2]) {
      if (Number.isNaN(times[i] + times[i - 1])) continue;
      assert.ok(times[i] >= times[i - 1] * (1 - IN_TIME), `${job.name}: ${times.join(', ')} s`);
      if (times[i] > times[i - 1]) told++;
    }
  }
  assert.ok(told > 30, `told in ${told} only`);
});

test('a diode never lets go sooner than a resistor beside it, nor that sooner than a zener of many volts', () => {
  let told = 0;
  for (const job of jobs) {
    const rig = rigOf(asSolenoid(job));
    const [scene] = scenesOf(rig, electricCorners(rig));
    const [diode, resistor, zener] = (
      [
        { kind: 'diode', drop: 0.9 },
        { kind: 'diode and resistor', drop: 0.9, resistance: 2 },
        { kind: 'zener', volts: 200 },
      ] as const
    ).map((suppression) => {
      const found = letGo(rig, scene, LATEST, { tolerance: 1e-6, suppression });
      return found.known ? (found.motion.releaseTime ?? Infinity) : NaN;
    });
    if (Number.isNaN(diode + resistor + zener) || diode === Infinity) continue;
    assert.ok(diode >= resistor * (1 - IN_TIME), `${job.name}: diode ${diode} s, with resistor ${resistor} s`);
    assert.ok(resistor >= zener * (1 - IN_TIME), `${job.name}: with resistor ${resistor} s, zener ${zener} s`);
    if (diode > 1.5 * zener) told++;
  }
  assert.ok(told > 10, `told in ${told} only`);
});

test('a diode the wrong way round fails, and turned it holds', () => {
  const wrong = changed(demo('railcar'), { 'supply.suppression': { kind: 'diode', polarity: 'anode to plus' } });
  const one = finding(wrong, 'diode-polarity');
  assert.equal(one.verdict, 'fails');
  assert.match(one.because, /dead short/);
  assert.equal(finding(demo('railcar'), 'diode-polarity').verdict, 'holds');
  assert.equal(
    finding(changed(wrong, { 'supply.suppression.polarity': 'not measured' }), 'diode-polarity').verdict,
    'not known',
  );
});

const deck = (section: string, alsoFeeds = '', diode = 'none') => ({
  name: 'Aft deck',
  out: { section, length: '22 m' },
  contacts: [],
  diode,
  alsoFeeds,
});

test('a second station on thin wire fails, on thick wire it holds; a shared wire needs a diode', () => {
  const thin = finding(changed(demo('railcar'), { 'supply.stations': [deck('1 mm²')] }), 'every-station-works');
  assert.equal(thin.verdict, 'fails');
  assert.match(thin.because, /"Aft deck"/);
  const thick = finding(changed(demo('railcar'), { 'supply.stations': [deck('16 mm²')] }), 'every-station-works');
  assert.equal(thick.verdict, 'holds', thick.because);
  const sneak = (...how: [string, string]) =>
    finding(changed(demo('railcar'), { 'supply.stations': [deck('16 mm²', ...how)] }), 'no-sneak-path').verdict;
  assert.equal(sneak('a lamp', 'none'), 'fails');
  assert.equal(sneak('a lamp', 'in series'), 'holds');
  assert.equal(sneak('', 'none'), 'holds');
});

test('releasing the key before the engine stands still fails', () => {
  const soon = finding(changed(demo('railcar'), { 'supply.command': { holds: '8 s' } }), 'command-lasts');
  assert.equal(soon.verdict, 'fails');
  // 10 s of run-down are taken where it was not measured.
  assert.match(soon.because, /stays on for 8 s; coming home takes .* ms and the engine 10 s to stand still/);
  const quick = changed(demo('railcar'), { 'supply.command': { holds: '8 s' }, 'survey.runDown': '5 s' });
  assert.equal(finding(quick, 'command-lasts').verdict, 'holds');
});

test('a longer run never raises the volts at the coil, and calls for a smaller fuse, at last for thicker conductors', () => {
  const advised = (name: string, metres: number): string => {
    const lengths = { 'supply.out.length': `${metres} m`, 'supply.back.length': `${metres} m` };
    return finding(changed(demo(name), { ...lengths, 'supply.fuse': 'none' }), 'fuse').because;
  };
  for (const name of ['railcar', 'pump-house']) {
    let before = Infinity;
    for (const metres of [4, 10, 20, 40, 80]) {
      const { currents } = assess(changed(demo(name), { 'supply.out.length': `${metres} m` }));
      const low = currents.find(({ stage, supply }) => stage === 'pull-in' && supply === 'low');
      const volts = low?.coilVolts_V ?? NaN;
      assert.ok(volts < before, `${name}, ${metres} m: ${volts} V`);
      before = volts;
    }
  }
  assert.match(advised('pump-house', 10), /A 20 A blade fuse would do it all/);
  assert.match(advised('pump-house', 80), /A 15 A blade fuse would do it all/);
  assert.match(advised('pump-house', 160), /A 10 A blade fuse would do it all/);
  assert.match(advised('railcar', 4), /A 20 A blade fuse would do it all/);
  assert.match(advised('railcar', 160), /a thicker conductor is needed/);
});

test('a fuse that is too small opens before home, one too great lets the conductor burn, one that is not sold is named', () => {
  const of = (rating: string, more = {}) =>
    finding(changed(demo('railcar'), { 'supply.fuse.rating': rating, ...more }), 'fuse');
  const small = of('3 A');
  assert.equal(small.verdict, 'fails');
  assert.match(
    small.because,
    /^The 3 A blade fuse: it may open after less than 1 ms, and the pull takes up to \d+(\.\d)? ms\. A 20 A blade fuse would do it all\.$/,
  );
  const thin = { 'supply.out.section': '1.5 mm²', 'supply.back.section': '1.5 mm²' };
  assert.equal(of('40 A', thin).verdict, 'fails');
  const odd = of('12 A');
  assert.match(odd.because, /^No 12 A blade fuse is sold: look at it again\. As it is written: /);
  assert.notEqual(odd.margin, null);
  const beyond = of('200 A');
  assert.deepEqual([beyond.verdict, beyond.missing], ['not known', ['supply.fuse.rating']]);
});

test('a relay rated below the current fails, at the first place of control and at a further one', () => {
  const weak = finding(changed(demo('railcar'), { 'supply.contacts[0].rating': '20 A' }), 'pull-in-current');
  assert.equal(weak.verdict, 'fails');
  assert.match(weak.because, /weakest link is "Stop relay" with 20 A/);
  const key = { name: 'Deck key', kind: 'switch', resistance: '5 mΩ', rating: '10 A' };
  const station = { ...deck('16 mm²'), contacts: [key] };
  const further = finding(changed(demo('railcar'), { 'supply.stations': [station] }), 'pull-in-current');
  assert.equal(further.verdict, 'fails');
  assert.match(further.because, /"Deck key"/);
});

test('a series resistor: the nearest standard value is named, and its rating falls with the surroundings', () => {
  const resistor = changed(demo('railcar'), {
    'means.coil': {
      stages: 'series resistor',
      resistance: '0.9 Ω',
      readAt: '20 °C',
      resistor: '3.1 Ω',
      resistorRating: '250 W',
    },
    'surroundings.hottest': '75 °C',
  });
  const one = finding(resistor, 'resistor-heat');
  // From 25 °C to 275 °C straight to nothing: at 75 °C a fifth is gone. E24 around 3.1: 3.0 and 3.3.
  assert.equal(one.limit, 200);
  assert.match(one.because, /may shed 200 W of its 250 W at 75 °C/);
  assert.match(one.because, /nearest to 3\.1 Ω is 3 Ω/);
  const standard = finding(changed(resistor, { 'means.coil.resistor': '3.3 Ω' }), 'resistor-heat');
  assert.match(standard.because, /3\.3 Ω is a standard value \(E24\)/);
  const cool = finding(changed(resistor, { 'surroundings.hottest': '20 °C' }), 'resistor-heat');
  assert.ok((cool.margin ?? NaN) > (one.margin ?? NaN), 'cooler is easier');
});

test('energise to run is judged while cranking for the pull, at the low limit for the hold', () => {
  const job = demo('pump-house');
  const at = (state: 'cranking' | 'low', volts: string, id: string) =>
    finding(changed(job, { [`supply.${state}`]: volts }), id).margin ?? NaN;
  for (const id of ['pulls-in-from-full-stroke', 'pulls-in-everywhere']) {
    const pull = finding(job, id);
    assert.match(pull.title, /while cranking$/);
    assert.equal(pull.at?.supply, 'cranking');
    assert.equal(at('low', '11.5 V', id), at('low', '11 V', id), `${id} does not rest on the low limit`);
    assert.ok(at('cranking', '8.8 V', id) < at('cranking', '9.4 V', id), `${id} rests on cranking`);
  }
  const hold = finding(job, 'holds-at-home');
  assert.equal(hold.at?.supply, 'low');
  assert.equal(at('cranking', '8.8 V', 'holds-at-home'), at('cranking', '9.4 V', 'holds-at-home'));
  assert.ok(at('low', '10.6 V', 'holds-at-home') < at('low', '11.5 V', 'holds-at-home'), 'hold rests on the low limit');
  assert.doesNotMatch(finding(demo('railcar'), 'pulls-in-everywhere').title, /cranking/);
});

test('nothing that ends the current of a stuck coil fails, and a cut-out in time mends it', () => {
  const bare = changed(demo('railcar'), { 'supply.cutOut': 'none', 'supply.fuse': 'none' });
  const one = finding(bare, 'held-off-home');
  assert.equal(one.verdict, 'fails');
  assert.match(one.because, /nothing ends the current before/);
  const cut = finding(changed(bare, { 'supply.cutOut': { after: '5 s' } }), 'held-off-home');
  assert.equal(cut.verdict, 'holds', cut.because);
  const hot = changed(bare, { 'means.body.mountingTemperature': '250 °C' });
  assert.match(finding(hot, 'held-off-home').because, /before any current flows/);
  assertConsistent(assess(hot));
});

test('an assessment at rest leaves out what is followed in time, and nothing else', () => {
  for (const job of jobs.slice(0, 12)) {
    const [whole, rest] = [assess(job), assess(job, undefined, 'at rest')];
    const ids = new Set(rest.findings.map(({ id }) => id));
    assert.deepEqual(
      rest.findings,
      whole.findings.filter(({ id }) => ids.has(id)),
    );
    assert.ok(whole.findings.length >= rest.findings.length + 4, job.name);
  }
});
