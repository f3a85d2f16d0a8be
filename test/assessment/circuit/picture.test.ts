import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  circuitPicture,
  type CircuitCondition,
  type CircuitPicture,
  type SourceState,
} from '../../../src/assessment/circuit/picture.ts';
import { isSolenoid } from '../../../src/assessment/assess.ts';
import { rigOf } from '../../../src/assessment/rig.ts';
import { electricCorners } from '../../../src/assessment/scene.ts';
import { NOT_MEASURED } from '../../../src/job/quantity-text.ts';
import type { Job } from '../../../src/job/schema.ts';
import { altered, changed, demo } from '../../job/jobs.ts';
import { installations } from '../installations.ts';
import { assertPlain } from '../plain-data.ts';

const states: readonly SourceState[] = ['resting', 'charging', 'low', 'cranking'];
const conditions = states.flatMap((state) =>
  (['off', 'pull-in', 'hold'] as const).flatMap((stage) =>
    (['cold', 'hot'] as const).map((coil): CircuitCondition => ({ state, stage, coil })),
  ),
);

function picture(job: Job, condition: CircuitCondition): CircuitPicture {
  const found = circuitPicture(job, condition);
  assert.ok(found, 'a solenoid has a circuit');
  return found;
}

const near = (actual: number | null, expected: number, what: string, by = 1e-9): void =>
  assert.ok(
    actual !== null && Math.abs(actual - expected) <= by * Math.max(1, Math.abs(expected)),
    `${what}: ${actual} is not ${expected}`,
  );

test('the volts go down part by part from the source to zero, each drop the current times its ohms', () => {
  for (const { name, job } of installations)
    for (const condition of conditions) {
      const { source, out, load, back, amps, stage } = picture(job, condition);
      const words = `${name}, ${condition.state}, ${condition.stage}, ${condition.coil}`;
      let volts = source.fromVolts;
      assert.ok(volts !== null && amps !== null, words);
      for (const part of [source, ...out]) {
        near(part.fromVolts, volts, `${words}: before ${part.name}`);
        near(part.drop, amps * (part.resistance ?? 0), `${words}: drop of ${part.name}`);
        assert.ok(part.toVolts !== null, words);
        if (!part.isOpen) near(part.fromVolts! - part.toVolts, part.drop!, `${words}: across ${part.name}`);
        volts = part.toVolts;
      }
      near(load.plusVolts, volts, `${words}: at the solenoid`);
      near(load.plusVolts! - load.minusVolts!, load.volts!, `${words}: across the solenoid`);
      volts = load.minusVolts!;
      for (const part of back) {
        near(part.fromVolts, volts, `${words}: before ${part.name}`);
        volts = part.toVolts!;
      }
      near(volts, 0, `${words}: at the minus of the source`);
      assert.equal(stage, condition.stage);
    }
});

test('its currents are those of the corners of the assessment', () => {
  for (const { name, job } of installations) {
    assert.ok(isSolenoid(job));
    const rig = rigOf(job);
    const corners = electricCorners(rig);
    for (const [end, coil, state] of [
      ['low', 'hot', 'low'],
      ['high', 'cold', 'charging'],
    ] as const) {
      const corner = corners.find((one) => one.supply === end && one.coil === coil)!;
      const weakest = end === 'low' ? rig.weakestPullIn : state;
      const endless = job.means.endSwitch === 'none' && /winding|resistor/.test(job.means.coil.stages);
      near(
        picture(job, { state: weakest, stage: 'pull-in', coil }).amps,
        corner.pullIn.supply,
        `${name}, pull-in, ${end}`,
      );
      if (!endless)
        near(picture(job, { state, stage: 'hold', coil }).amps, corner.hold.supply, `${name}, hold, ${end}`);
    }
  }
});

test('Kirchhoff inside the solenoid: windings and resistor share the terminal volts and the current', () => {
  for (const { name, job } of installations)
    for (const condition of conditions.filter(({ stage }) => stage !== 'off')) {
      const { load, amps } = picture(job, condition);
      const words = `${name}, ${condition.stage}, ${condition.coil}`;
      if (load.stages === 'pull-in and hold windings') {
        near(load.windings[0].amps! + load.windings[1].amps!, amps!, `${words}: the windings share`);
        near(load.windings[1].amps! * load.windings[1].resistance!, load.volts!, `${words}: Ohm in the hold winding`);
      } else if (load.stages !== 'timed economiser' || condition.stage === 'pull-in') {
        near(load.windings[0].volts! + (load.resistor?.volts ?? 0), load.volts!, `${words}: in series`);
        near(load.windings[0].amps! * load.windings[0].resistance!, load.windings[0].volts!, `${words}: Ohm`);
      } else {
        // Chopped without loss: power in is power out.
        near(load.windings[0].volts! * load.windings[0].amps!, load.volts! * amps!, `${words}: power`);
      }
    }
});

test('worked by hand: 24 V, 0.1 ohm inside, a relay of 0.1 ohm, no length of wire, a coil of 1 ohm at 20 °C', () => {
  const job = changed(demo('railcar'), {
    'supply.resting': '24 V',
    'supply.internalResistance': '0.1 Ω',
    'supply.contacts': [{ name: 'Relay', kind: 'relay', resistance: '0.1 Ω', ageing: '3' }],
    'supply.out.length': '0 m',
    'supply.back.length': '0 m',
    'surroundings.coldest': '20 °C',
    'means.coil': { stages: 'single coil', resistance: '1 Ω', readAt: '20 °C' },
    'means.endSwitch': 'none',
  });
  const { amps, source, out, load } = picture(job, { state: 'resting', stage: 'pull-in', coil: 'cold' });
  near(amps, 20, 'amps');
  near(source.toVolts, 22, 'at the source');
  near(out.find(({ kind }) => kind === 'relay')!.toVolts, 20, 'after the relay');
  near(load.volts, 20, 'at the coil');
});

test('off: everything stands at the volts of the source up to the open contact, and at none beyond it', () => {
  const { out, amps, load } = picture(demo('railcar'), { state: 'resting', stage: 'off', coil: 'cold' });
  assert.equal(amps, 0);
  assert.deepEqual(
    out.map(({ name, isOpen, fromVolts, toVolts }) => [name, isOpen, fromVolts, toVolts]),
    [
      ['Stop relay', true, 25.2, 0],
      ['Fuse', false, 0, 0],
      ['Connectors', false, 0, 0],
      ['Conductor out', false, 0, 0],
    ],
  );
  assert.deepEqual([load.plusVolts, load.volts, load.windings[0].amps], [0, 0, 0]);
});

test('the end switch opens in hold; without one the full current stays on, and a remark says so', () => {
  const railcar = demo('railcar');
  const at = (job: Job) => picture(job, { state: 'low', stage: 'hold', coil: 'hot' });
  assert.equal(at(railcar).load.endSwitch?.isOpen, true);
  assert.equal(at(railcar).load.windings[0].amps, 0);
  const without = at(changed(railcar, { 'means.endSwitch': 'none' }));
  assert.equal(without.load.endSwitch, null);
  assert.equal(without.amps, picture(railcar, { state: 'low', stage: 'pull-in', coil: 'hot' }).amps);
  assert.match(without.remarks.join(' '), /no end switch: the full current stays on/);
});

test('a diode the wrong way round is a dead short: all the volts are lost in the loop', () => {
  const job = changed(demo('railcar'), { 'supply.suppression': { kind: 'diode', polarity: 'anode to plus' } });
  const { amps, source, out, back, load, remarks } = picture(job, {
    state: 'charging',
    stage: 'pull-in',
    coil: 'cold',
  });
  const ohms = [source, ...out, ...back].reduce((sum, part) => sum + part.resistance!, 0);
  near(amps, source.fromVolts! / ohms, 'amps of the short');
  near(load.volts, 0, 'at the coil');
  assert.equal(load.windings[0].amps, 0);
  assert.equal(load.suppression.amps, amps);
  assert.match(remarks.join(' '), /wrong way round/);
});

test('a missing reading leaves nulls and is named; nothing else is named', () => {
  const cases = [
    ['supply.out.length', 'hot'],
    ['supply.contacts[1].resistance', 'cold'],
    ['supply.internalResistance', 'hot'],
    ['means.coil.readAt', 'hot'],
    ['surroundings.hottest', 'hot'],
    ['surroundings.coldest', 'cold'],
  ] as const;
  for (const [path, coil] of cases) {
    const job = altered(demo('railcar'), { [path]: NOT_MEASURED });
    const found = picture(job, { state: 'low', stage: 'pull-in', coil });
    assertPlain(found);
    assert.deepEqual(found.missing, [path], path);
    assert.deepEqual([found.amps, found.load.volts, found.source.toVolts], [null, null, null], path);
    assert.equal(found.source.fromVolts, 22, path);
  }
  const other = altered(demo('railcar'), { 'surroundings.coldest': NOT_MEASURED });
  assert.deepEqual(picture(other, { state: 'low', stage: 'pull-in', coil: 'hot' }).missing, []);
});

test('a further station can be the one at work; the other then stands open, and volts come back where no diode stops them', () => {
  const station = {
    name: 'Rear platform',
    out: { section: '2.5 mm²', length: '9 m' },
    contacts: [{ name: 'Push button', kind: 'switch', resistance: '8 mΩ' }],
    diode: 'none',
    alsoFeeds: 'warning lamp',
  };
  const job = changed(demo('railcar'), { 'supply.stations': [station] });
  const first = picture(job, { state: 'low', stage: 'pull-in', coil: 'hot' });
  assert.deepEqual(
    first.others.map(({ name, alsoFeeds }) => [name, alsoFeeds]),
    [['Rear platform', 'warning lamp']],
  );
  near(first.others[0].backVolts, first.load.plusVolts!, 'what comes back');
  assert.match(first.remarks.join(' '), /"Rear platform" has no diode/);
  const second = picture(job, { state: 'low', stage: 'pull-in', coil: 'hot', station: 0 });
  assert.equal(second.station, 'Rear platform');
  assert.deepEqual(
    second.out.map(({ name }) => name),
    ['Fuse', 'Push button', 'Rear platform'],
  );
  assert.ok(second.amps! < first.amps!, 'a longer, thinner run gives less');
  const safe = changed(job, { 'supply.stations[0].diode': 'in series' });
  assert.equal(picture(safe, { state: 'low', stage: 'pull-in', coil: 'hot' }).others[0].backVolts, null);
});

test('each stage rests on its own readings', () => {
  const untaken = altered(demo('pump-house'), { 'means.coil.resistor': NOT_MEASURED });
  assert.deepEqual(picture(untaken, { state: 'low', stage: 'pull-in', coil: 'hot' }).missing, []);
  assert.deepEqual(picture(untaken, { state: 'low', stage: 'hold', coil: 'hot' }).missing, ['means.coil.resistor']);
});

test('a hand cable has no circuit', () => {
  assert.equal(circuitPicture(demo('ferry'), { state: 'low', stage: 'off', coil: 'hot' }), null);
});

test('whatever is not measured, the picture is plain data', () => {
  const railcar = demo('railcar');
  const paths = [
    'supply.out.section',
    'supply.out.length',
    'supply.back.section',
    'supply.internalResistance',
    'supply.contacts[0].resistance',
    'supply.fuse',
    'supply.suppression',
    'means.coil.pullInResistance',
    'means.coil.holdResistance',
    'means.coil.readAt',
    'surroundings.hottest',
    'surroundings.coldest',
    'means.endSwitch.rating',
  ];
  fc.assert(
    fc.property(fc.subarray(paths), fc.constantFrom(...conditions), (untaken, condition) => {
      const job = altered(railcar, Object.fromEntries(untaken.map((path) => [path, NOT_MEASURED])));
      assertPlain(picture(job, condition));
    }),
    { numRuns: 200, seed: 20250301 },
  );
});
