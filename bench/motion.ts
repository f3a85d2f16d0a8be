/**
 * One pull-in in time: the reference transient, current and motion for 0.12 s with its trace; and beside it the same
 * problem, the same co-energy surface, by SciPy's solve_ivp at equal accuracy. Accuracy is the greatest relative error of
 * the landing time over five source volts, against our own at a tolerance of 1e-10: on one course alone errors cancel by
 * chance. Times are processor time on both sides.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { motion, type Motion, type MotionRequest } from '../src/physics/motion/motion.ts';
import { printedSurface, referenceRequest, transient } from '../test/published/motion-reference.ts';

const GOAL_MS = 2;
const GOAL_RATIO = 200;

const VOLTS = [22, 23, 24, 25, 26];

interface OtherRun {
  readonly tolerance: number;
  /** Of one course, and landing times at each of the volts. */
  readonly seconds: number;
  readonly landings: readonly number[];
  readonly evaluations: number;
}

export async function bench(print: (line: string) => void): Promise<void> {
  const surface = printedSurface();
  const request = referenceRequest(surface);
  const at = (volts: number, tolerance: number): number =>
    landing(motion({ ...request, circuit: { ...request.circuit, source: volts }, tolerance }));
  const truth = VOLTS.map((volts) => at(volts, 1e-10));
  const error = (times: readonly number[]): number =>
    Math.max(...times.map((time, k) => Math.abs(time / truth[k] - 1)));
  const ours = error(VOLTS.map((volts) => at(volts, 1e-6)));
  const seconds = median(() => motion(request));
  const found = motion(request);
  const { accepted, rejected } = found.steps;
  print(
    `pull-in of the reference at 1e-6: ${(1000 * seconds).toFixed(2)} ms (goal under ${GOAL_MS}), ${accepted + rejected} steps, `
      + `${found.trace.time.length} points, landing within ${ours.toExponential(1)}, energy within ${found.energy.imbalance.toExponential(1)}`,
  );
  print(`the same without its trace: ${(1000 * median(() => motion({ ...request, tracePoints: 0 }))).toFixed(2)} ms`);
  const others = generalProgram(request, surface);
  if (others === undefined) {
    print('SciPy is not installed (Debian: python3-scipy); nothing to compare with');
    return;
  }
  for (const other of others)
    print(
      `SciPy solve_ivp RK45 at ${other.tolerance}: ${(1000 * other.seconds).toFixed(0)} ms, ${other.evaluations} evaluations, `
        + `landing within ${error(other.landings).toExponential(1)}, ${(other.seconds / seconds).toFixed(0)} times as long`,
    );
  // At equal accuracy: its quickest run that is no worse than ours, or its best.
  const asGood = others.filter(({ landings }) => error(landings) <= ours);
  const quickest = (asGood.length > 0 ? asGood : others.slice(-1)).reduce((a, b) => (a.seconds < b.seconds ? a : b));
  const ratio = quickest.seconds / seconds;
  print(
    `at ${asGood.length > 0 ? 'equal' : 'its best'} accuracy ${ratio.toFixed(0)} times as long (goal ${GOAL_RATIO}): ${ratio >= GOAL_RATIO ? 'met' : 'missed'}`,
  );
}

function landing(found: Motion): number {
  if (found.timeToHome === null || !found.converged) throw new Error(`the reference ended as ${found.outcome}`);
  return found.timeToHome;
}

/** What SciPy takes for the same; undefined where it is not installed. */
function generalProgram(request: MotionRequest, surface: ReturnType<typeof printedSurface>): OtherRun[] | undefined {
  const { parameters } = transient;
  const { load, homeGap, outGap, duration } = request;
  const input = JSON.stringify({
    gaps: [...surface.gaps],
    softening: surface.softening,
    levelUnit: surface.levelUnit,
    curves: surface.curves.map((curve) =>
      Object.fromEntries(Object.entries(curve).map(([name, values]) => [name, [...(values as Float64Array)]])),
    ),
    problem: {
      resistance: parameters.source_and_wiring_ohm + parameters.coil_ohm,
      turns: parameters.turns,
      mass: parameters.moving_mass_kg,
      viscous: load.viscous,
      homeGap,
      outGap,
      loadHome: load.home[0],
      loadOut: load.home[1],
    },
    duration,
    volts: VOLTS,
    tolerances: [1e-4, 1e-5, 1e-6, 1e-7, 1e-8],
  });
  const script = fileURLToPath(new URL('motion-general-program.py', import.meta.url));
  const done = spawnSync('python3', [script], { input, encoding: 'utf8', maxBuffer: 1e8 });
  if (done.status === 0) return JSON.parse(done.stdout) as OtherRun[];
  if (done.error !== undefined || /No module named 'scipy'/.test(done.stderr)) return undefined;
  throw new Error(`SciPy did not solve it: ${done.stderr}`);
}

/** Median processor seconds of a run over batches of twenty: other work on the machine does not count. */
function median(run: () => Motion): number {
  for (const until = performance.now() + 500; performance.now() < until;) run();
  const times = Array.from({ length: 31 }, () => {
    const before = process.cpuUsage();
    for (let k = 0; k < 20; k++) run();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 20;
  }).sort((a, b) => a - b);
  return (times[15] ?? NaN) / 1e6;
}
