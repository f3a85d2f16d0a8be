/** How long has the coil got when home is not reached, and how hot does it run when it is? */
import { longestTouch } from '../../physics/heat/touch.ts';
import { CEILING } from '../../physics/heat/stages.ts';
import { thermalClassName } from '../../physics/thermal-class.ts';
import { decided, oncePer, placeOf, unique, type Check, type Context } from '../check.ts';
import type { Place } from '../finding.ts';
import {
  coilInHeat,
  heatReadings,
  hotStallCurrent,
  steadyIn,
  timeToClass,
  whyNoHeat,
  type CoilInHeat,
} from '../time/heat-of.ts';
import type { End } from '../lever-moments.ts';
import { endsOf } from '../supply/what-ends-it.ts';

/** Time that the coil lasts over the time until something ends the current, minus one. Common practice, no source. */
const TIME_MARGIN = 0.5;
/** Kelvins below the class, hot spot counted. Common practice, no source. */
const CLASS_MARGIN = 5;

const readingsFor = ({ rig, needs }: Context, stage: 'pull-in' | 'hold'): readonly string[] =>
  unique([
    ...heatReadings,
    'means.coil.readAt',
    ...(stage === 'pull-in' ? needs.pullInHigh : needs.holdHigh),
    // The copper of the heavy winding comes off the weight of the solenoid in hold too.
    ...(rig.job.means.coil.stages === 'pull-in and hold windings' ? ['means.coil.pullInResistance'] : []),
  ]);

/** What several findings ask of one coil, each worked out once. */
export interface CoilHeat {
  readonly coil: () => CoilInHeat | null;
  /** Seconds that it lasts held off home, by the end of the supply. */
  readonly lasts: Readonly<Record<End, () => number>>;
}

export function coilHeatOf(context: Context): CoilHeat {
  const coil = oncePer(context, () => coilInHeat(context.rig));
  const lasts = (end: End) =>
    oncePer(context, () => {
      const found = coil();
      return found === null ? NaN : timeToClass(context.rig, found, end);
    });
  return { coil, lasts: { low: lasts('low'), high: lasts('high') } };
}

export function heatChecks(context: Context, heat: CoilHeat): Check[] {
  return [survivesHeldOffHome(context, heat), staysInClass(context, heat)];
}

/** Asked for only where the heat could not be reckoned. */
export function unreadHeat({ rig, say }: Context): NonNullable<Check['unread']> {
  return {
    get because() {
      return whyNoHeat(rig, say).because;
    },
    get readings() {
      return whyNoHeat(rig, say).readings;
    },
  };
}

const unknown = (at: Place | null) => ({ value: NaN, limit: null, margin: NaN, at, because: '' });

function survivesHeldOffHome(context: Context, heat: CoilHeat): Check {
  const { rig, say } = context;
  const { supply } = rig.job;
  return {
    id: 'held-off-home',
    title: 'Coil lasts until something ends the pull-in current',
    question: 'burns',
    unit: 's',
    marginUnit: 'share',
    wanted: TIME_MARGIN,
    how: 'Seconds until the winding, held off home at the highest volts from a hot day beside a hot engine, passes its class less the hot spot, over the seconds after which cut-out, fuse or economiser ends the current, minus one. Two heat capacities, winding and can, resistance rising; of two windings the copper of the pull-in winding alone.',
    needs: unique([
      ...readingsFor(context, 'pull-in'),
      'supply.cutOut',
      ...(typeof supply.cutOut === 'string' ? [] : ['supply.cutOut.after']),
      'supply.fuse',
      ...(typeof supply.fuse === 'string' ? [] : ['supply.fuse.rating']),
      ...(rig.job.means.coil.stages === 'timed economiser' ? ['means.coil.delay'] : []),
    ]),
    unread: unreadHeat(context),
    judge() {
      const coil = heat.coil();
      const at = placeOf(null, null, { supply: 'high' });
      if (coil === null) return unknown(at);
      const lasts = heat.lasts.high();
      const itsClass = `its class ${thermalClassName(coil.thermalClass)}`;
      if (lasts === Infinity)
        return {
          value: NaN,
          limit: null,
          margin: Infinity,
          at,
          because: `The coil bears its full current for good: even held off home it stays within ${itsClass}.`,
        };
      if (lasts === 0)
        return {
          value: 0,
          limit: null,
          margin: -1,
          at,
          because: `Beside the hot engine the coil is past ${itsClass} before any current flows.`,
        };
      const [first] = endsOf(rig, hotStallCurrent(rig, coil, 'high'));
      const burns = `Held off home the coil passes ${itsClass} after ${say.time(lasts)}`;
      return {
        value: lasts,
        limit: first?.seconds ?? null,
        margin: first === undefined ? -1 : lasts / first.seconds - 1,
        at,
        because:
          first === undefined
            ? `${burns}, and nothing ends the current before. Fit a timer or a thermal cut-out.`
            : `${burns}; ${first.words} ends the current after ${say.time(first.seconds)} at the latest.`,
      };
    },
  };
}

function staysInClass(context: Context, heat: CoilHeat): Check {
  const { say } = context;
  const find = () => {
    const coil = heat.coil();
    if (coil === null) return { margin: NaN, coil, steady: null };
    const steady = steadyIn(context.rig, coil, 'hold', 'high');
    return { margin: coil.limit - (steady.kind === 'steady' ? steady.winding : CEILING), coil, steady };
  };
  return {
    id: 'class-in-hold',
    title: 'Coil stays within its class in hold',
    question: 'burns',
    unit: '°C',
    marginUnit: 'K',
    wanted: CLASS_MARGIN,
    how: 'Class of the insulation, less the hottest place of the winding once hold has lasted until nothing changes, charging, on the hottest day. Convection by Churchill and Chu, radiation, conduction into what it stands on; resistance rising with temperature.',
    needs: readingsFor(context, 'hold'),
    unread: unreadHeat(context),
    ...decided(find, ({ coil, steady }) => {
      const at = placeOf(null, null, { supply: 'high', coil: 'hot' });
      if (coil === null || steady === null) return { value: NaN, limit: null, at, because: '' };
      if (steady.kind !== 'steady')
        return {
          value: NaN,
          limit: coil.thermalClass,
          at,
          because: `In hold the coil warms on past ${say.temperature(CEILING)}; its class is ${thermalClassName(coil.thermalClass)}.`,
        };
      const hottest = steady.winding + coil.hotSpot;
      return {
        value: hottest - 273.15,
        limit: coil.thermalClass,
        at,
        because: `Held for good it makes ${say.power(steady.power)}: ${say.temperature(hottest)} at the hottest place of the winding, class ${thermalClassName(coil.thermalClass)}; the can ${say.temperature(steady.can)}${touchWords(steady.can)}.`,
      };
    }),
  };
}

/** What a can of this temperature does to a hand. */
export function touchWords(can: number): string {
  const seconds = longestTouch(can);
  if (seconds === Infinity) return '';
  return seconds < 10 ? ', too hot to touch' : ', hot to the hand: do not hold on to it';
}
