/** Motion without magnetism, against closed forms. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { motion, type MotionEventKind } from '../../../src/physics/motion/motion.ts';
import { at, load, unmagnetic } from './plungers.ts';

const near = (found: number | null | undefined, expected: number, relative: number, what: string): void =>
  assert.ok(
    typeof found === 'number' && Math.abs(found - expected) <= relative * Math.abs(expected),
    `${what}: ${found}, expected ${expected}`,
  );

const times = (events: readonly { kind: MotionEventKind; time: number }[], kind: MotionEventKind): number[] =>
  events.filter((event) => event.kind === kind).map(({ time }) => time);

test('a constant force over a stroke: s = ½ (F/m) t², and it lands with the energy of its fall', () => {
  const [force, mass, stroke] = [5, 0.2, 0.01];
  const out = load([[0, force, force, mass], [stroke, force, force, mass]]); // prettier-ignore
  const found = motion(unmagnetic(out, { startGap: 0, duration: 0.1 }));
  const [rest] = times(found.events, 'at rest');
  near(rest, Math.sqrt((2 * stroke * mass) / force), 1e-5, 'time to the out stop');
  near(found.energy.landings, force * stroke, 1e-5, 'energy of the landing');
  near(found.energy.load, -force * stroke, 1e-6, 'work of the load');
  near(at(found.trace.time, found.trace.gap, 0.01), (0.5 * force * 0.01 ** 2) / mass, 2e-3, 'half way');
  assert.ok(found.converged && found.energy.imbalance < 1e-6, `imbalance ${found.energy.imbalance}`);
});

test('drag in proportion to speed: v = (F/c)(1 - exp(-c t/m))', () => {
  const [force, mass, drag] = [5, 0.2, 40];
  const out = load([[0, force, force, mass], [1, force, force, mass]], drag); // prettier-ignore
  const { trace, converged } = motion(unmagnetic(out, { startGap: 0, outGap: 1, duration: 0.02 }));
  assert.ok(converged, 'converged');
  const last = trace.time.length - 1;
  near(trace.speed[last], (-force / drag) * (1 - Math.exp((-drag * 0.02) / mass)), 1e-6, 'speed');
});

test('spring and mass without friction: harmonic, period 2π√(m/k), amplitude kept', () => {
  const [rate, mass, amplitude, middle] = [800, 0.05, 0.004, 0.01];
  const line = (gap: number): [number, number, number, number] =>
    [gap, rate * (middle - gap), rate * (middle - gap), mass]; // prettier-ignore
  const found = motion(
    unmagnetic(load([line(0), line(0.02)]), {
      outGap: 0.02,
      startGap: middle - amplitude,
      duration: 0.5,
      tolerance: 1e-8,
    }),
  );
  const half = Math.PI * Math.sqrt(mass / rate);
  const turns = found.events.filter(({ kind }) => kind === 'turns back');
  assert.equal(turns.length, Math.floor(0.5 / half), 'turning points');
  turns.forEach(({ time, gap }, k) => {
    near(time, (k + 1) * half, 1e-5, `turning point ${k}`);
    near(Math.abs(gap - middle), amplitude, 1e-5, `amplitude ${k}`);
  });
});

test('Coulomb friction takes 2f/k off the amplitude at every half swing, and stops it inside f/k without chatter', () => {
  const [rate, mass, friction, middle] = [800, 0.05, 0.3, 0.01];
  const amplitude = 0.0041;
  const line = (gap: number): [number, number, number, number] =>
    [gap, rate * (middle - gap) + friction, rate * (middle - gap) - friction, mass]; // prettier-ignore
  const found = motion(
    unmagnetic(load([line(0), line(0.02)]), { outGap: 0.02, startGap: middle - amplitude, duration: 1 }),
  );
  const half = Math.PI * Math.sqrt(mass / rate);
  const loss = (2 * friction) / rate;
  const swings = Math.ceil((amplitude - friction / rate) / loss);
  const stands = found.events.filter(({ kind }) => kind === 'turns back' || kind === 'stalls' || kind === 'at rest');
  assert.equal(stands.length, swings, 'half swings');
  stands.forEach(({ time, gap }, k) => {
    near(time, (k + 1) * half, 1e-4, `half swing ${k}`);
    near(Math.abs(gap - middle), amplitude - (k + 1) * loss, 1e-3, `amplitude ${k}`);
  });
  assert.equal(stands[swings - 1].kind === 'turns back', false, 'it stands at last');
  assert.equal(found.trace.speed[found.trace.speed.length - 1], 0, 'and stays');
  assert.ok(Math.abs(found.energy.load) < 1e-7, `springs and friction balance: ${found.energy.load}`);
});

test('a mass that changes along the stroke keeps its energy', () => {
  const force = 3;
  const mass = (gap: number): number => 0.05 + 5 * gap;
  const out = load([0, 0.005, 0.01].map((gap) => [gap, force, force, mass(gap)] as const));
  const { trace, energy } = motion(unmagnetic(out, { startGap: 0, duration: 0.02, tracePoints: 1000 }));
  for (const when of [0.005, 0.01, 0.013]) {
    const gap = at(trace.time, trace.gap, when);
    const speed = at(trace.time, trace.speed, when);
    near(0.5 * mass(gap) * speed ** 2, force * gap, 3e-3, `energy at ${when} s`);
  }
  assert.ok(energy.imbalance < 1e-6, `imbalance ${energy.imbalance}`);
});

test('over a step of the load: momentum kept where mass joins, speed where it leaves', () => {
  const rows = (before: number, after: number): Parameters<typeof load>[0] => [
    [0, 4, 4, before],
    [0.005, 4, 4, before],
    [0.005, 1, 1, after],
    [0.01, 1, 1, after],
  ];
  for (const [before, after] of [
    [0.1, 0.16],
    [0.16, 0.1],
  ] as const) {
    // prettier-ignore
    const found = motion(unmagnetic(load(rows(before, after)), { startGap: 0, duration: 0.3 }));
    const there = Math.sqrt((2 * 4 * 0.005) / before);
    const beyond = there * Math.min(1, before / after);
    const lost = 0.5 * before * there ** 2 - 0.5 * after * beyond ** 2;
    // Through the step with 4 N behind it, then on with 1 N from the speed that is left.
    const first = Math.sqrt((2 * 0.005 * before) / 4);
    const rate = 1 / after;
    const second = (Math.sqrt(beyond ** 2 + 2 * rate * 0.005) - beyond) / rate;
    near(times(found.events, 'at rest')[0], first + second, 1e-4, `arrival, from ${before} to ${after} kg`);
    near(found.energy.landings, lost + 0.5 * after * beyond ** 2 + 1 * 0.005, 1e-4, `from ${before} to ${after} kg`);
    assert.ok(found.energy.imbalance < 1e-6, `imbalance ${found.energy.imbalance}`);
  }
});

test('between two sides of a step that both push it back, the plunger comes to rest at the step', () => {
  // Towards home a spring of 6 N, outside it the return force of -2 N (it is drawn home): they meet at 5 mm.
  const rows: Parameters<typeof load>[0] = [[0, 6.5, 5.5], [0.005, 6.5, 5.5], [0.005, -1.5, -2.5], [0.01, -1.5, -2.5]]; // prettier-ignore
  const found = motion(unmagnetic(load(rows), { duration: 1 }));
  const last = found.events[found.events.length - 1];
  assert.equal(last.gap, 0.005, 'at the step');
  assert.equal(found.outcome, 'stalled', 'short of home');
  assert.ok(found.converged && found.events.length < 60, `${found.events.length} events`);
  assert.ok(found.energy.imbalance < 1e-5, `imbalance ${found.energy.imbalance}`);
});

test('a plunger bounces with its restitution until it rests: heights fall as e²', () => {
  const force = 4;
  const home = load([[0, -force, -force], [0.01, -force, -force]]); // prettier-ignore
  const found = motion(unmagnetic(home, { restitution: 0.5, duration: 1 }));
  const [first, second, third] = times(found.events, 'comes home');
  const fall = Math.sqrt((2 * 0.01 * 0.1) / force);
  near(found.timeToHome, fall, 1e-5, 'first landing');
  near(second - first, 2 * 0.5 * fall, 1e-4, 'first rebound');
  near(third - second, 2 * 0.25 * fall, 1e-4, 'second rebound');
  assert.equal(found.outcome, 'home', 'rests at home');
  near(found.energy.landings, force * 0.01, 1e-4, 'all its energy went into landings');
});

test('friction alone holds: between the two forces nothing moves', () => {
  const found = motion(unmagnetic(load([[0, 1, -1], [0.01, 1, -1]]), { startGap: 0.005 })); // prettier-ignore
  assert.equal(found.outcome, 'did not start', 'rests');
  assert.deepEqual(found.events, [], 'no event');
});
