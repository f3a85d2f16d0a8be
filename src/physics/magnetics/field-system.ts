import { SparseCholesky } from '../../numerics/sparse/multifrontal.ts';
import { MAGNETIC_CONSTANT, MagnetisationCurve } from './magnetisation-curve.ts';
import type { Mesh, Surroundings } from './mesh.ts';
import type { FieldRegion } from './problem.ts';
import { AREA, POINTS, SHAPE, SHAPE_X, SHAPE_Y, WEIGHT } from './quadrature.ts';

const NODES = 6;
const ENTRIES = NODES * NODES;
/** Per element and point: six factors of B_r, then six of B_z. */
const FACTORS = POINTS * 2 * NODES;

/**
 * Longer than 300 lines: energy, gradient and second derivative are one integral over the same arrays.
 *
 * The discrete field energy of a mesh,
 *
 *     Φ(u) = ∫ w(|B|) dV + far-field term - Σ NI_k λ_k(u),      B = (-∂u/∂z, ∂u/∂r) / r
 *
 * with its gradient and second derivative. The unknown at the nodes is u = r A, radius times azimuthal potential, Wb
 * (a 2π-th of the flux through the circle there), 0 on the axis; the field is the minimum. In u a uniform axial field
 * is r²/2, exact with second-order elements, and a field-free region beside a pole is a constant, exact too; the same
 * elements in A itself cannot hold A ∝ 1/r and make the air beside a pole too stiff. The far boundary, a sphere of radius
 * R, carries the energy A²/(2 mu0 R) per unit area, which is exact for a dipole; on a box u is left free, which makes its
 * walls infinitely permeable. [1]
 *
 * One file, longer than most, because the inner loops share the tables that the constructor lays out.
 *
 * [1] K. J. Binns, P. J. Lawrenson, C. W. Trowbridge, The Analytical and Numerical Solution of Electric and Magnetic
 *     Fields (1992), for the variational form; the far term follows from the dipole field A ∝ sin θ / R².
 */
export class FieldSystem {
  readonly mesh: Mesh;
  readonly cholesky: SparseCholesky;
  /** Unknown of each node, -1 on the axis. */
  readonly unknownOf: Int32Array;
  readonly unknowns: number;
  /** Quadrature weight 2 π r dA of point q of element e at 6e + q, m³. */
  readonly weights: Float64Array;
  /** Names of the windings; `linkages[k]` times u is the flux linkage per turn of winding k, Wb. */
  readonly windings: readonly string[];
  readonly linkages: readonly Float64Array[];
  /** Load by what surrounds the regions: Φ contains - outerLoad · u. */
  readonly outerLoad: Float64Array;

  readonly #regions: readonly FieldRegion[];
  readonly #surroundings: Surroundings;
  readonly #factors: Float64Array;
  readonly #matrices: Float64Array;
  readonly #linear: Int32Array;
  readonly #nonlinear: Int32Array;
  readonly #curves: readonly MagnetisationCurve[];

  /** Geometry must keep its topology when `cholesky` of another system of the same mesh is handed in. */
  constructor(mesh: Mesh, regions: readonly FieldRegion[], surroundings: Surroundings, sharedWith?: FieldSystem) {
    this.mesh = mesh;
    this.#regions = regions;
    this.#surroundings = surroundings;
    const elements = mesh.region.length;
    this.unknownOf = new Int32Array(mesh.nodes);
    let unknowns = 0;
    for (let n = 0; n < mesh.nodes; n++) this.unknownOf[n] = mesh.onAxis[n] === 1 ? -1 : unknowns++;
    this.unknowns = unknowns;
    const linear: number[] = [];
    const nonlinear: number[] = [];
    const curves: MagnetisationCurve[] = [];
    for (let e = 0; e < elements; e++) {
      const material = mesh.region[e] < 0 ? 'air' : regions[mesh.region[e]].material;
      if (material instanceof MagnetisationCurve) {
        nonlinear.push(e);
        curves.push(material);
      } else linear.push(e);
    }
    this.#linear = Int32Array.from(linear);
    this.#nonlinear = Int32Array.from(nonlinear);
    this.#curves = curves;
    this.weights = new Float64Array(elements * POINTS);
    this.#factors = new Float64Array(elements * FACTORS);
    this.#matrices = new Float64Array(elements * ENTRIES);
    this.#geometry();
    this.outerLoad = new Float64Array(mesh.nodes);
    for (const e of this.#linear) this.#linearMatrix(e);
    if (surroundings.kind !== 'permeable box') this.#farBoundary();
    this.windings = [...new Set(regions.flatMap((r) => (r.winding === undefined ? [] : [r.winding])))];
    this.linkages = this.windings.map((name) => this.#linkage(name));
    this.cholesky = sharedWith?.cholesky ?? this.#ordering();
  }

  /** The same problem with its nodes elsewhere; the factorisation's ordering and storage are shared. */
  moved(coordinates: Float64Array): FieldSystem {
    return new FieldSystem({ ...this.mesh, coordinates }, this.#regions, this.#surroundings, this);
  }

  #ordering(): SparseCholesky {
    const { triangles, region, coordinates } = this.mesh;
    const elementUnknowns = Int32Array.from(triangles, (n) => this.unknownOf[n]);
    const centres = new Float64Array(2 * region.length);
    const changing = new Uint8Array(region.length);
    for (let e = 0; e < region.length; e++)
      for (let k = 0; k < 3; k++)
        for (let c = 0; c < 2; c++) centres[2 * e + c] += coordinates[2 * triangles[NODES * e + k] + c] / 3;
    for (const e of this.#nonlinear) changing[e] = 1;
    return new SparseCholesky({ unknowns: this.unknowns, nodesPerElement: NODES, elementUnknowns, centres, changing });
  }

  #geometry(): void {
    const { triangles, coordinates: x, region } = this.mesh;
    for (let e = 0; e < region.length; e++) {
      const [a, b, c] = [2 * triangles[NODES * e], 2 * triangles[NODES * e + 1], 2 * triangles[NODES * e + 2]];
      const [r1, z1, r2, z2] = [x[b] - x[a], x[b + 1] - x[a + 1], x[c] - x[a], x[c + 1] - x[a + 1]];
      const det = r1 * z2 - r2 * z1;
      for (let q = 0; q < POINTS; q++) {
        const r = AREA[3 * q] * x[a] + AREA[3 * q + 1] * x[b] + AREA[3 * q + 2] * x[c];
        this.weights[POINTS * e + q] = 2 * Math.PI * r * det * WEIGHT[q];
        const at = e * FACTORS + q * 2 * NODES;
        for (let k = 0; k < NODES; k++) {
          const [sx, sy] = [SHAPE_X[NODES * q + k], SHAPE_Y[NODES * q + k]];
          this.#factors[at + k] = (r2 * sx - r1 * sy) / (det * r);
          this.#factors[at + NODES + k] = (z2 * sx - z1 * sy) / (det * r);
        }
      }
    }
  }

  #reluctivity(e: number): number {
    const region = this.mesh.region[e];
    const material = region < 0 ? 'air' : this.#regions[region].material;
    if (material === 'air' || material instanceof MagnetisationCurve) return 1 / MAGNETIC_CONSTANT;
    return 1 / (MAGNETIC_CONSTANT * material.relativePermeability);
  }

  #linearMatrix(e: number): void {
    const nu = this.#reluctivity(e);
    const K = this.#matrices;
    const G = this.#factors;
    for (let q = 0; q < POINTS; q++) {
      const w = nu * this.weights[POINTS * e + q];
      const at = e * FACTORS + q * 2 * NODES;
      for (let i = 0; i < NODES; i++)
        for (let j = 0; j < NODES; j++)
          K[e * ENTRIES + i * NODES + j] += w * (G[at + i] * G[at + j] + G[at + NODES + i] * G[at + NODES + j]);
    }
  }

  #farBoundary(): void {
    const { mesh } = this;
    const { coordinates: x, triangles, farRadius } = mesh;
    const uniform = this.#surroundings.kind === 'uniform field' ? this.#surroundings.fluxDensity : 0;
    const stiffness = 1 / (MAGNETIC_CONSTANT * farRadius);
    for (const edge of mesh.outerEdges) {
      const e = Math.floor(edge / 3);
      const side = edge % 3;
      const local = [side, (side + 1) % 3, 3 + side];
      const [a, b] = [triangles[NODES * e + local[0]], triangles[NODES * e + local[1]]];
      const length = Math.hypot(x[2 * b] - x[2 * a], x[2 * b + 1] - x[2 * a + 1]);
      for (const [t, weight] of GAUSS_3) {
        const r = (1 - t) * x[2 * a] + t * x[2 * b];
        const n = [(1 - t) * (1 - 2 * t), t * (2 * t - 1), 4 * t * (1 - t)].map((value) => value / r);
        const w = 2 * Math.PI * r * length * weight * stiffness;
        for (let i = 0; i < 3; i++) {
          // The uniform field B0 has A = B0 r/2 and a surface term of its own; together 3/2 B0 r.
          this.outerLoad[triangles[NODES * e + local[i]]] += w * n[i] * 1.5 * uniform * r;
          for (let j = 0; j < 3; j++) this.#matrices[e * ENTRIES + local[i] * NODES + local[j]] += w * n[i] * n[j];
        }
      }
    }
  }

  #linkage(winding: string): Float64Array {
    const { mesh } = this;
    const load = new Float64Array(mesh.nodes);
    let area = 0;
    for (let e = 0; e < mesh.region.length; e++) {
      if (mesh.region[e] < 0 || this.#regions[mesh.region[e]].winding !== winding) continue;
      area += elementArea(mesh, e);
      // 2 π A dS, with A = u / r: the weight without its r.
      for (let q = 0; q < POINTS; q++)
        for (let k = 0; k < NODES; k++)
          load[mesh.triangles[NODES * e + k]] += 4 * Math.PI * elementArea(mesh, e) * WEIGHT[q] * SHAPE[NODES * q + k];
    }
    for (let n = 0; n < load.length; n++) load[n] = mesh.onAxis[n] === 1 ? 0 : load[n] / area;
    return load;
  }

  /** Flux density at point q of element e, tesla, written to out[0] (radial) and out[1] (axial). */
  fluxDensity(e: number, q: number, u: Float64Array, out: Float64Array): void {
    const { triangles } = this.mesh;
    const at = e * FACTORS + q * 2 * NODES;
    let br = 0;
    let bz = 0;
    for (let k = 0; k < NODES; k++) {
      const value = u[triangles[NODES * e + k]];
      br += this.#factors[at + k] * value;
      bz += this.#factors[at + NODES + k] * value;
    }
    out[0] = br;
    out[1] = bz;
  }

  /** y = K u of the linear elements and the far boundary. */
  linearGradient(u: Float64Array, y: Float64Array): void {
    const { triangles } = this.mesh;
    const K = this.#matrices;
    y.fill(0);
    for (const e of this.#linear) {
      const t = NODES * e;
      const [a0, a1, a2, a3, a4, a5] = [
        u[triangles[t]],
        u[triangles[t + 1]],
        u[triangles[t + 2]],
        u[triangles[t + 3]],
        u[triangles[t + 4]],
        u[triangles[t + 5]],
      ];
      for (let i = 0; i < NODES; i++) {
        const row = e * ENTRIES + i * NODES;
        y[triangles[t + i]] +=
          K[row] * a0 + K[row + 1] * a1 + K[row + 2] * a2 + K[row + 3] * a3 + K[row + 4] * a4 + K[row + 5] * a5;
      }
    }
  }

  /** Field energy of the nonlinear elements, joules. */
  nonlinearEnergy(u: Float64Array): number {
    const { triangles } = this.mesh;
    const G = this.#factors;
    const out = new Float64Array(3);
    let energy = 0;
    for (let n = 0; n < this.#nonlinear.length; n++) {
      const e = this.#nonlinear[n];
      const t = NODES * e;
      const [a0, a1, a2, a3, a4, a5] = [
        u[triangles[t]],
        u[triangles[t + 1]],
        u[triangles[t + 2]],
        u[triangles[t + 3]],
        u[triangles[t + 4]],
        u[triangles[t + 5]],
      ];
      for (let q = 0; q < POINTS; q++) {
        const g = e * FACTORS + q * 2 * NODES;
        const br = G[g] * a0 + G[g + 1] * a1 + G[g + 2] * a2 + G[g + 3] * a3 + G[g + 4] * a4 + G[g + 5] * a5;
        const bz = G[g + 6] * a0 + G[g + 7] * a1 + G[g + 8] * a2 + G[g + 9] * a3 + G[g + 10] * a4 + G[g + 11] * a5;
        this.#curves[n].evaluate(Math.sqrt(br * br + bz * bz), out);
        energy += this.weights[POINTS * e + q] * out[2];
      }
    }
    return energy;
  }

  /**
   * One pass over the nonlinear elements: adds their gradient to `gradient`, writes their tangent matrices for the next
   * factorisation and returns their energy. With `chord` the matrices take H/B in place of the tangent, at a flux
   * density of that many tesla everywhere.
   */
  nonlinearPass(u: Float64Array, gradient: Float64Array, chord?: number): number {
    const { triangles } = this.mesh;
    const G = this.#factors;
    const K = this.#matrices;
    const out = new Float64Array(3);
    const Dr = new Float64Array(NODES);
    const Dz = new Float64Array(NODES);
    const local = new Float64Array(NODES);
    let energy = 0;
    for (let n = 0; n < this.#nonlinear.length; n++) {
      const e = this.#nonlinear[n];
      const curve = this.#curves[n];
      const t = NODES * e;
      const base = e * ENTRIES;
      const [a0, a1, a2, a3, a4, a5] = [
        u[triangles[t]],
        u[triangles[t + 1]],
        u[triangles[t + 2]],
        u[triangles[t + 3]],
        u[triangles[t + 4]],
        u[triangles[t + 5]],
      ];
      K.fill(0, base, base + ENTRIES);
      local.fill(0);
      for (let q = 0; q < POINTS; q++) {
        const g = e * FACTORS + q * 2 * NODES;
        const w = this.weights[POINTS * e + q];
        const br = G[g] * a0 + G[g + 1] * a1 + G[g + 2] * a2 + G[g + 3] * a3 + G[g + 4] * a4 + G[g + 5] * a5;
        const bz = G[g + 6] * a0 + G[g + 7] * a1 + G[g + 8] * a2 + G[g + 9] * a3 + G[g + 10] * a4 + G[g + 11] * a5;
        const b = Math.sqrt(br * br + bz * bz);
        curve.evaluate(b, out);
        energy += w * out[2];
        const nu = b > 1e-9 ? out[0] / b : out[1];
        // Tangent of H over B: nu across B, dH/dB along it.
        const excess = b > 1e-9 ? (out[1] - nu) / (b * b) : 0;
        let rr = w * (nu + excess * br * br);
        let rz = w * excess * br * bz;
        let zz = w * (nu + excess * bz * bz);
        if (chord !== undefined) {
          curve.evaluate(chord, out);
          rr = zz = (w * out[0]) / chord;
          rz = 0;
        }
        const hr = w * nu * br;
        const hz = w * nu * bz;
        for (let k = 0; k < NODES; k++) {
          const gr = G[g + k];
          const gz = G[g + NODES + k];
          local[k] += hr * gr + hz * gz;
          Dr[k] = rr * gr + rz * gz;
          Dz[k] = rz * gr + zz * gz;
        }
        for (let i = 0; i < NODES; i++) {
          const gr = G[g + i];
          const gz = G[g + NODES + i];
          const row = base + i * NODES;
          for (let j = 0; j <= i; j++) K[row + j] += gr * Dr[j] + gz * Dz[j];
        }
      }
      for (let i = 0; i < NODES; i++) gradient[triangles[t + i]] += local[i];
    }
    return energy;
  }

  get hasNonlinear(): boolean {
    return this.#nonlinear.length > 0;
  }

  /** Factorises the matrices as last written; false when they are not positive definite. */
  factorise(): boolean {
    return this.cholesky.factorise(this.#matrices);
  }
}

/** Nodes and weights of the three-point Gauss rule on 0 to 1. */
const GAUSS_3: readonly (readonly [number, number])[] = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
];

/** Area of an element in the half-plane, m². */
export function elementArea({ coordinates: x, triangles }: Mesh, e: number): number {
  const [a, b, c] = [2 * triangles[NODES * e], 2 * triangles[NODES * e + 1], 2 * triangles[NODES * e + 2]];
  return ((x[b] - x[a]) * (x[c + 1] - x[a + 1]) - (x[c] - x[a]) * (x[b + 1] - x[a + 1])) / 2;
}
