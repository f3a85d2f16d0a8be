/**
 * One pull-in in time: the reference transient, current and motion for 0.12 s; and beside it the same problem by SciPy's
 * solve_ivp at equal accuracy, with our co-energy surface in plain Python and with SciPy's own compiled splines. Accuracy is
 * the greatest relative error of the landing time over nine source volts: on one course alone errors cancel by chance; ours
 * is held against the same surface followed by SciPy's DOP853 at 1e-11, theirs against their own magnet followed so. Timed is
 * the course up to the landing, with no trace; the magnet is made once on both sides and not timed. Times are processor time
 * on both sides.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { motion, type Motion, type MotionRequest } from '../src/physics/motion/motion.ts';
import { printedSurface, referenceRequest, transient } from '../test/published/motion-reference.ts';

const GOAL_MS = 2;
const GOAL_RATIO = 200;

const VOLTS = [22, 22.5, 23, 23.5, 24, 24.5, 25, 25.5, 26];
/** Errors of the landing time at which seconds are compared, beside the one that ours leaves at its usual tolerance. */
const ERRORS = [1e-5, 3e-6, 1.2e-6];
const USUAL_TOLERANCE = 1e-6;
const METHODS = ['RK45', 'LSODA'];
/** The magnet of the general program that is ours. */
const SAME_PROBLEM = 'same surface';

interface Run {
  readonly tolerance: number;
  /** Of one course. */
  readonly seconds: number;
  /** Greatest relative error of the landing time over the volts. */
  readonly error: number;
}

interface OtherRun extends Run {
  readonly magnet: string;
  readonly method: string;
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
  const truth = others?.find(({ magnet }) => magnet === SAME_PROBLEM)?.truth ?? ownTruth;
  // SciPy's course ends at the landing; ours follows the current on, so it is given no longer than the plunger takes.
  const duration = landing(motion(untraced)) * (1 + 1e-4);
  const ours = [1e-5, USUAL_TOLERANCE, 1e-7, 1e-8].map((tolerance): Run => ({
    tolerance,
    seconds: median(() => motion({ ...untraced, duration, tolerance })),
    error: Math.max(...VOLTS.map((volts, k) => Math.abs(at(volts, tolerance) / (truth[k] ?? NaN) - 1))),
  }));
  const traced = median(() => motion(request));
  const found = motion(request);
  print(
    `pull-in of the reference at 1e-6 with a trace of ${found.trace.time.length} points: ${(1000 * traced).toFixed(2)} ms `
      + `(goal under ${GOAL_MS}), energy within ${found.energy.imbalance.toExponential(1)}`,
  );
  print(`the same on a magnet that no course has used before: ${(1000 * first()).toFixed(2)} ms`);
  for (const { tolerance, seconds, error } of ours)
    print(
      `up to the landing, without its trace, at ${tolerance}: ${(1000 * seconds).toFixed(2)} ms, landing within ${error.toExponential(1)}`,
    );
  if (others === undefined) {
    print('SciPy is not installed (Debian: python3-scipy); nothing to compare with');
    return;
  }
  for (const { magnet, method, tolerance, seconds, error, evaluations } of others)
    print(
      `SciPy solve_ivp ${method}, ${magnet}, at ${tolerance}: ${(1000 * seconds).toFixed(1)} ms, ${evaluations} evaluations, `
        + `landing within ${error.toExponential(1)}`,
    );
  const usual = ours.find(({ tolerance }) => tolerance === USUAL_TOLERANCE)?.error ?? NaN;
  for (const magnet of new Set(others.map((run) => run.magnet))) {
    const ratioOf = (method: string, error: number): number =>
      secondsFor(
        error,
        others.filter((run) => run.magnet === magnet && run.method === method),
      ) / secondsFor(error, ours);
    for (const method of METHODS) {
      const inWords = [...ERRORS, usual].map((error) => {
        const ratio = ratioOf(method, error);
        return `${ratio < Infinity ? ratio.toFixed(0) : 'no run so exact'} at ${error.toExponential(1)}`;
      });
      print(
        `${method}, ${magnet}: for a landing time this exact it takes times as long as ours: ${inWords.join(', ')}`,
      );
    }
    const least = Math.min(...METHODS.map((method) => ratioOf(method, usual)));
    print(
      `${magnet}: against the cheaper method, at what ours leaves at ${USUAL_TOLERANCE}, ${least.toFixed(0)} times `
        + (magnet === SAME_PROBLEM
          ? `(goal ${GOAL_RATIO}: ${least >= GOAL_RATIO ? 'met' : 'missed'})`
          : '(another magnet)'),
    );
  }
}

/**
 * Least seconds for an error: between the two neighbouring runs, on the straight line through logarithms of seconds and error.
 * A run that is neither quicker nor more exact than another does not count. Infinite where no run is as exact.
 */
function secondsFor(error: number, runs: readonly Run[]): number {
  const front = runs
    .filter((run) => !runs.some((other) => other.seconds < run.seconds && other.error <= run.error))
    .sort((a, b) => b.error - a.error);
  const after = front.findIndex((run) => run.error <= error);
  const [coarse, fine] = [front[after - 1], front[after]];
  if (fine === undefined) return Infinity;
  if (coarse === undefined) return fine.seconds;
  const share = Math.log(error / coarse.error) / Math.log(fine.error / coarse.error);
  return coarse.seconds * (fine.seconds / coarse.seconds) ** share;
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
    methods: METHODS,
    tolerances: [1e-4, 1e-5, 1e-6, 1e-7, 1e-8],
  });
  const script = fileURLToPath(new URL('motion-general-program.py', import.meta.url));
  const done = spawnSync('python3', [script], { input, encoding: 'utf8', maxBuffer: 1e8 });
  if (done.status === 0) return JSON.parse(done.stdout) as OtherRun[];
  if (done.error !== undefined || /No module named 'scipy'/.test(done.stderr)) return undefined;
  throw new Error(`SciPy did not solve it: ${done.stderr}`);
}

/** Median seconds of the first course on a magnet; the magnet itself is made outside. */
function first(): number {
  const times = Array.from({ length: 15 }, () => {
    const request = referenceRequest(printedSurface());
    const before = performance.now();
    motion(request);
    return performance.now() - before;
  }).sort((a, b) => a - b);
  return (times[7] ?? NaN) / 1000;
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
