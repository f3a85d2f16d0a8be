/** Does everything go back without current? From every gap, from home, and against self-locking. */
import { newForce } from '../../physics/linkage.ts';
import { lockRatio as lockRatioAt, newForceOut, type Friction } from '../../physics/plunger.ts';
import { decided, placeOf, type Check, type MechanicalContext } from '../check.ts';
import { outAt, outInto, returnMargin } from '../forces.ts';
import type { End } from '../lever-moments.ts';
import { worstIn, worstOf, type MarginCurve } from '../least.ts';
import type { MechanicalScene } from '../scene.ts';
import type { Station } from '../travel.ts';

// Written over at every place: read at once or not at all.
const driven = newForceOut();
const force = newForce();

/** High friction is the worse one as a rule, so it comes first. */
const frictions = ['high', 'low'] as const;

/** What something else than lever and springs adds to the way out: what drives, and what is left of it, N. */
export interface AddedOut {
  readonly drive: number;
  readonly net: number;
}

export const nothingAdded: AddedOut = { drive: 0, net: 0 };

export type ReturnCurve = MarginCurve & { readonly friction: End };

/** The margin of the way out at every gap, at high and at low friction. */
export function returnCurves(context: MechanicalContext, added: () => AddedOut): readonly ReturnCurve[] {
  return frictions.map((friction) => ({
    friction,
    over({ travel, out }, into) {
      const { drive, net } = out[friction];
      const more = added();
      for (let i = 0; i < travel.stations.length; i++) into[i] = returnMargin(drive[i] + more.drive, net[i] + more.net);
    },
    at({ travel }, station) {
      outInto(context.rig, travel, station, friction, 0, driven);
      const more = added();
      return returnMargin(driven.drive + more.drive, driven.net + more.net);
    },
  }));
}

export interface AtHome extends AddedOut {
  readonly margin: number;
  readonly scene: MechanicalScene;
  readonly friction: End;
}

/** Where coming away from home has the least margin, the first movement after standing counted; a NaN wins. */
export function worstAtHome({ rig, scenes }: MechanicalContext, added: AddedOut): AtHome {
  let worst: AtHome | null = null;
  for (const scene of scenes)
    for (const friction of frictions) {
      outInto(rig, scene.travel, scene.travel.stations[0], friction, rig.lever.breakaway, driven);
      const [drive, net] = [driven.drive + added.drive, driven.net + added.net];
      const margin = returnMargin(drive, net);
      if (worst === null || Number.isNaN(margin) || margin < worst.margin)
        worst = { margin, scene, friction, drive, net };
      if (Number.isNaN(margin)) return worst;
    }
  return worst!;
}

export function returnsFromEveryGap(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const curves = returnCurves(context, () => nothingAdded);
  return {
    id: 'returns-from-every-gap',
    title: rig.toStop ? 'Goes back to run from every gap' : 'Goes to stop from every gap',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.return,
    how: `What drives the ${rig.mover} out, over what holds it back, minus one, at every gap. Drive: lever and springs through the geometry, the ${rig.mover}'s springs, helpful weight. Against it: friction of lever, connection and guide, sticking, adverse weight, vibration.`,
    needs: needs.returned,
    ...decided(
      () => worstOf(context.rig, context.scenes, curves),
      ({ station, scene, curve: { friction } }) => {
        const { drive, net } = outAt(rig, scene.travel, station, friction);
        return {
          value: drive,
          limit: drive - net,
          at: placeOf(station, scene, { friction }),
          because: returnWords(drive, net, `${say.length(station.gap)} from home`, say),
        };
      },
    ),
  };
}

export function returnsFromHome(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  return {
    id: 'returns-from-home',
    title: 'Comes away from home against sticking',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.return,
    how: 'As from every gap, at home, with sticking in full and the extra friction of the first movement after standing.',
    needs: [...needs.returned, ...needs.firstPull],
    ...decided(
      () => worstAtHome(context, nothingAdded),
      ({ scene, friction, drive, net }) => ({
        value: drive,
        limit: drive - net,
        at: placeOf(scene.travel.stations[0], scene, { friction }),
        because: returnWords(drive, net, 'at home (sticking and first movement after standing counted)', say),
      }),
    ),
  };
}

function returnWords(drive: number, net: number, where: string, say: MechanicalContext['say']): string {
  if (net === -Infinity) return `Friction holds the connection fast ${where}: no spring on the lever brings it back.`;
  if (!(drive > 0)) return `Nothing drives the return ${where}.`;
  return `${say.force(drive)} drives the return ${where} against ${say.force(drive - net)} that holds it back.`;
}

export function lockRatio(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const ratio = ({ travel }: MechanicalScene, { pose, stretch }: Station, pair: Friction): number =>
    stretch === null ? lockRatioAt(travel.linkage, context.rig.guide, pose, pair, force) - 1 : Infinity;
  // Of what the lever gives friction takes the more, the higher it is: high friction alone is asked.
  const curve: MarginCurve = {
    over(scene, into) {
      const { stations } = scene.travel;
      const pair = context.rig.friction.high;
      for (let i = 0; i < stations.length; i++) into[i] = ratio(scene, stations[i], pair);
    },
    at: (scene, station) => ratio(scene, station, context.rig.friction.high),
  };
  return {
    id: 'lock-ratio',
    title: 'Does not lock on the way out',
    question: rig.toStop ? 'runs' : 'stops',
    unit: '',
    marginUnit: 'ratio',
    wanted: rig.wanted.lockRatio - 1,
    how: 'Axial force that the lever gives without friction, over what friction in connection and guide takes of it on the way out; at 1 it locks.',
    needs: [...needs.travel, ...needs.guide, ...needs.pins],
    ...decided(
      () => worstIn(context.rig, context.scenes, curve),
      ({ margin, station, scene }) => {
        const times = margin + 1;
        const given = `What the lever gives is ${times > 99 ? 'more than 99' : times.toFixed(1)} times what friction takes of it on the way out`;
        const words =
          times <= 0
            ? `The connection is held fast ${say.length(station.gap)} from home: nothing on the lever brings the ${rig.mover} out.`
            : times > 1
              ? `${given}: a spring on the lever can bring the ${rig.mover} out.`
              : `${given}: no spring on the lever, however strong, brings the ${rig.mover} out; one on the ${rig.mover} does.`;
        return { value: times, limit: 1, at: placeOf(station, scene, { friction: 'high' }), because: words };
      },
    ),
  };
}
