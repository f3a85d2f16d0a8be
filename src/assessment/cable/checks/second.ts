/** Another place of control on the same lever: what each adds to the other. */
import { inMillimetres, unique } from '../../check.ts';
import { placeAt, type CableContext } from '../context.ts';
import { frictionThatFailsBoth, placesOf, type Places } from '../places.ts';
import { hardestPull, noFuelTaken, travelTo, worstReturn } from '../reckon.ts';
import { secondUnread } from '../second.ts';
import { backJudged } from './back.ts';
import { partsOfTravel, SPARE_TRAVEL_MM, wornJudged } from './hand.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

const SAME =
  'Handle, core and conduit of the other place are taken to be the same. A tee or bell-crank: core and bends between lever and '
  + 'junction are common to both.';

/** What is asked of a second place, without the way back; nothing where there is none. */
export function secondPlaceWorks(context: CableContext): Check[] {
  if (context.rig.cable.secondStation === 'none') return [];
  return [bothPlacesWork(context), secondTravel(context), bothWorn(context)];
}

function bothPlacesWork(context: CableContext): Check {
  const { rig, needs, say, known, worn } = context;
  const { limit, ratio } = rig;
  const name = nameOf(context);
  return {
    ...findingUnit(
      'second-station',
      'Both places of control work, each with the other hanging on',
      'stops',
      'N',
      'share',
    ),
    wanted: limit?.wanted ?? rig.wanted.pull,
    how:
      'Effort that may be asked over the harder of both handles, minus one: worn and cold, with the idle core of the other place '
      + 'driven along where it joins. It is drawn out or pushed in with its drag and bends; pushed, it bows out at the latest '
      + `under the load that its free length bears. A bell-crank: by its arms, with the friction of its pivot. ${SAME}`,
    needs: unique([...needs.pull, ...needs.limit, ...needs.second, ...needs.bore]),
    unread: unreadOf(context),
    judge() {
      const places = placesWorn(context);
      if (known === null || worn === null || limit === null || places === null) return nothingKnown;
      const alone = hardestPull(known, worn);
      const [first, far] = [places.first, places.second].map((place) => hardestPull(place.known, worn, place.idle));
      const hardest = far.atHandle > first.atHandle ? far : first;
      const effort = hardest.atHandle / ratio;
      const added = (first.atHandle - alone.atHandle) / ratio;
      if (!(hardest.atHandle <= known.core.breakingLoad)) {
        return {
          value: NaN,
          limit: limit.avoidBeyond,
          margin: -1,
          at: placeAt(hardest.pose.shaftAngle),
          because: 'From one of the two places no effort that the core bears turns the lever to stop.',
        };
      }
      return {
        value: effort,
        limit: limit.avoidBeyond,
        margin: limit.avoidBeyond / effort - 1,
        at: placeAt(hardest.pose.shaftAngle),
        because:
          `${say.force(first.atHandle / ratio)} at the first handle, of which the idle core of "${name}" makes ${say.force(added)}; `
          + `${say.force(far.atHandle / ratio)} at "${name}".`,
      };
    },
  };
}

function secondTravel(context: CableContext): Check {
  const { rig, needs, say, known, worn } = context;
  const name = nameOf(context);
  return {
    ...findingUnit('second-travel', 'Second handle has travel enough', 'stops', 'mm', 'mm'),
    wanted: SPARE_TRAVEL_MM,
    how:
      'Travel that the handle has minus travel of the second handle until no-fuel and the lash of the lever are taken, worn and '
      + 'cold, with the idle core of the first driven along; past a bell-crank all that is before it counts by its arms. '
      + SAME,
    needs: unique([
      ...needs.back,
      ...needs.lash,
      ...needs.slack,
      ...needs.bore,
      ...needs.handleTravel,
      ...needs.second,
    ]),
    unread: unreadOf(context),
    judge() {
      const places = placesWorn(context);
      if (known === null || worn === null || places === null) return nothingKnown;
      const used = travelTo(places.second.known, noFuelTaken(rig), worn, places.second.idle);
      const available = rig.handleTravel;
      const isReached = Number.isFinite(used.handle) && used.force <= known.core.breakingLoad;
      return {
        value: isReached ? inMillimetres(used.handle) : NaN,
        limit: inMillimetres(available),
        margin: isReached ? inMillimetres(available - used.handle) : -inMillimetres(available),
        at: placeAt(noFuelTaken(rig)),
        because: isReached
          ? `At "${name}" no-fuel is reached after ${say.length(used.handle)} of the ${say.length(available)} that the handle has: ${partsOfTravel(context, used)}.`
          : `From "${name}" no-fuel is not reached with a force that the core bears.`,
      };
    },
  };
}

function bothWorn(context: CableContext): Check {
  const { rig, needs, known } = context;
  const { friction, limit, ageing, lever } = rig;
  return {
    ...findingUnit('second-worn', 'Both places of control still work when the cable is worn', 'stops', '', 'share'),
    wanted: ageing - 1,
    how:
      'Friction of both cores at which the hand is asked more than may be at one of the places, or the lever no longer comes back '
      + `with both hanging on, over the friction now at the high end of its range, minus one. ${SAME}`,
    needs: unique([...needs.pull, ...needs.limit, ...needs.second, ...needs.bore]),
    unread: unreadOf(context),
    judge() {
      if (known === null || friction === null || limit === null || lever.efforts === null) return nothingKnown;
      const fails = frictionThatFailsBoth(known, limit.avoidBeyond);
      return fails === null ? nothingKnown : wornJudged(context, friction, limit, fails);
    },
  };
}

/** Nothing where there is no other place. */
export function comesBackOnBoth(context: CableContext): Check | null {
  const { rig, needs, known, worn } = context;
  if (rig.cable.secondStation === 'none') return null;
  return {
    ...findingUnit('second-back', 'Lever comes back with the cores of both places hanging on', 'runs', 'N', 'share'),
    wanted: rig.wanted.return,
    how:
      'As for the cable alone, with the drag of both handles: each multiplied by the worn bends to where they join, by the arms of '
      + `a bell-crank with the friction of its pivot, and by the bends from there to the lever. ${SAME}`,
    needs: unique([...needs.back, ...needs.second]),
    unread: unreadOf(context),
    judge() {
      const places = placesWorn(context);
      if (known === null || worn === null || places === null) return nothingKnown;
      return backJudged(context, worstReturn(known, worn, places.both), 'cores and both handles');
    },
  };
}

function nameOf({ rig: { cable } }: CableContext): string {
  return typeof cable.secondStation === 'string' ? 'the other place' : cable.secondStation.name;
}

function unreadOf({ rig, say, unread, known }: CableContext): CableContext['unread'] {
  return (known === null ? null : secondUnread(rig, say)) ?? unread;
}

function placesWorn({ rig, known, worn }: CableContext): Places | null {
  return known === null || worn === null || rig.lever.efforts === null ? null : placesOf(known, worn);
}
