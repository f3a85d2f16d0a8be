import { pchip } from '../../numerics/pchip.ts';
import { DomainError } from '../domain-error.ts';

/** Magnetic constant, H/m; the value before the 2019 revision of the SI, which differs by 5e-10. */
export const MAGNETIC_CONSTANT = 4e-7 * Math.PI;

/** Readings of a magnetisation curve: flux density in tesla, field strength in A/m, both rising from 0. */
export interface MagnetisationTable {
  readonly fluxDensity: readonly number[];
  readonly fieldStrength: readonly number[];
}

/**
 * H over B of a soft-magnetic material: piecewise cubic through the readings, monotone, with its exact integral; a
 * straight line of slope 1/mu0 beyond the last reading. Isotropic, without hysteresis.
 *
 * With a monotone curve the field energy is convex, which is what makes Newton's method with a line search safe.
 */
export class MagnetisationCurve {
  readonly #b: Float64Array;
  readonly #h: Float64Array;
  readonly #slope: Float64Array;
  readonly #energy: Float64Array;
  readonly #bucket: Int32Array;
  readonly #perTesla: number;

  /**
   * @throws DomainError SW-M020 fewer than four readings, unequal lengths, or a reading that is no finite number
   * @throws DomainError SW-M021 the table does not start at zero, or does not rise from one reading to the next
   * @throws DomainError SW-M022 the slope dB/dH falls below mu0 at the end: no material is worse than air
   */
  constructor(table: MagnetisationTable) {
    checkTable(table);
    const { fluxDensity, fieldStrength } = table;
    const n = fluxDensity.length;
    const { x, y, slope } = pchip(fluxDensity, fieldStrength);
    this.#b = Float64Array.from(x);
    this.#h = Float64Array.from(y);
    this.#slope = Float64Array.from(slope);
    this.#energy = new Float64Array(n);
    for (let i = 0; i + 1 < n; i++) {
      const w = x[i + 1] - x[i];
      this.#energy[i + 1] = this.#energy[i] + w * ((y[i] + y[i + 1]) / 2 + (w * (slope[i] - slope[i + 1])) / 12);
    }
    // Equal steps of flux density to the interval that holds their start, so that a look-up takes one or two steps.
    const buckets = 512;
    this.#perTesla = buckets / x[n - 1];
    this.#bucket = new Int32Array(buckets + 1);
    for (let k = 0, i = 0; k <= buckets; k++) {
      while (i + 2 < n && x[i + 1] <= k / this.#perTesla) i++;
      this.#bucket[k] = i;
    }
  }

  /** Last flux density of the table, tesla; above it the material adds only what air would. */
  get lastFluxDensity(): number {
    return this.#b[this.#b.length - 1];
  }

  /**
   * Writes field strength (A/m), its slope dH/dB (m/H) and the energy density ∫H dB (J/m³) at a flux density of
   * `b` ≥ 0 tesla to `out`.
   */
  evaluate(b: number, out: Float64Array): void {
    const last = this.#b.length - 1;
    const beyond = b - this.#b[last];
    if (beyond >= 0) {
      out[0] = this.#h[last] + beyond / MAGNETIC_CONSTANT;
      out[1] = 1 / MAGNETIC_CONSTANT;
      out[2] = this.#energy[last] + beyond * (this.#h[last] + beyond / (2 * MAGNETIC_CONSTANT));
      return;
    }
    let i = this.#bucket[Math.floor(b * this.#perTesla)];
    while (b > this.#b[i + 1]) i++;
    const w = this.#b[i + 1] - this.#b[i];
    const t = b - this.#b[i];
    const secant = (this.#h[i + 1] - this.#h[i]) / w;
    const c2 = (3 * secant - 2 * this.#slope[i] - this.#slope[i + 1]) / w;
    const c3 = (this.#slope[i] + this.#slope[i + 1] - 2 * secant) / (w * w);
    out[0] = this.#h[i] + t * (this.#slope[i] + t * (c2 + t * c3));
    out[1] = this.#slope[i] + t * (2 * c2 + 3 * t * c3);
    out[2] = this.#energy[i] + t * (this.#h[i] + t * (this.#slope[i] / 2 + t * (c2 / 3 + (t * c3) / 4)));
  }

  /** Field strength at a flux density, A/m. */
  fieldStrength(b: number): number {
    const out = new Float64Array(3);
    this.evaluate(Math.abs(b), out);
    return Math.sign(b) * out[0];
  }
}

function checkTable({ fluxDensity: b, fieldStrength: h }: MagnetisationTable): void {
  const n = b.length;
  if (n !== h.length)
    throw new DomainError('SW-M020', `the magnetisation table has ${n} flux densities and ${h.length} field strengths`);
  if (n < 4) throw new DomainError('SW-M020', `the magnetisation table needs four readings or more, not ${n}`);
  for (let i = 0; i < n; i++)
    if (!Number.isFinite(b[i]) || !Number.isFinite(h[i]))
      throw new DomainError('SW-M020', `reading ${i + 1} of the magnetisation table is (${b[i]} T, ${h[i]} A/m)`);
  if (b[0] !== 0 || h[0] !== 0)
    throw new DomainError('SW-M021', `the magnetisation table must start at (0, 0), not at (${b[0]} T, ${h[0]} A/m)`);
  for (let i = 1; i < n; i++)
    if (!(b[i] > b[i - 1] && h[i] > h[i - 1]))
      throw new DomainError(
        'SW-M021',
        `the magnetisation table must rise: reading ${i + 1} is (${b[i]} T, ${h[i]} A/m) after (${b[i - 1]} T, ${h[i - 1]} A/m)`,
      );
  // Readings deep in saturation are rounded, so a hundredth below mu0 is let pass.
  for (let i = 1; i < n; i++) {
    const slope = (b[i] - b[i - 1]) / (h[i] - h[i - 1]);
    if (slope < 0.99 * MAGNETIC_CONSTANT)
      throw new DomainError(
        'SW-M022',
        `between readings ${i} and ${i + 1} dB/dH is ${slope} H/m, less than that of air (${MAGNETIC_CONSTANT} H/m)`,
      );
  }
}
