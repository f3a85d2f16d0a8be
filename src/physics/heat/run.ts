/** What a run of heating shows, gathered one accepted step after another. */
import { findRoot } from '../../numerics/roots.ts';
import { meanLimit, THERMAL_CLASSES, type ThermalClass } from '../thermal-class.ts';
import type { CoilBody } from './coil-body.ts';
import { coilHeat } from './coil-power.ts';
import { between, heatToAirAndWalls, type Scene, type State, type Temperatures } from './nodes.ts';
import { CEILING } from './stages.ts';

export interface Peak {
  readonly temperature: number;
  readonly time: number;
}

/** Seconds from the start, temperatures in K. */
export interface HeatingRun {
  /** When the mean of the winding first passes each class less the allowance; null if it does not during the run. */
  readonly passed: readonly { readonly thermalClass: ThermalClass; readonly time: number | null }[];
  readonly trace: {
    readonly time: readonly number[];
    readonly winding: readonly number[];
    readonly can: readonly number[];
  };
  readonly end: Temperatures & { readonly time: number };
  readonly greatest: { readonly winding: Peak; readonly can: Peak };
  /** `ceiling`: the winding passed 300 °C and the run was broken off there. */
  readonly ended: 'duration' | 'ceiling';
  /** Joules. Each is integrated by itself along the curve, so the rest says how good the curve is. */
  readonly energy: {
    readonly made: number;
    readonly stored: number;
    readonly toAirAndWalls: number;
    readonly toBracket: number;
    /** made - stored - lost. */
    readonly rest: number;
  };
  readonly steps: number;
}

/** Gathers what a run shows, one accepted step after another. */
export class RunRecord {
  ended: 'duration' | 'ceiling' = 'duration';
  private readonly body: CoilBody;
  private readonly limits: readonly number[];
  private readonly passed: (number | null)[];
  private readonly start: Temperatures;
  private end: Temperatures & { time: number };
  private readonly time: number[];
  private readonly winding: number[];
  private readonly can: number[];
  private hottestWinding: Peak;
  private hottestCan: Peak;
  private made = 0;
  private toAirAndWalls = 0;
  private toBracket = 0;
  private steps = 0;

  constructor(body: CoilBody, start: Temperatures, allowance: number) {
    this.body = body;
    this.limits = THERMAL_CLASSES.map(({ celsius }) => meanLimit(celsius, allowance));
    this.passed = this.limits.map((limit) => (start.winding >= limit ? 0 : null));
    this.start = start;
    this.end = { ...start, time: 0 };
    this.time = [0];
    this.winding = [start.winding];
    this.can = [start.can];
    this.hottestWinding = { temperature: start.winding, time: 0 };
    this.hottestCan = { temperature: start.can, time: 0 };
  }

  /** False when the ceiling is reached. */
  add(scene: Scene, began: number, from: State, to: State): boolean {
    this.steps++;
    const h = to.time - from.time;
    const top = highest(from, to, 'winding');
    const summit = between(from, to, 'winding', top);
    /** Where in the step the rising winding is at a temperature that its summit reaches. */
    const reaching = (limit: number): number =>
      findRoot((x) => between(from, to, 'winding', x) - limit, 0, top, 1e-9).at;
    this.limits.forEach((limit, i) => {
      if (this.passed[i] === null && summit >= limit) this.passed[i] = began + from.time + h * reaching(limit);
    });
    const tooHot = summit >= CEILING;
    const share = tooHot ? reaching(CEILING) : 1;
    this.integrate(scene, from, to, share);
    // Points between, where a long step bends: a curve of some hundred points in all.
    const change = Math.max(Math.abs(to.winding - from.winding), Math.abs(to.can - from.can));
    const points = Math.min(24, 1 + Math.floor(change / 0.4));
    for (let i = 1; i <= points; i++) {
      const x = (share * i) / points;
      this.time.push(began + from.time + x * h);
      this.winding.push(between(from, to, 'winding', x));
      this.can.push(between(from, to, 'can', x));
    }
    const last = this.time.length - 1;
    this.end = { time: this.time[last], winding: this.winding[last], can: this.can[last] };
    const hotter = (peak: Peak, node: keyof Temperatures, x: number): Peak => {
      const temperature = between(from, to, node, x);
      return temperature > peak.temperature ? { temperature, time: began + from.time + x * h } : peak;
    };
    this.hottestWinding = hotter(this.hottestWinding, 'winding', Math.min(share, top));
    this.hottestCan = hotter(this.hottestCan, 'can', Math.min(share, highest(from, to, 'can')));
    if (tooHot) this.ended = 'ceiling';
    return !tooHot;
  }

  /** Heat by Simpson's rule along the cubic of the step, apart from the balances that made it. */
  private integrate(scene: Scene, from: State, to: State, share: number): void {
    const { body, power, surroundings, bracketSlope } = scene;
    const h = (to.time - from.time) * share;
    for (const [x, weight] of [
      [0, h / 6],
      [share / 2, (4 * h) / 6],
      [share, h / 6],
    ]) {
      const can = between(from, to, 'can', x);
      const bracket = surroundings.bracket + bracketSlope * (from.time + x * (to.time - from.time));
      const lost = x === 0 ? from.lost : x === 1 ? to.lost : heatToAirAndWalls(body, surroundings, can);
      this.made += weight * coilHeat(power, between(from, to, 'winding', x));
      this.toAirAndWalls += weight * lost;
      this.toBracket += weight * body.canToBracket * (can - bracket);
    }
  }

  result(): HeatingRun {
    const { made, toAirAndWalls, toBracket, start, end } = this;
    const { windingHeatCapacity: Cw, canHeatCapacity: Cc } = this.body;
    const stored = Cw * (end.winding - start.winding) + Cc * (end.can - start.can);
    return {
      passed: THERMAL_CLASSES.map(({ celsius }, i) => ({ thermalClass: celsius, time: this.passed[i] })),
      trace: { time: this.time, winding: this.winding, can: this.can },
      end,
      greatest: { winding: this.hottestWinding, can: this.hottestCan },
      ended: this.ended,
      energy: { made, stored, toAirAndWalls, toBracket, rest: made - stored - toAirAndWalls - toBracket },
      steps: this.steps,
    };
  }
}

/** Where in a step, 0 to 1, the cubic of a node is highest: where it turns, or at an end. */
function highest(from: State, to: State, node: keyof Temperatures): number {
  const slope = node === 'winding' ? 'windingSlope' : 'canSlope';
  if (!(from[slope] > 0 && to[slope] < 0)) return to[node] >= from[node] ? 1 : 0;
  const h = to.time - from.time;
  const [m, n, rise] = [from[slope] * h, to[slope] * h, to[node] - from[node]];
  // Where the slope of the cubic, m + 2 (3 rise - 2 m - n) x + 3 (m + n - 2 rise) x², is zero.
  return findRoot((x) => m + x * (2 * (3 * rise - 2 * m - n) + 3 * x * (m + n - 2 * rise)), 0, 1, 1e-9).at;
}
