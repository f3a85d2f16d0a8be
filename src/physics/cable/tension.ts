/**
 * Tension of a core along its conduit, while it moves.
 *
 *     dT/ds = w t_z ± μ |T κ n + w g⊥|
 *
 * T tension (a push is below zero), s along the walk, w weight for each metre, t and n the direction of the run and that to
 * the centre of the bend, κ its curvature, g⊥ the part of gravity square to the run; + where the core moves with the walk. In a
 * bend without weight that is the rope on a drum, T₂ = T₁ exp(±μφ) [1]: it holds for a core that is pulled and lies on the
 * inside, and for one that is pushed and lies on the outside. Drags that do not depend on the tension (a seal, stiffness) are
 * added where they act and carried on through the bends that follow.
 *
 * A core that is pushed along a straight lies down in the conduit as a helix once the push exceeds 2√(2 E I w⊥/r) [3], r the
 * radial clearance, and then presses on its wall with r P²/(4 E I) for each metre [2]: friction grows with the square of the
 * push, and beyond a certain length nothing gets through. In bends, which hold it against the outside, that is left out.
 *
 * Bends are walked in steps of at most 15°, 3° where the weight counts: with y = T exp(∓μφ) the rates hold nothing but weight, so that without weight
 * the result is exact, and with it the method of Runge and Kutta of order 4 is far closer than any reading.
 *
 * Left out: friction that differs at rest and in motion, force that bends a stiff core (a drag), the flow of lubricant.
 *
 * [1] F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, 9th ed., 8.10
 * [2] A. Lubinski, W. S. Althouse, J. L. Logan, Helical buckling of tubing sealed in packers, J. Petroleum Technology 14 (1962) 655
 * [3] Y.-C. Chen, Y.-H. Lin, J. B. Cheatham, Tubing and casing buckling in horizontal wells, J. Petroleum Technology 42 (1990) 140
 */
import { DomainError } from '../domain-error.ts';
import type { Piece } from './route.ts';

export interface Sliding {
  readonly friction: number;
  /** N/m */
  readonly weight: number;
  /** N m² */
  readonly bendingStiffness: number;
  /** Between core and conduit all round, m. */
  readonly radialClearance: number;
}

/** A resistance that does not depend on the tension. */
export interface Drag {
  /** From the start of the walk, m. */
  readonly at: number;
  /** N */
  readonly force: number;
}

export interface TensionPoint {
  /** From the start of the walk, m. */
  readonly distance: number;
  /** N; a push is below zero. */
  readonly tension: number;
  /** Index of the piece that ends or begins here. */
  readonly piece: number;
}

export interface Walk {
  /** At the far end, N; minus infinity where no push gets through. */
  readonly tension: number;
  /** ∫ T ds, N m: over E A it is the stretch. */
  readonly integral: number;
  /** Every place at which it was reckoned, both ends included. */
  readonly profile: readonly TensionPoint[];
  /** Where a push gets stuck, m from the start; null where it does not. */
  readonly stuckAt: number | null;
}

/** Whether the core moves the way of the walk. */
export type Motion = 'with the walk' | 'against the walk';

/** Longest step in a bend, rad; most growth in a step where the core lies as a helix, and its least share of the straight. */
const STEP = Math.PI / 12;
const GROWTH = 0.02;
const LEAST = 1 / 2000;
/** A push beyond this has got stuck, N. */
const STUCK = 1e7;

/**
 * @param start tension where the walk begins, N
 * @param told  'ends alone' leaves the profile empty: for searches, that walk some hundred times
 * @throws DomainError SW-D092 friction, weight, clearance or stiffness below zero or not finite, a start that is not finite
 */
export function walkTension(
  pieces: readonly Piece[],
  sliding: Sliding,
  motion: Motion,
  start: number,
  drags: readonly Drag[] = [],
  told: 'whole profile' | 'ends alone' = 'whole profile',
): Walk {
  requireMeaning(sliding, start, drags);
  const way = motion === 'with the walk' ? 1 : -1;
  const walker = new Walker(sliding, way, start, drags, told === 'whole profile');
  pieces.forEach((piece, i) => walker.through(piece, i));
  return walker.end();
}

function requireMeaning(sliding: Sliding, start: number, drags: readonly Drag[]): void {
  const { friction, weight, bendingStiffness, radialClearance } = sliding;
  const sum = friction + weight + bendingStiffness + radialClearance;
  if (!(friction >= 0 && weight >= 0 && bendingStiffness >= 0 && radialClearance >= 0 && sum < Infinity)) {
    const values = `friction ${friction}, weight ${weight}, stiffness ${bendingStiffness}, clearance ${radialClearance}`;
    throw new DomainError('SW-D092', `a core must not have ${values}`);
  }
  if (!Number.isFinite(start)) throw new DomainError('SW-D092', `a walk must not begin with a tension of ${start}`);
  for (const { at, force } of drags) {
    if (!(at >= 0 && force >= 0 && force < Infinity))
      throw new DomainError('SW-D092', `a drag of ${force} N at ${at} m has no meaning`);
  }
}

class Walker {
  private tension: number;
  private integral = 0;
  private distance = 0;
  private stuckAt: number | null = null;
  private lastPiece = 0;
  private readonly profile: TensionPoint[];
  private readonly waiting: Drag[];
  private readonly sliding: Sliding;
  private readonly way: 1 | -1;

  private readonly isTold: boolean;

  constructor(sliding: Sliding, way: 1 | -1, start: number, drags: readonly Drag[], isTold: boolean) {
    this.sliding = sliding;
    this.way = way;
    this.tension = start;
    this.isTold = isTold;
    this.profile = isTold ? [{ distance: 0, tension: start, piece: 0 }] : [];
    this.waiting = [...drags].sort((a, b) => a.at - b.at);
    this.takeDrags(0, 0);
  }

  end(): Walk {
    // A drag that stands at or beyond the far end.
    this.takeDrags(Infinity, this.lastPiece);
    const { tension, integral, profile, stuckAt } = this;
    return { tension, integral, profile, stuckAt };
  }

  through(piece: Piece, index: number): void {
    this.lastPiece = index;
    const from = this.distance;
    let done = 0;
    while (done < piece.length && this.stuckAt === null) {
      const drag = this.waiting[0];
      const to = drag !== undefined && drag.at < from + piece.length ? drag.at - from : piece.length;
      if (to > done) this.stretchOf(piece, index, done, to);
      done = to;
      this.distance = from + to;
      this.takeDrags(this.distance, index);
    }
    if (this.stuckAt !== null) this.distance = from + piece.length;
  }

  private takeDrags(upTo: number, piece: number): void {
    while (this.waiting.length > 0 && this.waiting[0].at <= upTo) {
      this.tension += this.way * this.waiting[0].force;
      this.waiting.shift();
      if (this.isTold) this.profile.push({ distance: this.distance, tension: this.tension, piece });
    }
  }

  private stretchOf(piece: Piece, index: number, from: number, to: number): void {
    if (piece.kind === 'bend') this.bend(piece, index, from, to);
    else this.straight(piece, index, to - from);
  }

  private keep(distance: number, tension: number, integral: number, piece: number): void {
    this.distance = distance;
    this.tension = tension;
    this.integral += integral;
    if (this.isTold) this.profile.push({ distance, tension, piece });
  }

  private bend(bend: Piece, index: number, from: number, to: number): void {
    const { radius, angle, length } = bend;
    const { friction, weight } = this.sliding;
    const first = (from / length) * angle;
    const last = (to / length) * angle;
    // Where the core hardly presses on its wall the rate has a corner.
    const step = Math.abs(this.tension) > 20 * radius * weight ? STEP : STEP / 5;
    const steps = Math.max(1, Math.ceil((last - first) / step));
    const h = (last - first) / steps;
    for (let i = 0; i < steps; i++) {
      const sign: 1 | -1 = this.tension < 0 ? -1 : 1;
      const exponent = this.way * friction * sign;
      const phi = first + i * h;
      const half = Math.exp((exponent * h) / 2);
      const whole = half * half;
      const y0 = this.tension;
      const k1 = this.beyondRope(bend, sign, phi, y0);
      const k2 = this.beyondRope(bend, sign, phi + h / 2, (y0 + (h / 2) * k1) * half) / half;
      const k3 = this.beyondRope(bend, sign, phi + h / 2, (y0 + (h / 2) * k2) * half) / half;
      const k4 = this.beyondRope(bend, sign, phi + h, (y0 + h * k3) * whole) / whole;
      const next = (y0 + (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4)) * whole;
      const rate = exponent * next + this.beyondRope(bend, sign, phi + h, next);
      this.keep(this.distance + h * radius, next, radius * hermite(y0, next, exponent * y0 + k1, rate, h), index);
    }
  }

  /** Rate of T for a radian of a bend, beyond that of the rope without weight. */
  private beyondRope({ radius, tangentZ, normalZ }: Piece, sign: 1 | -1, phi: number, tension: number): number {
    const { friction, weight } = this.sliding;
    if (weight === 0) return 0;
    const heavy = radius * weight;
    const c = Math.cos(phi);
    const s = Math.sin(phi);
    // Gravity square to the plane of the bend, and in it towards the centre.
    const aside = heavy * heavy * Math.max(0, 1 - tangentZ * tangentZ - normalZ * normalZ);
    const inwards = tension - heavy * (normalZ * c - tangentZ * s);
    const pressed = Math.sqrt(inwards * inwards + aside);
    return heavy * (tangentZ * c + normalZ * s) + this.way * friction * (pressed - sign * tension);
  }

  private straight({ tangentZ }: Piece, index: number, length: number): void {
    const { friction, weight, bendingStiffness: EI, radialClearance: r } = this.sliding;
    const across = weight * Math.sqrt(Math.max(0, 1 - tangentZ ** 2));
    const steady = weight * tangentZ + this.way * friction * across;
    const helix = EI > 0 && r > 0 ? (this.way * friction * r) / (4 * EI) : 0;
    const onset = helix === 0 ? Infinity : 2 * Math.SQRT2 * Math.sqrt((EI * across) / r);
    let left = length;
    while (left > 0) {
      const T = this.tension;
      // On the very edge the sign of the steady rate decides on which side it goes on.
      const lies = T < -onset || (T === -onset && steady < 0);
      if (!lies) {
        const edge = T > -onset && steady < 0 ? (-onset - T) / steady : Infinity;
        const h = Math.min(left, edge);
        const next = h === edge ? -onset : T + steady * h;
        this.keep(this.distance + h, next, ((T + next) / 2) * h, index);
        left -= h;
        continue;
      }
      const h = Math.min(
        left,
        length / 8,
        Math.max(LEAST * length, (GROWTH * Math.abs(T)) / Math.abs(steady + helix * T * T)),
      );
      const k1 = steady + helix * T ** 2;
      const k2 = steady + helix * (T + (h / 2) * k1) ** 2;
      const k3 = steady + helix * (T + (h / 2) * k2) ** 2;
      const k4 = steady + helix * (T + h * k3) ** 2;
      const next = T + (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
      if (next < -STUCK) {
        this.stuckAt = this.distance;
        this.tension = -Infinity;
        this.integral = -Infinity;
        return;
      }
      if (next > -onset && T < -onset) {
        // Out of the helix within this step: cut it there, by the mean slope.
        const cut = Math.max((h * (-onset - T)) / (next - T), 1e-12 * length);
        this.keep(this.distance + cut, -onset * (1 - 1e-12), ((T - onset) / 2) * cut, index);
        left -= cut;
        continue;
      }
      this.keep(this.distance + h, next, hermite(T, next, k1, steady + helix * next ** 2, h), index);
      left -= h;
    }
  }
}

/** ∫ of the cubic with these ends and slopes over a step h. */
function hermite(a: number, b: number, slopeA: number, slopeB: number, h: number): number {
  return ((a + b) / 2) * h + ((slopeA - slopeB) * h * h) / 12;
}
