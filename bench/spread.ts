/**
 * Draws per second: the whole of the findings and the few behind full home and return, in one thread; and a reduced model
 * of pull against need (slotted lever, 65 gaps, straight moment and straight pull in the logarithm), one draw after the
 * other here and all draws at once in NumPy.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { spreadPlan, type SpreadPlan } from '../src/assessment/spread/plan.ts';
import { usualRequest } from '../src/assessment/spread/request.ts';
import { taskWorker, type SpreadTask } from '../src/assessment/spread/task.ts';
import { threads } from '../src/cli/threads.ts';
import { demoJobs } from '../src/job/demos.ts';
import { readDocument } from '../src/job/read.ts';
import { sobolPoints, sobolSequence } from '../src/numerics/quasi-random.ts';

const GOAL_DRAWS = 100_000;
const GOAL_SECONDS = 3;
const GOAL_CORES = 2;
const PIECE = 128;

export async function bench(print: (line: string) => void): Promise<void> {
  const read = readDocument(demoJobs.find(({ name }) => name === 'railcar')?.document);
  const planned = read.ok ? spreadPlan(read.job, usualRequest) : null;
  if (planned?.ok !== true) throw new Error('the railcar cannot be drawn');
  const { plan } = planned;
  const goal = GOAL_DRAWS / GOAL_SECONDS / GOAL_CORES;
  const few = ['pulls-in-from-full-stroke', 'pulls-in-everywhere', 'comes-home', 'end-switch'];
  const back = ['returns-from-every-gap', 'returns-from-home'];
  const cases: readonly (readonly [string, readonly string[]])[] = [
    [`all ${plan.findings.length} findings`, plan.findings.map(({ id }) => id)],
    ['full home and return', [...few, ...back]],
    ['reaches run alone', ['free-to-reach-run']],
  ];
  for (const [words, ids] of cases) {
    const speed = drawsPerSecond(plan, ids);
    print(
      `railcar, ${plan.joint.dimensions} quantities, ${words}: ${speed.toFixed(0)} draws a second and core (goal ${goal.toFixed(0)}); 100,000 on two cores in ${(GOAL_DRAWS / speed / GOAL_CORES).toFixed(1)} s`,
    );
  }
  await onTwoCores(print, plan);
  reducedModel(print);
}

/** Worker threads as `stopwright spread` starts them, by the clock on the wall: what else runs on the machine counts. */
async function onTwoCores(print: (line: string) => void, plan: SpreadPlan): Promise<void> {
  const pieces = Math.ceil(GOAL_DRAWS / PIECE);
  const tasks = Array.from({ length: pieces }, (_, i): SpreadTask => ({
    kind: 'draws',
    seed: 1 + (i % 8),
    first: Math.floor(i / 8) * PIECE,
    count: PIECE,
  }));
  const began = performance.now();
  const team = threads<SpreadTask, Float64Array>('spread', GOAL_CORES, { job: plan.job, request: plan.request });
  const seconds: number[] = [];
  let first = NaN;
  try {
    for (let round = 0; round < 3; round++) {
      const from = performance.now();
      await team.run(tasks, () => {
        if (Number.isNaN(first)) first = (performance.now() - began) / 1000;
      });
      seconds.push((performance.now() - from) / 1000);
    }
  } finally {
    team.stop();
  }
  print(
    `railcar, 100,000 draws of all findings on two threads: ${Math.min(...seconds).toFixed(1)} s (goal ${GOAL_SECONDS} s); from a cold start ${seconds[0].toFixed(1)} s, of which ${first.toFixed(1)} s until the first piece`,
  );
}

/** By processor time of this thread's process, so that what else runs on the machine counts as little as it can. */
function drawsPerSecond(plan: SpreadPlan, ids: readonly string[]): number {
  const worker = taskWorker(plan);
  const wanted = ids.map((id) => plan.findings.findIndex((one) => one.id === id)).filter((f) => f >= 0);
  const run = (pieces: number) => {
    for (let i = 0; i < pieces; i++) worker.run({ kind: 'draws', seed: 1, first: i * PIECE, count: PIECE, wanted });
  };
  run(96);
  const before = process.cpuUsage();
  run(96);
  const { user, system } = process.cpuUsage(before);
  return (96 * PIECE) / ((user + system) / 1e6);
}

const reduced = {
  gaps: 65,
  overhang: 0.012,
  guide: 0.07,
  slot: 0.2,
  bore: 0.2,
  softening: 2e-4,
  pullNear: 150,
};
/** Pin at home x and y, stroke, run and no-fuel angle, moments there, pull at full stroke: middle and half-width. */
const middles = [-0.0085, 0.045, 0.032, 1.08, 1.64, 0.55, 0.8, 45];
const halves = [5e-4, 5e-4, 2e-4, 9e-3, 9e-3, 0.03, 0.04, 2];

function reducedModel(print: (line: string) => void): void {
  const draws = 65_536;
  const shares = sobolPoints(sobolSequence(middles.length, 1), 0, draws);
  const values = Array.from({ length: draws }, (_, i) =>
    middles.map((middle, d) => middle + halves[d] * (2 * shares[i * middles.length + d] - 1)),
  );
  leasts(values.slice(0, 4096));
  const began = performance.now();
  const { sum, least } = leasts(values);
  const seconds = (performance.now() - began) / 1000;
  const script = fileURLToPath(new URL('./spread-numpy.py', import.meta.url));
  const other = spawnSync('python3', [script], {
    input: JSON.stringify({ ...reduced, values }),
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  const own = `reduced model, one draw after the other: ${(draws / seconds / 1000).toFixed(0)} thousand draws a second`;
  if (other.status !== 0) {
    print(`${own}; NumPy is not installed (Debian: python3-numpy), nothing to compare with`);
    return;
  }
  const found = JSON.parse(other.stdout) as { readonly seconds: number; readonly sum: number; readonly least: number };
  if (!(Math.abs(found.sum - sum) < 1e-6 * Math.abs(sum) && Math.abs(found.least - least) < 1e-9))
    throw new Error(`the two reduced models differ: ${sum}, ${least} and ${found.sum}, ${found.least}`);
  print(
    `${own}; NumPy, all at once: ${(draws / found.seconds / 1000).toFixed(0)} thousand; ratio ${(found.seconds / seconds).toFixed(2)}`,
  );
}

function leasts(values: readonly (readonly number[])[]): { readonly sum: number; readonly least: number } {
  const { gaps, overhang, guide, slot, bore, softening, pullNear } = reduced;
  const near = Math.log(softening);
  const logNear = Math.log(pullNear);
  let sum = 0;
  let least = Infinity;
  for (const [x, y, stroke, run, noFuel, atRun, atNoFuel, pullFar] of values) {
    const far = Math.log(stroke + softening);
    const logFar = Math.log(pullFar);
    let worst = Infinity;
    for (let i = 0; i < gaps; i++) {
      const gap = (i / (gaps - 1)) * stroke;
      const pinX = x + gap;
      const radius = Math.sqrt(pinX * pinX + y * y);
      const lever = Math.abs(y);
      const share = (Math.atan2(y, pinX) - run) / (noFuel - run);
      const normal = (atRun + share * (atNoFuel - atRun)) / radius;
      const tilt = Math.abs(pinX) / lever;
      const factor = 1 + (2 * (overhang + gap)) / (guide - gap);
      const needed = ((normal * lever) / radius) * (1 + slot * tilt + bore * factor * Math.abs(tilt - slot));
      const at = (Math.log(gap + softening) - near) / (far - near);
      worst = Math.min(worst, Math.exp(logNear + at * (logFar - logNear)) / needed - 1);
    }
    sum += worst;
    least = Math.min(least, worst);
  }
  return { sum, least };
}
