/**
 * The stroke of an air cylinder in time: air flows in and out, the piston moves when it must.
 *
 *     κ-balance of a chamber (adiabatic):  V p' = κ R (T_in ṁ_in - T ṁ_out) - κ p V',   m' = ṁ_in - ṁ_out
 *     at one temperature (isothermal):     V p' = R T (ṁ_in - ṁ_out) - p V'
 *     piston:                              g' = -v,   m v' = F - P + ½ (dm/dg) v²
 *
 * F = p A of the chamber that drives home, above atmosphere, less the other; P the load of the direction of motion with the
 * friction of the seals. Adiabatic is an air cylinder that works in an instant, isothermal one that takes its time: at one
 * temperature pressures rise and fall more slowly, so that a stop takes longest; adiabatic it lands hardest. Truth lies
 * between. [1]
 *
 * The chamber that no air is let into stands open to the air around. Landing is without rebound. Left out: waves in the
 * pipe (a share of its volume counts with the cylinder's, its resistance with the valve's, and the time in which a wave
 * runs through it is for the caller to add), cushions, leaks.
 *
 * [1] E. Richer, Y. Hurmuzlu, A high performance pneumatic force actuator system, J. Dyn. Syst. Meas. Control 122 (2000) 416-425
 */
import { DormandPrince, type OdeReason, type OdeStep } from '../../numerics/ode.ts';
import { findRoot } from '../../numerics/roots.ts';
import { DomainError } from '../domain-error.ts';
import { ATMOSPHERE, massIn } from './gas.ts';
import { MOVING, PistonSystem, RESTING, STATE, STATES, type StrokeAsk } from './piston-system.ts';

export type { Process, StrokeAsk } from './piston-system.ts';

export interface StrokeTrace {
  readonly time_s: readonly number[];
  readonly gap_m: readonly number[];
  readonly speed_m_s: readonly number[];
  /** Above atmosphere, of the chamber that drives home and of the other. */
  readonly home_Pa: readonly number[];
  readonly out_Pa: readonly number[];
}

export interface Stroke {
  /** When it begins to move, and when it arrives, s; null where it does not in the time it is followed. */
  readonly startsAt: number | null;
  readonly arrivesAt: number | null;
  /** Speed at arrival, m/s. */
  readonly landingSpeed: number | null;
  /** Where it stands at the end, m. */
  readonly gapAtEnd: number;
  /** When each mark was passed first, s; null where it was not. */
  readonly passesAt: readonly (number | null)[];
  /** Gauge pressures at the end, Pa. */
  readonly homeAtEnd: number;
  readonly outAtEnd: number;
  /** Air that has come out of the supply, kg. */
  readonly massTaken: number;
  readonly trace: StrokeTrace | null;
  /** 'end' where all went well; else why the integration gave up. */
  readonly ended: OdeReason;
}

/** Speeds well below this need only be known to the tolerance of this, m/s. */
const SPEED_SCALE = 0.1;
const MOST_PHASES = 2000;

/**
 * @throws DomainError SW-D082 a cylinder without meaning
 * @throws DomainError SW-D084 gaps that do not lie within the stroke in their order, a pressure, temperature or duration
 *   without meaning
 * @throws DomainError SW-M071 a load without meaning
 */
export function stroke(ask: StrokeAsk): Stroke {
  check(ask);
  const { way, towards, duration, tolerance = 1e-6, marks = [] } = ask;
  const system = new PistonSystem(ask);
  const absolute = new Float64Array(STATES).fill(Infinity);
  absolute[STATE.gap] = tolerance * ask.cylinder.stroke;
  absolute[STATE.speed] = tolerance * SPEED_SCALE;
  absolute[STATE.home] = absolute[STATE.out] = tolerance * ATMOSPHERE;
  absolute[STATE.homeMass] = absolute[STATE.outMass] =
    tolerance * massIn(ask.cylinder.deadVolume + 1e-9, ATMOSPHERE, ask.temperature);
  const longestChange = new Float64Array(STATES).fill(Infinity);
  longestChange[STATE.gap] = (way.outGap - way.homeGap) / 16;
  const solver = new DormandPrince(system, {
    relativeTolerance: tolerance,
    absoluteTolerance: absolute,
    longestChange,
    mostSteps: 200_000,
  });
  const state = system.begin();
  const points = ask.tracePoints ?? 0;
  const record = points > 0 ? new Record(points, duration) : null;
  const passesAt: (number | null)[] = marks.map(() => null);
  const between = new Float64Array(STATES);
  const watch = (step: OdeStep, before: number) => {
    marks.forEach((mark, i) => {
      const from = before - mark;
      const to = step.end[STATE.gap] - mark;
      if (passesAt[i] !== null || from * to > 0 || from === 0) return;
      const share = findRoot(
        (at) => {
          step.interpolate(at, between);
          return between[STATE.gap] - mark;
        },
        0,
        1,
        1e-9,
      ).at;
      passesAt[i] = step.from + share * (step.to - step.from);
    });
    record?.take(step, between);
  };
  let [time, startsAt, arrivesAt, landingSpeed]: [number, number | null, number | null, number | null] = [
    0,
    null,
    null,
    null,
  ];
  let ended: OdeReason = 'end';
  const aim = towards === 'home' ? 1 : -1;
  for (let phase = 0; time < duration; phase++) {
    if (phase >= MOST_PHASES) {
      ended = 'too many steps';
      break;
    }
    system.settleAt(state);
    let gapBefore = state[STATE.gap];
    solver.forgetStep();
    const result = solver.run(time, duration, state, (step) => {
      watch(step, gapBefore);
      gapBefore = step.end[STATE.gap];
    });
    time = result.time;
    if (result.reason !== 'event') {
      ended = result.reason;
      break;
    }
    const wasMoving = system.direction;
    if (wasMoving === 0) {
      system.direction = result.event === RESTING.home ? 1 : -1;
      if (system.direction === aim) startsAt ??= time;
      continue;
    }
    if (result.event === MOVING.step) {
      system.piece -= wasMoving;
      continue;
    }
    if (result.event === MOVING.stop) {
      state[STATE.gap] = wasMoving > 0 ? way.homeGap : way.outGap;
      if (wasMoving === aim && arrivesAt === null) {
        arrivesAt = time;
        landingSpeed = Math.abs(state[STATE.speed]);
        if (ask.untilArrival === true) break;
      }
    }
    state[STATE.speed] = 0;
    system.direction = 0;
  }
  return {
    startsAt,
    arrivesAt,
    landingSpeed,
    gapAtEnd: state[STATE.gap],
    passesAt,
    homeAtEnd: state[STATE.home] - ATMOSPHERE,
    outAtEnd: state[STATE.out] - ATMOSPHERE,
    massTaken: state[STATE.taken],
    trace: record?.trace() ?? null,
    ended,
  };
}

/** Points of the trace, evenly in time. */
class Record {
  private readonly rows: number[][] = [];
  private readonly points: number;
  private readonly span: number;

  constructor(points: number, span: number) {
    this.points = points;
    this.span = span;
  }

  take(step: OdeStep, between: Float64Array): void {
    for (;;) {
      const time = (this.span * this.rows.length) / (this.points - 1);
      if (this.rows.length >= this.points || time > step.to * (1 + 1e-12)) return;
      step.interpolate(Math.min(1, Math.max(0, (time - step.from) / (step.to - step.from))), between);
      this.rows.push([time, ...between]);
    }
  }

  trace(): StrokeTrace {
    const column = (i: number, less = 0) => this.rows.map((row) => row[i + 1] - less);
    return {
      time_s: this.rows.map(([time]) => time),
      gap_m: column(STATE.gap),
      speed_m_s: column(STATE.speed),
      home_Pa: column(STATE.home, ATMOSPHERE),
      out_Pa: column(STATE.out, ATMOSPHERE),
    };
  }
}

function check({ cylinder, way, supply, temperature, duration }: StrokeAsk): void {
  const { homeGap, outGap } = way;
  if (!(homeGap >= 0 && outGap > homeGap && outGap <= cylinder.stroke * (1 + 1e-9)))
    throw new DomainError('SW-D084', `a piston cannot move from ${outGap} to ${homeGap} m in ${cylinder.stroke} m`);
  if (!(supply >= 0 && supply < Infinity && temperature > 0 && temperature < Infinity && duration > 0))
    throw new DomainError('SW-D084', `${supply} Pa at ${temperature} K for ${duration} s move no piston`);
}
