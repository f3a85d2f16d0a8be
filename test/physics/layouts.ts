/**
 * Random layouts, each built forwards: first where the parts stand at one gap, by arm angle and link angle, then the home
 * position that src is told, found by moving the parts there in small steps. So the poses that src finds from the home
 * position are compared with poses that nobody had to find.
 */
import * as fc from 'fast-check';
import type { Guide } from '../../src/physics/guide.ts';
import { defaultSideFreedom, linkBranch, pinBranch, type Linkage, type LineOfPull } from '../../src/physics/linkage.ts';
import { cross, dot, length, plus, times, towards, turned, type Joint, type Vector } from './equilibrium.ts';

export interface Layout {
  readonly linkage: Linkage;
  readonly guide: Guide;
  readonly gap: number;
  /** Plain pin: sideways rock of the plunger each way, m. */
  readonly rock: number;
  readonly direction: 1 | -1;
  readonly muJoint: number;
  readonly muGuide: number;
  /** Lever moment against the sense towards home, N m. */
  readonly moment: number;
  /** Where the parts stand at the gap, in the words of the free bodies. */
  readonly joint: Joint;
  readonly u: Vector;
  readonly armAngle: number;
}

/** Evenly spread: drawn doubles would crowd at the ends of the range and at zero. */
const between = (min: number, max: number) => fc.nat(1_000_000).map((share) => min + ((max - min) * share) / 1_000_000);
const sign = fc.constantFrom<(1 | -1)[]>(1, -1);
const degrees = Math.PI / 180;

const numbers = fc.record({
  kind: fc.constantFrom('slot', 'link', 'chain', 'pin'),
  sense: sign,
  direction: sign,
  action: fc.constantFrom('pull', 'push'),
  armAngle: between(-Math.PI, Math.PI),
  armRadius: between(0.025, 0.08),
  /** Between arm and the line that acts on it: link, or line of pull. */
  leverAngle: between(30, 150),
  lean: between(-50, 50),
  linkLength: between(0.02, 0.12),
  journal: between(0.002, 0.006),
  clearance: between(1e-4, 1e-3),
  climb: between(-0.95, 0.95),
  insideRock: between(-0.9, 0.9),
  rock: between(5e-5, 5e-4),
  stroke: between(0.01, 0.04),
  gapShare: between(0, 1),
  guideSpare: between(0.01, 0.06),
  overhang: between(0.004, 0.03),
  diameter: between(0.008, 0.025),
  planeOffset: fc.oneof(fc.constant(0), between(-0.015, 0.015)),
  muJoint: between(0.01, 0.35),
  muGuide: between(0.01, 0.35),
  moment: between(0.1, 2),
  resists: fc.boolean(),
});
type Numbers = typeof numbers extends fc.Arbitrary<infer T> ? T : never;

/** Layouts of the named kinds. Those that pass a dead point on their way home are thrown away. */
export function layouts(...kinds: readonly Numbers['kind'][]): fc.Arbitrary<Layout> {
  return numbers
    .map((drawn) => ({ ...drawn, kind: kinds[Math.floor(drawn.gapShare * 1e6) % kinds.length] }))
    .map(layoutOf)
    .filter((layout) => layout !== null);
}

function layoutOf(n: Numbers): Layout | null {
  const { kind, sense, direction, armAngle, armRadius, journal, muJoint, muGuide } = n;
  // A plain pin works near the square position alone: its clearance has no room for more of the arc.
  const leverAngle = kind === 'pin' ? 90 + (n.leverAngle - 90) / 3 : n.leverAngle;
  const line = armAngle + sense * leverAngle * degrees;
  const hole = times(armRadius, towards(armAngle));
  const gap = n.gapShare * n.stroke;
  // A chain cannot push, and a plain pin that pushes would first cross its hole.
  const moment = n.resists || kind === 'chain' || kind === 'pin' ? n.moment : -n.moment;
  const guide: Guide = {
    action: n.action,
    lengthAtHome: n.stroke + n.guideSpare,
    overhang: n.overhang,
    stroke: n.stroke,
    diameter: n.diameter,
    boreClearance: 0,
    planeOffset: n.planeOffset,
  };
  const rest = { guide, gap, direction, muJoint, muGuide, moment, armAngle };
  const homeOf = (pin: Vector, u: Vector): LineOfPull => ({
    homeX: pin[0] + gap * u[0],
    homeY: pin[1] + gap * u[1],
    directionX: u[0],
    directionY: u[1],
  });
  if (kind === 'slot') {
    const u = towards(line);
    const joint = { kind, pin: hole, pinRadius: 0 } as const;
    const armAngleExpected = slotAngleAtHome(armAngle, hole, u, gap);
    return { ...rest, linkage: { kind, ...homeOf(hole, u), sense, armAngleExpected }, rock: 0, joint, u };
  }
  if (kind === 'pin') {
    const u = towards(line);
    const v = turned(u);
    const e = n.clearance;
    const sine = n.climb > 0.4 || n.climb < -0.4 ? n.climb * Math.SQRT1_2 : 0;
    const contact = plus(times(Math.sqrt(1 - sine * sine), u), times(sine, v));
    const aside = sine === 0 ? n.insideRock * n.rock : Math.sign(sine) * n.rock;
    const onAxis = plus(plus(hole, times(e, contact)), times(aside, v));
    const linkage: Linkage = {
      kind,
      ...homeOf(onAxis, u),
      sense,
      armAngleExpected: armAngle,
      armRadius,
      length: e,
      armRubRadius: journal + e,
      pinRubRadius: journal,
      sideFreedom: defaultSideFreedom(e),
      branch: pinBranch(sense),
    };
    const joint = { kind, hole, contact, holeRadius: journal + e, pinRadius: journal, rocks: sine === 0 } as const;
    return { ...rest, linkage, rock: n.rock, joint, u };
  }
  const along = towards(line);
  const u = towards(line - n.lean * degrees);
  const pin = plus(hole, times(n.linkLength, along));
  const rub = kind === 'chain' ? 0 : journal;
  const home = homeOf(pin, u);
  const armAngleExpected = linkAngleAtHome(armAngle, armRadius, n.linkLength, pin, u, gap, sense);
  if (armAngleExpected === null) return null;
  const linkage: Linkage = {
    kind,
    ...home,
    sense,
    armAngleExpected,
    armRadius,
    length: n.linkLength,
    armRubRadius: rub,
    pinRubRadius: rub,
    sideFreedom: 0,
    branch: linkBranch(home, armRadius, n.linkLength, armAngleExpected, sense),
  };
  const joint = { kind: 'link', hole, pin, holeJournal: rub, pinJournal: rub } as const;
  return { ...rest, linkage, rock: 0, joint, u };
}

const STEPS = 400;

/** The arm turned with the pin from the gap to home, by adding up small turns. */
function slotAngleAtHome(armAngle: number, pin: Vector, u: Vector, gap: number): number {
  let angle = armAngle;
  for (let i = 0; i < STEPS; i++) {
    const here = plus(pin, times((gap * i) / STEPS, u));
    const next = plus(pin, times((gap * (i + 1)) / STEPS, u));
    angle += Math.atan2(cross(here, next)[2], dot(here, next));
  }
  return angle;
}

/** The same for a link, by Newton's method from step to step; null where it meets a dead point. */
function linkAngleAtHome(
  armAngle: number,
  armRadius: number,
  linkLength: number,
  pin: Vector,
  u: Vector,
  gap: number,
  sense: 1 | -1,
): number | null {
  let angle = armAngle;
  for (let i = 1; i <= STEPS; i++) {
    const there = plus(pin, times((gap * i) / STEPS, u));
    for (let round = 0; round < 4; round++) {
      const hole = times(armRadius, towards(angle));
      const along = plus(there, times(-1, hole));
      const leverage = cross(hole, along)[2];
      if (sense * leverage < 0.2 * armRadius * linkLength || dot(along, u) < 0.2 * linkLength) return null;
      angle -= (linkLength ** 2 - dot(along, along)) / (2 * leverage);
    }
    const along = plus(there, times(-armRadius, towards(angle)));
    if (Math.abs(length(along) - linkLength) > 1e-12) return null;
  }
  return angle;
}
