/** Several places of control on one coil: can each of them stop, and does any of them wake what it should not? */
import { pullInCurrents } from '../../physics/circuit.ts';
import { newNeeded } from '../../physics/plunger.ts';
import { tableForce } from '../../physics/solenoid/table.ts';
import { decided, LARGEST_MARGIN, placeOf, unique, type Check, type Context } from '../check.ts';
import { neededAt, neededInto } from '../forces.ts';
import { worstIn, type MarginCurve } from '../least.ts';
import type { Rig } from '../rig.ts';

// Written over at every place: read at once or not at all.
const asked = newNeeded();

const share = (pull: number, needed: number): number =>
  needed === Infinity ? -1 : needed <= 0 ? Infinity : pull / needed - 1;

const pullIn = ({ pullInTable }: Rig, gap: number, current: number): number =>
  pullInTable === null ? NaN : tableForce(pullInTable, gap, current, 'least');

/** Pull over need at this current in the coil. */
function curveAt(rig: Rig, current: number): MarginCurve {
  return {
    over({ travel: { stations }, needed: { high } }, into) {
      for (let i = 0; i < stations.length; i++) into[i] = share(pullIn(rig, stations[i].gap, current), high.needed[i]);
    },
    at({ travel }, station) {
      neededInto(rig, travel, station, 'high', 0, asked);
      return share(pullIn(rig, station.gap, current), asked.needed);
    },
  };
}

/** The pull at the weakest supply by way of each further station; the first one has its own findings. */
export function everyStationWorks(context: Context): Check | null {
  const { rig, needs, say } = context;
  if (rig.stations.length === 0) return null;
  const find = () => {
    const judged = context.rig.stations.map(({ name, low }) => {
      const { coil, volts, supply } = pullInCurrents(low, context.rig.coilAt.hot);
      return { name, coil, volts, supply, ...worstIn(context.rig, context.scenes, curveAt(context.rig, coil)) };
    });
    return judged.reduce((least, one) => (Number.isNaN(least.margin) || least.margin <= one.margin ? least : one));
  };
  return {
    id: 'every-station-works',
    title: 'Every station can stop the engine',
    question: 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.pull,
    how: 'The least pull over need on the whole way, minus one, by way of the conductors and contacts of each further station, low battery, hot coil, high friction.',
    needs: unique([...needs.pullNeeded, ...needs.pullAvailable, ...needs.stationLoops]),
    unread: {
      because: 'The pulls that were read do not reach the current that flows by way of one of the stations.',
      readings: ['means.force'],
    },
    ...decided(find, ({ name, coil, volts, supply, station, scene }) => {
      const pull = pullIn(rig, station.gap, coil);
      return {
        value: pull,
        limit: neededAt(rig, scene.travel, station, 'high').needed,
        at: placeOf(station, scene, { supply: 'low', coil: 'hot', friction: 'high' }),
        because: `From "${name}" ${say.voltage(volts)} arrive at ${say.current(supply)}: ${say.force(pull)} of pull.`,
      };
    }),
  };
}

/** What else hangs on the wire of a station is fed by the others, and may feed the coil. */
export function noSneakPath({ rig }: Context): Check | null {
  const { stations } = rig.job.supply;
  if (stations.length === 0) return null;
  const open = stations.filter(({ alsoFeeds, diode }) => alsoFeeds.trim() !== '' && diode === 'none');
  const [first] = open;
  return {
    id: 'no-sneak-path',
    title: 'No way round through another station',
    question: rig.toStop ? 'runs' : 'stops',
    unit: '',
    marginUnit: 'share',
    wanted: 0,
    how: 'A station whose wire also feeds something else needs a diode in series, or current takes the way round. Read from the list of stations.',
    needs: [],
    judge: () => ({
      value: NaN,
      limit: null,
      margin: first === undefined ? LARGEST_MARGIN : -1,
      at: null,
      because:
        first === undefined
          ? 'No further station shares its wire with anything else without a diode.'
          : `"${first.name}" also feeds ${first.alsoFeeds.trim()} without a diode: the other stations feed that too, and it can feed the coil. Put a diode in series with this station.`,
    }),
  };
}

/** Energise to run: whatever still reaches the coil with the switch off must lie well under what holds the plunger. */
export function letsGoInSpiteOfBackFeed(context: Context): Check | null {
  const { rig, say } = context;
  if (rig.toStop) return null;
  const { backFeed, dropOut } = rig;
  const unread = [
    ...(Number.isNaN(backFeed) ? ['supply.backFeed'] : []),
    ...(Number.isNaN(dropOut) ? ['means.dropOut'] : []),
  ];
  const margin = () => {
    const { backFeed: remaining, dropOut: least } = context.rig;
    return {
      margin: unread.length > 0 ? NaN : remaining === 0 ? LARGEST_MARGIN : least / remaining - 1,
    };
  };
  return {
    id: 'lets-go',
    title: 'Lets go in spite of what feeds back',
    question: 'stops',
    unit: 'V',
    marginUnit: 'share',
    wanted: 1,
    how: 'Volts at which the plunger leaves home as they are turned down, over the volts read at the coil with the switch off and the engine turning, minus one; twice is wanted. An alternator field or a warning lamp may feed back.',
    needs: [],
    unread: {
      because: 'Read the volts at the coil with the engine turning and the switch off, and those at which it lets go.',
      readings: unread,
    },
    ...decided(margin, () => ({
      value: backFeed,
      limit: dropOut,
      at: null,
      because: `${say.voltage(backFeed)} remain at the coil with the switch off; it lets go below ${say.voltage(dropOut)}.`,
    })),
  };
}
