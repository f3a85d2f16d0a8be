/**
 * The least margin over the travel is really the least: held against 20,000 gaps, and against both sides of each step.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { rigOf, type Rig, type SolenoidJob } from '../../src/assessment/rig.ts';
import { electricCorners, pullAt, scenesOf, type ElectricCorner, type Scene } from '../../src/assessment/scene.ts';
import { neededAt, outAt, returnMargin } from '../../src/assessment/forces.ts';
import { stationAt, type Station } from '../../src/assessment/travel.ts';
import type { Job } from '../../src/job/schema.ts';
import { lockRatio } from '../../src/physics/plunger.ts';
import { changed, demo } from '../job/jobs.ts';
import { installations } from './installations.ts';
import { randomInstallations } from './random-installation.ts';

/** The margins that are least somewhere on the way, at one station: the least over friction, supply and coil. */
function marginsAt(rig: Rig, scene: Scene, electric: readonly ElectricCorner[], station: Station) {
  const { travel } = scene;
  const ends = ['low', 'high'] as const;
  const pulls = ends.flatMap((friction) => {
    const { needed } = neededAt(rig, travel, station, friction);
    return electric.map((corner) => {
      const pull = pullAt(rig, station.gap, corner, 'least');
      const mustBeKnown = corner.supply === 'low' && corner.coil === 'hot';
      if (needed === Infinity || needed <= 0) return needed > 0 ? -1 : Infinity;
      return Number.isNaN(pull) && !mustBeKnown ? Infinity : pull / needed - 1;
    });
  });
  const isRigid = station.stretch === null;
  return {
    'pulls-in-everywhere': Math.min(...pulls),
    'returns-from-every-gap': Math.min(
      ...ends.map((friction) => {
        const { drive, net } = outAt(rig, travel, station, friction);
        return returnMargin(drive, net);
      }),
    ),
    'lock-ratio': isRigid
      ? Math.min(
          ...ends.map((friction) => lockRatio(travel.linkage, rig.guide, station.pose, rig.friction[friction]) - 1),
        )
      : Infinity,
    'turns-the-right-way': !station.pose.assembled
      ? -1
      : isRigid
        ? ((station.pose.rate / 1000) * 180) / Math.PI
        : Infinity,
  };
}

type Margins = ReturnType<typeof marginsAt>;

function leastBySweep(job: Job, gaps: number): Margins {
  const rig = rigOf(asSolenoid(job));
  const electric = electricCorners(rig);
  const least: Record<keyof Margins, number> = {
    'pulls-in-everywhere': Infinity,
    'returns-from-every-gap': Infinity,
    'lock-ratio': Infinity,
    'turns-the-right-way': Infinity,
  };
  const ids = Object.keys(least) as (keyof Margins)[];
  for (const scene of scenesOf(rig, electric)) {
    const { travel } = scene;
    const { homeGap, startGap, leverStopGap } = travel;
    const stations = Array.from({ length: gaps + 1 }, (_, i) =>
      stationAt(rig, travel, homeGap + ((startGap - homeGap) * i) / gaps),
    );
    if (rig.overTravel !== null && leverStopGap !== null)
      stations.push(stationAt(rig, travel, leverStopGap, true), stationAt(rig, travel, leverStopGap, false));
    for (const station of stations) {
      const margins = marginsAt(rig, scene, electric, station);
      for (const id of ids) if (!(margins[id] >= least[id])) least[id] = margins[id];
    }
  }
  return least;
}

function asSolenoid(job: Job): SolenoidJob {
  if (job.means.kind !== 'solenoid') throw new Error('this installation has no solenoid');
  return { ...job, means: job.means };
}

/** A sweep may miss the very bottom of a dip by this, relative to the margin or to a tenth. */
const SWEEP = 1e-4;

function assertLeast(name: string, job: Job, gaps: number, tolerance: number): number {
  const swept = leastBySweep(job, gaps);
  let compared = 0;
  for (const { id, margin } of assess(job).findings) {
    if (margin === null || !Object.hasOwn(swept, id)) continue;
    const least = Math.min(99, swept[id as keyof Margins]);
    compared++;
    const room = tolerance * Math.max(0.1, Math.abs(least));
    assert.ok(margin <= least + room, `${name}: ${id} ${margin}, but somewhere ${least}`);
    if (least > 0) assert.ok(margin >= least - 10 * room, `${name}: ${id} ${margin} is nowhere so small: ${least}`);
  }
  return compared;
}

test('no margin of an installation is smaller anywhere than its finding says', () => {
  for (const { name, job } of installations) assert.ok(assertLeast(name, job, 20_000 / 4, SWEEP) >= 3, name);
});

test('the railcar and the pump house, at 20,000 gaps', () => {
  for (const name of ['railcar', 'pump-house']) assertLeast(name, demo(name), 20_000, SWEEP);
});

test('random installations: a dip between two stations hides at most a fiftieth', () => {
  let compared = 0;
  for (const [i, job] of randomInstallations(60, 11).entries()) compared += assertLeast(`random ${i}`, job, 500, 0.02);
  assert.ok(compared > 150, String(compared));
});

test('where one corner is named the weakest, its row is its own and no other corner pulls less', () => {
  let named = 0;
  for (const job of [...installations.map((one) => one.job), ...randomInstallations(60, 5)]) {
    const rig = rigOf(asSolenoid(job));
    const electric = electricCorners(rig);
    for (const { weakest, pull, travel } of scenesOf(rig, electric)) {
      if (weakest === null) continue;
      named++;
      travel.stations.forEach((_, i) => {
        assert.equal(weakest.pull[i], pull[weakest.corner][i], job.name);
        if (Number.isNaN(weakest.pull[i])) return;
        for (const row of pull)
          assert.ok(!(row[i] < weakest.pull[i]), `${job.name}: ${row[i]} and ${weakest.pull[i]} N`);
      });
    }
  }
  assert.ok(named > 40, `named in ${named} scenes only`);
});

test('both sides of the step of an over-travel spring are weighed', () => {
  // With a preload far above what the lever asks, the pull needed leaps at the gap where the lever meets its stop.
  const railcar = changed(demo('railcar'), {
    'layout.homePin.x': '-13.5 mm',
    'layout.overTravel': { preload: '200 N', rate: '3 N/mm', travel: '8 mm' },
  });
  const rig = rigOf(asSolenoid(railcar));
  const electric = electricCorners(rig);
  const [scene] = scenesOf(rig, electric);
  assert.ok(scene !== undefined);
  const { leverStopGap, stations } = scene.travel;
  assert.ok(leverStopGap !== null);
  const atStep = stations.filter(({ gap }) => gap === leverStopGap);
  assert.deepEqual(
    atStep.map(({ stretch }) => stretch === null),
    [false, true],
    'held first, then rigid',
  );
  const [held, rigid] = atStep.map((station) => neededAt(rig, scene.travel, station, 'high').needed);
  assert.ok(held !== undefined && rigid !== undefined);
  // In a slot the preload acts along the plunger; what it adds stands in the needed pull at once.
  assert.ok(held - rigid > 100, `${rigid} N rigid, ${held} N held`);
  const found = assess(railcar).findings.find(({ id }) => id === 'pulls-in-everywhere');
  assert.ok(found?.margin !== null && found?.margin !== undefined && found.at !== null);
  assert.ok(Math.abs((found.at.gap_mm ?? NaN) / 1000 - leverStopGap) < 1e-9, `decided at ${found.at.gap_mm} mm`);
  const weakest = electric.find(({ supply, coil }) => supply === 'low' && coil === 'hot');
  assert.ok(weakest !== undefined);
  const expected = pullAt(rig, leverStopGap, weakest, 'least') / held - 1;
  assert.ok(Math.abs(found.margin - expected) < 1e-9, `${found.margin} and ${expected}`);
  // Softer than what the lever asks on its way, it does not stay shut, and the finding about that is decided on the other side.
  const soft = assess(changed(railcar, { 'layout.overTravel.preload': '20 N' })).findings;
  assert.equal(soft.find(({ id }) => id === 'over-travel-stays-shut')?.verdict, 'fails');
});
