/** Is each return spring within its stress and its length over the whole swing? */
import { correctedShearStress, permissibleShare, shearStress } from '../../physics/spring/helical.ts';
import { bendingStress, permissibleBendingShare, woundBy } from '../../physics/spring/torsion.ts';
import { strengthRange, wireStrength, type SpringWire } from '../../physics/spring/wire.ts';
import { leverSpringLength, springForce } from '../../physics/spring/working.ts';
import { fromSI } from '../../units/quantity.ts';
import {
  decided,
  inDegrees,
  inMillimetres,
  placeOf,
  type Check,
  type MechanicalContext,
  type Judgement,
} from '../check.ts';
import { springPaths } from '../spring-paths.ts';
import { limitsOf, shortestLength } from '../spring-limits.ts';
import type { RigShaftSpring, RigSpring } from '../springs-of.ts';
import type { Station } from '../travel.ts';

export function springsWithinLimits(context: MechanicalContext): Check[] {
  const { springs, shaftSprings } = context.rig;
  return [
    ...springs.map((_, i) => springWithinLimits(context, () => context.rig.springs[i])),
    ...shaftSprings.map((_, i) => shaftSpringWithinLimits(context, () => context.rig.shaftSprings[i])),
  ].sort((a, b) => a.id.localeCompare(b.id));
}

/** Margin that counts as enough, as a share of what is allowed. Common practice, no source. */
export const WANTED_OF_SPRINGS = 0.1;

function springWithinLimits(context: MechanicalContext, now: () => RigSpring): Check {
  const { needs } = context;
  const spring = now();
  const find = () => {
    const one = now();
    const { stations } = context.scenes[0].travel;
    const isExtension = one.working.kind === 'extension';
    let at = 0;
    let extreme = lengthAt(one, stations[0]);
    for (let i = 1; i < stations.length; i++) {
      const length = lengthAt(one, stations[i]);
      if (!(isExtension ? length > extreme : length < extreme) && !Number.isNaN(length)) continue;
      extreme = length;
      at = i;
    }
    return {
      margin: one.helical === null ? marginByLength(one, extreme) : stressed(one, one.helical, extreme).margin,
      extreme,
      at,
    };
  };
  const { description } = spring;
  const limit = spring.helical === null ? [`${spring.path}.spring.limitLength`] : [];
  return {
    id: `spring-${spring.index + 1}`,
    title: `${spring.name || `Spring ${spring.index + 1}`} is within its stress and length`,
    question: context.rig.toStop ? 'runs' : 'stops',
    unit: spring.helical === null ? 'mm' : 'MPa',
    marginUnit: 'share',
    wanted: WANTED_OF_SPRINGS,
    how: 'Permissible over actual shear stress (EN 13906-1/-2), travel left before the coils touch, and buckling: the least of them, minus one. A spring known by its rate or by two readings: travel allowed over travel used.',
    needs: [...needs.travelUnmoved, ...springPaths(description, spring.path), ...limit],
    unread: {
      because: untabulated(spring.helical?.wire),
      readings: [`${spring.path}.spring.wireDiameter`],
    },
    ...decided(find, ({ extreme, at }) => {
      const [scene] = context.scenes;
      return {
        ...(spring.helical === null
          ? lengthTold(context, spring, extreme)
          : stressTold(context, spring, spring.helical, extreme)),
        at: placeOf(Number.isNaN(extreme) ? null : scene.travel.stations[at], scene),
      };
    }),
  };
}

/** Wound round the shaft: bending stress against EN 13906-3, or how far it may be wound. */
function shaftSpringWithinLimits(context: MechanicalContext, now: () => RigShaftSpring): Check {
  const { needs, say } = context;
  const spring = now();
  const { coil, onShaft, limitAngle, path, index } = spring;
  const find = () => {
    const one = now();
    const { stations } = context.scenes[0].travel;
    let at = 0;
    let most = woundBy(one.onShaft, stations[0].shaftAngle);
    for (let i = 1; i < stations.length; i++) {
      const angle = woundBy(one.onShaft, stations[i].shaftAngle);
      if (!(angle > most) && !Number.isNaN(angle)) continue;
      most = angle;
      at = i;
    }
    if (one.coil === null) {
      const allowed = one.onShaft.drives * (one.onShaft.freeAngle - one.limitAngle);
      return { margin: allowed <= 0 ? -1 : most > 0 ? allowed / most - 1 : Infinity, most, at };
    }
    const stress = bendingStress(one.coil.wireDiameter, one.onShaft.rate * most);
    const allowed = permissibleBendingShare * wireStrength(one.coil.wire, one.coil.wireDiameter);
    return { margin: stress > 0 ? allowed / stress - 1 : Number.isNaN(allowed) ? NaN : Infinity, most, at };
  };
  return {
    id: `spring-${index + 1}`,
    title: `${spring.name || `Spring ${index + 1}`} is within its stress and winding`,
    question: context.rig.toStop ? 'runs' : 'stops',
    unit: coil === null ? '°' : 'MPa',
    marginUnit: 'share',
    wanted: WANTED_OF_SPRINGS,
    how: 'Permissible over actual bending stress, 0.7 of the tensile strength (EN 13906-3), minus one. A spring known by its rate or by two readings: winding allowed over winding used.',
    needs: [
      ...needs.travelUnmoved,
      ...springPaths(spring.description, path),
      ...(coil === null ? [`${path}.spring.limitAngle`] : []),
    ],
    unread: { because: untabulated(coil?.wire), readings: [`${path}.spring.wireDiameter`] },
    ...decided(find, ({ most, at: place }) => {
      const [scene] = context.scenes;
      const at = placeOf(Number.isNaN(most) ? null : scene.travel.stations[place], scene);
      if (coil === null) {
        const allowed = onShaft.drives * (onShaft.freeAngle - limitAngle);
        return {
          value: inDegrees(most),
          limit: inDegrees(allowed),
          because:
            allowed <= 0
              ? `It may be wound to ${say.angle(limitAngle)}, which is not beyond ${say.angle(onShaft.freeAngle)}, where its legs are at rest.`
              : `It is wound by ${say.angle(most)}; ${say.angle(allowed)} is the most.`,
          at,
        };
      }
      const stress = bendingStress(coil.wireDiameter, onShaft.rate * most);
      const allowed = permissibleBendingShare * wireStrength(coil.wire, coil.wireDiameter);
      return {
        value: fromSI(stress, 'MPa'),
        limit: fromSI(allowed, 'MPa'),
        because: `Wound by ${say.angle(most)} its wire bends at ${say.stress(stress)}; ${say.stress(allowed)} is allowed.`,
        at,
      };
    }),
  };
}

function untabulated(wire: SpringWire | undefined): string {
  if (wire === undefined) return 'No strength is tabulated for this wire at this diameter.';
  const [least, most] = strengthRange(wire).map((diameter) => Number((1000 * diameter).toPrecision(3)));
  return `No strength is tabulated for ${wire} wire at this diameter: ${least === 0 ? 'up' : `from ${least}`} to ${most} mm.`;
}

function lengthAt(spring: RigSpring, station: Station): number {
  return spring.lever === null
    ? spring.lengthAtHome + station.gap
    : leverSpringLength(spring.lever, station.shaftAngle);
}

type Told = Omit<Judgement, 'margin' | 'at'>;

/** A spring known by its rate has a stated end of its travel. */
function marginByLength({ working, limitLength }: RigSpring, extreme: number): number {
  const used = Math.abs(extreme - working.freeLength);
  const isWorked = working.kind === 'extension' ? extreme > working.freeLength : extreme < working.freeLength;
  const allowed = working.kind === 'extension' ? limitLength - working.freeLength : working.freeLength - limitLength;
  return allowed <= 0 ? -1 : isWorked ? allowed / used - 1 : Infinity;
}

function lengthTold({ say }: MechanicalContext, { working, limitLength }: RigSpring, extreme: number): Told {
  const verb = working.kind === 'extension' ? 'stretched' : 'pressed';
  return {
    value: inMillimetres(extreme),
    limit: inMillimetres(limitLength),
    because: `It is ${verb} to ${say.length(extreme)}; ${say.length(limitLength)} is the furthest it may go.`,
  };
}

interface Stressed {
  readonly margin: number;
  readonly decidedBy: 'stress' | 'coils touch' | 'buckling';
  /** Pa. */
  readonly stress: number;
  readonly allowed: number;
}

/** A spring known by its dimensions: stress, room between coils, and buckling. */
function stressed(spring: RigSpring, helical: NonNullable<RigSpring['helical']>, extreme: number): Stressed {
  const { working } = spring;
  const force = springForce(working, extreme);
  const isExtension = working.kind === 'extension';
  // Static duty: EN 13906-1 judges a compression spring without, EN 13906-2 an extension spring's body with correction.
  const stress = isExtension ? correctedShearStress(helical, force) : shearStress(helical, force);
  const allowed = permissibleShare(working.kind) * wireStrength(helical.wire, helical.wireDiameter);
  const byStress = stress > 0 ? allowed / stress - 1 : Number.isNaN(allowed) ? NaN : Infinity;
  if (isExtension) return { margin: byStress, decidedBy: 'stress', stress, allowed };
  const limits = limitsOf(spring);
  const deflection = working.freeLength - extreme;
  const room = deflection > 0 ? limits.deflection / deflection - 1 : Infinity;
  const buckles = deflection > 0 ? limits.buckling / deflection - 1 : Infinity;
  if (room < Math.min(byStress, buckles)) return { margin: room, decidedBy: 'coils touch', stress, allowed };
  if (buckles < byStress) return { margin: buckles, decidedBy: 'buckling', stress, allowed };
  return { margin: byStress, decidedBy: 'stress', stress, allowed };
}

function stressTold(
  { say }: MechanicalContext,
  spring: RigSpring,
  helical: NonNullable<RigSpring['helical']>,
  extreme: number,
): Told {
  const { margin, decidedBy, stress, allowed } = stressed(spring, helical, extreme);
  const frame = { value: fromSI(stress, 'MPa'), limit: fromSI(allowed, 'MPa') };
  if (decidedBy === 'coils touch') {
    const { ends } = spring.description.spring as Extract<typeof spring.description.spring, { by: 'dimensions' }>;
    const shortest = shortestLength(helical, ends);
    return {
      ...frame,
      because: `Pressed to ${say.length(extreme)} it is ${margin < 0 ? 'past' : 'near'} ${say.length(shortest)}, where its coils begin to touch.`,
    };
  }
  if (decidedBy === 'buckling')
    return {
      ...frame,
      because: `Pressed to ${say.length(extreme)} it ${margin < 0 ? 'buckles' : 'is near buckling'}: guide it on a rod or take a thicker coil.`,
    };
  const force = springForce(spring.working, extreme);
  return {
    ...frame,
    because: `${say.force(force)} at ${say.length(extreme)} makes ${say.stress(stress)} in the wire; ${say.stress(allowed)} is allowed.`,
  };
}
