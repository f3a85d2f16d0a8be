/** The window of a spring holds exactly the springs that an assessment finds good. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { assess } from '../../../src/assessment/assess.ts';
import { forceInLine } from '../../../src/assessment/checks/connection.ts';
import { holdNeeded } from '../../../src/assessment/checks/hold.ts';

import { rigOf, type SolenoidJob } from '../../../src/assessment/rig.ts';
import { electricCorners, scenesOf } from '../../../src/assessment/scene.ts';
import { leverMoments } from '../../../src/assessment/lever-moments.ts';
import { neededAt, outAt, returnMargin } from '../../../src/assessment/forces.ts';
import { usualQuestion, windowOf, without } from '../../../src/assessment/window/window.ts';
import { windowChecks, type Edge } from '../../../src/assessment/window/kinds.ts';
import { tableForce } from '../../../src/physics/solenoid/table.ts';
import { lineAt, lineIn, stretches } from '../../../src/assessment/window/line.ts';
import { windowData } from '../../../src/assessment/window/data.ts';
import { lineSentences, windowSentences } from '../../../src/assessment/window/words.ts';
import { NOT_MEASURED } from '../../../src/job/quantity-text.ts';
import type { Job } from '../../../src/job/schema.ts';
import { metricUnits } from '../../../src/units/quantity.ts';
import { changed, demo } from '../../job/jobs.ts';
import { installations } from '../installations.ts';

const back = ({ drive, net }: ReturnType<typeof outAt>) => returnMargin(drive, net);

const solenoid = (job: Job) => job as SolenoidJob;
const railcar = solenoid(demo('railcar'));
const pumpHouse = solenoid(demo('pump-house'));

/** The pump house with a short chain in place of its link. */
const chained = installations.find(({ name }) => name === 'pump house with a short chain')!.job;

const asked: ReadonlySet<string> = new Set(windowChecks);
const windowFindings = (job: Job) => assess(job, metricUnits, 'at rest').findings.filter(({ id }) => asked.has(id));

const byRate = (rate: number, free: number, tension: number) => ({
  by: 'rate',
  rate: `${rate} N/mm`,
  freeLength: `${free} mm`,
  initialTension: `${tension} N`,
  limitLength: '400 mm',
});

/** Nearest distance to an edge over what lies between the edges there. */
function nearness(job: SolenoidJob): number {
  const window = windowOf(job, usualQuestion(job));
  const line = lineIn(job, window)!;
  const share = (distance: number, size: number) => distance / Math.max(0.05, Math.abs(size));
  const { toFloor, toCeiling } = line;
  return Math.min(
    share(toFloor!.distance, toFloor!.station.floor.value),
    share(toCeiling!.distance, toCeiling!.station.ceiling.value),
  );
}

test('a spring lies in the window where, and only where, the findings of the window hold', () => {
  for (const [name, job] of [
    ['railcar', railcar],
    ['railcar, engine on mounts', solenoid(changed(railcar, { 'surroundings.engineMoves': '2 mm' }))],
    ['pump house', pumpHouse],
    ['pump house with a chain', solenoid(chained)],
    ['short stroke', solenoid(demo('short-stroke'))],
  ] as const) {
    let inside = 0;
    let outside = 0;
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 2.5, noNaN: true }),
        fc.integer({ min: 25, max: 80 }),
        fc.integer({ min: 0, max: 20 }),
        (rate, free, tension) => {
          const tried = solenoid(
            changed(job, { 'return.springs[0].spring': byRate(Number(rate.toPrecision(3)), free, tension) }),
          );
          const near = nearness(tried);
          // Between two gaps an assessment looks closer than the window does.
          if (Math.abs(near) < 0.01) return;
          const holds = windowFindings(tried).every(({ verdict }) => verdict === 'holds');
          assert.equal(near > 0, holds, `${name}: ${rate} N/mm, ${free} mm, ${tension} N, near ${near}`);
          if (holds) inside++;
          else outside++;
        },
      ),
      { seed: 8, numRuns: 60 },
    );
    assert.ok(inside > 0 && outside > 0, `${name}: ${inside} inside, ${outside} outside`);
  }
});

test('a spring drawn on to the very edge has the wanted margin and no more', () => {
  // The tension at which the present spring meets its ceiling, found by halving on the window alone.
  let [low, high] = [0, 60];
  const at = (tension: number) =>
    solenoid(changed(railcar, { 'return.springs[0].spring': byRate(1, 50, Number(tension.toFixed(6))) }));
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    const job = at(middle);
    if (lineIn(job, windowOf(job, usualQuestion(job)))!.toCeiling!.distance > 0) low = middle;
    else high = middle;
  }
  const margins = windowFindings(at(low)).filter(({ id }) => id.startsWith('pulls') || id.startsWith('holds'));
  const least = Math.min(...margins.map(({ margin, wanted }) => margin! - wanted));
  assert.ok(Math.abs(least) < 1e-4, `least spare ${least}`);
});

test('at either edge of every gap what decides it has its wanted margin, reckoned with the trial put in', () => {
  const helped = solenoid(
    changed(chained, {
      'return.springs[1]': {
        on: 'plunger',
        name: 'More',
        kind: 'compression',
        lengthAtHome: '40 mm',
        spring: { by: 'rate', rate: '0.3 N/mm', freeLength: '140 mm', limitLength: '24 mm' },
      },
    }),
  );
  const seen = new Set<string>();
  for (const job of [railcar, pumpHouse, helped]) {
    const question = usualQuestion(job);
    const bare = rigOf(without(job, question));
    const electric = electricCorners(bare);
    const [scene] = scenesOf(bare, electric);
    const margins = (edge: Edge, i: number): number => {
      const rig = { ...bare, trial: { moment: edge.value, force: 0 } };
      const { travel } = scene;
      const station = travel.stations[i];
      const friction = edge.friction ?? 'high';
      const first = rig.lever.breakaway;
      const pull = Math.min(...scene.pull.map((row) => row[i]).filter((one) => !Number.isNaN(one)));
      switch (edge.check) {
        case 'returns-from-every-gap':
          return back(outAt(rig, travel, station, friction)) - rig.wanted.return;
        case 'returns-from-home':
          return back(outAt(rig, travel, station, friction, first)) - rig.wanted.return;
        case 'pulls-in-everywhere':
          return pull / neededAt(rig, travel, station, friction).needed - 1 - rig.wanted.pull;
        case 'pulls-in-from-full-stroke':
          return pull / neededAt(rig, travel, station, friction, first).needed - 1 - rig.wanted.pull;
        case 'holds-at-home':
          return (
            tableForce(rig.holdTable!, travel.homeGap, electric[0].hold.coil, 'least') / holdNeeded(rig, scene)
            - 1
            - rig.wanted.hold
          );
        case 'over-travel-stays-shut':
          return rig.overTravel!.preload / forceInLine(rig, travel, station) - 1 - 0.25;
        case 'chain-stays-taut': {
          const { steady, friction: rub } = leverMoments(rig, station.shaftAngle, 'high', 'out');
          return steady / rub - 1 - rig.wanted.return;
        }
      }
    };
    windowOf(job, question).scenes[0].stations.forEach(({ floor, ceiling }, i) => {
      for (const edge of [floor, ceiling]) {
        if (!Number.isFinite(edge.value) || edge.value === 0) continue;
        seen.add(edge.check);
        const spare = margins(edge, i);
        assert.ok(spare >= -1e-9 && spare < 1e-5, `${job.name}: ${edge.check} at station ${i}: ${spare}`);
        const { n0, n1, d0, d1, wanted } = edge.line;
        const onLine = (n0 + n1 * edge.value) / (d0 + d1 * edge.value);
        assert.ok(Math.abs(onLine - wanted) < 1e-5, `${job.name}: line of ${edge.check} at station ${i}: ${onLine}`);
      }
    });
  }
  assert.deepEqual([...seen].sort(), [...windowChecks].sort(), 'every check decides somewhere');
});

test('the trial is what the spring itself would give: the window is the same whatever spring is in', () => {
  const other = solenoid(changed(railcar, { 'return.springs[0].spring': byRate(2, 30, 9) }));
  const [one, two] = [railcar, other].map((job) => windowOf(job, usualQuestion(job)));
  assert.deepEqual(two, one, 'same window');
});

test('a spring on the plunger has a window of force, and a second spring moves the window of the first', () => {
  const force = windowOf(railcar, { on: 'plunger', index: null });
  assert.equal(force.acts, 'force');
  const helped = solenoid(
    changed(railcar, {
      'return.springs[1]': {
        on: 'plunger',
        name: 'More',
        kind: 'compression',
        lengthAtHome: '40 mm',
        spring: { by: 'rate', rate: '0.05 N/mm', freeLength: '140 mm', limitLength: '24 mm' },
      },
    }),
  );
  const before = windowOf(railcar, usualQuestion(railcar)).scenes[0].stations;
  const after = windowOf(helped, usualQuestion(helped)).scenes[0].stations;
  after.forEach(({ floor, ceiling }, i) => {
    assert.ok(ceiling.value < before[i].ceiling.value, `ceiling ${i} sinks`);
    assert.ok(floor.value <= before[i].floor.value, `floor ${i} does not rise`);
  });
  const rig = rigOf(helped);
  assert.ok(lineAt(rig, { on: 'plunger', index: 1 }, before[0]) > 0, 'it pushes');
});

test('more wanted makes it narrower, a better supply wider', () => {
  const widthOf = (job: Job) => windowOf(solenoid(job), usualQuestion(solenoid(job))).tightest!.width;
  const now = widthOf(railcar);
  assert.ok(widthOf(changed(railcar, { wanted: { pull: '0.4' } })) < now, 'pull');
  assert.ok(widthOf(changed(railcar, { wanted: { return: '0.6' } })) < now, 'return');
  assert.ok(widthOf(changed(railcar, { 'supply.low': '24 V' })) > now, 'supply');
});

test('a pin that is held fast leaves no window, and the sentence says that no spring opens it', () => {
  const job = solenoid(demo('binding-pin'));
  const window = windowOf(job, usualQuestion(job));
  assert.equal(window.isOpen, false);
  assert.match(windowSentences(window, metricUnits).join(' '), /held fast/);
});

test('a missing reading leaves the window not known and is named; one of the spring itself leaves only its line so', () => {
  const job = solenoid(changed(railcar, { 'means.plunger.mass': NOT_MEASURED }));
  const window = windowOf(job, usualQuestion(job));
  assert.deepEqual([window.scenes.length, window.missing], [0, ['means.plunger.mass']]);
  const own = solenoid(changed(railcar, { 'return.springs[0].spring.wireDiameter': NOT_MEASURED }));
  const known = windowOf(own, usualQuestion(own));
  assert.equal(known.isOpen, true);
  const line = lineIn(own, known);
  assert.equal(line?.toFloor, null);
  assert.match(lineSentences(line, known, metricUnits).join(''), /not known/);
});

test('stretches cover the travel in order, and the data hold no infinite number', () => {
  for (const name of ['railcar', 'pump-house', 'binding-pin']) {
    const job = solenoid(demo(name));
    const window = windowOf(job, usualQuestion(job));
    for (const which of ['floor', 'ceiling'] as const) {
      const rows = stretches(window, which);
      rows.forEach(({ from, to }, i) => {
        assert.ok(from <= to && (i === 0 || from >= rows[i - 1].to), `${name} ${which} ${i}`);
      });
    }
    const data = windowData(window, lineIn(job, window));
    assert.deepEqual(JSON.parse(JSON.stringify(data)), data, `${name}: plain data`);
  }
});
