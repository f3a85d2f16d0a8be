/**
 * From the bench to the force curve with its band: what a worker runs. The maps are the slow part, made once for a
 * solenoid (`trimSteps`, kept under `trimKey`); a curve at any volts and temperature then takes milliseconds.
 *
 * Everything that comes out is plain data and passes between threads.
 */
import { fieldKey } from '../../physics/solenoid/field-key.ts';
import { fitTrim, forceWithScores, type Trim, type TrimDrive } from '../../physics/solenoid/trim.ts';
import { nextReading, type PossibleReading, trimmedForce } from '../../physics/solenoid/trim-curve.ts';
import { judgeReadings } from '../../physics/solenoid/trim-judgement.ts';
import { trimMapSteps, type TrimMaps, type TrimProgress } from '../../physics/solenoid/trim-maps.ts';
import { TRIM_UNKNOWNS, type TrimUnknown, trimValues } from '../../physics/solenoid/trim-unknowns.ts';
import { ampereTurnsOf, type BenchDrive, type SolenoidBench } from './bench.ts';
import { contradictionWords } from './words.ts';

export interface TrimmedCurve {
  readonly ok: true;
  readonly ampereTurns: number;
  /** Arrays over the gap from home outwards. */
  readonly gap_mm: readonly number[];
  readonly force_N: readonly number[];
  readonly low95_N: readonly number[];
  readonly high95_N: readonly number[];
  readonly fluxLinkagePerTurn_Wb: readonly number[];
  /** The same without any pull: what the dimensions alone say. */
  readonly untrimmed_N: readonly number[];
  readonly readings: readonly CurveReading[];
  readonly unknowns: readonly FittedUnknown[];
  /** The reading that would narrow the band most; null where pulls contradict: then the one named is read again first. */
  readonly next: CurveNextReading | null;
  /** In words, worst first; empty where the pulls agree with the dimensions and each other. */
  readonly contradictions: readonly string[];
  /** What the band was widened by because they do not; 1 where they do. */
  readonly widened: number;
  /** False: the fit did not settle; say so beside the curve. */
  readonly converged: boolean;
}

export interface CurveReading {
  readonly path: string;
  readonly gap_mm: number;
  readonly pull_N: number;
  readonly ampereTurns: number;
  /** What the dimensions and the other pulls lead to expect there, and by how many standard deviations it differs. */
  readonly expected_N: number;
  readonly score: number;
  /** The pull carried over to the drive of this curve by the fitted solenoid, so that it can stand as a point beside it. */
  readonly pullAtDrive_N: number;
}

export interface FittedUnknown {
  readonly name: TrimUnknown;
  /** Factors on what was read, or metres: before and after the pulls, with the ends of 95 %. */
  readonly unit: 'factor' | 'm';
  readonly before: readonly [low: number, middle: number, high: number];
  readonly after: readonly [low: number, middle: number, high: number];
}

export interface CurveNextReading {
  readonly gap_mm: number;
  readonly drive: BenchDrive;
  readonly expected_N: number;
  /** Mean half-width of the band as a share of the force, now and after that reading. */
  readonly bandNow: number;
  readonly bandAfter: number;
}

export type CurveAnswer = TrimmedCurve | { readonly ok: false; readonly words: string };

/** Why there can be no maps for this bench, or null. */
export function whyNoMaps(bench: SolenoidBench): string | null {
  if (bench.problems.length > 0) return `the parts do not fit each other: ${bench.problems[0].problem}`;
  if (bench.dimensions === null) return `not measured: ${bench.missing.map(({ path }) => path).join(', ')}`;
  if (bench.stroke === null) return 'not measured: plunger.stroke';
  return null;
}

function request({ stroke, readings, mostAmpereTurns }: SolenoidBench): { stroke: number; mostAmpereTurns: number } {
  return { stroke: Math.max(stroke!, ...readings.map(({ gap }) => gap)), mostAmpereTurns: mostAmpereTurns! };
}

/** Solves the maps of a bench that has none of `whyNoMaps`; progress at every gap. */
export function trimSteps(bench: SolenoidBench): Generator<TrimProgress, TrimMaps> {
  return trimMapSteps(bench.dimensions!, bench.steel, bench.priors, request(bench));
}

/** The key under which the maps of a bench may be kept: equal for equal inputs, whatever else the document says. */
export function trimKey(bench: SolenoidBench): string {
  const { fluxDensity, fieldStrength } = bench.steel;
  // The middle of the residual gap and all spreads say where the maps stand.
  return fieldKey({
    what: 'trim maps',
    dimensions: bench.dimensions,
    steel: { fluxDensity, fieldStrength },
    priors: bench.priors,
    request: request(bench),
  });
}

/** Gaps of a curve, m: closer together near home, where the force climbs. */
export function curveGaps(stroke: number, count = 41): number[] {
  return Array.from({ length: count }, (_, i) => stroke * (i / (count - 1)) ** 1.7);
}

/** The force curve of a bench at one drive, with its band, the readings beside it, and what to read next. */
export function trimmedCurve(bench: SolenoidBench, maps: TrimMaps, drive: BenchDrive): CurveAnswer {
  const at = ampereTurnsOf(bench.winding, drive);
  if (at === null)
    return {
      ok: false,
      words: 'the turns or the ohms of the coil are not known, so volts and amps say nothing of the pull',
    };
  if (!(at.ampereTurns > 0)) return { ok: false, words: 'the drive must be above zero' };
  const most = bench.mostAmpereTurns!;
  if (at.ampereTurns > most * (1 + 1e-9))
    return {
      ok: false,
      words: `${Math.round(at.ampereTurns)} ampere-turns are more than the maps were made for (${Math.round(most)})`,
    };
  const trim = fitTrim(maps, bench.priors, bench.readings);
  const judgement = judgeReadings(trim);
  const gaps = curveGaps(bench.stroke!);
  const curve = trimmedForce(trim, gaps, at, judgement.widen);
  const untrimmed = new Float64Array(TRIM_UNKNOWNS.length);
  return {
    ok: true,
    ampereTurns: at.ampereTurns,
    gap_mm: gaps.map((gap) => gap * 1e3),
    force_N: curve.map(({ force }) => force),
    low95_N: curve.map(({ low95 }) => low95),
    high95_N: curve.map(({ high95 }) => high95),
    fluxLinkagePerTurn_Wb: curve.map(({ fluxLinkage }) => fluxLinkage),
    untrimmed_N: gaps.map((gap) => forceWithScores(maps, bench.priors, untrimmed, gap, at).force),
    readings: bench.readings.map((reading, i): CurveReading => {
      const [here, there] = [reading, at].map(
        (one) => forceWithScores(maps, bench.priors, trim.scores, reading.gap, one).force,
      );
      return {
        path: reading.path,
        gap_mm: reading.gap * 1e3,
        pull_N: reading.pull,
        ampereTurns: reading.ampereTurns,
        expected_N: judgement.readings[i].expected,
        score: judgement.readings[i].score,
        pullAtDrive_N: (reading.pull * there) / here,
      };
    }),
    unknowns: TRIM_UNKNOWNS.map((name, k) => fittedUnknown(trim, name, k)),
    next: judgement.agree ? whatNext(bench, trim, drive, at) : null,
    contradictions: contradictionWords(judgement, bench.readings),
    widened: judgement.widen,
    converged: trim.converged,
  };
}

const VALUE_OF = [
  'turnsFactor',
  'residualGap',
  'clearanceFactor',
  'saturation',
  'fieldStrength',
  'faceOffset',
] as const;

function fittedUnknown(trim: Trim, name: TrimUnknown, k: number): FittedUnknown {
  const { priors, scores, covariance } = trim;
  const value = (score: number): number => {
    const z = new Float64Array(scores.length);
    z[k] = score;
    return trimValues(priors, z)[VALUE_OF[k]];
  };
  const spread = Math.sqrt(covariance[k * scores.length + k]);
  return {
    name,
    unit: name === 'residual gap' || name === 'seat face height' ? 'm' : 'factor',
    before: [value(-2), value(0), value(2)],
    after: [value(scores[k] - 2 * spread), value(scores[k]), value(scores[k] + 2 * spread)],
  };
}

/** Places worth a reading, as shares of the stroke and of the drive. */
const GAP_SHARES = [0, 0.05, 0.12, 0.25, 0.45, 0.7, 1];
const DRIVE_SHARES = [0.35, 0.6, 1];

function whatNext(bench: SolenoidBench, trim: Trim, drive: BenchDrive, at: TrimDrive): CurveNextReading | null {
  const stroke = bench.stroke!;
  const possible = GAP_SHARES.flatMap((gapShare) =>
    DRIVE_SHARES.map((share): PossibleReading & { share: number } => ({
      share,
      gap: gapShare * stroke,
      ampereTurns: share * at.ampereTurns,
      byTurns: at.byTurns,
      gapSpread: gapShare === 0 ? 0 : 0.05e-3,
      driveSpread: 0.01,
      balance: { share: 0.02, amount: 0.2 },
    })),
  );
  const next = nextReading(
    trim,
    possible,
    curveGaps(stroke, 9).map((gap) => ({ gap, drive: at })),
  );
  if (next === null) return null;
  const share = next.drive.ampereTurns / at.ampereTurns;
  return {
    gap_mm: next.gap * 1e3,
    drive: shareOf(drive, share),
    expected_N: next.expectedPull,
    bandNow: next.bandNow,
    bandAfter: next.bandAfter,
  };
}

function shareOf(drive: BenchDrive, share: number): BenchDrive {
  if (drive.by === 'voltage') return { ...drive, voltage: share * drive.voltage };
  if (drive.by === 'current') return { ...drive, current: share * drive.current };
  return { ...drive, ampereTurns: share * drive.ampereTurns };
}
