/**
 * How warm a coil gets over a row of stages.
 *
 * Leaves out: the plunger's heat while it moves, eddy currents and hysteresis, forced air, steam, oil and spray on the can, the
 * warmer air above a hot engine unless it is given, heat that the thin wires carry off, and that in a stall the heavy winding
 * is for a while hotter than the light one beside it (give the copper of the heavy one alone, and times err short).
 */
import { DomainError } from '../domain-error.ts';
import { HOT_SPOT_ALLOWANCE } from '../thermal-class.ts';
import { requireBody, type CoilBody } from './coil-body.ts';
import { stateAt, step, type Scene, type State, type Temperatures } from './nodes.ts';
import { RunRecord, type HeatingRun } from './run.ts';
import { CEILING, requireStages, requireTemperature, scenesOf, type HeatStage } from './stages.ts';

export interface HeatingOptions {
  /** Hottest place of the winding above its mean, K. */
  readonly hotSpotAllowance?: number;
  /** Largest estimated error of one step, K. */
  readonly tolerance?: number;
}

const TOLERANCE = 0.01;

/**
 * The transient from a start through all stages.
 *
 * @throws DomainError SW-D051, SW-D052 a body without meaning
 * @throws DomainError SW-D053 a power without meaning
 * @throws DomainError SW-D054 stages, courses or temperatures without meaning
 * @throws DomainError SW-D055 an allowance without meaning
 */
export function heating(
  body: CoilBody,
  stages: readonly HeatStage[],
  start: Temperatures,
  options: HeatingOptions = {},
): HeatingRun {
  requireBody(body);
  requireStages(stages);
  requireTemperature('winding at the start', start.winding, CEILING);
  requireTemperature('can at the start', start.can, CEILING);
  const { hotSpotAllowance = HOT_SPOT_ALLOWANCE, tolerance = TOLERANCE } = options;
  if (!(tolerance > 0 && tolerance <= 1))
    throw new DomainError('SW-D054', `an error of ${tolerance} K in one step is no tolerance`);
  const record = new RunRecord(body, start, hotSpotAllowance);
  let temperatures = start;
  let began = 0;
  for (const stage of stages) {
    for (const { scene, duration } of scenesOf(body, stage)) {
      temperatures = follow(scene, duration, temperatures, tolerance, (from, to) => record.add(scene, began, from, to));
      began += duration;
      if (record.ended === 'ceiling') return record.result();
    }
  }
  return record.result();
}

/** Steps through one scene. `visit` sees every accepted step and says with false that it is enough. */
function follow(
  scene: Scene,
  duration: number,
  start: Temperatures,
  tolerance: number,
  visit: (from: State, to: State) => boolean,
): Temperatures {
  let from = stateAt(scene, 0, start.winding, start.can);
  let h = Math.min(duration, 1 / (Math.abs(from.windingSlope) + Math.abs(from.canSlope) + 1e-2));
  while (from.time < duration) {
    const left = duration - from.time;
    const length = h >= left * 0.999 ? left : Math.min(h, left / 2);
    const { to, error } = step(scene, from, length);
    const share = error / tolerance;
    // Order two is estimated: the error of a step goes with its third power. Not a number: a step far too long.
    const factor = share >= 0 ? Math.min(5, Math.max(0.2, 0.9 / Math.cbrt(Math.max(share, 1e-6)))) : 0.2;
    if (!(share <= 1)) {
      h = length * Math.min(factor, 0.7);
      continue;
    }
    const reached = length === left ? { ...to, time: duration } : to;
    if (!visit(from, reached)) return reached;
    h = length * factor;
    from = reached;
  }
  return from;
}
