/** How long has the coil got when home is not reached, and how hot does it run when it is? */
import { longestTouch } from '../../physics/heat/touch.ts';
import { once, placeOf, unique, type Check, type Context } from '../check.ts';
import { coilInHeat, heatReadings, hotStallCurrent, steadyIn, timeToClass, type CoilInHeat } from '../heat-of.ts';
import type { Needs } from '../needs.ts';
import { endsOf } from '../what-ends-it.ts';

/** Time that the coil lasts over the time until something ends the current, minus one. Common practice, no source. */
const TIME_MARGIN = 0.5;
/** Kelvins below the class, hot spot counted. Common practice, no source. */
const CLASS_MARGIN = 5;

const unreadHeat: NonNullable<Check['unread']> = {
  because: 'The solenoid would weigh less than its own copper: weigh it again, or measure the bare wire again.',
  readings: ['means.body.mass', 'means.body.wireDiameter'],
};

const readingsFor = (needs: Needs, stage: 'pull-in' | 'hold'): readonly string[] =>
  unique([...heatReadings, 'means.coil.readAt', ...(stage === 'pull-in' ? needs.pullInHigh : needs.holdHigh)]);

/** Both findings look at one coil. */
export function heatChecks(context: Context): Check[] {
  const coil = once(() => coilInHeat(context.rig));
  return [survivesHeldOffHome(context, coil), staysInClass(context, coil)];
}

function survivesHeldOffHome(context: Context, coilOf: () => CoilInHeat | null): Check {
  const { rig, needs, say } = context;
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
      ...readingsFor(needs, 'pull-in'),
      'supply.cutOut',
      ...(typeof supply.cutOut === 'string' ? [] : ['supply.cutOut.after']),
      'supply.fuse',
      ...(typeof supply.fuse === 'string' ? [] : ['supply.fuse.rating']),
      ...(rig.job.means.coil.stages === 'timed economiser' ? ['means.coil.delay'] : []),
    ]),
    unread: unreadHeat,
    judge() {
      const coil = coilOf();
      const at = placeOf(null, null, { supply: 'high' });
      if (coil === null) return { value: NaN, limit: null, margin: NaN, at, because: '' };
      const lasts = timeToClass(rig, coil, 'high');
      if (lasts === Infinity)
        return {
          value: NaN,
          limit: null,
          margin: Infinity,
          at,
          because: `The coil bears its full current for ever: it stays under ${say.temperature(coil.limit)} even where it never comes home.`,
        };
      const [first] = endsOf(rig, hotStallCurrent(rig, coil, 'high'));
      const burns = `Held off home the coil passes its class ${coil.thermalClass} in ${say.time(lasts)}`;
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

function staysInClass(context: Context, coilOf: () => CoilInHeat | null): Check {
  const { rig, needs, say } = context;
  return {
    id: 'class-in-hold',
    title: 'Coil stays within its class in hold',
    question: 'burns',
    unit: '°C',
    marginUnit: 'K',
    wanted: CLASS_MARGIN,
    how: 'Class of the insulation, less the hottest place of the winding once hold has lasted for ever, charging, on the hottest day. Convection by Churchill and Chu, radiation, conduction into what it stands on; resistance rising with temperature.',
    needs: readingsFor(needs, 'hold'),
    unread: unreadHeat,
    judge() {
      const coil = coilOf();
      const at = placeOf(null, null, { supply: 'high', coil: 'hot' });
      if (coil === null) return { value: NaN, limit: null, margin: NaN, at, because: '' };
      const steady = steadyIn(rig, coil, 'hold', 'high');
      if (steady.kind !== 'steady')
        return {
          value: NaN,
          limit: coil.thermalClass,
          margin: -300 - 273.15 + coil.limit,
          at,
          because: `In hold the coil never comes to rest below 300 °C; its class is ${coil.thermalClass}.`,
        };
      const hottest = steady.winding + coil.hotSpot;
      return {
        value: hottest - 273.15,
        limit: coil.thermalClass,
        margin: coil.limit - steady.winding,
        at,
        because: `Hold for ever makes ${say.power(steady.power)}: ${say.temperature(hottest)} at the hottest place of the winding, class ${coil.thermalClass}; the can ${say.temperature(steady.can)}${touchWords(steady.can)}.`,
      };
    },
  };
}

/** What a can of this temperature does to a hand. */
export function touchWords(can: number): string {
  const seconds = longestTouch(can);
  if (seconds === Infinity) return '';
  return seconds < 10 ? ', too hot to touch' : ', hot to the hand: do not hold on to it';
}
