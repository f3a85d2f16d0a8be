/** The courses that a plunger can take, by name; and requests that have no meaning. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { motion, type Motion, type MotionRequest } from '../../../src/physics/motion/motion.ts';
import { homeGap, outGap, plain, requestOf } from './any-plunger.ts';
import { airGapMagnet, load } from './plungers.ts';

const kinds = ({ events }: Motion): string[] => events.map(({ kind }) => kind);

test('home and back: each event once, in its order', () => {
  const found = motion(requestOf({ ...plain, kind: 'series resistor' }));
  assert.deepEqual(
    kinds(found),
    [
      'starts moving', 'end switch works', 'stage change', 'comes home', 'at rest',
      'current off', 'leaves home', 'end switch recloses', 'stage change', 'current gone', 'at rest',
    ],
    'course',
  ); // prettier-ignore
  assert.deepEqual([found.outcome, found.release], ['home', 'returned'], 'home, and back');
  assert.ok(found.releaseTime !== null && found.returnTime !== null && found.releaseTime < found.returnTime, 'times');
});

test('too weak to start, and too weak to finish', () => {
  const weak = motion(requestOf({ ...plain, preload: 12 }));
  assert.deepEqual(
    [weak.outcome, weak.stallGap, weak.dip, weak.timeToHome],
    ['did not start', null, null, null],
    'stands',
  );
  // A hump in the way that the magnet cannot climb: it stalls before it.
  const hump = load([[homeGap, 60, 5], [3e-3, 60, 5], [6e-3, 4, 2], [outGap, 3, 1]]); // prettier-ignore
  const stalls = motion(requestOf(plain, { load: hump, offAt: null }));
  assert.equal(stalls.outcome, 'stalled', 'short of home');
  assert.ok(stalls.stallGap !== null && stalls.stallGap > 3e-3 && stalls.stallGap < 6e-3, `at ${stalls.stallGap} m`);
  assert.equal(stalls.timeToHome, null, 'never home');
});

test('a hold that cannot hold: it drops out, recloses the end switch and hunts', () => {
  const air = airGapMagnet({ p0: 4e-8, c: 1.2e-9, d: 8e-4 });
  const hunts = motion(
    requestOf(
      { ...plain, kind: 'series resistor' },
      {
        magnet: air,
        circuit: {
          source: 24,
          loopResistance: 0.5,
          stages: { kind: 'series resistor', winding: { turns: 600, resistance: 3 }, resistor: 400 },
          suppression: { kind: 'diode', drop: 0.7 },
        },
        offAt: null,
        duration: 1,
        tracePoints: 5000,
      },
    ),
  );
  assert.equal(hunts.outcome, 'hunts', kinds(hunts).slice(0, 20).join(', '));
  assert.ok(kinds(hunts).filter((kind) => kind === 'comes home').length > 3, 'again and again');
  const { time, gap } = hunts.trace;
  assert.ok(time.length <= 2000 && time.length > 900, `${time.length} points, thinned out evenly`);
  const widest = time.reduce((most, t, k) => (k === 0 ? 0 : Math.max(most, t - time[k - 1])), 0);
  assert.ok(widest < 0.005 && time[time.length - 1] === 1, `no hole wider than ${widest} s, up to the end`);
  assert.ok(Math.min(...gap) < 0.2e-3, 'home is in it');
  assert.ok(hunts.converged && hunts.energy.imbalance < 1e-4, `imbalance ${hunts.energy.imbalance}`);
});

test('a load that sticks at home keeps it there without current', () => {
  const sticks = load([[homeGap, 8, -2], [1e-3, 4, 2], [outGap, 3, 1]]); // prettier-ignore
  const found = motion(requestOf(plain, { load: sticks }));
  assert.equal(found.release, 'did not leave home', 'stuck');
  assert.deepEqual([found.releaseTime, found.returnTime], [null, null], 'no time');
});

test('the economiser knows time, not place: too early, and the plunger is left short', () => {
  const stages = { kind: 'timed economiser', winding: { turns: 1050, resistance: 11.7 }, holdShare: 0.4 } as const;
  const course = (delay: number): Motion => {
    const request = requestOf(plain, { offAt: null });
    return motion({ ...request, circuit: { ...request.circuit, stages: { ...stages, delay } } });
  };
  assert.equal(course(0.06).outcome, 'home', 'after landing');
  assert.notEqual(course(0.008).outcome, 'home', 'before it has got going');
});

test('a tighter tolerance comes closer: landing time converges', () => {
  const landing = (tolerance: number): number => motion(requestOf(plain, { offAt: null, tolerance })).timeToHome ?? NaN;
  const truth = landing(1e-10);
  const off = [1e-4, 1e-6, 1e-8].map((tolerance) => Math.abs(landing(tolerance) / truth - 1));
  assert.ok(off[0] < 1e-3 && off[1] < 3e-5 && off[2] < 1e-6, `off by ${off.join(', ')}`);
});

test('requests without meaning are refused, with the value', () => {
  const request = requestOf(plain);
  const refused = (code: string, more: Partial<MotionRequest>): void =>
    assert.throws(() => motion({ ...request, ...more }), { name: 'DomainError', code });
  const circuit = (more: Partial<MotionRequest['circuit']>): Partial<MotionRequest> => ({
    circuit: { ...request.circuit, ...more },
  });
  refused('SW-M071', { load: { ...request.load, mass: Float64Array.of(0.1, 0) } });
  refused('SW-M071', { load: { ...request.load, home: Float64Array.of(1) } });
  refused('SW-M071', { load: { ...request.load, home: Float64Array.of(1, NaN) } });
  refused('SW-M071', { load: { ...request.load, viscous: -1 } });
  refused('SW-M071', { load: load([[0, 1, 2], [0.012, 1, 1]]) }); // prettier-ignore
  refused('SW-M071', { load: load([[0.012, 1, 1], [0, 1, 1]]) }); // prettier-ignore
  refused('SW-M071', { load: load([[0, 1, 1], [0, 1, 1], [0.012, 1, 1]]) }); // prettier-ignore
  refused('SW-M071', { load: load([[0, 1, 1], [0.005, 1, 1], [0.005, 1, 1], [0.005, 1, 1], [0.012, 1, 1]]) }); // prettier-ignore
  refused('SW-M072', circuit({ source: 0 }));
  refused('SW-M072', circuit({ loopResistance: -1 }));
  refused('SW-M072', circuit({ stages: { kind: 'single coil', winding: { turns: NaN, resistance: 1 } } }));
  refused('SW-M072', circuit({ suppression: { kind: 'none', arcVolts: 20 } }));
  refused('SW-M072', circuit({ suppression: { kind: 'zener', volts: 0 } }));
  refused('SW-M072', circuit({ suppression: { kind: 'diode and resistor', drop: 0.7, resistance: -1 } }));
  refused('SW-M072', circuit({ suppression: { kind: 'diode', drop: -0.7 } }));
  refused(
    'SW-M072',
    circuit({ stages: { kind: 'timed economiser', winding: { turns: 1, resistance: 1 }, holdShare: 2, delay: 0 } }),
  );
  refused(
    'SW-M072',
    circuit({ stages: { kind: 'series resistor', winding: { turns: 1, resistance: 1 }, resistor: -1 } }),
  );
  refused('SW-M072', { startGap: 0.02 });
  refused('SW-M072', { outGap: 0 });
  refused('SW-M072', { restitution: 1 });
  refused('SW-M072', { duration: 0 });
  refused('SW-M072', { offAt: -1 });
  refused('SW-M072', { tolerance: 0.5 });
  refused('SW-M072', { endSwitch: { worksAtGap: 2e-3, reclosesAtGap: 1e-3 } });
  refused('SW-M073', { homeGap: 0 });
  refused('SW-M073', { outGap: 0.02 });
  refused('SW-M074', circuit({ source: 40 }));
});
