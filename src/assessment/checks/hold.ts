/** Does the plunger stay home on the current of hold? */
import { connectionForce, heldForce } from '../../physics/linkage.ts';
import { tableForce } from '../../physics/solenoid/table.ts';
import { decided, placeOf, unique, type Check, type Context } from '../check.ts';
import { plungerSpringForce } from '../forces.ts';
import { leverMoments } from '../lever-moments.ts';
import type { Rig } from '../rig.ts';
import type { Scene } from '../scene.ts';
import { stationAt } from '../travel.ts';
import { isEndedBySwitch, isLesser, pullIn, share } from './pull.ts';

/**
 * Static: nothing slides in hold, so no friction is counted on to help. Where the plunger stops too far from home for the
 * end switch to be worked, the full current goes on and it is that which holds (and burns: another question).
 */
export function holdsAtHome(context: Context): Check {
  const { rig, needs, say } = context;
  const bySwitch = isEndedBySwitch(rig);
  const isEverFull = context.scenes.some(({ travel }) => !isReducedAt(rig, travel.homeGap));
  const holdCurrent = context.electric[weakestCorner(context)].hold.coil;
  const find = () => {
    const judged = context.scenes.map((scene) => {
      const needed = holdNeeded(context.rig, scene);
      const held = holdGiven(context, scene);
      return { scene, needed, held, margin: share(held, needed) };
    });
    return judged.reduce((least, next) => (isLesser(least.margin, next.margin) ? least : next));
  };
  return {
    id: 'holds-at-home',
    title: 'Holds at home',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.hold,
    how: 'Pull at home at the hold current of a low battery with a hot coil, over springs, weight and vibration there, minus one. No friction is counted on to help.',
    needs: unique([
      ...needs.travel,
      ...needs.load,
      ...needs.springs,
      ...needs.weight,
      ...needs.overTravel,
      ...needs.holdLow,
      ...needs.holdTable,
      ...(isEverFull ? needs.pullAvailable : []),
      ...(bySwitch ? needs.switchForce : []),
    ]),
    unread: {
      because: `No pull was read at home within a factor 1.5 of the hold current, ${say.current(holdCurrent)}: hang a weight on the plunger at home at hold current.`,
      readings: ['means.force'],
    },
    ...decided(find, ({ scene, needed, held }) => {
      const reduced = isReducedAt(rig, scene.travel.homeGap);
      const asks = `${say.force(needed)} that springs, weight and vibration ask`;
      const words = reduced
        ? `${say.force(held)} of hold at ${say.current(holdCurrent)} against ${asks}.`
        : `The end switch is not worked, so the full current goes on and holds with ${say.force(held)} against ${asks}.`;
      return {
        value: held,
        limit: needed,
        at: placeOf(scene.travel.stations[0], scene, { supply: 'low', coil: 'hot' }),
        because:
          needed === Infinity ? 'The connection is held fast at home, so nothing can be said of holding there.' : words,
      };
    }),
  };
}

/** Whether the current at home is that of hold. */
function isReducedAt(rig: Rig, gap: number): boolean {
  return !isEndedBySwitch(rig) || (rig.endSwitch !== null && !(gap > rig.endSwitch.worksAtGap));
}

const weakestCorner = ({ electric }: Pick<Context, 'electric'>) =>
  electric.findIndex(({ supply, coil }) => supply === 'low' && coil === 'hot');

/** Pull at home of a low battery with a hot coil, N; NaN where it is not known. */
export function holdGiven({ rig, electric }: Pick<Context, 'rig' | 'electric'>, scene: Scene): number {
  const { travel } = scene;
  const weakest = weakestCorner({ electric });
  if (!isReducedAt(rig, travel.homeGap)) return pullIn(scene, weakest)[0];
  return rig.holdTable === null ? NaN : tableForce(rig.holdTable, travel.homeGap, electric[weakest].hold.coil, 'least');
}

/** What must be held at home, N. */
export function holdNeeded(rig: Rig, { travel }: Pick<Scene, 'travel'>): number {
  const station = stationAt(rig, travel, travel.homeGap);
  const frictionless = { slot: 0, pins: 0 };
  const force =
    station.stretch !== null && rig.overTravel !== null
      ? heldForce(travel.linkage, station.pose, rig.overTravel.preload + rig.overTravel.rate * station.stretch)
      : connectionForce(
          travel.linkage,
          station.pose,
          leverMoments(rig, station.shaftAngle, 'low', 'home').steady,
          1,
          frictionless,
        );
  const push = rig.endSwitch !== null && station.gap <= rig.endSwitch.worksAtGap ? rig.endSwitch.operatingForce : 0;
  return force.along + plungerSpringForce(rig, station.gap) - rig.weightAlong + rig.vibration + push;
}
