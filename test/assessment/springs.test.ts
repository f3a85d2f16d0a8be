/** Return springs in an installation: a torsion spring on the shaft, and springs known by two readings. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { rigOf, type SolenoidJob } from '../../src/assessment/rig.ts';
import { springMoment } from '../../src/assessment/lever-moments.ts';
import { leverSpringLength, springForce } from '../../src/physics/spring/working.ts';
import type { Job } from '../../src/job/schema.ts';
import { changed, demo } from '../job/jobs.ts';

const railcar = demo('railcar');
const rig = (job: Job) => rigOf(job as SolenoidJob);
const DEGREE = Math.PI / 180;

const torsion = (spring: unknown, towards = 'run') => ({
  on: 'shaft',
  name: 'Torsion spring',
  kind: 'torsion',
  towards,
  spring,
});
const byRate = { by: 'rate', rate: '8 N mm/°', freeAngle: '40°', limitAngle: '140°' };
const alone = (spring: unknown, towards?: string) => changed(railcar, { 'return.springs': [torsion(spring, towards)] });

/** What every finding says, but for its sentences. */
const margins = (job: Job) => Object.fromEntries(assess(job).findings.map(({ id, margin }) => [id, margin]));

function assertSame(a: Job, b: Job, tolerance: number): void {
  const [of, other] = [margins(a), margins(b)];
  assert.deepEqual(Object.keys(other).sort(), Object.keys(of).sort());
  for (const [id, margin] of Object.entries(of)) {
    // A spring known by its dimensions is judged by its stress, the others by how far they may go.
    if (id.startsWith('spring-') || margin === null) continue;
    const second = other[id] ?? NaN;
    assert.ok(Math.abs(second - margin) <= tolerance * Math.max(1, Math.abs(margin)), `${id}: ${margin}, ${second}`);
  }
}

test('a torsion spring resists the way home by its rate and how far it is wound, and nothing where its legs rest', () => {
  const one = rig(alone(byRate));
  for (const degrees of [60, 80, 100])
    assert.ok(Math.abs(springMoment(one, degrees * DEGREE) - 0.008 * (degrees - 40)) < 1e-12, `at ${degrees}°`);
  assert.equal(Math.abs(springMoment(one, 30 * DEGREE)), 0);
  // Towards stop it helps the way home while it is wound: legs at rest beyond the swing.
  const other = rig(alone({ ...byRate, freeAngle: '140°', limitAngle: '40°' }, 'stop'));
  for (const degrees of [60, 80, 100])
    assert.ok(
      Math.abs(springMoment(other, degrees * DEGREE) + 0.008 * (140 - degrees)) < 1e-12,
      `helps at ${degrees}°`,
    );
});

test('beside a spring on the lever the moments add up', () => {
  const both = rig(changed(railcar, { 'return.springs[1]': torsion(byRate) }));
  for (const degrees of [62, 75, 95]) {
    const at = degrees * DEGREE;
    assert.ok(
      Math.abs(springMoment(both, at) - springMoment(rig(railcar), at) - springMoment(rig(alone(byRate)), at)) < 1e-12,
      'sum',
    );
  }
});

test('by rate, by two readings and by dimensions: one torsion spring, one assessment', () => {
  const byReadings = {
    by: 'two readings',
    first: { angle: '50°', moment: '0.08 N m' },
    second: { angle: '110°', moment: '0.56 N m' },
    limitAngle: '140°',
  };
  assertSame(alone(byRate), alone(byReadings), 1e-9);
  // 206 GPa × (2 mm)⁴ / (64 × 20 mm × n) = 0.008 N m/° asks this many turns.
  const turns = (206e9 * 0.002 ** 4) / (64 * 0.02 * (0.008 / DEGREE));
  const byDimensions = {
    by: 'dimensions', wire: 'EN 10270-1 SM', wireDiameter: '2 mm', outsideDiameter: '22 mm', activeTurns: turns.toPrecision(12), freeAngle: '40°',
  }; // prettier-ignore
  assertSame(alone(byRate), alone(byDimensions), 1e-8);
});

test('the spring of the railcar, read at two lengths, is assessed as its dimensions are', () => {
  const [first] = rig(railcar).springs;
  assert.ok(first !== undefined && first.lever !== null, 'it is on the lever');
  const { working } = first;
  const read = (length: number) => ({ length: `${1000 * length} mm`, force: `${springForce(working, length)} N` });
  const spring = {
    by: 'two readings',
    first: read(0.06),
    second: read(0.088),
    freeLength: '46 mm',
    limitLength: '110 mm',
  };
  const job = changed(railcar, { 'return.springs[0].spring': spring });
  // A spring's own mass is known by its dimensions alone, and what hangs on time differs by it a little.
  const [of, other] = [margins(railcar), margins(job)];
  for (const [id, margin] of Object.entries(of)) {
    if (id.startsWith('spring-') || margin === null) continue;
    assert.ok(
      Math.abs((other[id] ?? NaN) - margin) < 0.01 * Math.max(1, Math.abs(margin)),
      `${id}: ${margin}, ${other[id]}`,
    );
  }
  const longest = leverSpringLength(first.lever, rig(railcar).lever.run);
  assert.ok(longest > 0.046, 'and it works');
});

test('wound further than its wire bears it fails, and says so; turned past its legs it is slack and holds', () => {
  const of = (spring: unknown) => {
    const found = assess(alone(spring)).findings.find(({ id }) => id === 'spring-1');
    assert.ok(found !== undefined, 'there is a finding');
    return found;
  };
  const wire = {
    by: 'dimensions',
    wire: 'EN 10270-1 SM',
    wireDiameter: '2 mm',
    outsideDiameter: '20 mm',
    activeTurns: '4',
    freeAngle: '40°',
  };
  const fails = of({ ...wire, freeAngle: '-200°' });
  assert.equal(fails.verdict, 'fails');
  assert.match(fails.because, /its wire bends at .* MPa; 1230 MPa is allowed/);
  assert.equal(of(wire).verdict, 'holds');
  const unknown = of({ ...wire, wireDiameter: '0.25 mm', outsideDiameter: '3 mm' });
  assert.equal(unknown.verdict, 'not known');
  assert.match(unknown.because, /EN 10270-1 SM wire at this diameter: from 0\.3 to 20 mm/);
  assert.deepEqual(unknown.missing, ['return.springs[0].spring.wireDiameter']);
  const limited = of({ ...byRate, limitAngle: '80°' });
  assert.equal(limited.verdict, 'fails');
  assert.match(limited.because, /It is wound by 5[0-9.]+°; 40° is the most/);
  assert.match(of({ ...byRate, limitAngle: '20°' }).because, /not beyond 40°, where its legs are at rest/);
  assert.deepEqual(of({ ...byRate, limitAngle: 'not measured' }).missing, ['return.springs[0].spring.limitAngle']);
});

test('a stiffer torsion spring that drives towards run never helps the pull', () => {
  const pull = (rate: string) => {
    const found = assess(alone({ ...byRate, rate })).findings.find(({ id }) => id === 'pulls-in-everywhere');
    assert.ok(found !== undefined && found.margin !== null, 'known');
    return found.margin;
  };
  assert.ok(pull('4 N mm/°') > pull('8 N mm/°') && pull('8 N mm/°') > pull('16 N mm/°'), 'in order');
});
