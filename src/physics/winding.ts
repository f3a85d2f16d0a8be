/**
 * A coil of enamelled round copper wire in its window: turns from ohms, room, current at a temperature.
 *
 *     R(T) = ρ(T) N l / A,     l = π (ri + ro),     A = π d²/4,     ρ(20 °C) = 1.7241e-8 Ωm      [1]
 *
 * Leaves out leads, joints, and the little that winding stretches the wire.
 *
 * [1] IEC 60028:1925 (resistivity and temperature coefficient of copper)
 * [2] IEC 60317-0-1, dimensions of enamelled round copper wire, sizes of series R 20, grade 1, largest overall diameter
 */
import { copperResistance } from './coil.ts';
import { DomainError, requireAboveZero } from './domain-error.ts';

/** Resistivity of annealed copper at 20 °C, Ωm [1]. */
export const COPPER_RESISTIVITY = 1.7241e-8;
const TWENTY_CELSIUS = 293.15;

/**
 * Bare and largest overall diameter of grade 1 enamelled wire, mm, as printed in [2]. From memory, but for the row of
 * 0.315 mm, which an open page of the national adoption IS 13730-0-1 confirms.
 */
const GRADE_1: readonly (readonly [bare_mm: number, overall_mm: number])[] = [
  [0.2, 0.226],
  [0.224, 0.252],
  [0.25, 0.281],
  [0.28, 0.312],
  [0.315, 0.349],
  [0.355, 0.392],
  [0.4, 0.439],
  [0.45, 0.491],
  [0.5, 0.544],
  [0.56, 0.606],
  [0.63, 0.679],
  [0.71, 0.762],
  [0.8, 0.855],
  [0.9, 0.959],
  [1, 1.062],
  [1.12, 1.184],
  [1.25, 1.316],
  [1.4, 1.468],
];

/**
 * Largest overall diameter of grade 1 enamelled wire of this bare diameter, m: a size between two
 * rows has the enamel of the larger (so do the SWG sizes of IS 13730-0-1); beyond the table's ends (0.2 and 1.4 mm) the ratio of the end row, and then `inTable` is false.
 *
 * @throws DomainError SW-D040 a diameter that is not finite and above zero
 */
export function enamelledDiameter(bare: number): { readonly overall: number; readonly inTable: boolean } {
  requireAboveZero('SW-D040', 'wire diameter', bare);
  const mm = bare * 1e3;
  const last = GRADE_1[GRADE_1.length - 1];
  if (mm < GRADE_1[0][0] - 1e-9) return { overall: (bare * GRADE_1[0][1]) / GRADE_1[0][0], inTable: false };
  if (mm > last[0] + 1e-9) return { overall: (bare * last[1]) / last[0], inTable: false };
  const [size, overall] = GRADE_1.find(([row]) => mm <= row + 1e-9)!;
  return { overall: bare + (overall - size) * 1e-3, inTable: true };
}

/** The room that the winding takes up: radii and length, m. */
export interface WindingWindow {
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly length: number;
}

/** Section of the window, m². @throws DomainError SW-D041 a window without room */
export function windowArea({ innerRadius, outerRadius, length }: WindingWindow): number {
  requireAboveZero('SW-D041', 'inner radius of the window', innerRadius);
  requireAboveZero('SW-D041', 'depth of the window', outerRadius - innerRadius);
  requireAboveZero('SW-D041', 'length of the window', length);
  return (outerRadius - innerRadius) * length;
}

/** Ohms of one turn of mean length at temperature `at` (K). */
function turnResistance(window: WindingWindow, wireDiameter: number, at: number): number {
  windowArea(window);
  requireAboveZero('SW-D040', 'wire diameter', wireDiameter);
  const length = Math.PI * (window.innerRadius + window.outerRadius);
  return (4 * copperResistance(COPPER_RESISTIVITY, TWENTY_CELSIUS, at) * length) / (Math.PI * wireDiameter ** 2);
}

/** Ohms of a winding of `turns` in this window at temperature `at` (K). */
export function windingResistance(window: WindingWindow, wireDiameter: number, turns: number, at: number): number {
  return turns * turnResistance(window, wireDiameter, at);
}

/** Turns, not rounded, from ohms at temperature `at` (K), bare wire diameter (m) and window. */
export function turnsFromResistance(
  window: WindingWindow,
  wireDiameter: number,
  resistance: number,
  at: number,
): number {
  requireAboveZero('SW-D042', 'resistance', resistance);
  return resistance / turnResistance(window, wireDiameter, at);
}

/**
 * Turns and bare diameter (m) from ohms alone, for a window of which copper takes up a given share:
 *
 *     N A = k S     and     R = ρ N l / A     give     N² = R k S / (ρ l)
 */
export function windingFromCopperShare(
  window: WindingWindow,
  copperShare: number,
  resistance: number,
  at: number,
): { readonly turns: number; readonly wireDiameter: number } {
  requireAboveZero('SW-D042', 'resistance', resistance);
  if (!(copperShare > 0 && copperShare < MOST_ROUND_SHARE))
    throw new DomainError('SW-D043', `copper cannot fill ${copperShare} of a window with round wire`);
  const copper = copperShare * windowArea(window);
  const unit = turnResistance(window, Math.sqrt(4 / Math.PI), at); // of wire with a section of 1 m²
  const turns = Math.sqrt((resistance * copper) / unit);
  return { turns, wireDiameter: Math.sqrt((4 * copper) / (Math.PI * turns)) };
}

/** Circles in the closest arrangement, every layer in the grooves of the one below: π/(2√3). */
export const MOST_ROUND_SHARE = Math.PI / (2 * Math.sqrt(3));
/** Circles one above the other: π/4. More is wound only with care, turn by turn (common practice, no source). */
export const LAYERED_ROUND_SHARE = Math.PI / 4;
/** Below this a window looks half empty (common practice, no source). */
export const LOOSE_ROUND_SHARE = 0.35;

export interface WindingFill {
  /** Section of all turns with their enamel, and of their copper, over that of the window. */
  readonly roundShare: number;
  readonly copperShare: number;
  readonly overallDiameter: number;
  /** Was the enamel read from the table, or continued beyond its ends? */
  readonly inTable: boolean;
  /** `loose`: half empty; `fits`; `tight`: only if laid turn by turn in the grooves; `does not fit`. */
  readonly room: 'loose' | 'fits' | 'tight' | 'does not fit';
}

/** How a window is filled by turns of enamelled wire. */
export function windingFill(window: WindingWindow, wireDiameter: number, turns: number): WindingFill {
  requireAboveZero('SW-D042', 'turns', turns);
  const { overall, inTable } = enamelledDiameter(wireDiameter);
  const share = (diameter: number): number => (turns * Math.PI * diameter ** 2) / (4 * windowArea(window));
  const roundShare = share(overall);
  return {
    roundShare,
    copperShare: share(wireDiameter),
    overallDiameter: overall,
    inTable,
    room:
      roundShare > MOST_ROUND_SHARE
        ? 'does not fit'
        : roundShare > LAYERED_ROUND_SHARE
          ? 'tight'
          : roundShare < LOOSE_ROUND_SHARE
            ? 'loose'
            : 'fits',
  };
}

/** Amps at `volts` and coil temperature `at` (K), from ohms read at temperature `readAt` (K). */
export function coilCurrent(volts: number, resistance: number, readAt: number, at: number): number {
  requireAboveZero('SW-D042', 'resistance', resistance);
  return volts / copperResistance(resistance, readAt, at);
}
