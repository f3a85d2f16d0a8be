/** Does the rod go back by air, and what does the lever do when there is none? */
import { decided, placeOf, unique, type Check } from '../../check.ts';
import { nothingAdded, returnCurves, worstAtHome } from '../../checks/return.ts';
import { outAt } from '../../forces.ts';
import { worstOf } from '../../least.ts';
import type { AirContext } from '../air-context.ts';
import { addedOut } from '../air-rig.ts';

/** In the place of the return by springs, where air brings the rod back. */
export function returnsByAir(context: AirContext): Check {
  const { rig, needs, airNeeds, say } = context;
  const curves = returnCurves(context, () => addedOut(context.air));
  return {
    id: 'returns-from-every-gap',
    title: rig.toStop ? 'Goes back to run from every gap' : 'Goes to stop from every gap',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.return,
    how: 'What drives the rod out, over what holds it back, minus one, at every gap: air in the other chamber at its lowest pressure, lever and springs; against friction of lever, connection, guide and seals, adverse weight, vibration.',
    needs: unique([...needs.returned, ...airNeeds.forceLow]),
    ...decided(
      () => worstOf(context.rig, context.scenes, curves),
      ({ scene, station, curve: { friction } }) => {
        const more = addedOut(context.air);
        const found = outAt(context.rig, scene.travel, station, friction);
        const [drive, net] = [found.drive + more.drive, found.net + more.net];
        return {
          value: drive,
          limit: drive - net,
          at: placeOf(station, scene, { friction }),
          because: context.air.hasAir
            ? backWords(context, drive, net, `${say.length(station.gap)} from home at ${say.pressure(context.air.low)}`)
            : 'There is no compressed air here to bring it back.',
        };
      },
    ),
  };
}

/** The same at home, the first movement after standing counted. */
export function returnsFromHomeByAir(context: AirContext): Check {
  const { rig, needs, airNeeds, say } = context;
  return {
    id: 'returns-from-home',
    title: 'Comes away from home against sticking',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.return,
    how: 'As from every gap, at home, with the extra friction of the first movement after standing.',
    needs: unique([...needs.returned, ...needs.firstPull, ...airNeeds.forceLow]),
    ...decided(
      () => worstAtHome(context, addedOut(context.air)),
      ({ scene, friction, drive, net }) => ({
        value: drive,
        limit: drive - net,
        at: placeOf(scene.travel.stations[0], scene, { friction }),
        because: context.air.hasAir
          ? backWords(
              context,
              drive,
              net,
              `at home at ${say.pressure(context.air.low)}, first movement after standing counted,`,
            )
          : 'There is no compressed air here to bring it back.',
      }),
    ),
  };
}

function backWords({ say }: AirContext, drive: number, net: number, where: string): string {
  if (net === -Infinity) return `Friction holds the connection fast ${where}.`;
  if (!(drive > 0)) return `Nothing drives the rod back ${where}.`;
  return `${say.force(drive)} drives the rod back ${where} against ${say.force(drive - net)} that holds it.`;
}

/**
 * Both chambers open, the lever left to its springs. Air to stop: the engine cannot be stopped by this, and the question is
 * whether the lever comes back to run; air to run: whether the engine stops.
 */
export function whenAirIsLost(context: AirContext): Check {
  const { rig, needs } = context;
  const curves = returnCurves(context, () => nothingAdded);
  return {
    id: 'air-lost',
    title: rig.toStop ? 'Air lost: the lever goes back to run' : 'Air lost: the lever goes to stop',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.toStop ? 0 : rig.wanted.return,
    how: 'What drives the rod out without air, over what holds it back, minus one, the least over the travel: springs, lever and helpful weight against friction of lever, connection, guide and seals, adverse weight and vibration.',
    needs: needs.returned,
    ...decided(
      () => worstOf(context.rig, context.scenes, curves),
      ({ scene, station, curve: { friction }, margin }) => {
        const { drive, net } = outAt(context.rig, scene.travel, station, friction);
        return {
          value: drive,
          limit: drive - net,
          at: placeOf(station, scene, { friction }),
          because: `${lostWords(rig.toStop, margin >= 0)} ${backWords(context, drive, net, `${context.say.length(station.gap)} from home, without air,`)}`,
        };
      },
    ),
  };
}

/** What the lever does, in words that do not hang on a number. */
export function lostWords(toStop: boolean, comesBack: boolean): string {
  if (toStop)
    return comesBack
      ? 'Without air the engine runs on and this cannot stop it: the hand stop must work. A lever at stop goes back to run.'
      : 'Without air the engine runs on and this cannot stop it: the hand stop must work. A lever at stop stays there until somebody moves it.';
  return comesBack
    ? 'Without air the engine is stopped, wanted or not.'
    : 'Without air the lever stays at run and the engine runs on: only the hand stop stops it.';
}
