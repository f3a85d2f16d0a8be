/** Where physics says which way a number goes, it goes that way: on the installations by name and on random ones. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import type { Assessment } from '../../src/assessment/finding.ts';
import { rigOf, type SolenoidJob } from '../../src/assessment/rig.ts';
import { neededAt, outAt } from '../../src/assessment/forces.ts';
import { springMoment } from '../../src/assessment/lever-moments.ts';
import { stationAt, travelOf } from '../../src/assessment/travel.ts';
import { quantityIn } from '../../src/job/quantity-text.ts';
import type { Job } from '../../src/job/schema.ts';
import { lockRatio } from '../../src/physics/plunger.ts';
import type { Dimension } from '../../src/units/quantity.ts';
import { valueAt } from '../../src/job/path.ts';
import { altered, readable } from '../job/jobs.ts';
import { exactly } from '../job/quantities.ts';
import { installations } from './installations.ts';
import { randomInstallations } from './random-installation.ts';

const jobs = [...installations.map(({ job }) => job), ...randomInstallations(80, 23)].map(asSolenoid);

function asSolenoid(job: Job): SolenoidJob {
  if (job.means.kind !== 'solenoid') throw new Error('this installation has no solenoid');
  return { ...job, means: job.means };
}

/** Room for the last digits, and for a dip that two assessments narrow down from different ends. */
const NOTHING = 1e-6;

/** The findings of `ids` that `worse` lifts over `better`, with their margins. */
function lifted(better: Assessment, worse: Assessment, ids: readonly string[]): string[] {
  return ids.flatMap((id) => {
    const [a, b] = [better, worse].map(({ findings }) => findings.find((one) => one.id === id)?.margin ?? null);
    // What drives the wrong way has a share under -1, which more of what it is held against brings nearer to -1.
    const isLifted =
      typeof a === 'number' && typeof b === 'number' && a > -1 && b > a + NOTHING * Math.max(1, Math.abs(a));
    return isLifted ? [`${id} from ${a} to ${b}`] : [];
  });
}

/** The same job with one quantity times a factor. */
function times(job: Job, path: string, dimension: Dimension, factor: number): SolenoidJob {
  const quantity = quantityIn(String(valueAt(job, path)), dimension);
  if (quantity === null) throw new Error(`${path} was not measured`);
  return asSolenoid(readable(altered(job, { [path]: exactly(quantity.value * factor, dimension) })));
}

const pulls = ['pulls-in-from-full-stroke', 'pulls-in-everywhere'];
const returns = ['returns-from-every-gap', 'returns-from-home', 'lock-ratio'];

test('more friction in the guide, or in the connection of a plunger that runs free, helps neither pull nor return', () => {
  // Not both at once: friction in a slot or pin turns the force towards the axis, which can spare a badly held plunger
  // more than it takes: F = (N h/ρ)[1 + μs t + μg k |t - μs|] falls with μs where μg k > t.
  const inGuide = (mu: number) => ({ slot: '0.12', pins: '0.12', guide: `${mu}` });
  const inConnection = (mu: number) => ({ slot: `${mu}`, pins: `${mu}`, guide: '0' });
  let told = 0;
  for (const job of jobs) {
    // A plain pin whose plunger can still rock aside is reckoned without the work of that rock: up to a twentieth too easy.
    const ways = job.layout.connection.kind === 'plain pin' ? [inGuide] : [inGuide, inConnection];
    for (const friction of ways) {
      const rows = [0, 0.08, 0.16, 0.24].map((mu) => assess(altered(job, { 'layout.friction': friction(mu) })));
      rows.slice(1).forEach((rough, i) => {
        const smooth = rows[i];
        assert.deepEqual(lifted(smooth, rough, [...pulls, ...returns, 'does-not-bind', 'does-not-cock']), [], job.name);
        told += lifted(rough, smooth, [...pulls, ...returns]).length;
      });
    }
  }
  assert.ok(told > 200, `friction told in ${told} margins only`);
});

test('stiffer oil and a heavier first pull help neither', () => {
  for (const job of jobs) {
    const rows = ['1', '1.3', '1.8'].map((coldOil) => assess(altered(job, { 'survey.effort.coldOil': coldOil })));
    rows.slice(1).forEach((stiff, i) => {
      assert.deepEqual(lifted(rows[i], stiff, [...pulls, 'returns-from-every-gap', 'chain-stays-taut']), [], job.name);
    });
    if (job.survey.effort.firstPull === undefined) continue;
    const heavy = times(job, 'survey.effort.firstPull.pull', 'force', 1.3);
    const first = ['pulls-in-from-full-stroke', 'returns-from-home', 'over-travel-stays-shut'];
    assert.deepEqual(lifted(assess(job), assess(heavy), first), [], job.name);
  }
});

test('lower volts, a hotter coil and longer cable never pull or hold harder', () => {
  let told = 0;
  for (const job of jobs) {
    const before = assess(job);
    const hotter = readable(altered(job, { 'means.riseInHold': '95 K' }));
    const weaker = [times(job, 'supply.low', 'voltage', 0.97), hotter, times(job, 'supply.out.length', 'length', 1.5)];
    for (const one of weaker) {
      const after = assess(one);
      assert.deepEqual(lifted(before, after, [...pulls, 'holds-at-home']), [], job.name);
      before.sweep?.pullLeast_N.forEach((pull, i) => {
        const now = after.sweep?.pullLeast_N[i];
        if (typeof pull !== 'number' || typeof now !== 'number') return;
        assert.ok(now <= pull * (1 + NOTHING), `${job.name}: ${pull} N became ${now} N`);
        if (now < pull * (1 - 1e-4)) told++;
      });
    }
  }
  assert.ok(told > 1000, `${told} pulls fell`);
});

test('longer or thinner cable never raises the volts at the coil', () => {
  for (const job of jobs) {
    const before = assess(job);
    for (const one of [
      times(job, 'supply.out.length', 'length', 2),
      times(job, 'supply.out.section', 'area', 0.6),
      times(job, 'supply.internalResistance', 'resistance', 1.5),
    ]) {
      const after = assess(one);
      before.currents.forEach(({ coilVolts_V: volts, current_A: amps, stage }, i) => {
        const now = after.currents[i];
        assert.ok(now !== undefined && volts !== null && amps !== null);
        assert.ok((now.coilVolts_V ?? NaN) < volts && (now.current_A ?? NaN) < amps, `${job.name} in ${stage}`);
      });
    }
    const longer = times(job, 'supply.out.length', 'length', 2);
    assert.deepEqual(lifted(before, assess(longer), ['volts-at-coil']), [], job.name);
  }
});

test('a stiffer return spring never helps the pull, and never hurts the return until the connection locks', () => {
  let [helped, hindered] = [0, 0];
  for (const job of jobs) {
    job.return.springs.forEach((description, i) => {
      if (description.on === 'shaft') return;
      const { spring, on } = description;
      if (spring.by !== 'rate') return;
      const path = `return.springs[${i}].spring`;
      const stiffer = [times(job, `${path}.rate`, 'springRate', 1.2)];
      if (spring.initialTension !== undefined) stiffer.push(times(job, `${path}.initialTension`, 'force', 1.4));
      const rig = rigOf(job);
      const travel = travelOf(rig, rig.linkage, 33);
      for (const other of stiffer.map(rigOf)) {
        for (const { gap } of travel.stations) {
          const station = stationAt(rig, travel, gap);
          if (station.stretch !== null || !station.pose.assembled) continue;
          const pushesOut =
            on === 'plunger' ? 0 : springMoment(other, station.shaftAngle) - springMoment(rig, station.shaftAngle);
          if (pushesOut < 0) continue; // a spring past its dead point drives the lever home
          for (const end of ['low', 'high'] as const) {
            const needed = neededAt(rig, travel, station, end).needed;
            const more = neededAt(other, travel, station, end).needed;
            assert.ok(!(more < needed - NOTHING), `${job.name}, ${gap} m: ${needed} N needed became ${more} N`);
            if (more > needed) hindered++;
            if (!(lockRatio(travel.linkage, rig.guide, station.pose, rig.friction[end]) > 1)) continue;
            const { net } = outAt(rig, travel, station, end);
            const stronger = outAt(other, travel, station, end).net;
            assert.ok(!(stronger < net - NOTHING), `${job.name}, ${gap} m: ${net} N back became ${stronger} N`);
            if (stronger > net) helped++;
          }
        }
      }
    });
  }
  assert.ok(helped > 500 && hindered > 500, `${helped} and ${hindered}`);
});

test('a lock ratio under one is what makes a lever spring useless: there a stiffer one brings nothing back', () => {
  // A slot far from square with much friction: what the spring gives, friction takes.
  const railcar = installations[0]?.job;
  assert.ok(railcar !== undefined);
  const locked = altered(railcar, {
    'layout.friction': { slot: '0.7', guide: '0.7' },
    'layout.homePin': { x: '-52 mm', y: '30 mm' },
    'means.plunger.stroke': '6 mm',
  });
  const rows = [1, 2, 4].map((factor) => {
    const rig = rigOf(times(locked, 'return.springs[0].spring.initialTension', 'force', factor));
    const travel = travelOf(rig, rig.linkage, 3);
    const station = stationAt(rig, travel, 0);
    return {
      ratio: lockRatio(travel.linkage, rig.guide, station.pose, rig.friction.high),
      net: outAt(rig, travel, station, 'high').net,
    };
  });
  for (const { ratio } of rows) assert.ok(ratio < 1, `lock ratio ${ratio}`);
  const nets = rows.map(({ net }) => net);
  assert.ok(nets[1] <= nets[0] && nets[2] <= nets[1] && nets[0] < 0, nets.join(', '));
});
