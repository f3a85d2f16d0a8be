/** Dying coil currents against a textbook example and against a measurement on a relay. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { findRoot } from '../../src/numerics/roots.ts';
import { currentAfter, peakVolts, timeToCurrent, type Suppression } from '../../src/physics/suppression.ts';
import { agrees, within, type Source } from './printed.ts';

test('a field coil shorted through its resistor', () => {
  const bird: Source = {
    source: 'J.O. Bird, Electrical Circuit Theory and Technology, ch. 17 Example 11, p. 273',
    provenance: 'seen',
  };
  // 6 H and 10 ohm with 10 ohm in series on 120 V; supply replaced by a short: the resistor stays in the path.
  const coil = { resistance: 10, inductance: 6, current: 120 / 20, source: 120 };
  const path: Suppression = { kind: 'diode and resistor', resistance: 10, forwardVolts: 0 };
  agrees(currentAfter(coil, path, 1), '0.21', bird, 'A after 1 s');
  agrees(timeToCurrent(coil, path, 0.6), '0.69', bird, 's to a tenth');
  within(currentAfter(coil, path, 0.3), 6 / Math.E, 1e-12, bird, 'A after one time constant of 0.3 s');
});

test('a cube relay of 12 V and 120 ohm: resistor against diode', () => {
  const forum: Source = { source: 'measurement on a cube relay in a forum: 680 ohm or a diode', provenance: 'seen' };
  const [source, resistance, shunt] = [12, 120, 680];
  const coil = (inductance: number) => ({ resistance, inductance, current: source / resistance, source });
  const resistor: Suppression = { kind: 'resistor', resistance: shunt };
  const diode: Suppression = { kind: 'diode', forwardVolts: 0.7 };
  // 65 V was read off a screen; 68 by Ohm.
  within(peakVolts(coil(1), resistor).coil, 65, 65 * 0.06, forum, 'peak, V');
  within(source / resistance + source / shunt, 0.115, 0.115 * 0.03, forum, 'drawn in service, A');

  // With the diode the current took 25 to 30 ms to die. That gives the inductance, and with it one drop-out current and
  // one travel time must explain both openings, 2.6 ms and 8 ms.
  const dying = findRoot((L) => timeToCurrent(coil(L), diode, 0) - 27.5e-3, 0.01, 10);
  assert.equal(dying.converged, true);
  const relay = coil(dying.at);
  const slower = (share: number) =>
    timeToCurrent(relay, diode, share * relay.current) - timeToCurrent(relay, resistor, share * relay.current);
  const dropOut = findRoot((share) => slower(share) - (8 - 2.6) * 1e-3, 0.05, 0.95);
  assert.equal(dropOut.converged, true);
  assert.ok(dropOut.at > 0.1 && dropOut.at < 0.7, `drops out at ${dropOut.at} of its current`);
  const travel = 2.6e-3 - timeToCurrent(relay, resistor, dropOut.at * relay.current);
  assert.ok(travel > 0.2e-3 && travel < 2.6e-3, `moves for ${travel} s: ${forum.source}`);
  // "A diode lengthens release about three times."
  const ratio = (travel + timeToCurrent(relay, diode, dropOut.at * relay.current)) / 2.6e-3;
  within(ratio, 3, 0.2, forum, 'diode over resistor');
});
