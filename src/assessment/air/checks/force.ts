/** Does the air carry the lever home at its lowest pressure? From rest, and all the way. */
import { newNeeded } from '../../../physics/plunger.ts';
import { pressureFor } from '../../../physics/air/cylinder.ts';
import { decided, placeOf, unique, type Check } from '../../check.ts';
import { neededInto } from '../../forces.ts';
import type { End } from '../../lever-moments.ts';
import { worstOf, type MarginCurve } from '../../least.ts';
import type { AirContext } from '../air-context.ts';
import { givenHome } from '../air-rig.ts';

// Written over at every place: read at once or not at all.
const asked = newNeeded();

const ends = ['high', 'low'] as const;

const share = (available: number, needed: number): number =>
  needed === Infinity ? -1 : needed <= 0 ? Infinity : available / needed - 1;

export function movesFromRest(context: AirContext): Check {
  const { rig, needs, airNeeds, say } = context;
  const find = () => {
    const { mechanical } = context.air;
    const given = givenHome(context.air, context.air.low);
    const all = context.scenes.flatMap((scene) =>
      ends.map((friction) => {
        const station = scene.travel.stations[scene.travel.stations.length - 1];
        neededInto(mechanical, scene.travel, station, friction, mechanical.lever.breakaway, asked);
        return { scene, station, friction, needed: asked.needed, margin: share(given, asked.needed) };
      }),
    );
    return all.reduce((worst, next) => (Number.isNaN(worst.margin) || worst.margin <= next.margin ? worst : next));
  };
  return {
    id: 'moves-from-rest',
    title: 'Air moves the lever from rest',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.pull,
    how: 'Pressure times area less the friction of the seals, at the lowest pressure, over what is needed where the lever is taken along, minus one. Needed: connection and guide friction by statics, springs, the one inside with them, weight, vibration, and the extra friction of the first movement.',
    needs: unique([...needs.pullNeeded, ...needs.firstPull, ...airNeeds.forceLow]),
    ...decided(find, ({ scene, station, friction, needed, margin }) => ({
      value: givenHome(context.air, context.air.low),
      limit: needed,
      at: placeOf(station, scene, { friction }),
      because: forceWords(
        context,
        needed,
        margin,
        `${say.length(station.gap)} from home, where the first movement after standing asks`,
      ),
    })),
  };
}

export function carriesHome(context: AirContext): Check {
  const { rig, needs, airNeeds, say } = context;
  const curves = ends.map((friction): MarginCurve & { readonly friction: End } => ({
    friction,
    over({ travel, needed }, into) {
      const given = givenHome(context.air, context.air.low);
      for (let i = 0; i < travel.stations.length; i++) into[i] = share(given, needed[friction].needed[i]);
    },
    at({ travel }, station) {
      neededInto(context.air.mechanical, travel, station, friction, 0, asked);
      return share(givenHome(context.air, context.air.low), asked.needed);
    },
  }));
  return {
    id: 'carries-home',
    title: 'Air carries the lever all the way home',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.pull,
    how: 'Force of the rod at the lowest pressure over what is needed, minus one, at 65 gaps and refined between them, at low and high friction; at the step of an over-travel spring on both sides.',
    needs: unique([...needs.pullNeeded, ...airNeeds.forceLow]),
    ...decided(
      () => worstOf(context.rig, context.scenes, curves),
      ({ scene, station, curve: { friction }, margin }) => {
        neededInto(context.rig, scene.travel, station, friction, 0, asked);
        const { needed } = asked;
        return {
          value: givenHome(context.air, context.air.low),
          limit: needed,
          at: placeOf(station, scene, { friction }),
          because: forceWords(context, needed, margin, `${say.length(station.gap)} from home, where most is asked:`),
        };
      },
    ),
  };
}

/** Force given against force asked, and where it is too little, the pressure that would do. */
function forceWords(context: AirContext, needed: number, margin: number, where: string): string {
  const { air, rig, say } = context;
  if (!air.hasAir) return 'There is no compressed air here.';
  if (needed === Infinity) return `The connection is held fast ${where.replace(/,.*/, '')}: no air moves it.`;
  const given = givenHome(air, air.low);
  const said = `At ${say.pressure(air.low)} the rod gives ${say.force(Math.max(0, given))} ${where} ${say.force(needed)}.`;
  if (margin >= rig.wanted.pull || air.cylinder === null || !(needed > 0)) return said;
  const just = pressureFor(air.cylinder, needed);
  const enough = pressureFor(air.cylinder, needed * (1 + rig.wanted.pull));
  const inside = rig.inside === null ? 0 : rig.inside.preload + rig.inside.rate * rig.stroke;
  const spring = inside > given ? ` The spring inside alone holds up to ${say.force(inside)}.` : '';
  return `${said}${spring} ${say.pressure(just)} would just do, ${say.pressure(enough)} with the wanted margin.`;
}

/** Pressure at which the air just carries the lever home from rest, and that with the wanted margin, Pa; NaN where it is not known. */
export function pressuresThatDo({ air, scenes, rig }: AirContext): { readonly just: number; readonly enough: number } {
  let needed = -Infinity;
  for (const { travel, needed: rows } of scenes)
    for (const friction of ends) {
      const { stations } = travel;
      for (let i = 0; i < stations.length; i++) {
        const here = rows[friction].needed[i];
        if (!(here <= needed)) needed = here;
        if (Number.isNaN(needed)) return { just: NaN, enough: NaN };
      }
      neededInto(rig, travel, stations[stations.length - 1], friction, rig.lever.breakaway, asked);
      if (!(asked.needed <= needed)) needed = asked.needed;
    }
  if (air.cylinder === null || Number.isNaN(needed)) return { just: NaN, enough: NaN };
  const at = (force: number) =>
    force === Infinity ? Infinity : Math.max(0, pressureFor(air.cylinder!, Math.max(0, force)));
  return { just: at(needed), enough: at(needed > 0 ? needed * (1 + rig.wanted.pull) : needed) };
}
