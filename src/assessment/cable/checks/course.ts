/** The course of the conduit: is there room for its bends, and are they wide enough for the core? */
import { inMillimetres, unique } from '../../check.ts';
import { valueOf } from '../../readings.ts';
import { cornerWords, type CableContext } from '../context.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

/** Only of a route that is drawn. */
export function bendsFit({ rig, needs, say, unread }: CableContext): Check | null {
  const { course, cable, prefix } = rig;
  if (cable.route.length === 0) return null;
  return {
    ...findingUnit('bends-fit', 'There is room for every bend', 'stops', 'mm', 'share'),
    wanted: 0,
    how: 'Radius for which the straights beside a bend have room over the radius of the bend, minus one, the least of the bends.',
    needs: needs.course,
    unread: { because: unread.because, readings: unread.readings.length > 0 ? unread.readings : [`${prefix}.route`] },
    judge() {
      if (course === null) return nothingKnown;
      if (course.misfits.length === 0) {
        const bends = course.pieces.filter(({ kind }) => kind === 'bend').length;
        return {
          value: NaN,
          limit: null,
          margin: Infinity,
          at: null,
          because: bends === 0 ? 'The run is straight.' : `All ${bends} bends have room on their straights.`,
        };
      }
      const worst = course.misfits.reduce((least, next) =>
        next.radiusThatFits / next.radius < least.radiusThatFits / least.radius ? next : least,
      );
      const { corner, why, radius, radiusThatFits } = worst;
      const because =
        why === 'no room'
          ? `The bend at ${cornerWords(rig, corner)} with ${say.length(radius)} runs into its neighbour: ${say.length(radiusThatFits)} would fit.`
            + (course.misfits.length > 1 ? ` The same holds for ${course.misfits.length - 1} more.` : '')
          : unread.because;
      return {
        value: inMillimetres(radius),
        limit: inMillimetres(radiusThatFits),
        margin: why === 'no room' ? radiusThatFits / radius - 1 : -1,
        at: null,
        because,
      };
    },
  };
}

export function bendRadius({ rig, needs, say, unread }: CableContext): Check {
  const { course, leastRadius, cable, prefix } = rig;
  const isDrawn = cable.route.length > 0;
  return {
    ...findingUnit('bend-radius', 'Bends are wide enough for the core', 'stops', 'mm', 'share'),
    wanted: 0,
    how: 'Radius of the tightest bend over the least that the maker of the cable allows, minus one.',
    needs: isDrawn ? needs.course : [],
    unread: isDrawn
      ? unread
      : { because: 'The route is not drawn: the radii of its bends are not known.', readings: [`${prefix}.route`] },
    judge() {
      if (course === null || !course.isDrawn || course.pieces.length === 0) return nothingKnown;
      const bends = course.pieces.filter(({ kind }) => kind === 'bend');
      if (bends.length === 0) {
        return {
          value: NaN,
          limit: inMillimetres(leastRadius),
          margin: Infinity,
          at: null,
          because: 'The run is straight.',
        };
      }
      const tightest = bends.reduce((least, next) => (next.radius < least.radius ? next : least));
      const name = cornerWords(rig, tightest.corner);
      return {
        value: inMillimetres(tightest.radius),
        limit: inMillimetres(leastRadius),
        margin: tightest.radius / leastRadius - 1,
        at: null,
        because:
          tightest.radius >= leastRadius * (1 - 1e-9)
            ? `The tightest bend, at ${name}, has ${say.length(tightest.radius)}; ${say.length(leastRadius)} is the least.`
            : `The bend at ${name} has ${say.length(tightest.radius)}, tighter than the core bears: ${say.length(leastRadius)} is the least.`,
      };
    },
  };
}

/** Whether the core goes into its conduit at all, and slides. */
export function coreFits({ rig, say }: CableContext): Check {
  const { bore, cable, prefix } = rig;
  return {
    ...findingUnit('core-fits', 'Core has room in its conduit', 'stops', 'mm', 'mm'),
    wanted: 0.2,
    how: 'Bore of the conduit or its liner minus diameter of the core. Wanted: common practice, no source.',
    needs: unique([`${prefix}.conduit.bore`, `${prefix}.core.diameter`]),
    judge() {
      const diameter = valueOf(cable.core.diameter, 'length');
      const room = bore - diameter;
      return {
        value: inMillimetres(bore),
        limit: inMillimetres(diameter),
        margin: inMillimetres(room),
        at: null,
        because:
          room < 0
            ? `A core of ${say.length(diameter)} does not go into a bore of ${say.length(bore)}.`
            : `A core of ${say.length(diameter)} in a bore of ${say.length(bore)} has ${say.length(room)} of room.`,
      };
    },
  };
}
