/**
 * One pull-in in time: the reference transient, current and motion for 0.12 s; and beside it the same problem by SciPy's
 * solve_ivp at equal accuracy, with our co-energy surface in plain Python and with SciPy's own compiled splines. Accuracy is
 * the greatest relative error of the landing time over nine source volts: on one course alone errors cancel by chance; ours
 * is held against the same surface followed by SciPy's DOP853 at 1e-11, theirs against their own magnet followed so. The
 * magnet is made once on both sides and not timed. Neither side keeps a trace. Times are processor time on both sides.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { motion, type Motion, type MotionRequest } from '../src/physics/motion/motion.ts';
import { printedSurface, referenceRequest, transient } from '../test/published/motion-reference.ts';

const GOAL_MS = 2;
const GOAL_RATIO = 200;

const VOLTS = [22, 22.5, 23, 23.5, 24, 24.5, 25, 25.5, 26];
/** Errors of the landing time at which seconds are compared; a tolerance of 1e-6 leaves the middle one on either side. */
const ERRORS = [1e-5, 3e-6, 1e-6];

interface Run {
  readonly tolerance: number;
  /** Of one course. */
  readonly seconds: number;
  /** Greatest relative error of the landing time over the volts. */
  readonly error: number;
}

interface OtherRun extends Run {
  readonly magnet: string;
  readonly evaluations: number;
  /** Landing at each of the volts, by DOP853 at 1e-11. */
  readonly truth: readonly number[];
}

export async function bench(print: (line: string) => void): Promise<void> {
  const surface = printedSurface();
  const request = referenceRequest(surface);
  const untraced = { ...request, tracePoints: 0 };
  const at = (volts: number, tolerance: number): number =>
    landing(motion({ ...untraced, circuit: { ...request.circuit, source: volts }, tolerance }));
  const others = generalProgram(request, surface);
  const ownTruth = VOLTS.map((volts) => at(volts, 1e-10));
  const truth = others?.find(({ magnet }) => magnet === 'same surface')?.truth ?? ownTruth;
  const ours = [1e-5, 1e-6, 1e-7, 1e-8].map((tolerance): Run => ({
    tolerance,
    seconds: median(() => motion({ ...untraced, tolerance })),
    error: Math.max(...VOLTS.map((volts, k) => Math.abs(at(volts, tolerance) / (truth[k] ?? NaN) - 1))),
  }));
  const traced = median(() => motion(request));
  const found = motion(request);
  print(
    `pull-in of the reference at 1e-6 with a trace of ${found.trace.time.length} points: ${(1000 * traced).toFixed(2)} ms `
      + `(goal under ${GOAL_MS}), energy within ${found.energy.imbalance.toExponential(1)}`,
  );
  for (const { tolerance, seconds, error } of ours)
    print(
      `without its trace at ${tolerance}: ${(1000 * seconds).toFixed(2)} ms, landing within ${error.toExponential(1)}`,
    );
  if (others === undefined) {
    print('SciPy is not installed (Debian: python3-scipy); nothing to compare with');
    return;
  }
  for (const name of new Set(others.map(({ magnet }) => magnet))) {
    const runs = others.filter(({ magnet }) => magnet === name);
    for (const { tolerance, seconds, error, evaluations } of runs)
      print(
        `SciPy solve_ivp RK45, ${name}, at ${tolerance}: ${(1000 * seconds).toFixed(1)} ms, ${evaluations} evaluations, `
          + `landing within ${error.toExponential(1)}`,
      );
    const ratios = ERRORS.map((error) => secondsFor(error, runs) / secondsFor(error, ours));
    const inWords = ratios.map((ratio, k) => `${ratio.toFixed(0)} at ${ERRORS[k]}`);
    print(
      `${name}: for a landing time this exact it takes times as long as ours: ${inWords.join(', ')} `
        + `(goal ${GOAL_RATIO} at ${ERRORS[1]}, what a tolerance of 1e-6 leaves: ${(ratios[1] ?? NaN) >= GOAL_RATIO ? 'met' : 'missed'})`,
    );
  }
}

/**
 * Seconds for an error, on the straight line through logarithms of seconds and error that fits all runs of one side: a single
 * run's error is partly luck.
 */
function secondsFor(error: number, runs: readonly Run[]): number {
  const points = runs.map((run) => [Math.log(run.error), Math.log(run.seconds)] as const);
  const mean = (of: (point: readonly [number, number]) => number): number =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const [x, y] = [mean(([a]) => a), mean(([, b]) => b)];
  const slope = mean(([a, b]) => (a - x) * (b - y)) / mean(([a]) => (a - x) ** 2);
  return Math.exp(y + slope * (Math.log(error) - x));
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
