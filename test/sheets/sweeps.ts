/** Invented sweeps: curves of a likely shape, in the units of an assessment. */
import type { Sweep, Travel } from '../../src/assessment/finding.ts';

export function inventSweep(options: { pull?: number; spring?: number; stroke?: number; points?: number } = {}): Sweep {
  const { pull = 1, spring = 9, stroke = 30, points = 65 } = options;
  const gap_mm = Array.from({ length: points }, (_, i) => (i * stroke) / (points - 1));
  const weak = gap_mm.map((g) => pull * (185 / (1 + g * 0.35) ** 0.8 + 8));
  return {
    gap_mm,
    shaftAngle_deg: gap_mm.map((g) => 98 - (g * 38) / stroke),
    pullLeast_N: weak,
    pullGreatest_N: weak.map((force) => force * 1.5 + 1),
    pullNeeded_N: gap_mm.map((g) => 27 - g * 0.25),
    pullNeededLowFriction_N: gap_mm.map((g) => 21 - g * 0.25),
    sideForce_N: gap_mm.map((g) => 3 - g * 0.05),
    returnForce_N: gap_mm.map((g) => spring - 3 * Math.exp(-g * 3) - g * 0.12),
    returnDrive_N: gap_mm.map((g) => spring + 5 - g * 0.12),
    slotRadius_mm: gap_mm.map(() => 48),
    overTravel: gap_mm.map(() => false),
  };
}

export const inventedTravel: Travel = {
  homeGap_mm: 0,
  startGap_mm: 28.4,
  leverStopGap_mm: null,
  shaftAtHome_deg: 98,
  shaftAtRest_deg: 60,
  halfTurn_deg: 0.7,
};
