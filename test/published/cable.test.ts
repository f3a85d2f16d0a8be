/** Cables: the rope on a drum, a measured cable, stretch of small strands, play in a bent conduit. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { coreModulus, liningFriction, type Construction } from '../../src/physics/cable/strand.ts';
import { levelRun, type Piece } from '../../src/physics/cable/route.ts';
import { walkTension, type Sliding } from '../../src/physics/cable/tension.ts';
import { playInBends } from '../../src/physics/cable/travel.ts';
import { calibrate } from '../../src/physics/cable/calibration.ts';
import { agrees, within, type Source } from './printed.ts';

const degrees = Math.PI / 180;
const sliding = (friction: number): Sliding => ({ friction, weight: 0, bendingStiffness: 0, radialClearance: 0 });
/** One bend and nothing else. */
const turn = (angle: number, radius = 0.2): Piece[] => levelRun(10, 1, angle, radius).slice(1, 2);

test('hawser round a bitt', () => {
  const hawser: Source = {
    source: 'F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, 9th ed., Sample Problem 8.7, p. 431',
    // An open companion re-works it: 150 N holds 7500 N by two turns; with three turns it prints 53 033 N.
    provenance: 'seen',
  };
  const exact = (value: number) => ({ low: value, value, high: value });
  const outcome = calibrate(turn(4 * Math.PI), sliding(0), exact(150), exact(0), exact(7500));
  assert.ok(outcome.agrees, 'the readings agree');
  const { value: friction } = outcome.calibration.friction;
  agrees(friction, '0.311', hawser, 'friction');
  within(
    walkTension(turn(6 * Math.PI), sliding(friction), 'with the walk', 150).tension,
    53033.0,
    0.05,
    hawser,
    'three turns',
  );
  // Turns for 75 kN: 3.18, to the last printed digit.
  const at = (turns: number) => walkTension(turn(2 * Math.PI * turns), sliding(friction), 'with the walk', 150).tension;
  assert.ok(at(3.175) < 75_000 && at(3.185) > 75_000, `${at(3.175)} N and ${at(3.185)} N`);
});

test('flat belt', () => {
  const belt: Source = {
    source: 'F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, 9th ed., Sample Problem 8.8, p. 432',
    // The open companion prints 1957 lbf in from 600 lbf, friction 0.25, 120° and 8 in.
    provenance: 'seen',
  };
  const slack = walkTension(turn(120 * degrees), sliding(0.25), 'against the walk', 600).tension;
  agrees((600 - slack) * 8, '1957', belt, 'moment');
});

test('a measured cable: only the sum of its bends counts, and friction of 0.06 fits all', () => {
  const rig: Source = {
    source:
      'report of an amateur test rig on an open page: lined conduit, 0° to 540° in all, radii 1.5 in to 5 in, 12 in and 24 in '
      + 'long; every point within 5 % of exp(0.06 φ)',
    provenance: 'seen, derived',
  };
  const [low, high] = liningFriction.PTFE;
  assert.ok(low <= 0.06 && high >= 0.06, 'the usual range holds the measured friction');
  for (const [angle, ratio] of [
    [90, 1.0988319803],
    [180, 1.207431721],
    [270, 1.3267645892],
    [360, 1.457891361],
    [540, 1.760304275],
  ] as const) {
    for (const radius of [0.038, 0.127]) {
      for (const bends of [1, 3]) {
        const pieces = levelRun(3, bends, angle * degrees, radius);
        const effort = walkTension(pieces, sliding(0.06), 'with the walk', 20).tension / 20;
        within(effort, ratio, 0.05 * ratio, rig, `${angle}° at ${radius} m`);
        // Our own steps add nothing to what the source leaves open.
        within(effort, ratio, 1e-9, rig, `the curve itself at ${angle}°`);
      }
    }
  }
  within(
    walkTension(turn(Math.PI), sliding(0.06), 'against the walk', 1).tension,
    0.8282041813,
    0.05 * 0.8282,
    rig,
    'efficiency at 180°',
  );
});

test('stretch of small strands', () => {
  const strands: Source = {
    source:
      'open technical page of a wire-rope maker (its name is withheld): stretch % = load × G/diameter², lbf and in',
    provenance: 'seen, derived',
  };
  for (const [construction, modulus] of [
    ['strand 7x7, stainless', 73.1556438645],
    ['strand 7x19, stainless', 54.1893658256],
    ['strand 1x19, stainless', 112.6916208439],
    ['strand 7x7, galvanised', 82.0437127452],
    ['strand 7x19, galvanised', 62.7048375981],
    ['strand 1x19, galvanised', 125.7690152398],
  ] as const satisfies readonly (readonly [Construction, number])[]) {
    // G is printed to two or three figures: 1 %.
    within(coreModulus(construction) / 1e9, modulus, 0.01 * modulus, strands, construction);
    within(coreModulus(construction) / 1e9, modulus, 1e-5, strands, `${construction}, the factor as printed`);
  }
});

test('usual friction of linings', () => {
  const handbooks: Source = {
    source: 'usual values of tribology handbooks; 0.06 on a lining was seen, the rest is from memory',
    provenance: 'memory',
  };
  const rows = [
    ['PTFE', 0.04, 0.1],
    ['plastic', 0.08, 0.15],
    ['steel, greased', 0.1, 0.16],
    ['steel, dry', 0.15, 0.3],
    ['corroded or dirty', 0.3, 0.6],
  ] as const;
  for (const [lining, low, high] of rows) {
    within(liningFriction[lining][0], low, 0, handbooks, lining);
    within(liningFriction[lining][1], high, 0, handbooks, lining);
  }
});

test('play in a bent conduit', () => {
  const arcs: Source = { source: 'difference of two arcs of 270°, bore 2.0 mm, core 1.5 mm', provenance: 'derived' };
  agrees(playInBends(270 * degrees, 0.002, 0.0015) * 1000, '2.3561944902', arcs, 'play');
});
