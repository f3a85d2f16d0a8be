/**
 * How a straight plunger joins a swinging lever: where everything stands at a gap, and what force passes.
 *
 * Plane of the lever, shaft centre O at the origin, angles counter-clockwise, p × q = px qy - py qx. The plunger pin is at
 * B(g) = H - g u; v is u turned a quarter counter-clockwise. `sense` is +1 when the lever must turn counter-clockwise
 * towards home and -1 when clockwise. A moment M is positive when it resists that sense.
 *
 * Four connections, two laws. In a slot the pin slides along the arm. A link, a chain and a plain pin in a clearance
 * hole all keep the arm hole A at a fixed distance from B: a chain is a link without pin friction that cannot push, and
 * a plain pin is a link as long as its radial clearance.
 *
 * Longer than 300 lines: one reason, that poses and the forces in them are read against each other.
 *
 * Left out: elastic give of the parts, mass (see motion), wear of pin and slot.
 *
 * Statics of friction in a slot and the friction circle of a pinned link: any statics text, e.g.
 * [1] F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, 8.2 and 8.9 (axle friction)
 */
export interface LineOfPull {
  /** Centre of the plunger pin at home, m. */
  readonly homeX: number;
  readonly homeY: number;
  /** Unit vector towards home. */
  readonly directionX: number;
  readonly directionY: number;
}

export type Linkage = SlotLinkage | LinkLinkage;

interface Common extends LineOfPull {
  /** +1: the lever turns counter-clockwise towards home; -1: clockwise. */
  readonly sense: 1 | -1;
  /** Arm angle that is expected at home, rad: fixes whole turns, and the branch of a link. */
  readonly armAngleExpected: number;
}

export interface SlotLinkage extends Common {
  readonly kind: 'slot';
}

export interface LinkLinkage extends Common {
  readonly kind: 'link' | 'chain' | 'pin';
  /** Shaft centre to arm hole, m. */
  readonly armRadius: number;
  /** Between pin centres, m; for a plain pin its radial clearance in the hole. */
  readonly length: number;
  /** Radius of the surface that rubs at the arm hole and at the plunger pin, m; zero for a chain. */
  readonly armRubRadius: number;
  readonly pinRubRadius: number;
  /** Plain pin: sideways freedom each way without rock of the plunger, m. */
  readonly sideFreedom: number;
  /** Which of the two ways to assemble: arm angle = angle of B + branch × acos(…). */
  readonly branch: 1 | -1;
}

/** Everything that depends on the gap alone. Angles rad, lengths m. */
export interface Pose {
  readonly gap: number;
  /** False where the parts cannot reach each other; every other number is then NaN. */
  readonly assembled: boolean;
  readonly armAngle: number;
  /** sense × d(arm angle)/d(travel), rad/m: above zero where the lever turns the wanted way. */
  readonly rate: number;
  /** Slot: distance of the pin from the shaft centre. Others: the arm radius. */
  readonly radius: number;
  /** Slot: B·u, travel still to go to the square position. */
  readonly alongSlot: number;
  /** Link: unit vector from arm hole to plunger pin. Slot: zero. */
  readonly linkX: number;
  readonly linkY: number;
  /** Link: A × e, m, times sense. Slot: B × u, m, times sense. The leverage of the connection. */
  readonly leverage: number;
  /** Link: d(link angle)/d(travel), rad/m. */
  readonly linkRate: number;
  /** Plain pin: sideways offset of pin from hole centre, m. */
  readonly rise: number;
  /** Plain pin: the offset is more than pin and rock can take. */
  readonly binds: boolean;
}

/** A place to write to: reckoned at a hundred gaps, a pose or a force is written over instead of being made anew. */
export type Writable<T> = { -readonly [Name in keyof T]: T[Name] };

export function newPose(): Writable<Pose> {
  return {
    gap: NaN,
    assembled: false,
    armAngle: NaN,
    rate: NaN,
    radius: NaN,
    alongSlot: NaN,
    linkX: NaN,
    linkY: NaN,
    leverage: NaN,
    linkRate: NaN,
    rise: NaN,
    binds: false,
  };
}

/** What the connection does to the plunger pin. */
export interface ConnectionForce {
  /** Away from home along the axis, N. */
  readonly along: number;
  /** Along v, N: the side force. */
  readonly across: number;
  /** Friction moment of the pin on the plunger, counter-clockwise, N m. */
  readonly couple: number;
  /** Pull in a link or chain, N (negative: it pushes); in a slot the force between pin and slot. */
  readonly tension: number;
}

export function newForce(): Writable<ConnectionForce> {
  return { along: NaN, across: NaN, couple: NaN, tension: NaN };
}

/** Coefficients of friction of the connection. */
export interface ConnectionFriction {
  readonly slot: number;
  readonly pins: number;
}

const GRIP_ANGLE = Math.PI / 4;

/** Sideways offset at which a pin in a round hole of radial clearance `e` grips unless measured, m: e sin 45°. */
export function defaultSideFreedom(radialClearance: number): number {
  return radialClearance * Math.sin(GRIP_ANGLE);
}

/**
 * The branch on which a link assembles nearest to the expected arm angle at home.
 * When B cannot be reached at home the branch that the sense of rotation asks for is returned.
 */
export function linkBranch(
  line: LineOfPull,
  armRadius: number,
  length: number,
  armAngleExpected: number,
  sense: 1 | -1,
): 1 | -1 {
  const { homeX, homeY } = line;
  const distance = Math.hypot(homeX, homeY);
  const cosine = (armRadius * armRadius + distance * distance - length * length) / (2 * armRadius * distance);
  if (!(Math.abs(cosine) <= 1)) return sense === 1 ? -1 : 1;
  const toPin = Math.atan2(homeY, homeX);
  const swing = Math.acos(cosine);
  const off = (angle: number) => Math.abs(Math.sin((angle - armAngleExpected) / 2));
  return off(toPin + swing) < off(toPin - swing) ? 1 : -1;
}

/** Adds whole turns to bring `angle` within half a turn of `near`. */
export function unwrap(angle: number, near: number): number {
  return angle + 2 * Math.PI * Math.round((near - angle) / (2 * Math.PI));
}

/**
 * Where everything stands at a gap.
 *
 * @param gap  m, from home; any finite number
 * @param rock plain pin only: sideways rock of the plunger in its bore, each way, m
 */
export function poseAt(linkage: Linkage, gap: number, rock = 0): Pose {
  const pose = newPose();
  poseInto(linkage, gap, rock, pose);
  return pose;
}

/** `poseAt`, written over a pose that is there. */
export function poseInto(linkage: Linkage, gap: number, rock: number, into: Writable<Pose>): void {
  if (linkage.kind === 'slot') slotPose(linkage, gap, into);
  else if (linkage.kind === 'pin') pinPose(linkage, gap, rock, into);
  else linkPose(linkage, gap, into);
}

function slotPose(linkage: SlotLinkage, gap: number, into: Writable<Pose>): void {
  const { homeX, homeY, directionX: ux, directionY: uy, sense, armAngleExpected } = linkage;
  const x = homeX - gap * ux;
  const y = homeY - gap * uy;
  const radius = Math.sqrt(x * x + y * y);
  const leverage = sense * (x * uy - y * ux);
  into.gap = gap;
  into.assembled = radius > 0;
  into.armAngle = unwrap(Math.atan2(y, x), armAngleExpected);
  into.rate = leverage / (radius * radius);
  into.radius = radius;
  into.alongSlot = x * ux + y * uy;
  into.linkX = 0;
  into.linkY = 0;
  into.leverage = leverage;
  into.linkRate = 0;
  into.rise = 0;
  into.binds = false;
}

function linkPose(linkage: LinkLinkage, gap: number, into: Writable<Pose>): void {
  const { homeX, homeY, directionX: ux, directionY: uy, armAngleExpected, armRadius: r, length: l, branch } = linkage;
  const x = homeX - gap * ux;
  const y = homeY - gap * uy;
  const distance = Math.sqrt(x * x + y * y);
  const cosine = (r * r + distance * distance - l * l) / (2 * r * distance);
  if (!(Math.abs(cosine) < 1)) {
    apart(linkage, gap, into);
    return;
  }
  const armAngle = unwrap(Math.atan2(y, x) + branch * Math.acos(cosine), armAngleExpected);
  const ax = r * Math.cos(armAngle);
  const ay = r * Math.sin(armAngle);
  into.rise = 0;
  into.binds = false;
  linkedPose(linkage, gap, armAngle, ax, ay, (x - ax) / l, (y - ay) / l, l, into);
}

/** A plain pin: a link as long as its clearance, whose sideways offset the rock of the plunger takes up first. */
function pinPose(linkage: LinkLinkage, gap: number, rock: number, into: Writable<Pose>): void {
  const {
    homeX,
    homeY,
    directionX: ux,
    directionY: uy,
    armAngleExpected,
    armRadius: r,
    length: e,
    branch,
    sideFreedom,
  } = linkage;
  const x = homeX - gap * ux;
  const y = homeY - gap * uy;
  const pinAlong = x * ux + y * uy;
  const pinAcross = y * ux - x * uy;
  const steepest = Math.min(1, Math.max(sideFreedom / e, Math.sin(GRIP_ANGLE)));
  let sine = 0;
  let cosine = 1;
  let holeAlong = 0;
  let holeAcross = 0;
  let rise = 0;
  for (let round = 0; round < 6; round++) {
    holeAlong = pinAlong - e * cosine;
    if (!(Math.abs(holeAlong) < r)) {
      apart(linkage, gap, into);
      return;
    }
    // The arm stands on the side of the line of pull that gives the wanted sense.
    holeAcross = branch * Math.sqrt(r * r - holeAlong * holeAlong);
    rise = pinAcross - holeAcross;
    const climb = Math.sign(rise) * Math.max(0, Math.abs(rise) - rock);
    sine = Math.max(-steepest, Math.min(steepest, climb / e));
    cosine = Math.sqrt(1 - sine * sine);
  }
  const ax = holeAlong * ux - holeAcross * uy;
  const ay = holeAlong * uy + holeAcross * ux;
  const armAngle = unwrap(Math.atan2(ay, ax), armAngleExpected);
  into.rise = rise;
  into.binds = Math.abs(rise) > sideFreedom + rock;
  linkedPose(linkage, gap, armAngle, ax, ay, cosine * ux - sine * uy, cosine * uy + sine * ux, e, into);
  if (sine === 0) into.linkRate = 0;
}

/** All of a pose but its rise and whether it binds. */
function linkedPose(
  linkage: LinkLinkage,
  gap: number,
  armAngle: number,
  ax: number,
  ay: number,
  ex: number,
  ey: number,
  length: number,
  into: Writable<Pose>,
): void {
  const { directionX: ux, directionY: uy, sense } = linkage;
  const crossed = ax * ey - ay * ex;
  const along = ex * ux + ey * uy;
  // Square to the pull and through the shaft at once, it turns nothing.
  const turn = along === 0 ? 0 : along / crossed;
  into.gap = gap;
  into.assembled = true;
  into.armAngle = armAngle;
  into.rate = sense * turn;
  into.radius = linkage.armRadius;
  into.alongSlot = 0;
  into.linkX = ex;
  into.linkY = ey;
  into.leverage = sense * crossed;
  into.linkRate = (ex * uy - ey * ux - turn * (ax * ex + ay * ey)) / length;
}

function apart(linkage: LinkLinkage, gap: number, into: Writable<Pose>): void {
  into.gap = gap;
  into.assembled = false;
  into.armAngle = NaN;
  into.rate = NaN;
  into.radius = linkage.armRadius;
  into.alongSlot = NaN;
  into.linkX = NaN;
  into.linkY = NaN;
  into.leverage = NaN;
  into.linkRate = NaN;
  into.rise = NaN;
  into.binds = linkage.kind === 'pin';
}

/**
 * Branch of a plain pin: on which side of the line of pull the arm hole stands, +1 along v, -1 against it.
 * A wanted sense of +1 needs A × u above zero, that is, the hole on the side of -v.
 */
export function pinBranch(sense: 1 | -1): 1 | -1 {
  return sense === 1 ? -1 : 1;
}

/**
 * Force between connection and plunger for a lever moment M, moving towards home (+1) or away from it (-1).
 *
 * Slot, with N = M/ρ and t = |B·u|/h:
 *     along = (h/ρ)(N + d μs |N| t),  across = -σ/ρ [N (B·u) - d μs |N| sign(B·u) h]
 * Link, with the line of force e' tangent to both friction circles (radius r sin atan μ):
 *     T = σM / [(A × e') ∓ r_f],  along = T e'·u,  across = -T e'·v
 *
 * Infinite `along` where friction holds the connection fast (inside the friction circle of a dead point), a plain pin
 * binds, or the parts cannot reach each other.
 */
export function connectionForce(
  linkage: Linkage,
  pose: Pose,
  moment: number,
  direction: 1 | -1,
  friction: ConnectionFriction,
): ConnectionForce {
  const force = newForce();
  connectionForceInto(linkage, pose, moment, direction, friction, force);
  return force;
}

/** `connectionForce`, written over a force that is there. */
export function connectionForceInto(
  linkage: Linkage,
  pose: Pose,
  moment: number,
  direction: 1 | -1,
  friction: ConnectionFriction,
  into: Writable<ConnectionForce>,
): void {
  if (linkage.kind === 'slot') slotForce(linkage, pose, moment, direction, friction.slot, into);
  else linkForce(linkage, pose, moment, direction, friction.pins, into);
}

/** No pull, however strong, moves it. */
function heldFast(into: Writable<ConnectionForce>): void {
  into.along = Infinity;
  into.across = NaN;
  into.couple = 0;
  into.tension = NaN;
}

function slotForce(
  linkage: SlotLinkage,
  pose: Pose,
  moment: number,
  direction: 1 | -1,
  mu: number,
  into: Writable<ConnectionForce>,
): void {
  const { radius, leverage: h, alongSlot } = pose;
  const perRadius = 1 / radius;
  const N = moment * perRadius;
  // Square to the pull the pin turns back in its slot: rub of the same size on either side, and at the turn itself.
  const rub = direction * mu * Math.abs(N) * (alongSlot < 0 ? -1 : 1);
  into.along = h > 0 ? (N * h + rub * alongSlot) * perRadius : Infinity;
  into.across = -linkage.sense * (N * alongSlot - rub * h) * perRadius;
  into.couple = 0;
  into.tension = N;
}

function linkForce(
  linkage: LinkLinkage,
  pose: Pose,
  moment: number,
  direction: 1 | -1,
  mu: number,
  into: Writable<ConnectionForce>,
): void {
  const { sense, directionX: ux, directionY: uy, length, armRadius, kind } = linkage;
  const { linkX: ex, linkY: ey, armAngle, leverage, linkRate, rate } = pose;
  if (!pose.assembled || pose.binds || leverage <= 0) {
    heldFast(into);
    return;
  }
  const sine = mu / Math.sqrt(1 + mu * mu);
  // Without friction nothing hangs on the size of the pins.
  const armCircle = sine === 0 ? 0 : linkage.armRubRadius * sine;
  const pinCircle = sine === 0 ? 0 : linkage.pinRubRadius * sine;
  const sign = moment < 0 ? -1 : 1;
  const armTurn = direction * sense * rate;
  const linkTurn = direction * linkRate;
  const slip = kind === 'pin' ? armTurn * linkage.armRubRadius - linkTurn * length : armTurn - linkTurn;
  const atArm = Math.sign(slip);
  const atPin = kind === 'pin' ? atArm : Math.sign(linkTurn);
  const tilt = (sign * (pinCircle * atPin - armCircle * atArm)) / length;
  if (Math.abs(tilt) >= 1) {
    heldFast(into);
    return;
  }
  const straight = Math.sqrt(1 - tilt * tilt);
  const fx = ex * straight - ey * tilt;
  const fy = ey * straight + ex * tilt;
  const ax = armRadius * Math.cos(armAngle);
  const ay = armRadius * Math.sin(armAngle);
  const arm = sense * (ax * fy - ay * fx - sign * armCircle * atArm);
  if (arm <= 0) {
    heldFast(into);
    return;
  }
  const T = moment / arm;
  into.along = T * (fx * ux + fy * uy);
  into.across = -T * (fy * ux - fx * uy);
  into.couple = Math.abs(T) * pinCircle * atPin;
  into.tension = T;
}

/**
 * Force of an over-travel spring once the lever stands on its stop: `tension` in the spring, N, at the gap `pose.gap`
 * with the arm held at `armAngle`. Friction of the connection is left out: nothing slides but the spring.
 */
export function heldForce(linkage: Linkage, pose: Pose, tension: number): ConnectionForce {
  const force = newForce();
  heldForceInto(linkage, pose, tension, force);
  return force;
}

/** `heldForce`, written over a force that is there. */
export function heldForceInto(linkage: Linkage, pose: Pose, tension: number, into: Writable<ConnectionForce>): void {
  const { directionX: ux, directionY: uy } = linkage;
  into.couple = 0;
  into.tension = tension;
  if (linkage.kind === 'slot') {
    if (pose.leverage <= 0) {
      heldFast(into);
      return;
    }
    into.along = tension;
    into.across = (-linkage.sense * tension * pose.alongSlot) / pose.leverage;
    return;
  }
  const { linkX: ex, linkY: ey } = pose;
  const alongLink = ex * ux + ey * uy;
  const acrossLink = ey * ux - ex * uy;
  // The spring of a plain pin lies in line with the plunger, that of a link or chain in line with the link.
  into.along = linkage.kind === 'pin' ? tension : tension * alongLink;
  into.across = linkage.kind === 'pin' ? (-tension * acrossLink) / alongLink : -tension * acrossLink;
}

/** The pose of a link or chain whose arm is held at `armAngle` while the plunger goes on: direction and stretch, m. */
export function heldPose(
  linkage: LinkLinkage,
  armAngle: number,
  gap: number,
): { readonly pose: Pose; readonly stretch: number } {
  const pose = newPose();
  const stretch = heldPoseInto(linkage, armAngle, gap, pose);
  return { pose, stretch };
}

/** `heldPose`, written over a pose that is there; gives the stretch back. */
export function heldPoseInto(linkage: LinkLinkage, armAngle: number, gap: number, into: Writable<Pose>): number {
  const { homeX, homeY, directionX: ux, directionY: uy, armRadius: r, length: l } = linkage;
  const ax = r * Math.cos(armAngle);
  const ay = r * Math.sin(armAngle);
  const dx = homeX - gap * ux - ax;
  const dy = homeY - gap * uy - ay;
  const distance = Math.sqrt(dx * dx + dy * dy);
  into.rise = 0;
  into.binds = false;
  linkedPose(linkage, gap, armAngle, ax, ay, dx / distance, dy / distance, distance, into);
  into.rate = 0;
  into.linkRate = 0;
  return distance - l;
}

/** Angle between link and arm, rad, 0 to π/2: 90° is best, 0 is a dead point. */
export function linkToArm(linkage: LinkLinkage, pose: Pose): number {
  return Math.asin(Math.min(1, Math.abs(pose.leverage) / linkage.armRadius));
}

/** Angle between link and plunger axis, rad, 0 to π/2: 0 is best, 90° is a dead point. */
export function linkToPull(linkage: LinkLinkage, pose: Pose): number {
  const { directionX: ux, directionY: uy } = linkage;
  return Math.acos(Math.min(1, Math.abs(pose.linkX * ux + pose.linkY * uy)));
}
