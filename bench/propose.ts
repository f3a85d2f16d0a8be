/**
 * The search of the short-stroke demonstration: combinations looked at in a second, how many of them were placed and asked
 * for forces one by one, and the whole search, by one pair of hands and by as many threads as the machine has.
 *
 * Most combinations fall with their row: a layout that does not go together is turned away once for all springs and
 * conductors. So three numbers are told: looked at, placed, forced. The goal is a million candidates screened in under ten
 * seconds on two cores, and the best thousand assessed at rest.
 */
import { availableParallelism } from 'node:os';
import { isSolenoid } from '../src/assessment/assess.ts';
import { threads } from '../src/cli/threads.ts';
import { demoJobs } from '../src/job/demos.ts';
import { readDocument } from '../src/job/read.ts';
import {
  ownHands,
  problemOf,
  proposalsOf,
  searchWith,
  type Done,
  type Problem,
  type SearchHands,
  type Task,
} from '../src/proposal/search/search.ts';

const GOAL_SECONDS = 10;
const GOAL_CANDIDATES = 1_000_000;

export async function bench(print: (line: string) => void): Promise<void> {
  const read = readDocument(demoJobs.find(({ name }) => name === 'short-stroke')?.document);
  if (!read.ok || !isSolenoid(read.job)) throw new Error('the demonstration cannot be read');
  const problem = problemOf(read.job);
  if (problem === null) throw new Error('the demonstration cannot be searched');
  const never = () => false;
  const one = await measured(
    print,
    problem,
    'one pair of hands',
    ownHands(problem, () => Promise.resolve(), never),
  );
  const count = availableParallelism();
  const team = threads<Task, Done>('search', count, { job: read.job, options: {} });
  try {
    // Threads that have just begun still read their sources.
    await team.run(
      [
        { kind: 'assess', chosen: [] },
        { kind: 'assess', chosen: [] },
      ],
      () => {},
    );
    const many = await measured(print, problem, `${count} threads`, team);
    print(`${count} threads against one pair of hands: ${(one / many).toFixed(2)} times as fast`);
  } finally {
    team.stop();
  }
}

/** @returns seconds of the whole search */
async function measured(
  print: (line: string) => void,
  problem: Problem,
  who: string,
  hands: SearchHands,
): Promise<number> {
  const times = new Map<string, number>();
  let last = performance.now();
  const began = last;
  const cpu = process.cpuUsage();
  const { run } = await searchWith(problem, hands, ({ phase }) => {
    const now = performance.now();
    times.set(phase, (times.get(phase) ?? 0) + now - last);
    last = now;
  });
  const all = (performance.now() - began) / 1000;
  const { user, system } = process.cpuUsage(cpu);
  const seconds = (of: string) => (times.get(of) ?? 0) / 1000;
  const rate = (number: number) => Math.round(number / seconds('looking')).toLocaleString('en');
  print(
    `${who}: ${run.lookedAt.toLocaleString('en')} combinations in ${seconds('looking').toFixed(2)} s, ${rate(run.lookedAt)} a second; placed ${rate(run.placed)}, asked for forces ${rate(run.forced)} a second`,
  );
  print(
    `  ${run.placed.toLocaleString('en')} candidates placed one by one and the best ${run.assessed.toLocaleString('en')} assessed at rest in ${(seconds('looking') + seconds('assessing')).toFixed(2)} s (goal ${GOAL_CANDIDATES.toLocaleString('en')} in ${GOAL_SECONDS} s on two cores)`,
  );
  print(
    `  whole search ${all.toFixed(2)} s, of processor time on all cores ${((user + system) / 1e6).toFixed(2)} s: other programs on the machine count in the first, not in the second`,
  );
  const before = performance.now();
  const { offers } = proposalsOf(problem, run);
  print(
    `  then ${[...times]
      .filter(([phase]) => phase !== 'looking' && phase !== 'assessing')
      .map(([phase, ms]) => `${phase} ${(ms / 1000).toFixed(2)} s`)
      .join(', ')}, offering ${offers.length} in time ${((performance.now() - before) / 1000).toFixed(2)} s`,
  );
  return all;
}
