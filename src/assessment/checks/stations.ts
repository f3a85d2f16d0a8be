/** Several places of control on one coil: can each of them stop, and does any of them wake what it should not? */
import { pullInCurrents } from '../../physics/circuit.ts';
import { tableForce } from '../../physics/solenoid/table.ts';
import { LARGEST_MARGIN, placeOf, unique, type Check, type Context } from '../check.ts';
import { leastOver, neededAt, type Least } from '../scene.ts';

/** The pull at the weakest supply by way of each further station; the first one has its own findings. */
export function everyStationWorks(context: Context): Check | null {
  const { rig, needs, say } = context;
  if (rig.stations.length === 0) return null;
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
    judge() {
      const judged = rig.stations.map(({ name, low }) => {
        const { coil, volts, supply } = pullInCurrents(low, rig.coilAt.hot);
        const least = context.scenes
          .map((scene): Least & { readonly scene: typeof scene } => {
            const margin = leastOver(rig, scene, (station) => {
              const pull = rig.pullInTable === null ? NaN : tableForce(rig.pullInTable, station.gap, coil, 'least');
              const { needed } = neededAt(rig, scene.travel, station, 'high');
              return needed === Infinity ? -1 : needed <= 0 ? Infinity : pull / needed - 1;
            });
            return { ...margin, scene };
          })
          .reduce((worst, one) => (Number.isNaN(one.margin) || one.margin < worst.margin ? one : worst));
        return { name, coil, volts, supply, ...least };
      });
      const worst = judged.reduce((least, one) =>
        Number.isNaN(least.margin) || least.margin <= one.margin ? least : one,
      );
      const pull = rig.pullInTable === null ? NaN : tableForce(rig.pullInTable, worst.station.gap, worst.coil, 'least');
      return {
        value: pull,
        limit: neededAt(rig, worst.scene.travel, worst.station, 'high').needed,
        margin: worst.margin,
        at: placeOf(worst.station, worst.scene, { supply: 'low', coil: 'hot', friction: 'high' }),
        because: `From "${worst.name}" ${say.voltage(worst.volts)} arrive at ${say.current(worst.supply)}: ${say.force(pull)} of pull.`,
      };
    },
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
export function letsGoInSpiteOfBackFeed({ rig, say }: Context): Check | null {
  if (rig.toStop) return null;
  const { backFeed, dropOut } = rig;
  const unread = [
    ...(Number.isNaN(backFeed) ? ['supply.backFeed'] : []),
    ...(Number.isNaN(dropOut) ? ['means.dropOut'] : []),
  ];
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
    judge: () => ({
      value: backFeed,
      limit: dropOut,
      margin: unread.length > 0 ? NaN : backFeed === 0 ? LARGEST_MARGIN : dropOut / backFeed - 1,
      at: null,
      because: `${say.voltage(backFeed)} remain at the coil with the switch off; it lets go below ${say.voltage(dropOut)}.`,
    }),
  };
}
