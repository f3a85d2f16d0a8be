import { DomainError } from '../domain-error.ts';
import type { FieldSystem } from './field-system.ts';
import { MAGNETIC_CONSTANT } from './magnetisation-curve.ts';
import type { Mesh } from './mesh.ts';
import { distanceToSegment, type Point } from './outline.ts';
import type { FieldRegion } from './problem.ts';
import { POINTS } from './quadrature.ts';

/**
 * How far each corner of the mesh goes along when the moving regions are displaced: 1 on them, 0 on everything else that
 * carries current or is permeable and on the edge of the field, and in between by distance.
 *
 * @throws DomainError SW-M016 a moving region touches a fixed one that is permeable or carries current
 */
export function displacementShares(mesh: Mesh, regions: readonly FieldRegion[]): Float64Array {
  const shares = new Float64Array(mesh.corners);
  const state = new Uint8Array(mesh.corners);
  for (let e = 0; e < mesh.region.length; e++) {
    if (mesh.region[e] < 0) continue;
    const region = regions[mesh.region[e]];
    const bit = region.moving === true ? 1 : holdsStill(region) ? 2 : 0;
    for (let k = 0; k < 3; k++) state[mesh.triangles[6 * e + k]] |= bit;
  }
  const edgesOf = (chosen: readonly FieldRegion[]): (readonly [Point, Point])[] =>
    chosen
      .flatMap(({ outline }) => outline.map((p, i) => [p, outline[(i + 1) % outline.length]] as const))
      .filter(([p, q]) => p[0] > 0 || q[0] > 0);
  const movingEdges = edgesOf(regions.filter((r) => r.moving === true));
  const fixedEdges = edgesOf(regions.filter((r) => r.moving !== true && holdsStill(r)));
  const onEdge = new Uint8Array(mesh.nodes);
  for (const edge of mesh.outerEdges)
    for (const k of [edge % 3, ((edge % 3) + 1) % 3]) onEdge[mesh.triangles[6 * Math.floor(edge / 3) + k]] = 1;
  for (let v = 0; v < mesh.corners; v++) {
    const p: Point = [mesh.coordinates[2 * v], mesh.coordinates[2 * v + 1]];
    if (state[v] === 3)
      throw new DomainError(
        'SW-M016',
        `the moving part touches a fixed one at radius ${p[0]} m, height ${p[1]} m: leave a gap`,
      );
    if (state[v] === 1) shares[v] = 1;
    if (state[v] !== 0 || onEdge[v] === 1) continue;
    const toMoving = Math.min(...movingEdges.map(([a, b]) => distanceToSegment(p, a, b)));
    const toFar = mesh.farRadius > 0 ? mesh.farRadius - Math.hypot(p[0], p[1] - mesh.farCentre) : Infinity;
    const toFixed = Math.min(toFar, ...fixedEdges.map(([a, b]) => distanceToSegment(p, a, b)));
    shares[v] = toFixed === Infinity ? 0 : Math.max(0, toFixed / (toFixed + toMoving));
  }
  return shares;
}

function holdsStill(region: FieldRegion): boolean {
  return region.material !== 'air' || region.winding !== undefined;
}

/**
 * Axial force on the moving regions, newtons, positive towards greater height: minus the change of field energy, at
 * unchanged nodal potential, as the nodes are displaced by their shares,
 *
 *     F = -1/mu0 ∫ (Br Bz ∂g/∂r + (Bz² - Br²)/2 ∂g/∂z) dV
 *
 * the derivative of the Jacobian written out. It equals the Maxwell stress weighted with the gradient of g. [1][2]
 *
 * [1] J. L. Coulomb, G. Meunier, Finite element implementation of virtual work principle for magnetic or electric
 *     force and torque computation, IEEE Trans. Magn. 20 (1984) 1894.
 * [2] F. Henrotte, K. Hameyer, Computation of electromagnetic force densities, J. Comput. Appl. Math. 168 (2004) 235.
 */
export function nodalForce(system: FieldSystem, shares: Float64Array, u: Float64Array): number {
  const { mesh, weights } = system;
  const { triangles, coordinates: x } = mesh;
  const B = new Float64Array(2);
  let sum = 0;
  for (let e = 0; e < mesh.region.length; e++) {
    const [a, b, c] = [triangles[6 * e], triangles[6 * e + 1], triangles[6 * e + 2]];
    const [g1, g2] = [shares[b] - shares[a], shares[c] - shares[a]];
    if (g1 === 0 && g2 === 0) continue;
    const [r1, z1, r2, z2] = [
      x[2 * b] - x[2 * a],
      x[2 * b + 1] - x[2 * a + 1],
      x[2 * c] - x[2 * a],
      x[2 * c + 1] - x[2 * a + 1],
    ];
    const det = r1 * z2 - r2 * z1;
    const gr = (g1 * z2 - g2 * z1) / det;
    const gz = (g2 * r1 - g1 * r2) / det;
    for (let q = 0; q < POINTS; q++) {
      system.fluxDensity(e, q, u, B);
      sum += weights[POINTS * e + q] * (B[0] * B[1] * gr + ((B[1] * B[1] - B[0] * B[0]) / 2) * gz);
    }
  }
  return 0 - sum / MAGNETIC_CONSTANT;
}

/** Coordinates of all nodes after the moving regions went up by `distance` metres; middles stay in the middle. */
export function displacedCoordinates(mesh: Mesh, shares: Float64Array, distance: number): Float64Array {
  const x = mesh.coordinates.slice();
  for (let v = 0; v < mesh.corners; v++) x[2 * v + 1] += distance * shares[v];
  for (let e = 0; e < mesh.region.length; e++)
    for (let k = 0; k < 3; k++) {
      const [a, b, m] = [
        mesh.triangles[6 * e + k],
        mesh.triangles[6 * e + ((k + 1) % 3)],
        mesh.triangles[6 * e + 3 + k],
      ];
      x[2 * m + 1] = (x[2 * a + 1] + x[2 * b + 1]) / 2;
    }
  return x;
}
