/** Invented installations as pictures: consistent in their geometry, with forces that only look likely. */
import type {
  DrawnConnection,
  DrawnPosition,
  DrawnSpring,
  MechanismPicture,
  Point,
} from '../../src/assessment/picture.ts';

export interface Invention {
  readonly connection: DrawnConnection['kind'];
  /** m */
  readonly gap: number;
  readonly stroke?: number;
  readonly armRadius?: number;
  readonly action?: 'pull' | 'push';
  readonly works?: MechanismPicture['works'];
  readonly actuator?: MechanismPicture['actuator']['kind'];
  /** Whole installation turned, rad, and mirrored in the y axis. */
  readonly turn?: number;
  readonly mirrored?: boolean;
  readonly overTravel?: number;
  readonly springOnPlunger?: boolean;
  readonly name?: string;
  readonly keepOut?: MechanismPicture['keepOut'];
}

export function invent(invention: Invention): MechanismPicture {
  const {
    connection: kind,
    gap,
    stroke = 0.03,
    armRadius = 0.048,
    action = 'pull',
    works = 'energise to stop',
    actuator = 'solenoid',
    turn = 0,
    mirrored = false,
    overTravel = 0,
    springOnPlunger = false,
    name = 'Return spring',
    keepOut = [],
  } = invention;
  const flip = mirrored ? -1 : 1;
  const place = (x: number, y: number): Point => ({
    x: flip * x * Math.cos(turn) - y * Math.sin(turn),
    y: flip * x * Math.sin(turn) + y * Math.cos(turn),
  });
  const angle = (a: number): number => (mirrored ? Math.PI - a : a) + turn;
  const linked = kind === 'pinned link' || kind === 'short chain';
  const length = 0.036;
  // The pull goes to the left along a line above the shaft; the pin comes home a little past square.
  const height = kind === 'slotted lever' ? armRadius : armRadius * 0.98;
  const homeX = -0.1 * armRadius - (linked ? length : 0);
  const rest = Math.max(stroke, 0);
  const position = (at: number, given: number): DrawnPosition => {
    const x = homeX + at;
    const armAt = linked ? x + given + length : x + given;
    const raw =
      kind === 'slotted lever' ? Math.atan2(height, armAt) : Math.acos(Math.max(-1, Math.min(1, armAt / armRadius)));
    return { gap: at, pin: place(x, height), armAngle: angle(raw), overTravel: given, slack: false };
  };
  const now = position(gap, overTravel);
  const arm = now.armAngle ?? 0;
  const spring: DrawnSpring = springOnPlunger
    ? {
        on: 'plunger',
        name,
        kind: 'compression',
        from: null,
        to: null,
        length: 0.01 + gap,
        coilDiameter: 0.022,
        turns: 6,
        force: 18 - 200 * gap,
        slack: false,
        index: 0,
      }
    : {
        on: 'lever',
        name,
        kind: 'extension',
        from: place(0.07, 0.014),
        to: { x: 0.032 * Math.cos(arm), y: 0.032 * Math.sin(arm) },
        length: null,
        coilDiameter: 0.01,
        turns: 24,
        force: 22 - 300 * gap,
        slack: false,
        index: 0,
      };
  const connection: DrawnConnection =
    kind === 'slotted lever'
      ? { kind, slotFrom: armRadius - 0.006, slotTo: armRadius + 0.014, pinDiameter: 0.008, sideClearance: 0.0002 }
      : kind === 'pinned link'
        ? { kind, armRadius, length, pinDiameter: 0.006 }
        : kind === 'short chain'
          ? { kind, armRadius, length }
          : { kind, armRadius, pinDiameter: 0.008, holeDiameter: 0.009 };
  const mouthX = action === 'pull' ? homeX - 0.012 : homeX + 0.012 + stroke;
  return {
    works,
    sense: mirrored ? -1 : 1,
    homePin: place(homeX, height),
    pullDirection: angle(Math.PI),
    stroke,
    armMinusShaft: 0.035 + turn,
    shaftAngles: {
      run: angle(1.08) - 0.035 - turn,
      noFuel: angle(1.64) - 0.035 - turn,
      hardStop: angle(1.82) - 0.035 - turn,
      runStop: angle(1.04) - 0.035 - turn,
    },
    down: -Math.PI / 2,
    connection,
    actuator: {
      kind: actuator,
      action,
      mouth: place(mouthX, height),
      guideLength: actuator === 'solenoid' ? 0.07 : 0.012,
      plungerDiameter: actuator === 'hand cable' ? 0.002 : actuator === 'air cylinder' ? 0.01 : 0.02,
      bore: actuator === 'air cylinder' ? 0.032 : null,
    },
    endSwitchGap: 0.0012,
    now,
    home: position(0, overTravel > 0 ? overTravel : 0),
    rest: position(rest, 0),
    springs: [spring],
    keepOut,
    forces: {
      pullLeast: 1.1 / (gap + 0.006) + 8,
      pullGreatest: 1.7 / (gap + 0.006) + 12,
      pullNeeded: 24 - 250 * gap,
      side: 3 - 180 * gap,
      return: 9 - 120 * gap,
      fullArrow: 75,
    },
    trouble: null,
  };
}

/** A picture of which nothing is known but its name. */
export const unmeasured: MechanismPicture = {
  works: 'energise to stop',
  sense: 1,
  homePin: null,
  pullDirection: null,
  stroke: null,
  armMinusShaft: null,
  shaftAngles: { run: null, noFuel: null, hardStop: null, runStop: null },
  down: null,
  connection: { kind: 'slotted lever', slotFrom: null, slotTo: null, pinDiameter: null, sideClearance: null },
  actuator: { kind: 'solenoid', action: 'pull', mouth: null, guideLength: null, plungerDiameter: null, bore: null },
  endSwitchGap: null,
  now: { gap: null, pin: null, armAngle: null, overTravel: 0, slack: false },
  home: null,
  rest: null,
  springs: [],
  keepOut: [],
  forces: null,
  trouble: null,
};
