import type { OdeOptions, OdeReason, OdeResult, OdeStep, OdeSystem } from './ode-problem.ts';
import { findRoot } from './roots.ts';

export type { OdeOptions, OdeReason, OdeResult, OdeStep, OdeSystem } from './ode-problem.ts';

/** Steps that would have to be shorter than this share of the run are given up. */
const SHORTEST_SHARE = 1e-14;

/**
 * Initial value problem by the explicit Runge-Kutta pair of order 5(4) of Dormand and Prince [1], local extrapolation,
 * control of the step by its error, and the pair's own continuous extension of order 4 [2].
 *
 * Error control: of every entry, error / (absolute + relative × |entry|) is at most 1.
 *
 * Events: when a value is at or above zero where a step begins and below zero where it ends, the fall is located on the
 * continuous extension and the step is taken anew up to there, so that the state at an event is as good as at any step's
 * end. Of several, the earliest ends the run. A value that falls and rises again within one step is not seen. For stiff
 * problems the steps become short; nothing else goes wrong.
 *
 * The object holds its work space: one run at a time.
 *
 * [1] J. R. Dormand, P. J. Prince, A family of embedded Runge-Kutta formulae, J. Comput. Appl. Math. 6 (1980) 19-26
 * [2] E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential Equations I, 2nd ed. (1993), II.4 and II.6
 */
export class DormandPrince implements OdeStep {
  from = 0;
  to = 0;
  private readonly system: OdeSystem;
  private readonly options: OdeOptions;
  /** Entries that the rates depend on. */
  private readonly leading: number;
  private readonly k: readonly Float64Array[];
  private readonly start: Float64Array;
  readonly end: Float64Array;
  private readonly stage: Float64Array;
  private readonly before: Float64Array;
  private readonly after: Float64Array;
  private readonly between: Float64Array;
  /** Length that the next run may begin with; 0 before the first. */
  private promising = 0;

  constructor(system: OdeSystem, options: OdeOptions) {
    const n = system.size;
    this.system = system;
    this.options = options;
    this.leading = n - (system.integrals ?? 0);
    this.k = Array.from({ length: 7 }, () => new Float64Array(n));
    [this.start, this.end, this.stage] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
    const m = system.events;
    [this.before, this.after, this.between] = [new Float64Array(m), new Float64Array(m), new Float64Array(m)];
  }

  /** The next run finds its first step anew: after a jump in the rates the last one says nothing. */
  forgetStep(): void {
    this.promising = 0;
  }

  /**
   * Integrates `state`, in place, from a time to a later one or to the first event. `watch` sees every step taken; right
   * after `rates` was asked at the step's end.
   */
  run(from: number, to: number, state: Float64Array, watch?: (step: OdeStep) => void): OdeResult {
    const { system, options, k, start, end, before, after } = this;
    const { longestStep = Infinity, mostSteps = 20_000 } = options;
    let [time, accepted, rejected, residual] = [from, 0, 0, 0];
    start.set(state);
    system.rates(time, start, k[0]);
    system.eventValues(time, start, before);
    let h = this.promising > 0 ? this.promising : this.firstStep(to - from);
    let isAfterRejection = false;
    const result = (reason: OdeReason, event = -1): OdeResult => {
      state.set(start);
      return { reason, time, event, accepted, rejected, residual };
    };
    while (time < to) {
      if (accepted + rejected >= mostSteps) return result('too many steps');
      h = Math.min(h, longestStep, this.longestByChange());
      const isLast = time + h * (1 + 1e-10) >= to;
      const step = isLast ? to - time : h;
      let length = step;
      let error = this.tryStep(time, step);
      let event = -1;
      if (error <= 1) {
        [this.from, this.to] = [time, time + step];
        system.eventValues(this.to, end, after);
        const fall = this.earliestFall();
        event = fall.which;
        if (event >= 0) {
          length = fall.share * step;
          // The shortened step has to be as good as any.
          error = length > 0 ? this.tryStep(time, length) : 0;
        }
      }
      if (!(error <= 1)) {
        rejected++;
        h = length * (error < Infinity ? Math.max(0.2, 0.9 * error ** -0.2) : 0.1);
        if (h < SHORTEST_SHARE * Math.max(Math.abs(time), to - from)) {
          residual = error;
          return result(Number.isNaN(error) ? 'not a number' : 'step too small');
        }
        isAfterRejection = true;
        continue;
      }
      accepted++;
      residual = Math.max(residual, error);
      if (event >= 0) {
        // What is promising is the length before the cut.
        this.promising = step;
        if (length > 0) {
          time += length;
          this.to = time;
          watch?.(this);
          copy(end, start);
        }
        return result('event', event);
      }
      // A smaller power than order five has, -1/5, smooths the steps and leaves fewer to be taken anew.
      const grown = 0.93 * Math.max(error, 1e-10) ** -0.14;
      const factor = Math.min(isAfterRejection ? 1 : 8, Math.max(0.2, grown));
      isAfterRejection = false;
      time = isLast ? to : time + step;
      this.to = time;
      watch?.(this);
      copy(end, start);
      copy(k[6], k[0]);
      copy(after, before);
      if (!isLast || factor < 1) h = step * factor;
      this.promising = h;
    }
    return result('end');
  }

  /** Takes a step into `end` and k[6], and returns its error as a multiple of what is allowed. */
  private tryStep(time: number, h: number): number {
    const { system, k, start, end, stage } = this;
    const n = system.size;
    const m = this.leading;
    const k1 = k[0];
    const k2 = k[1];
    const k3 = k[2];
    const k4 = k[3];
    const k5 = k[4];
    const k6 = k[5];
    const k7 = k[6];
    const h21 = h * (1 / 5);
    for (let i = 0; i < m; i++) stage[i] = start[i] + h21 * k1[i];
    system.rates(time + h / 5, stage, k2);
    const h31 = h * (3 / 40);
    const h32 = h * (9 / 40);
    for (let i = 0; i < m; i++) stage[i] = start[i] + (h31 * k1[i] + h32 * k2[i]);
    system.rates(time + 0.3 * h, stage, k3);
    const h41 = h * (44 / 45);
    const h42 = h * (56 / 15);
    const h43 = h * (32 / 9);
    for (let i = 0; i < m; i++) stage[i] = start[i] + (h41 * k1[i] - h42 * k2[i] + h43 * k3[i]);
    system.rates(time + 0.8 * h, stage, k4);
    const h51 = h * (19372 / 6561);
    const h52 = h * (25360 / 2187);
    const h53 = h * (64448 / 6561);
    const h54 = h * (212 / 729);
    for (let i = 0; i < m; i++) stage[i] = start[i] + (h51 * k1[i] - h52 * k2[i] + h53 * k3[i] - h54 * k4[i]);
    system.rates(time + (8 / 9) * h, stage, k5);
    const h61 = h * (9017 / 3168);
    const h62 = h * (355 / 33);
    const h63 = h * (46732 / 5247);
    const h64 = h * (49 / 176);
    const h65 = h * (5103 / 18656);
    for (let i = 0; i < m; i++)
      stage[i] = start[i] + (h61 * k1[i] - h62 * k2[i] + h63 * k3[i] + h64 * k4[i] - h65 * k5[i]);
    system.rates(time + h, stage, k6);
    const h71 = h * (35 / 384);
    const h73 = h * (500 / 1113);
    const h74 = h * (125 / 192);
    const h75 = h * (2187 / 6784);
    const h76 = h * (11 / 84);
    for (let i = 0; i < n; i++)
      end[i] = start[i] + (h71 * k1[i] + h73 * k3[i] + h74 * k4[i] - h75 * k5[i] + h76 * k6[i]);
    system.rates(time + h, end, k7);
    const { relativeTolerance, absoluteTolerance } = this.options;
    const e1 = h * (71 / 57600);
    const e3 = h * (71 / 16695);
    const e4 = h * (71 / 1920);
    const e5 = h * (17253 / 339200);
    const e6 = h * (22 / 525);
    const e7 = h * (1 / 40);
    let worst = 0;
    for (let i = 0; i < n; i++) {
      const absolute = absoluteTolerance[i];
      if (absolute === Infinity) continue;
      const error = Math.abs(e1 * k1[i] - e3 * k3[i] + e4 * k4[i] - e5 * k5[i] + e6 * k6[i] - e7 * k7[i]);
      const allowed = absolute + relativeTolerance * Math.max(Math.abs(start[i]), Math.abs(end[i]));
      // Written so that no number is worse than any.
      if (!(error <= worst * allowed)) worst = error / allowed;
      if (Number.isNaN(worst)) return NaN;
    }
    return worst;
  }

  interpolate(share: number, state: Float64Array): void {
    this.write(share, state, this.system.size);
  }

  private write(share: number, state: Float64Array, entries: number): void {
    const { k, start, end } = this;
    const h = this.to - this.from;
    const rest = 1 - share;
    for (let i = 0; i < entries; i++) {
      const change = end[i] - start[i];
      const bend = h * k[0][i] - change;
      const last =
        h
        * ((-12715105075 / 11282082432) * k[0][i]
          + (87487479700 / 32700410799) * k[2][i]
          - (10690763975 / 1880347072) * k[3][i]
          + (701980252875 / 199316789632) * k[4][i]
          - (1453857185 / 822651844) * k[5][i]
          + (69997945 / 29380423) * k[6][i]);
      state[i] = start[i] + share * (change + rest * (bend + share * (change - h * k[6][i] - bend + rest * last)));
    }
  }

  /** The event that falls through zero first in the step just tried, and at what share of it; which is -1 if none does. */
  private earliestFall(): { which: number; share: number } {
    const { before, after } = this;
    let [which, share] = [-1, 1];
    for (let e = 0; e < this.system.events; e++) {
      if (!(before[e] >= 0 && after[e] < 0)) continue;
      const at = this.fallOf(e);
      if (which < 0 || at < share) [which, share] = [e, at];
    }
    return { which, share };
  }

  private fallOf(e: number): number {
    const value = (share: number): number => {
      this.write(share, this.stage, this.leading);
      this.system.eventValues(this.from + share * (this.to - this.from), this.stage, this.between);
      // Products of numbers so small vanish, and with them the signs that the search goes by.
      return Math.abs(this.between[e]) < 1e-150 ? 0 : this.between[e];
    };
    // A value that begins at zero must first have risen; if it never did, the event is at the very beginning.
    let above = 0;
    if (this.before[e] === 0) {
      for (above = 0.5; above > 1e-6 && !(value(above) > 0);) above /= 2;
      if (above <= 1e-6) return 0;
    }
    return findRoot(value, above, 1, 1e-13).at;
  }

  private longestByChange(): number {
    const { longestChange } = this.options;
    const [rates] = this.k;
    let h = Infinity;
    if (longestChange !== undefined)
      for (let i = 0; i < longestChange.length; i++)
        if (longestChange[i] < Infinity) h = Math.min(h, longestChange[i] / Math.abs(rates[i]));
    return h;
  }

  /** A first step in which no entry changes, at its first rate, by more than a hundredth of its size. */
  private firstStep(span: number): number {
    const { absoluteTolerance, relativeTolerance } = this.options;
    let h = span / 1000;
    this.start.forEach((value, i) => {
      const size = Math.abs(value) + absoluteTolerance[i] / relativeTolerance;
      const most = (0.01 * size) / Math.abs(this.k[0][i]);
      if (most < h) h = most;
    });
    return h > 0 ? h : span;
  }
}

/** For a handful of numbers a loop is far quicker than a call of the array's own. */
function copy(from: Float64Array, to: Float64Array): void {
  for (let i = 0; i < to.length; i++) to[i] = from[i];
}
