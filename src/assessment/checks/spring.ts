/** Is each return spring within its stress and its length over the whole swing? */
import { correctedShearStress, permissibleShare, shearStress } from '../../physics/spring/helical.ts';
import { bendingStress, permissibleBendingShare, woundBy } from '../../physics/spring/torsion.ts';
import { strengthRange, wireStrength, type SpringWire } from '../../physics/spring/wire.ts';
import { leverSpringLength, springForce } from '../../physics/spring/working.ts';
import { fromSI } from '../../units/quantity.ts';
import { inDegrees, inMillimetres, placeOf, type Check, type Context } from '../check.ts';
import { springPaths } from '../needs.ts';
import { limitsOf, shortestLength } from '../spring-limits.ts';
import type { RigShaftSpring, RigSpring } from '../springs-of.ts';
import type { Station } from '../travel.ts';

export function springsWithinLimits(context: Context): Check[] {
  const { springs, shaftSprings } = context.rig;
  return [
    ...springs.map((spring) => springWithinLimits(context, spring)),
    ...shaftSprings.map((spring) => shaftSpringWithinLimits(context, spring)),
  ].sort((a, b) => a.id.localeCompare(b.id));
}

/** Margin that counts as enough, as a share of what is allowed. Common practice, no source. */
export const WANTED_OF_SPRINGS = 0.1;

function springWithinLimits(context: Context, spring: RigSpring): Check {
  const { needs } = context;
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
    judge() {
      const [scene] = context.scenes;
      const stations = scene.travel.stations;
      const lengths = stations.map((station) => lengthAt(spring, station));
      const extreme = spring.working.kind === 'extension' ? Math.max(...lengths) : Math.min(...lengths);
      const at = placeOf(stations[lengths.indexOf(extreme)] ?? null, scene);
      return {
        ...(spring.helical === null
          ? byLength(context, spring, extreme)
          : byStress(context, spring, spring.helical, extreme)),
        at,
      };
    },
  };
}

/** Wound round the shaft: bending stress against EN 13906-3, or how far it may be wound. */
function shaftSpringWithinLimits(context: Context, spring: RigShaftSpring): Check {
  const { needs, say } = context;
  const { coil, onShaft, limitAngle, path, index } = spring;
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
    judge() {
      const [scene] = context.scenes;
      const { stations } = scene.travel;
      const angles = stations.map(({ shaftAngle }) => woundBy(onShaft, shaftAngle));
      const most = Math.max(...angles);
      const at = placeOf(stations[angles.indexOf(most)] ?? null, scene);
      if (coil === null) {
        const allowed = onShaft.drives * (onShaft.freeAngle - limitAngle);
        return {
          value: inDegrees(most),
          limit: inDegrees(allowed),
          margin: allowed <= 0 ? -1 : most > 0 ? allowed / most - 1 : Infinity,
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
        margin: stress > 0 ? allowed / stress - 1 : Number.isNaN(allowed) ? NaN : Infinity,
        because: `Wound by ${say.angle(most)} its wire bends at ${say.stress(stress)}; ${say.stress(allowed)} is allowed.`,
        at,
      };
    },
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

type Judged = { readonly value: number; readonly limit: number; readonly margin: number; readonly because: string };

/** A spring known by its rate has a stated end of its travel. */
function byLength({ say }: Context, { working, limitLength }: RigSpring, extreme: number): Judged {
  const used = Math.abs(extreme - working.freeLength);
  const isWorked = working.kind === 'extension' ? extreme > working.freeLength : extreme < working.freeLength;
  const allowed = working.kind === 'extension' ? limitLength - working.freeLength : working.freeLength - limitLength;
  const verb = working.kind === 'extension' ? 'stretched' : 'pressed';
  return {
    value: inMillimetres(extreme),
    limit: inMillimetres(limitLength),
    margin: allowed <= 0 ? -1 : isWorked ? allowed / used - 1 : Infinity,
    because: `It is ${verb} to ${say.length(extreme)}; ${say.length(limitLength)} is the furthest it may go.`,
  };
}

/** A spring known by its dimensions: stress, room between coils, and buckling. */
function byStress(
  { say }: Context,
  spring: RigSpring,
  helical: NonNullable<RigSpring['helical']>,
  extreme: number,
): Judged {
  const { working, description } = spring;
  const force = springForce(working, extreme);
  const { ends, wire } = description.spring as Extract<typeof description.spring, { by: 'dimensions' }>;
  const isExtension = working.kind === 'extension';
  // Static duty: EN 13906-1 judges a compression spring without, EN 13906-2 an extension spring's body with correction.
  const stress = isExtension ? correctedShearStress(helical, force) : shearStress(helical, force);
  const allowed = permissibleShare(working.kind) * wireStrength(wire, helical.wireDiameter);
  const byStressMargin = stress > 0 ? allowed / stress - 1 : Number.isNaN(allowed) ? NaN : Infinity;
  const stressed = `${say.force(force)} at ${say.length(extreme)} makes ${say.stress(stress)} in the wire; ${say.stress(allowed)} is allowed.`;
  const frame = { value: fromSI(stress, 'MPa'), limit: fromSI(allowed, 'MPa') };
  if (isExtension) return { ...frame, margin: byStressMargin, because: stressed };
  const shortest = shortestLength(helical, ends);
  const limits = limitsOf(spring);
  const deflection = working.freeLength - extreme;
  const over = (most: number) => (deflection > 0 ? most / deflection - 1 : Infinity);
  const room = over(limits.deflection);
  const buckles = over(limits.buckling);
  if (room < Math.min(byStressMargin, buckles)) {
    return {
      ...frame,
      margin: room,
      because: `Pressed to ${say.length(extreme)} it is ${room < 0 ? 'past' : 'near'} ${say.length(shortest)}, where its coils begin to touch.`,
    };
  }
  if (buckles < byStressMargin)
    return {
      ...frame,
      margin: buckles,
      because: `Pressed to ${say.length(extreme)} it ${buckles < 0 ? 'buckles' : 'is near buckling'}: guide it on a rod or take a thicker coil.`,
    };
  return { ...frame, margin: byStressMargin, because: stressed };
}
