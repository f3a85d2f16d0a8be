/** Is each return spring within its stress and its length over the whole swing? */
import {
  bucklingDeflection,
  correctedShearStress,
  leastCoilGaps,
  leverSpringLength,
  permissibleShare,
  shearStress,
  solidLength,
  springForce,
  wireStrength,
} from '../../physics/spring.ts';
import { fromSI } from '../../units/quantity.ts';
import { inMillimetres, placeOf, type Check, type Context } from '../check.ts';
import { springPaths } from '../needs.ts';
import type { RigSpring } from '../rig.ts';
import type { Station } from '../travel.ts';

export function springsWithinLimits(context: Context): Check[] {
  return context.rig.springs.map((spring, i) => springWithinLimits(context, spring, i));
}

/** Margin that counts as enough, as a share of what is allowed. Common practice, no source. */
const WANTED = 0.1;

function springWithinLimits(context: Context, spring: RigSpring, i: number): Check {
  const { needs } = context;
  const { description } = spring;
  const limit = description.spring.by === 'rate' ? [`${spring.path}.spring.limitLength`] : [];
  return {
    id: `spring-${i + 1}`,
    title: `${spring.name || `Spring ${i + 1}`} is within its stress and length`,
    question: context.rig.toStop ? 'runs' : 'stops',
    unit: spring.helical === null ? 'mm' : 'MPa',
    marginUnit: 'share',
    wanted: WANTED,
    how: 'Permissible over actual shear stress (EN 13906-1/-2), travel left before the coils touch, and buckling: the least of them, minus one. A spring known by its rate: travel allowed over travel used.',
    needs: [...needs.travelUnmoved, ...springPaths(description, spring.path), ...limit],
    unread: {
      because:
        'No strength is tabulated for this wire at this diameter: 0.3 to 10 mm (EN 10270-1), up to 6 mm (1.4310).',
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
  { working, description }: RigSpring,
  helical: NonNullable<RigSpring['helical']>,
  extreme: number,
): Judged {
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
  const shortest =
    solidLength(helical.activeTurns, helical.wireDiameter, ends === 'closed and ground' ? ends : 'closed')
    + leastCoilGaps(helical);
  const deflection = working.freeLength - extreme;
  const room = deflection > 0 ? (working.freeLength - shortest) / deflection - 1 : Infinity;
  const modulusRatio = 81.5 / 206;
  const buckles =
    deflection > 0
      ? bucklingDeflection(
          working.freeLength,
          helical.meanCoilDiameter,
          modulusRatio,
          description.on === 'plunger' ? 0.5 : 1,
        )
          / deflection
        - 1
      : Infinity;
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
