/** Stretch, play, calibration, core and human limits: against closed forms, round trips and limits. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { calibrate, type ReadingBand } from '../../../src/physics/cable/calibration.ts';
import { coreOf, liningFriction, type Construction } from '../../../src/physics/cable/strand.ts';
import { actionAt, basicForce, humanLimits, stopControl, type Action } from '../../../src/physics/cable/human-force.ts';
import { levelRun } from '../../../src/physics/cable/route.ts';
import { walkTension } from '../../../src/physics/cable/tension.ts';
import { giveOf, playInBends } from '../../../src/physics/cable/travel.ts';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { between } from './random-route.ts';

const close = (a: number, b: number, relative: number, what: string) =>
  assert.ok(Math.abs(a - b) <= relative * Math.max(1e-9, Math.abs(a), Math.abs(b)), `${what}: ${a} and ${b}`);
const exact = (value: number): ReadingBand => ({ low: value, value, high: value });
const refused = (code: string) => (error: unknown) => error instanceof DomainError && error.code === code;

test('an even pull stretches a core by T L/(E A), and shortens its conduit by T L/K', () => {
  const { integral } = walkTension(
    levelRun(6, 0, 0, 1),
    { friction: 0, weight: 0, bendingStiffness: 0, radialClearance: 0 },
    'with the walk',
    50,
  );
  const { stretch, shortening } = giveOf(integral, 4e5, 1e5);
  close(stretch, (50 * 6) / 4e5, 1e-12, 'stretch');
  close(shortening, (50 * 6) / 1e5, 1e-12, 'shortening');
  assert.throws(() => giveOf(1, 0, 1), refused('SW-D095'));
  assert.throws(() => giveOf(1, 1, NaN), refused('SW-D095'));
});

test('play in the bends is the difference of two arcs', () => {
  const [angle, radius, bore, core] = [1.3, 0.2, 0.003, 0.0022];
  const outside = angle * (radius + (bore - core) / 2);
  const inside = angle * (radius - (bore - core) / 2);
  close(playInBends(angle, bore, core), outside - inside, 1e-12, 'play');
  assert.equal(playInBends(angle, core, core), 0);
  assert.throws(() => playInBends(angle, 0.002, 0.003), refused('SW-D095'));
});

test('a cable of known drag and friction gives its readings, and the readings give the cable', () => {
  fc.assert(
    fc.property(
      between(0, 0.5),
      between(0, 20),
      between(5, 100),
      between(0.5, 8),
      between(0, 1),
      (friction, drag, pull, turned, where) => {
        const pieces = levelRun(5, 4, turned, 0.2);
        const sliding = { weight: 0.3, bendingStiffness: 0, radialClearance: 0 };
        const handle = (start: number) =>
          walkTension(pieces, { ...sliding, friction }, 'with the walk', start, [{ at: 5 * where, force: drag }])
            .tension;
        // Whatever there is of drag, and wherever it acts, only what it makes at the handle is read, and is taken off again.
        const outcome = calibrate(pieces, sliding, exact(pull), exact(handle(0)), exact(handle(pull)));
        assert.ok(outcome.agrees, 'agrees');
        assert.equal(outcome.calibration.drag.value, handle(0));
        const { constantDrag } = outcome.calibration;
        // Of a drag at the handle, that drag; of one elsewhere, what the bends make of it.
        const grown = drag * Math.exp(friction * turned);
        assert.ok(constantDrag >= drag - 0.01 && constantDrag <= grown + 0.01, `${constantDrag} of ${drag} N`);
        // The weight presses a little less where the pull presses more.
        assert.ok(
          Math.abs(outcome.calibration.friction.value - friction) < 0.004,
          `${outcome.calibration.friction.value}`,
        );
        close(outcome.calibration.friction.low, outcome.calibration.friction.high, 1e-6, 'no band without ±');
      },
    ),
    { seed: 20261125, numRuns: 100 },
  );
});

test('the band of a calibration is that of the closed form at its ends', () => {
  const turned = 4;
  const pieces = levelRun(5, 4, turned, 0.2);
  const sliding = { weight: 0, bendingStiffness: 0, radialClearance: 0 };
  const outcome = calibrate(
    pieces,
    sliding,
    { low: 19, value: 20, high: 21 },
    { low: 2, value: 3, high: 4 },
    { low: 31, value: 33, high: 35 },
  );
  assert.ok(outcome.agrees, 'agrees');
  const { friction, drag } = outcome.calibration;
  close(friction.value, Math.log(30 / 20) / turned, 1e-9, 'value');
  close(friction.low, Math.log(27 / 21) / turned, 1e-9, 'low');
  close(friction.high, Math.log(33 / 19) / turned, 1e-9, 'high');
  assert.deepEqual(drag, { low: 2, value: 3, high: 4 });
});

test('readings that contradict the lever say so', () => {
  const pieces = levelRun(5, 4, 4, 0.2);
  const sliding = { weight: 0, bendingStiffness: 0, radialClearance: 0 };
  const why = (pull: number, connected: number, run = pieces) => {
    const outcome = calibrate(run, sliding, exact(pull), exact(3), exact(connected));
    return outcome.agrees ? 'agrees' : outcome.why;
  };
  assert.equal(why(20, 22), 'less than the lever asks');
  assert.equal(why(20, 23), 'agrees');
  assert.equal(why(20, 1e9), 'more than any friction');
  assert.equal(why(20, 30, levelRun(5, 0, 0, 0.2)), 'no bends');
  assert.throws(() => calibrate(pieces, sliding, exact(NaN), exact(1), exact(2)), refused('SW-D096'));
});

test('cores: what is true of every construction', () => {
  const constructions: readonly Construction[] = [
    'solid wire',
    'strand 1x19, stainless',
    'strand 7x7, stainless',
    'strand 7x19, stainless',
    'strand 1x19, galvanised',
    'strand 7x7, galvanised',
    'strand 7x19, galvanised',
  ];
  const solid = coreOf('solid wire', 0.002);
  // E π d²/4 and E π d⁴/64 of one steel wire.
  close(solid.axialStiffness, 200e9 * Math.PI * 1e-6, 1e-12, 'E A');
  close(solid.bendingStiffness, (200e9 * Math.PI * 16e-12) / 64, 1e-12, 'E I');
  for (const construction of constructions.slice(1)) {
    const core = coreOf(construction, 0.002);
    assert.ok(core.axialStiffness < solid.axialStiffness, `${construction} is softer than one wire`);
    assert.ok(core.bendingStiffness < 0.05 * solid.bendingStiffness, `${construction} bends like its wires`);
    assert.ok(core.weight < solid.weight && core.weight > 0.5 * solid.weight, `${construction} is lighter`);
    assert.ok(core.breakingLoad < solid.breakingLoad, `${construction} is weaker`);
    const twice = coreOf(construction, 0.004);
    close(twice.axialStiffness, 4 * core.axialStiffness, 1e-12, 'E A goes with the square');
    close(twice.bendingStiffness, 16 * core.bendingStiffness, 1e-12, 'E I goes with the fourth power');
  }
  assert.throws(() => coreOf('solid wire', 0), refused('SW-D091'));
  for (const [low, high] of Object.values(liningFriction)) assert.ok(low < high, `${low} below ${high}`);
});

test('what may be asked of people: never more than the table, less the oftener and the longer', () => {
  for (const action of Object.keys(basicForce) as Action[]) {
    for (const people of ['professional', 'domestic'] as const) {
      const { capability, recommended, avoidBeyond } = humanLimits(action, people, stopControl);
      assert.ok(capability < basicForce[action][people], 'movement takes something off');
      assert.ok(recommended < avoidBeyond && avoidBeyond < capability, 'in order');
      const still = humanLimits(action, people, { ...stopControl, isMoving: false });
      assert.equal(still.capability, basicForce[action][people]);
      const asked = [0.1, 1, 10, 30].map((frequency) =>
        [2, 10].map((actionTime) => humanLimits(action, people, { ...stopControl, frequency, actionTime }).capability),
      );
      asked.forEach(([short, long], i) => {
        assert.ok(long < short, 'a long pull is harder');
        if (i > 0) assert.ok(short < asked[i - 1][0] && long < asked[i - 1][1], 'so is a frequent one');
      });
      const hours = [1, 2, 5].map((duration) => humanLimits(action, people, { ...stopControl, duration }).capability);
      assert.ok(hours[0] > hours[1] && hours[1] > hours[2], 'and a long day');
    }
  }
  // Whoever sits with a backrest can pull more than whoever stands; a knob gives the least hold.
  const pull = (kind: 'knob' | 'T-handle' | 'pedal', posture: 'standing' | 'seated') =>
    basicForce[actionAt(kind, posture, 'pull')].professional;
  assert.ok(pull('knob', 'standing') < pull('T-handle', 'standing'));
  assert.ok(pull('T-handle', 'standing') < pull('T-handle', 'seated'));
  assert.ok(pull('pedal', 'standing') < pull('pedal', 'seated'));
});
