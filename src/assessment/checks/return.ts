/** Does everything go back without current? From every gap, from home, and against self-locking. */
import { lockRatio as lockRatioAt } from '../../physics/plunger.ts';
import { placeOf, type Check, type Context } from '../check.ts';
import { leastOver, outAt, returnMargin, type End, type Least, type Scene } from '../scene.ts';

function worstScene(
  scenes: readonly Scene[],
  leastIn: (scene: Scene, friction: End) => Least,
): Least & { scene: Scene; friction: End } {
  let worst: (Least & { scene: Scene; friction: End }) | null = null;
  for (const scene of scenes) {
    for (const friction of ['high', 'low'] as const) {
      const found = leastIn(scene, friction);
      if (worst === null || Number.isNaN(found.margin) || found.margin < worst.margin)
        worst = { ...found, scene, friction };
      if (Number.isNaN(found.margin)) return worst;
    }
  }
  return worst!;
}

export function returnsFromEveryGap(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'returns-from-every-gap',
    title: rig.toStop ? 'Goes back to run from every gap' : 'Goes to stop from every gap',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.return,
    how: "What drives the plunger out, over what holds it back, minus one, at every gap. Drive: lever and springs through the geometry, the plunger's springs, helpful weight. Against it: friction of lever, connection and guide, sticking, adverse weight, vibration.",
    needs: needs.returned,
    judge() {
      const found = worstScene(context.scenes, (scene, friction) =>
        leastOver(rig, scene, (station, i) =>
          returnMargin(i === null ? outAt(rig, scene.travel, station, friction) : scene.out[friction][i]),
        ),
      );
      const { drive, net } = outAt(rig, found.scene.travel, found.station, found.friction);
      return {
        value: drive,
        limit: drive - net,
        margin: found.margin,
        at: placeOf(found.station, found.scene, { friction: found.friction }),
        because: returnWords(drive, net, `${say.length(found.station.gap)} from home`, say),
      };
    },
  };
}

export function returnsFromHome(context: Context): Check {
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
    judge() {
      const first = rig.lever.breakaway;
      const found = worstScene(context.scenes, ({ travel }, friction) => {
        const station = travel.stations[0];
        return { margin: returnMargin(outAt(rig, travel, station, friction, first)), station };
      });
      const { drive, net } = outAt(rig, found.scene.travel, found.station, found.friction, first);
      return {
        value: drive,
        limit: drive - net,
        margin: found.margin,
        at: placeOf(found.station, found.scene, { friction: found.friction }),
        because: returnWords(drive, net, 'at home (sticking and first movement after standing counted)', say),
      };
    },
  };
}

function returnWords(drive: number, net: number, where: string, say: Context['say']): string {
  if (net === -Infinity) return `Friction holds the connection fast ${where}: no spring on the lever brings it back.`;
  if (!(drive > 0)) return `Nothing drives the return ${where}.`;
  return `${say.force(drive)} drives the return ${where} against ${say.force(drive - net)} that holds it back.`;
}

export function lockRatio(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'lock-ratio',
    title: 'Does not lock on the way out',
    question: rig.toStop ? 'runs' : 'stops',
    unit: '',
    marginUnit: 'ratio',
    wanted: rig.wanted.lockRatio - 1,
    how: 'Axial force that the lever gives without friction, over what friction in connection and guide takes of it on the way out; at 1 it locks.',
    needs: [...needs.travel, ...needs.guide, ...needs.pins],
    judge() {
      const found = worstScene(context.scenes, (scene, friction) =>
        leastOver(rig, scene, ({ pose, stretch }) =>
          stretch === null ? lockRatioAt(scene.travel.linkage, rig.guide, pose, rig.friction[friction]) - 1 : Infinity,
        ),
      );
      const ratio = found.margin + 1;
      const given = `What the lever gives is ${ratio > 99 ? 'more than 99' : ratio.toFixed(1)} times what friction takes of it on the way out`;
      const words =
        ratio <= 0
          ? `The connection is held fast ${say.length(found.station.gap)} from home: nothing on the lever brings the plunger out.`
          : ratio > 1
            ? `${given}: a spring on the lever can bring the plunger out.`
            : `${given}: no spring on the lever, however strong, brings the plunger out; one on the plunger does.`;
      return {
        value: ratio,
        limit: 1,
        margin: found.margin,
        at: placeOf(found.station, found.scene, { friction: found.friction }),
        because: words,
      };
    },
  };
}
