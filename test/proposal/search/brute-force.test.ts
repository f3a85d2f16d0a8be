/** In a small space the search never loses to a grid of everything, each place of it assessed. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import { valueOf } from '../../../src/assessment/readings.ts';
import type { SolenoidJob } from '../../../src/assessment/rig.ts';
import { layoutOf, type Layout } from '../../../src/proposal/search/layout.ts';
import { jobOf, type Problem } from '../../../src/proposal/search/problem.ts';
import { bestOf } from '../../../src/proposal/search/run-state.ts';
import { metricUnits, toSI } from '../../../src/units/quantity.ts';
import { randomInstallations } from '../../assessment/random-installation.ts';
import { narrowed, problemFor, searched, solenoidJob } from './spaces.ts';

const MM = toSI(1, 'mm');
const DEGREE = toSI(1, '°');
const INSTALLATIONS = Number(process.env['INSTALLATIONS'] ?? 12);

/** Every place of a grid of 7 × 7 places and 3 directions, at the hub positions next to the present one. */
function bruteForce(problem: Problem, job: SolenoidJob, half: number, turn: number): number {
  const here = layoutOf(job)!;
  const positions = job.survey.lever.hubPositions;
  const hubs = positions === 1 ? [0] : [-1, 0, 1].map((k) => (here.hub + k + positions) % positions);
  // On steps that can be set, as the search's own answers are.
  const steps = (from: number, count: number, width: number, step: number) =>
    Array.from({ length: count }, (_, i) => from - width + (2 * width * i) / (count - 1)).map(
      (value) =>
        Math.min(
          Math.floor((from + width) / step),
          Math.max(Math.ceil((from - width) / step), Math.round(value / step)),
        ) * step,
    );
  const { placeStep, directionStep } = problem.space;
  let best = -Infinity;
  for (const hub of hubs)
    for (const x of steps(here.x, 7, half, placeStep))
      for (const y of steps(here.y, 7, half, placeStep))
        for (const direction of steps(here.direction, 3, turn, directionStep)) {
          const layout: Layout = { ...here, hub, x, y, direction };
          const { findings } = assess(jobOf(problem, { layout, spring: 0, electric: 0 }), metricUnits, 'at rest');
          best = Math.max(best, problem.judge.valueOf(findings));
        }
  return best;
}

test('random installations, four kinds of connection: no place of a grid is better than what the search finds', () => {
  let compared = 0;
  for (const installation of randomInstallations(40 * INSTALLATIONS, 20260)) {
    const { connection } = installation.layout;
    if (compared >= INSTALLATIONS) break;
    const isLinked = connection.kind === 'pinned link' || connection.kind === 'short chain';
    const job = narrowed(installation, {
      millimetres: 6,
      degrees: 6,
      connections: [connection.kind],
      ...(connection.kind === 'slotted lever' ? {} : { holes: [connection.armRadius] }),
      ...(isLinked ? { links: [connection.length] } : {}),
    });
    const problem = problemFor(solenoidJob(job));
    if (!(problem.judge.valueOf(problem.judge.before) > -3)) continue;
    const brute = bruteForce(problem, job, 6 * MM, 6 * DEGREE);
    // Where nothing works there is nothing to lose.
    if (!(brute >= 0)) continue;
    compared++;
    const found = bestOf(searched(problem));
    assert.ok(found !== null, `${job.name}: nothing was found, the grid has ${brute}`);
    const words = `${job.name}, ${connection.kind}, stroke ${valueOf(job.means.plunger.stroke, 'length')}`;
    if (process.env['SHOW'] !== undefined) console.log(words, brute.toFixed(3), found.value.toFixed(3));
    assert.ok(found.value >= brute - 1e-6, `${words}: found ${found.value}, the grid has ${brute}`);
  }
  assert.equal(compared, INSTALLATIONS, `only ${compared} could be compared`);
});
