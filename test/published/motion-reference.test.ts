/**
 * Pull-in in time against the reference transient, and currents in coils against printed worked examples.
 *
 * The transient: see motion-reference.ts. The tolerances are those that were asked for: 2 % for times, 3 % for the dip; what
 * is met is a tenth of them. The integrations have nothing in common (state, method, interpolation of the map).
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { motion } from '../../src/physics/motion/motion.ts';
import { at, coilAlone, oneCoil, stuck } from '../physics/motion/plungers.ts';
import { referenceRequest, transient } from './motion-reference.ts';
import { agrees, within, type Source } from './printed.ts';

const reference: Source = { source: 'data/plunger-solenoid-transient.json', provenance: 'seen' };
const found = motion({ ...referenceRequest(), tracePoints: 1500 });

test('the reference transient: start of motion, peak, dip, landing and its speed', () => {
  const ms = 1e-3;
  const check = (value: number | null | undefined, expected: number, share: number, what: string): void => {
    assert.ok(typeof value === 'number', `${what} is missing`);
    within(value, expected, share * expected, reference, what);
  };
  const starts = found.events.find(({ kind }) => kind === 'starts moving');
  check(starts?.time, transient.t_motion_start_ms * ms, 0.002, 'motion starts');
  check(starts?.current, transient.i_motion_start_A, 0.002, 'current then');
  check(found.timeToHome, transient.t_landing_ms * ms, 0.002, 'landing');
  check(found.landingSpeed, transient.landing_speed_m_per_s, 0.005, 'landing speed');
  check(found.dip?.peakCurrent, transient.current_peak_before_dip.i_A, 0.002, 'peak before the dip');
  check(found.dip?.peakTime, transient.current_peak_before_dip.t_ms * ms, 0.02, 'its time');
  check(found.dip?.current, transient.current_dip_minimum.i_A, 0.003, 'dip');
  check(found.dip?.time, transient.current_dip_minimum.t_ms * ms, 0.002, 'its time');
  check(found.peakCurrent, transient.final_current_A, 0.002, 'last current');
  assert.equal(found.outcome, 'home', 'it comes home');
  assert.ok(found.converged && found.residual <= 1, `residual ${found.residual}`);
  assert.ok(found.energy.imbalance < 1e-4, `energy within 0.5 % was asked; found ${found.energy.imbalance}`);
});

test('its 121 samples: current, gap, speed and flux linkage', () => {
  const { trace } = found;
  const most = [0, 0, 0, 0];
  for (const [t, amps, gap, speed, , flux] of transient.samples) {
    const when = t * 1e-3;
    const off = [
      Math.abs(at(trace.time, trace.supplyCurrent, when) - amps) / transient.final_current_A,
      Math.abs(at(trace.time, trace.gap, when) * 1e3 - gap) / transient.parameters.gap_open_mm,
      // At the landing itself a speed is not one number.
      Math.abs(t - transient.t_landing_ms) < 0.1
        ? 0
        : Math.abs(at(trace.time, trace.speed, when) - speed) / transient.landing_speed_m_per_s,
      Math.abs(at(trace.time, trace.fluxLinkage, when) - flux) / 0.48,
    ];
    off.forEach((value, i) => (most[i] = Math.max(most[i], value)));
  }
  ['current', 'gap', 'speed', 'flux linkage'].forEach((what, i) =>
    assert.ok(most[i] < 0.005, `${what} off by ${most[i]} of its greatest`),
  );
});

test('growth of current in a coil of 40 mH and 10 ohm at 120 V', () => {
  const bird: Source = {
    source:
      'J. O. Bird, Electrical Circuit Theory and Technology, ch. 17 Example 8, p. 271; re-worked in an open companion',
    provenance: 'seen',
  };
  const { trace } = motion(
    stuck(coilAlone(0.04 / 100 ** 2), oneCoil(120, 10, 100), { duration: 0.1, tracePoints: 1500 }),
  );
  const current = (when: number): number => at(trace.time, trace.supplyCurrent, when);
  agrees(current(0.1), '12.0', bird, 'final current, A');
  agrees(current(0.004), '7.59', bird, 'after one time constant of 4 ms, A');
  assert.ok(Math.abs(current(0.02) / 12 - 1) < 0.01, 'within 1 % after 20 ms');
});

test('decay of current in a coil of 6 H, 10 ohm in series with 10, shorted', () => {
  const bird: Source = {
    source:
      'J. O. Bird, Electrical Circuit Theory and Technology, ch. 17 Example 11, p. 273; re-worked in an open companion',
    provenance: 'seen',
  };
  // The short is a diode that drops nothing, behind the series resistance: 120 V on 20 ohm first, then 6 H through 20 ohm.
  const { trace } = motion(
    stuck(
      coilAlone(6 / 100 ** 2),
      oneCoil(120, 10, 100, { loop: 10, suppression: { kind: 'diode and resistor', drop: 0, resistance: 10 } }),
      { startAt: 'held at home', offAt: 0, duration: 1.2, tracePoints: 1500 },
    ),
  );
  const coil = trace.windingCurrents[0];
  assert.ok(Math.abs(coil[0] - 6) < 1e-9, `6 A at first, found ${coil[0]}`);
  // The example's current after 1 s is of 6 A: printed 0.21 to two digits.
  agrees(at(trace.time, coil, 1), '0.21', bird, 'after 1 s, A');
  const k = coil.findIndex((amps) => amps < 0.6);
  within(trace.time[k], 0.69, 0.005, bird, 'time to a tenth, s');
});
