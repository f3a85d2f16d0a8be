/**
 * Landings found in 500 currents made up by formula, none claimed in 200 of stalled plungers, and what more noise does.
 * The courses and what spoils them stand in made-traces.ts; every trace has its own seed.
 */
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { findEvents } from '../../../src/diagnosis/trace/find-events.ts';
import { outcomeOf } from '../../../src/diagnosis/trace/outcome.ts';
import {
  clean,
  homeCourse,
  record,
  seeded,
  stalledCourse,
  traceOf,
  usualSpoiling,
  type Course,
  type Spoiling,
} from './made-traces.ts';

const kinds = ['single', 'two windings', 'resistor', 'timed'] as const;

function examined(course: Course, spoiling: Spoiling, random: () => number) {
  const found = findEvents(traceOf(record(course, spoiling, random)));
  return { found, outcome: found === null ? null : outcomeOf(found, null) };
}

/** How many of the landings are found within 1 ms or 1.5 samples, and the misses in words. */
function hitsOf(first: number, count: number, rate?: number): { hits: number; misses: string } {
  const misses: string[] = [];
  for (let seed = first; seed < first + count; seed++) {
    const random = seeded(seed);
    const course = homeCourse(random, kinds[seed % 4]);
    const usual = usualSpoiling(random);
    const spoiling = rate === undefined ? usual : { ...usual, rate };
    const { found } = examined(course, spoiling, random);
    const error = (found?.landing?.time_s ?? NaN) - spoiling.before - (course.landing ?? NaN);
    if (!(Math.abs(error) <= Math.max(0.001, 1.5 / spoiling.rate)))
      misses.push(`seed ${seed}: ${(1e3 * error).toFixed(2)} ms`);
  }
  return { hits: count - misses.length, misses: misses.join(', ') };
}

// The finder was made while looking at seeds 1 to 500 and some from 5,000 and 9,000 on; these were not looked at.
test('95 of 100 landings are found within 1 ms or 1.5 samples at the noise of a usual clamp', () => {
  const { hits, misses } = hitsOf(200_001, 500);
  assert.ok(hits >= 475, `${hits} of 500; ${misses}`);
});

test('at one sample a millisecond, slower than is asked for, still 80 of 100', () => {
  const { hits, misses } = hitsOf(300_001, 100, 1000);
  assert.ok(hits >= 80, `${hits} of 100; ${misses}`);
});

test('no stalled plunger is said to be home with confidence, whatever the supply, the contacts and the timer do', () => {
  const claims: string[] = [];
  let nevers = 0;
  for (let seed = 1; seed <= 200; seed++) {
    const random = seeded(50_000 + seed);
    const course = stalledCourse(random, seed % 2 === 0);
    const usual = usualSpoiling(random);
    const noise = [0, 0.003, 0.01, 0.03][seed % 4];
    const open =
      seed % 3 === 0
        ? ([
            [0.001, 0.0025],
            [0.004, 0.0055],
          ] as const)
        : usual.open;
    const supply = seed % 5 === 0 ? { supply: cranking } : {};
    const found = findEvents(traceOf(record(course, { ...usual, noise, open, ...supply }, random)));
    const outcome = found === null ? null : outcomeOf(found, null);
    if (outcome?.outcome === 'came home' && outcome.confidence >= 0.8)
      claims.push(`seed ${seed}: ${outcome.reason} ${outcome.confidence}`);
    if (outcome?.outcome === 'never came home') nevers++;
  }
  assert.deepEqual(claims, []);
  assert.ok(nevers >= 60, `only ${nevers} of 200 were called`);
});

/** The starter takes 35 % of the current away within milliseconds and gives it back slowly, with its compressions on top. */
function cranking(sinceOn: number): number {
  const t = sinceOn - 0.04;
  if (t <= 0) return 1;
  const sunk = 0.35 * Math.exp(-t / 0.08) * (1 - Math.exp(-t / 0.003));
  return 1 - sunk + 0.03 * Math.sin(2 * Math.PI * 12 * t) * Math.exp(-t / 0.15);
}

test('with more noise the confidence falls, and what is claimed stays true', () => {
  const levels = [0.003, 0.01, 0.03, 0.08, 0.2];
  const confidences = levels.map((noise) => {
    let sum = 0;
    let claimed = 0;
    let right = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const random = seeded(70_000 + seed);
      const course = homeCourse(random, kinds[seed % 4]);
      const { found } = examined(course, { ...clean, rate: 5000, before: 0.1, noise }, random);
      const landing = found?.landing ?? null;
      sum += landing?.confidence ?? 0;
      if (landing === null || landing.confidence < 0.8) continue;
      claimed++;
      if (Math.abs(landing.time_s - 0.1 - (course.landing ?? 0)) < 0.005) right++;
    }
    assert.ok(right >= 0.95 * claimed, `noise ${noise}: ${right} of ${claimed} confident landings within 5 ms`);
    return sum / 40;
  });
  confidences
    .slice(1)
    .forEach((one, k) => assert.ok(one < confidences[k] + 0.02, `confidences ${confidences.join(', ')}`));
  assert.ok(confidences[0] > 0.9 && confidences[4] < 0.4, `confidences ${confidences.join(', ')}`);
});

describe('one clean pull-in', () => {
  const course: Course = {
    heavy: 25.9,
    rise: 0.009,
    landing: 0.038,
    moves: 0.35,
    depth: 0.45,
    power: 2.4,
    recovery: 0.012,
    stage: 0.0412,
    hold: 2.5,
    fall: 0.0002,
    off: 0.4,
    release: 0.002,
    sag: 0,
  };
  const spoiling: Spoiling = { ...clean, noise: 0.005 };
  const seen = (c: Course, s: Spoiling = spoiling) => {
    const { found, outcome } = examined(c, s, seeded(3));
    assert.ok(found !== null && outcome !== null, 'something is switched on');
    return { found, outcome };
  };

  test('switch-on, stage change, levels and switch-off are where they were put', () => {
    const { found, outcome } = seen(course);
    assert.equal(outcome.reason, 'dip and stage change');
    assert.ok(Math.abs((found.on_s ?? 0) - 0.05) < 0.0006, `on ${found.on_s}`);
    assert.ok(Math.abs((found.stage?.time_s ?? 0) - 0.0912) < 0.0006, `stage ${found.stage?.time_s}`);
    assert.ok(Math.abs((found.stage?.hold_A ?? 0) - 2.5) < 0.05, `hold ${found.stage?.hold_A}`);
    assert.ok(Math.abs((found.off_s ?? 0) - 0.45) < 0.002, `off ${found.off_s}`);
  });

  test('a stalled plunger: the current rose smoothly and stayed', () => {
    const { found, outcome } = seen({ ...course, landing: null, stage: null });
    assert.deepEqual([outcome.outcome, outcome.reason], ['never came home', 'rose and stayed']);
    assert.ok(Math.abs(found.last_A - 25.9) < 0.1, `${found.last_A} A`);
    const known = outcomeOf(found, { stages: 'pull-in and hold windings', delay_s: null });
    assert.ok(known.outcome === 'never came home' && known.confidence > outcome.confidence, 'a job makes it surer');
  });

  test('a dip without the stage change that the job expects: the end switch did not work', () => {
    const { found, outcome } = seen({ ...course, stage: null });
    assert.equal(outcome.reason, 'dip');
    assert.equal(outcomeOf(found, { stages: 'series resistor', delay_s: null }).outcome, 'end switch did not work');
    assert.equal(outcomeOf(found, { stages: 'single coil', delay_s: null }).outcome, 'came home');
  });

  test('a timer is told from an end switch, by its lateness or by the delay of the job', () => {
    const stalled = seen({ ...course, landing: null, stage: 0.3, hold: 8, fall: 0.005 });
    assert.deepEqual([stalled.outcome.outcome, stalled.outcome.reason], ['never came home', 'timer without dip']);
    const home = seen({ ...course, stage: 0.3, hold: 8, fall: 0.005 });
    assert.equal(home.outcome.reason, 'dip and timer');
    const early = seen({ ...course, landing: null, stage: 0.06, hold: 8 });
    const timed = outcomeOf(early.found, { stages: 'timed economiser', delay_s: 0.06 });
    assert.notEqual(timed.outcome, 'came home');
    const switched = outcomeOf(early.found, { stages: 'series resistor', delay_s: null });
    assert.deepEqual([switched.outcome, switched.reason], ['came home', 'stage change alone']);
  });

  test('dropped out, chatter, negative, clipped', () => {
    const swap = (change: (t: number, i: number) => number) => {
      const made = record(course, spoiling, seeded(3));
      for (let k = 0; k < made.time.length; k++) made.current[k] = change(made.time[k] - 0.05, made.current[k]);
      const found = findEvents(traceOf(made));
      assert.ok(found !== null, 'something is switched on');
      return { found, outcome: outcomeOf(found, null).outcome };
    };
    const back = (t: number, from: number) => 2.5 + 23.4 * (1 - Math.exp(-(t - from) / 0.009));
    assert.equal(swap((t, i) => (t > 0.2 && t < 0.4 ? back(t, 0.2) : i)).outcome, 'dropped out');
    const chatter = swap((t, i) => (t > 0.1 && t < 0.35 && (t * 20) % 1 < 0.5 ? back(t, Math.floor(t * 20) / 20) : i));
    assert.equal(chatter.outcome, 'chatters');
    const reversed = swap((_, i) => -i);
    assert.ok(reversed.found.reversed && reversed.outcome === 'came home', 'read reversed, and said');
    assert.ok(swap((_, i) => Math.min(i, 12)).found.clipped_A === 12, 'the cut is seen');
    assert.equal(swap((_, i) => i).found.clipped_A, null);
  });

  test('nothing switched on: nothing found', () => {
    const flat = {
      time: Float64Array.from({ length: 500 }, (_, k) => k / 1000),
      current: new Float32Array(500).fill(0.3),
    };
    assert.equal(findEvents(traceOf(flat)), null);
    const random = seeded(9);
    for (let k = 0; k < 500; k++) flat.current[k] = random() - 0.5;
    assert.equal(findEvents(traceOf(flat)), null);
  });
});
