/** Random jobs that fail somewhere. Mounts are stiff and springs few: each job is assessed some five hundred times. */
import assert from 'node:assert/strict';
import { assess } from '../../src/assessment/assess.ts';
import { altered } from '../job/jobs.ts';
import { randomInstallations } from '../assessment/random-installation.ts';
import { assertRemedies } from './remedies-hold.ts';

/** STOPWRIGHT_ROUNDS raises the number of jobs: 16 of each way of working in the suite, each followed in time many times. */
const rounds = Number(process.env['STOPWRIGHT_ROUNDS'] ?? 16);

/** Least share of failing findings that a single change must be found for. */
const LEAST_MENDED = 0.4;

export function assertRandomRemedies(works: 'energise to stop' | 'energise to run'): void {
  let jobs = 0;
  let failing = 0;
  let mended = 0;
  for (const drawn of randomInstallations(3 * rounds, 91)) {
    if (jobs === rounds) break;
    if (drawn.means.kind !== 'solenoid' || drawn.means.works !== works) continue;
    const job = altered(drawn, {
      'surroundings.engineMoves': '0 mm',
      'return.springs': drawn.return.springs.slice(0, 1),
    });
    if (!assess(job).findings.some(({ verdict }) => verdict === 'fails')) continue;
    jobs++;
    const tally = assertRemedies(job);
    failing += tally.failing;
    mended += tally.mended;
  }
  assert.equal(jobs, rounds);
  assert.ok(mended >= LEAST_MENDED * failing, `${mended} of ${failing} failing findings have a remedy`);
}
