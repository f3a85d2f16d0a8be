/**
 * The reference transient of data/plunger-solenoid-transient.json as a request for `motion`.
 *
 * Source: computed for this project with an independent program (Python, SciPy 1.17.1, DOP853 at 1e-9, bicubic splines
 * through the 23 × 25 map of data/plunger-solenoid-map.json); its state is current, gap and speed. Map interpolation is
 * within 0.15 % in force; its own energy audit closes to 0.004 %.
 */
import { readFileSync } from 'node:fs';
import type { MotionRequest } from '../../src/physics/motion/motion.ts';
import { pchip, pchipAt } from '../../src/numerics/pchip.ts';
import { coEnergySurface, type CoEnergySurface } from '../../src/physics/solenoid/field/co-energy-surface.ts';
import { magnetOfSurface } from '../../src/physics/solenoid/magnet.ts';

interface PrintedTransient {
  readonly parameters: {
    readonly supply_V: number;
    readonly source_and_wiring_ohm: number;
    readonly coil_ohm: number;
    readonly turns: number;
    readonly moving_mass_kg: number;
    readonly spring_preload_at_open_N: number;
    readonly spring_rate_N_per_mm: number;
    readonly viscous_N_s_per_m: number;
    readonly gap_open_mm: number;
    readonly gap_closed_mm: number;
  };
  readonly t_motion_start_ms: number;
  readonly i_motion_start_A: number;
  readonly t_landing_ms: number;
  readonly landing_speed_m_per_s: number;
  readonly i_at_landing_A: number;
  readonly current_peak_before_dip: { readonly t_ms: number; readonly i_A: number };
  readonly current_dip_minimum: { readonly t_ms: number; readonly i_A: number };
  readonly final_current_A: number;
  /** t_ms, i_A, gap_mm, closing_speed_m_per_s, force_N, flux_linkage_Wb */
  readonly samples: readonly (readonly number[])[];
}

interface PrintedMap {
  readonly gaps_mm: readonly number[];
  readonly ampere_turns: readonly number[];
  readonly force_N: readonly (readonly number[])[];
  readonly flux_linkage_per_turn_Wb: readonly (readonly number[])[];
}

function read(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`data/${name}`, import.meta.url), 'utf8'));
}

export const transient = read('plunger-solenoid-transient.json') as PrintedTransient;

/**
 * One co-energy surface through the printed map. Co-energies are the integral of the printed flux linkage over
 * ampere-turns (a shape-keeping cubic of the permeance, Simpson's rule); the printed map has none.
 */
export function printedSurface(): CoEnergySurface {
  const map = read('plunger-solenoid-map.json') as PrintedMap;
  const none = map.ampere_turns[0] / 1000;
  return coEnergySurface(
    map.gaps_mm.map((gap, j) => {
      const flux = map.flux_linkage_per_turn_Wb[j];
      const permeance = pchip(
        [0, ...map.ampere_turns.map((level) => Math.asinh(level / 200))],
        [flux[0] / map.ampere_turns[0], ...flux.map((value, i) => value / map.ampere_turns[i])],
      );
      const fluxAt = (level: number): number => level * pchipAt(permeance, Math.asinh(level / 200));
      const first = {
        coEnergy: (0.5 * flux[0] * none * none) / map.ampere_turns[0],
        fluxLinkage: flux[0] / 1000,
        force: map.force_N[j][0] / 1e6,
      };
      let coEnergy = 0;
      let before = 0;
      const points = map.ampere_turns.map((level, i) => {
        const n = 32;
        const h = (level - before) / n;
        for (let k = 0; k < n; k++) {
          const a = before + k * h;
          coEnergy += (h / 6) * (fluxAt(a) + 4 * fluxAt(a + h / 2) + fluxAt(a + h));
        }
        before = level;
        return { coEnergy, fluxLinkage: flux[i], force: map.force_N[j][i] };
      });
      return { gap: gap * 1e-3, ampereTurns: [none, ...map.ampere_turns], points: [first, ...points] };
    }),
  );
}

/** The reference's own run: switched on from rest, dead landing. */
export function referenceRequest(surface = printedSurface()): MotionRequest {
  const p = transient.parameters;
  const [open, closed] = [p.gap_open_mm * 1e-3, p.gap_closed_mm * 1e-3];
  const spring = (gap: number): number => p.spring_preload_at_open_N + p.spring_rate_N_per_mm * 1e3 * (open - gap);
  const forces = Float64Array.of(spring(closed), spring(open));
  return {
    magnet: magnetOfSurface(surface),
    circuit: {
      source: p.supply_V,
      loopResistance: p.source_and_wiring_ohm,
      stages: { kind: 'single coil', winding: { turns: p.turns, resistance: p.coil_ohm } },
      suppression: { kind: 'diode', drop: 0.7 },
    },
    load: {
      gaps: Float64Array.of(closed, open),
      home: forces,
      out: forces,
      mass: Float64Array.of(p.moving_mass_kg, p.moving_mass_kg),
      viscous: p.viscous_N_s_per_m,
    },
    homeGap: closed,
    outGap: open,
    startGap: open,
    startAt: 'rest',
    endSwitch: null,
    restitution: 0,
    offAt: null,
    duration: 0.12,
  };
}
