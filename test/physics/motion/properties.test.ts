/** What must hold for any plunger: energy, volts, heat, suppression, release. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { motion, type Motion, type Suppression } from '../../../src/physics/motion/motion.ts';
import { between, given, homeGap, outGap, requestOf, suppressions, wild } from './any-plunger.ts';

const runs = (numRuns: number): { seed: number; numRuns: number } => ({ seed: 20260102, numRuns });

test('energy adds up, time does not run back, and the plunger stays between its stops, whatever the load', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        given.map((of) => requestOf(of)),
        wild,
      ),
      (request) => {
        const found = motion(request);
        assert.ok(found.converged && found.residual <= 1, `stopped short, residual ${found.residual}`);
        const { energy, trace } = found;
        assert.ok(energy.imbalance < 5e-3, `imbalance ${energy.imbalance}, 0.5 % is allowed`);
        // Where more than a millijoule was put in it is far better than that.
        if (energy.source > 1e-3) assert.ok(energy.imbalance < 2e-4, `imbalance ${energy.imbalance}`);
        assert.ok(energy.landings >= 0 && energy.copper >= -1e-9, 'what is lost is lost');
        assert.ok(trace.time.length <= 2000, `${trace.time.length} points`);
        trace.time.forEach((time, k) => {
          assert.ok(k === 0 || time >= trace.time[k - 1], 'time rises');
          assert.ok(trace.gap[k] >= homeGap - 1e-7 && trace.gap[k] <= outGap + 1e-7, `gap ${trace.gap[k]} m`);
        });
        for (const column of [trace.supplyCurrent, trace.speed, trace.terminalVolts, trace.force, trace.fluxLinkage])
          assert.ok(column.every(Number.isFinite), 'only numbers');
      },
    ),
    runs(400),
  );
});

test('while it is on, the terminals never stand above the source, nor the current above what resistance lets through', () => {
  fc.assert(
    fc.property(given, (of) => {
      fc.pre(of.kind !== 'pull-in and hold windings');
      const { trace } = motion(requestOf(of, { offAt: null, duration: 0.3 }));
      const most = of.source / (of.loop + 11.7 * of.hot);
      trace.time.forEach((_, k) => {
        assert.ok(trace.terminalVolts[k] <= of.source * (1 + 1e-9), `terminals ${trace.terminalVolts[k]} V`);
        assert.ok(trace.supplyCurrent[k] <= most * (1 + 3e-5), `${trace.supplyCurrent[k]} A of ${most}`);
      });
    }),
    runs(60),
  );
});

test('a hotter coil never comes home sooner', () => {
  fc.assert(
    fc.property(given, between(1.02, 1.3), (of, hotter) => {
      const cold = motion(requestOf({ ...of, kind: 'single coil' }, { offAt: null }));
      const hot = motion(requestOf({ ...of, kind: 'single coil', hot: of.hot * hotter }, { offAt: null }));
      if (hot.timeToHome === null) return;
      assert.ok(cold.timeToHome !== null, 'the cold one comes home where the hot one does');
      assert.ok(cold.timeToHome <= hot.timeToHome * (1 + 1e-5), `cold ${cold.timeToHome}, hot ${hot.timeToHome}`);
    }),
    runs(60),
  );
});

test('a diode makes release slowest, a resistor beside it quicker, a zener and an arc quickest; volts the other way round', () => {
  fc.assert(
    fc.property(given, (of) => {
      const release = (suppression: Suppression): Motion =>
        motion(requestOf({ ...of, suppression }, { startAt: 'held at home', offAt: 0.05, restitution: 0 }));
      const [arc, diode, resistor, zener] = suppressions.map(release);
      fc.pre(diode.outcome === 'home');
      for (const one of [arc, diode, resistor, zener])
        assert.ok(one.releaseTime !== null && one.returnTime !== null && one.release === 'returned', 'comes back');
      const order = [zener, resistor, diode].map((one) => one.releaseTime ?? NaN);
      assert.ok(order[0] <= order[2] * (1 + 1e-6) && order[1] <= order[2] * (1 + 1e-6), `release ${order.join(', ')}`);
      assert.ok((arc.releaseTime ?? NaN) <= order[0] * (1 + 1e-6), `arc ${arc.releaseTime}, zener ${order[0]}`);
      assert.ok(arc.peakVolts.contact > zener.peakVolts.contact, 'the arc stands at the contact');
      assert.ok(zener.peakVolts.contact > diode.peakVolts.contact, 'the zener asks more of it than the diode');
    }),
    runs(40),
  );
});

test('switched off before it lands, it comes back', () => {
  fc.assert(
    fc.property(given, between(0.1, 0.6), (of, share) => {
      const whole = motion(requestOf({ ...of, kind: 'single coil' }, { offAt: null }));
      if (whole.timeToHome === null) return;
      const cut = motion(
        requestOf(
          { ...of, kind: 'single coil', suppression: { kind: 'zener', volts: 47 } },
          { offAt: share * whole.timeToHome, duration: 3 },
        ),
      );
      assert.ok(cut.outcome !== 'home', `it was not home yet: ${cut.outcome}`);
      assert.equal(cut.release, 'returned', 'back at full stroke');
      assert.ok(cut.energy.imbalance < 1e-4, `imbalance ${cut.energy.imbalance}`);
    }),
    runs(60),
  );
});
