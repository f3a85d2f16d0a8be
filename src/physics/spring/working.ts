/** Springs that are drawn or pressed, whatever they are made of: force over length, and moment on a lever. */

/** A spring as it behaves: force over length. */
export interface WorkingSpring {
  readonly kind: 'extension' | 'compression';
  /** N/m. */
  readonly rate: number;
  readonly freeLength: number;
  /** Extension: force at which the coils part, N. */
  readonly initialTension: number;
}

/** Force at a length, N, never below zero: an extension spring draws its ends together, a compression spring pushes them apart. */
export function springForce(spring: WorkingSpring, length: number): number {
  const { kind, rate, freeLength, initialTension } = spring;
  const deflection = kind === 'extension' ? length - freeLength : freeLength - length;
  if (!(deflection > 0)) return Number.isNaN(deflection) ? NaN : 0;
  return initialTension + rate * deflection;
}

/** Where a spring is hooked between a fixed anchor and the lever. */
export interface LeverSpring {
  readonly spring: WorkingSpring;
  readonly anchorX: number;
  readonly anchorY: number;
  /** Shaft centre to the point on the lever, m. */
  readonly radius: number;
  /** Direction of that point minus shaft angle, rad. */
  readonly angle: number;
}

/** Length of a lever spring at a shaft angle, m. */
export function leverSpringLength(lever: LeverSpring, shaftAngle: number): number {
  const x = lever.radius * Math.cos(shaftAngle + lever.angle);
  const y = lever.radius * Math.sin(shaftAngle + lever.angle);
  const alongX = x - lever.anchorX;
  const alongY = y - lever.anchorY;
  return Math.sqrt(alongX * alongX + alongY * alongY);
}

/** Counter-clockwise moment of a lever spring about the shaft, N m, by the true geometry of its ends. */
export function leverSpringMoment(lever: LeverSpring, shaftAngle: number): number {
  const x = lever.radius * Math.cos(shaftAngle + lever.angle);
  const y = lever.radius * Math.sin(shaftAngle + lever.angle);
  const toAnchorX = lever.anchorX - x;
  const toAnchorY = lever.anchorY - y;
  const length = Math.sqrt(toAnchorX * toAnchorX + toAnchorY * toAnchorY);
  if (length === 0) return 0;
  const draw = springForce(lever.spring, length) * (lever.spring.kind === 'extension' ? 1 : -1);
  return (draw * (x * toAnchorY - y * toAnchorX)) / length;
}
