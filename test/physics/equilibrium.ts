/**
 * Plunger, link and lever as rigid bodies, with every contact force unknown: the proof's own statics.
 *
 * Nothing of src/physics is called here and none of its formulas stands here. Each contact is a normal force at the place
 * where the parts touch and a friction force μ times as large against the sliding there; the sliding comes from a
 * velocity solution of the same bodies. Newton's method then finds the forces that leave every body in equilibrium.
 *
 * World frame: x, y in the plane of the lever, shaft centre at the origin of both; z out of it, zero on the plunger's axis.
 * The shaft's bearing carries everything but the moment about z. The plunger may not spin about its own axis (the clevis
 * keeps it), so the moment about u is left out.
 */
export type Vector = readonly [x: number, y: number, z: number];

export const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const times = (k: number, a: Vector): Vector => [k * a[0], k * a[1], k * a[2]];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vector): number => Math.hypot(...a);
/** In the plane of the lever. */
export const towards = (angle: number): Vector => [Math.cos(angle), Math.sin(angle), 0];
const Z: Vector = [0, 0, 1];
/** A quarter turn counter-clockwise. */
export const turned = (a: Vector): Vector => cross(Z, a);

/** How plunger and lever are joined. Points lie in the plane of the axis; `planeOffset` lifts them. */
export type Joint =
  | {
      readonly kind: 'slot';
      readonly pin: Vector;
      /** Zero: friction acts at the pin's centre, as src has it. */
      readonly pinRadius: number;
    }
  | {
      readonly kind: 'link';
      readonly hole: Vector;
      readonly pin: Vector;
      /** Radius of each journal; zero for a chain. */
      readonly holeJournal: number;
      readonly pinJournal: number;
    }
  | {
      /** A pin that touches the wall of a wider hole at one place, in the direction `contact` from the hole's centre. */
      readonly kind: 'pin';
      readonly hole: Vector;
      readonly contact: Vector;
      readonly holeRadius: number;
      readonly pinRadius: number;
      /** The plunger rocks sideways with the hole, so that the place of contact stays. */
      readonly rocks: boolean;
    };

export interface Bodies {
  readonly joint: Joint;
  /** Unit vector of the pull. */
  readonly u: Vector;
  /** Where on the axis the guide holds the plunger, measured along u from the pin. */
  readonly mouth: number;
  readonly tail: number;
  readonly plungerRadius: number;
  readonly planeOffset: number;
  /** Counter-clockwise moment of the outside world on the lever, N m. */
  readonly leverMoment: number;
  /** Other forces on the plunger along u, N. */
  readonly axial: number;
  /** Force across the bore on the plunger, and where on the axis it acts, along u from the pin. */
  readonly acrossBore?: { readonly force: Vector; readonly at: number };
  /** +1 on the way home, -1 on the way out. */
  readonly direction: 1 | -1;
  readonly friction: { readonly joint: number; readonly guide: number };
}

interface Wrench {
  readonly force: Vector;
  readonly moment: Vector;
}
const none: Wrench = { force: [0, 0, 0], moment: [0, 0, 0] };
const at = (point: Vector, force: Vector): Wrench => ({ force, moment: cross(point, force) });
const sum = (...all: readonly Wrench[]): Wrench =>
  all.reduce((a, b) => ({ force: plus(a.force, b.force), moment: plus(a.moment, b.moment) }), none);
const reverse = ({ force, moment }: Wrench): Wrench => ({ force: times(-1, force), moment: times(-1, moment) });

/** A joint's unknowns, the wrench on lever and plunger that they make, and the link's own equations. */
interface JointForces {
  readonly start: readonly number[];
  act(unknowns: readonly number[]): {
    readonly lever: Wrench;
    readonly plunger: Wrench;
    readonly rest: readonly number[];
  };
  /** The forces that only press must come out above zero. */
  isPossible(unknowns: readonly number[]): boolean;
}

/** Force on the outer part of a journal: its normal at `angle`, and friction against the outer part's turning. */
function journal(centre: Vector, radius: number, angle: number, normal: number, mu: number, turning: number): Wrench {
  const n = towards(angle);
  const force = plus(times(normal, n), times(-mu * normal * Math.sign(turning), turned(n)));
  return at(plus(centre, times(radius, n)), force);
}

function jointForces(bodies: Bodies): JointForces {
  const { joint, u, leverMoment, friction, direction, planeOffset } = bodies;
  const mu = friction.joint;
  const lift = (point: Vector): Vector => plus(point, [0, 0, planeOffset]);
  switch (joint.kind) {
    case 'slot': {
      // The pin slides along the arm; it may press on either wall, so its normal force has a sign.
      const arm = times(1 / length(joint.pin), joint.pin);
      const turns = (direction * dot(u, turned(arm))) / length(joint.pin);
      return {
        start: [-leverMoment / length(joint.pin)],
        act([normal]) {
          const flank = joint.pinRadius * Math.sign(normal);
          const sliding = direction * dot(u, arm) + turns * flank;
          const onPin = plus(times(-normal, turned(arm)), times(-mu * Math.abs(normal) * Math.sign(sliding), arm));
          const plunger = at(lift(plus(joint.pin, times(flank, turned(arm)))), onPin);
          return { lever: reverse(plunger), plunger, rest: [] };
        },
        isPossible: () => true,
      };
    }
    case 'link': {
      const { hole, pin, holeJournal, pinJournal } = joint;
      const along = plus(pin, times(-1, hole));
      const { lever: leverTurns, link: linkTurns } = velocities(hole, pin, times(direction, u));
      const lean = Math.atan2(along[1], along[0]);
      const free = -leverMoment / cross(hole, along)[2];
      const pulls = free > 0;
      const guess = Math.abs(free) * length(along);
      return {
        start: [pulls ? lean : lean + Math.PI, guess, pulls ? lean : lean + Math.PI, guess],
        act([holeAngle, holeNormal, pinAngle, pinNormal]) {
          const lever = journal(lift(hole), holeJournal, holeAngle, holeNormal, mu, leverTurns - linkTurns);
          const onLink = journal(lift(pin), pinJournal, pinAngle, pinNormal, mu, linkTurns);
          const link = sum(reverse(lever), onLink);
          return { lever, plunger: reverse(onLink), rest: [link.force[0], link.force[1], link.moment[2]] };
        },
        isPossible: ([, holeNormal, , pinNormal]) => holeNormal > 0 && pinNormal > 0,
      };
    }
    case 'pin': {
      const { hole, contact, holeRadius, pinRadius, rocks } = joint;
      const touch = plus(hole, times(holeRadius, contact));
      const pin = plus(hole, times(holeRadius - pinRadius, contact));
      const leverTurns = rocks ? direction / dot(turned(hole), u) : velocities(hole, pin, times(direction, u)).lever;
      const pinMoves = rocks ? times(leverTurns, turned(hole)) : times(direction, u);
      const sliding = dot(plus(times(leverTurns, turned(touch)), times(-1, pinMoves)), turned(contact));
      return {
        start: [Math.abs(leverMoment / cross(hole, contact)[2])],
        act([normal]) {
          const onLever = plus(times(normal, contact), times(-mu * normal * Math.sign(sliding), turned(contact)));
          const lever = at(lift(touch), onLever);
          return { lever, plunger: reverse(lever), rest: [] };
        },
        isPossible: ([normal]) => normal > 0,
      };
    }
  }
}

/** Turning speeds of lever and link while the pin moves with `velocity`: hole and pin keep their distance. */
function velocities(hole: Vector, pin: Vector, velocity: Vector): { readonly lever: number; readonly link: number } {
  const fromHole = turned(hole);
  const fromLink = turned(plus(pin, times(-1, hole)));
  const [lever, link] = solve(
    [
      [fromHole[0], fromLink[0]],
      [fromHole[1], fromLink[1]],
    ],
    [velocity[0], velocity[1]],
  );
  return { lever, link };
}

export interface Equilibrium {
  /** Force along u that something outside must put on the plunger, N. */
  readonly pull: number;
  /** Wrench of the joint on the plunger. */
  readonly onPlunger: Wrench;
  readonly guideReactions: readonly [mouth: Vector, tail: Vector];
}

/** Null where no forces leave the bodies in equilibrium: friction holds the connection fast. */
export function equilibrium(bodies: Bodies): Equilibrium | null {
  const { u, mouth, tail, plungerRadius, leverMoment, axial, acrossBore, direction, friction } = bodies;
  const v = turned(u);
  const origin = pinOf(bodies.joint);
  const joint = jointForces(bodies);
  const count = joint.start.length;
  // Moments are weighed as forces at this arm.
  const arm = length(origin);
  // On the axis: the joint's own offset from it is the rock of a plain pin and is left out, as everywhere.
  const onAxis = (distance: number): Vector => plus(origin, times(distance, u));
  const guide = (distance: number, reaction: Vector): Wrench => {
    const press = length(reaction);
    const surface = press === 0 ? onAxis(distance) : plus(onAxis(distance), times(-plungerRadius / press, reaction));
    return at(surface, plus(reaction, times(-direction * friction.guide * press, u)));
  };
  const reactions = (x: readonly number[]): [Vector, Vector] => [
    plus(times(x[count], v), times(x[count + 1], Z)),
    plus(times(x[count + 2], v), times(x[count + 3], Z)),
  ];
  const residual = (x: readonly number[]): number[] => {
    const [atMouth, atTail] = reactions(x);
    const { lever, plunger, rest } = joint.act(x);
    const whole = sum(
      plunger,
      guide(mouth, atMouth),
      guide(tail, atTail),
      at(origin, times(x[count + 4] + axial, u)),
      acrossBore === undefined ? none : at(onAxis(acrossBore.at), acrossBore.force),
    );
    const aboutPin = plus(whole.moment, times(-1, cross(origin, whole.force)));
    const [linkX, linkY, linkMoment] = rest;
    const link = rest.length === 0 ? [] : [linkX, linkY, linkMoment / arm];
    return [
      (lever.moment[2] + leverMoment) / arm,
      ...link,
      dot(whole.force, u),
      dot(whole.force, v),
      whole.force[2],
      dot(aboutPin, v) / arm,
      aboutPin[2] / arm,
    ];
  };
  const force = Math.max(...joint.start.map(Math.abs));
  const start = [...joint.start, force, 0, -force, 0, force];
  const found = newton(residual, start, force);
  if (found === null || !joint.isPossible(found)) return null;
  return { pull: found[count + 4], onPlunger: joint.act(found).plunger, guideReactions: reactions(found) };
}

function pinOf(joint: Joint): Vector {
  if (joint.kind !== 'pin') return joint.pin;
  return plus(joint.hole, times(joint.holeRadius - joint.pinRadius, joint.contact));
}

/** Newton's method with differences for derivatives: the equations are straight lines but for |R| and a journal's angle. */
function newton(
  f: (x: readonly number[]) => number[],
  start: readonly number[],
  scale: number,
): readonly number[] | null {
  let x: readonly number[] = start;
  let r = f(x);
  const size = (values: readonly number[]) => Math.max(...values.map(Math.abs));
  let best = Infinity;
  for (let round = 0; round < 60; round++) {
    const now = size(r);
    // Rounding alone is left when a further step no longer helps.
    if (now <= 1e-15 * scale || (now <= 1e-11 * scale && now >= best)) return x;
    best = Math.min(best, now);
    const columns = x.map((value, i) => {
      const step = 1e-6 * Math.max(1, Math.abs(value));
      const [up, down] = [value + step, value - step].map((other) => f(x.with(i, other)));
      return up.map((above, j) => (above - down[j]) / (2 * step));
    });
    const change = solve(
      r.map((_, j) => columns.map((column) => column[j])),
      r,
    );
    if (change.some((part) => !Number.isFinite(part))) return null;
    // A step that makes it worse is halved, unless rounding alone is left.
    const steps = now > 1e-11 * scale ? [1, 0.5, 0.25, 0.125, 0.0625, 0.03125] : [1];
    const tried = steps.map((share) => x.map((value, i) => value - share * change[i]));
    x = tried.find((one) => size(f(one)) <= now) ?? tried[tried.length - 1];
    r = f(x);
  }
  return size(r) <= 1e-11 * scale ? x : null;
}

/** Gaussian elimination with row pivoting. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]]);
  const n = right.length;
  for (let k = 0; k < n; k++) {
    const pivot = rows.reduce((best, row, i) => (i >= k && Math.abs(row[k]) > Math.abs(rows[best][k]) ? i : best), k);
    [rows[k], rows[pivot]] = [rows[pivot], rows[k]];
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i][k] / rows[k][k];
      for (let j = k; j <= n; j++) rows[i][j] -= factor * rows[k][j];
    }
  }
  const x = right.map(() => 0);
  for (let i = n - 1; i >= 0; i--) {
    x[i] = (rows[i][n] - rows[i].slice(i + 1, n).reduce((total, a, j) => total + a * x[i + 1 + j], 0)) / rows[i][i];
  }
  return x;
}
