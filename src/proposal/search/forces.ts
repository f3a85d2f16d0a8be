/** The margins of a placed layout that forces decide, in the corner of high friction, low supply and hot coil. */
import { electricCorners, pullAt, type ElectricCorner } from '../../assessment/scene.ts';
import { leverMoments } from '../../assessment/lever-moments.ts';
import { neededAt, outAt, plungerSpringForce, returnMargin } from '../../assessment/forces.ts';
import { rigOf, type Rig, type SolenoidJob } from '../../assessment/rig.ts';
import { connectionForce, heldForce, linkToPull } from '../../physics/linkage.ts';
import { lockRatio } from '../../physics/plunger.ts';
import { tableForce } from '../../physics/solenoid/table.ts';
import { share, SHARES, type Placed } from './placed.ts';

/** One setting of springs and conductors. */
export interface Variant {
  readonly rig: Rig;
  readonly weakest: ElectricCorner;
  /** Fixed gaps, m, and the least pull there, N. */
  readonly gaps: readonly number[];
  readonly pull: readonly number[];
  /** Least hold at home, N; NaN where it is not known. */
  readonly hold: number;
  /** What no layout can better, as a share of what is wanted. */
  readonly ceiling: number;
}

export function variantOf(job: SolenoidJob, ceiling: number): Variant {
  const rig = rigOf(job);
  const weakest = electricCorners(rig).find(({ supply, coil }) => supply === 'low' && coil === 'hot')!;
  return {
    rig,
    weakest,
    gaps: SHARES.map((share) => share * rig.stroke),
    pull: SHARES.map((share) => pullAt(rig, share * rig.stroke, weakest, 'least')),
    ceiling,
    hold: rig.holdTable === null ? NaN : tableForce(rig.holdTable, 0, weakest.hold.coil, 'least'),
  };
}

/** What springs and friction ask at one station, and the margins that they decide alone. */
export interface Asked {
  readonly needed: number;
  readonly margin: number;
}

/** What is not known here is for the assessment to say. */
function known(margin: number, by: number): number {
  return Number.isNaN(margin) ? Infinity : share(margin, by);
}

function askedAt(rig: Rig, placed: Placed, i: number, toBeat: number): Asked {
  const { travel, stations, linkage } = placed;
  const { wanted, lever } = rig;
  const station = stations[i];
  const isLast = i === stations.length - 1;
  const needed = neededAt(rig, travel, station, 'high');
  const first = isLast || rig.overTravel !== null ? neededAt(rig, travel, station, 'high', lever.breakaway) : needed;
  const most = isLast ? Math.max(first.needed, needed.needed) : needed.needed;
  const out = outAt(rig, travel, station, 'high', i === 0 && station.gap === 0 ? lever.breakaway : 0);
  let least = known(returnMargin(out.drive, out.net), wanted.return);
  if (rig.overTravel !== null && first.along > 0) {
    const lean = linkage.kind === 'link' || linkage.kind === 'chain' ? Math.cos(linkToPull(linkage, station.pose)) : 1;
    least = Math.min(least, known((rig.overTravel.preload * lean) / first.along - 1, 0.25));
  }
  if (!(least > toBeat)) return { needed: most, margin: least };
  if (linkage.kind === 'chain') {
    const { steady, friction } = leverMoments(rig, station.shaftAngle, 'high', 'out');
    if (friction > 0) least = Math.min(least, known(steady / friction - 1, wanted.return));
  }
  least = Math.min(
    least,
    known(lockRatio(linkage, rig.guide, station.pose, rig.friction.high) - 1, wanted.lockRatio - 1),
  );
  const side = Math.abs(needed.side);
  if (side > 0)
    least = Math.min(least, needed.along === Infinity ? 0 : (wanted.sideShare * Math.abs(needed.along)) / side);
  return { needed: most, margin: least };
}

const frictionless = { slot: 0, pins: 0 };

/** The margins that forces decide, where they are most likely to be short first. */
export function forcesAllow(
  { rig, weakest, gaps, pull, hold }: Variant,
  placed: Placed,
  asked: (Asked | undefined)[],
  toBeat: number,
): number {
  const { stations, linkage } = placed;
  const { wanted } = rig;
  let least = placed.least;
  for (let i = stations.length - 1; i >= 0; i--) {
    const { gap } = stations[i];
    const { needed, margin } = (asked[i] ??= askedAt(rig, placed, i, toBeat));
    least = Math.min(least, margin);
    if (!(least > toBeat)) return least;
    const fixed = gaps.indexOf(gap);
    const available = fixed >= 0 ? pull[fixed] : pullAt(rig, gap, weakest, 'least');
    if (!Number.isNaN(available + needed))
      least = Math.min(
        least,
        needed === Infinity ? -1 / wanted.pull : needed <= 0 ? Infinity : share(available / needed - 1, wanted.pull),
      );
    if (!(least > toBeat)) return least;
  }
  if (placed.home !== null && !Number.isNaN(hold)) {
    const { pose, shaftAngle, stretch } = placed.home;
    const { along } =
      stretch !== null && rig.overTravel !== null
        ? heldForce(linkage, pose, rig.overTravel.preload + rig.overTravel.rate * stretch)
        : connectionForce(linkage, pose, leverMoments(rig, shaftAngle, 'low', 'home').steady, 1, frictionless);
    const least_N =
      along + plungerSpringForce(rig, 0) - rig.weightAlong + rig.vibration + (rig.endSwitch?.operatingForce ?? 0);
    if (least_N > 0) least = Math.min(least, share(hold / least_N - 1, wanted.hold));
  }
  return Number.isNaN(least) ? -Infinity : least;
}
