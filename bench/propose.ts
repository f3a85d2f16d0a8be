/**
 * The quick look of a search: combinations of the short-stroke demonstration looked at in a second on one core, how many
 * of them were placed and asked for forces one by one, and the whole search of the narrow and of the full space.
 *
 * Most combinations fall with their row: a layout that does not go together is turned away once for all springs and
 * conductors. So three numbers are told: looked at, placed, forced. The goal counts those looked at: a million in under
 * ten seconds on two cores, 50 000 a second on each.
 */
import { isSolenoid } from '../src/assessment/assess.ts';
import { beginRun, lookedAt, problemOf, proposalsOf, runOn, type Run } from '../src/proposal/search/search.ts';
import { demoJobs } from '../src/job/demos.ts';
import { readDocument } from '../src/job/read.ts';

const GOAL = 50_000;

export async function bench(print: (line: string) => void): Promise<void> {
  const read = readDocument(demoJobs.find(({ name }) => name === 'short-stroke')?.document);
  if (!read.ok || !isSolenoid(read.job)) throw new Error('the demonstration cannot be read');
  const problem = problemOf(read.job);
  if (problem === null) throw new Error('the demonstration cannot be searched');
  const times = new Map<string, number>();
  let run: Run = beginRun(problem);
  while (run.phase !== 'done') {
    const { phase } = run;
    const before = performance.now();
    run = runOn(problem, run);
    times.set(phase, (times.get(phase) ?? 0) + performance.now() - before);
  }
  const before = performance.now();
  const { offers } = proposalsOf(problem, run);
  const offering = performance.now() - before;
  const seconds = (times.get('looking') ?? NaN) / 1000;
  const rate = (count: number) => Math.round(count / seconds).toLocaleString('en');
  const looked = lookedAt(run);
  print(
    `${looked.toLocaleString('en')} combinations in ${seconds.toFixed(2)} s on one core: ${rate(looked)} a second (goal ${GOAL.toLocaleString('en')})`,
  );
  print(`of them placed ${rate(run.placed)} a second, asked for forces ${rate(run.forced)} a second`);
  print(
    `then ${[...times]
      .filter(([phase]) => phase !== 'looking')
      .map(([phase, ms]) => `${phase} ${(ms / 1000).toFixed(2)} s`)
      .join(', ')}, offering ${offers.length} in time ${(offering / 1000).toFixed(2)} s`,
  );
}
