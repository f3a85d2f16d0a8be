/** Does anything carry more current, or shed more heat, than it may? Do enough volts arrive? */
import { deratedPower, preferredValues } from '../../physics/resistor.ts';
import { fromSI } from '../../units/quantity.ts';
import { contactsOf, decided, placeOf, unique, type Check, type Context } from '../check.ts';
import type { Rig } from '../rig.ts';
import type { ElectricCorner, Warmth } from '../scene.ts';
import type { End } from '../lever-moments.ts';
import { valueOf } from '../readings.ts';

function corner({ electric }: Context, supply: End, coil: Warmth): ElectricCorner {
  return electric.find((one) => one.supply === supply && one.coil === coil)!;
}

interface Rated {
  readonly name: string;
  readonly path: string;
  /** As it stands in the document. */
  readonly rating: string;
}

/** Everything in the circuit whose rating was written, as it stands in the document. */
function ratedParts({ job }: Rig): readonly Rated[] {
  const { endSwitch } = job.means;
  const contacts = contactsOf(job).flatMap(({ path, contact: { name, rating } }): Rated[] =>
    rating === undefined ? [] : [{ name, path: `${path}.rating`, rating }],
  );
  return endSwitch === 'none'
    ? contacts
    : [...contacts, { name: 'End switch', path: 'means.endSwitch.rating', rating: endSwitch.rating }];
}

/** Margin that counts as enough for ratings, as a share. Common practice, no source. */
const RATING_MARGIN = 0.1;

/** Strongest supply, cold coil: the most that every contact and the end switch must carry and break. */
export function pullInCurrent(context: Context): Check {
  const { rig, needs, say } = context;
  const parts = ratedParts(rig);
  const find = () => {
    const current = corner(context, 'high', 'cold').pullIn.supply;
    let weakest: Rated | null = null;
    let amps = NaN;
    for (const one of parts) {
      const bears = valueOf(one.rating, 'current');
      if (weakest !== null && !(bears < amps)) continue;
      weakest = one;
      amps = bears;
    }
    return { margin: amps / current - 1, current, weakest, amps };
  };
  return {
    id: 'pull-in-current',
    title: 'Pull-in current is within every rating',
    question: 'burns',
    unit: 'A',
    marginUnit: 'share',
    wanted: RATING_MARGIN,
    how: 'Least rating of switch, relay and end switch, over the current at the highest volts with a cold coil, minus one.',
    needs: [...needs.pullInHigh, ...parts.map(({ path }) => path)],
    unread: {
      because: 'No contact in the circuit has a rating: write what the switch or relay may carry and break.',
      readings: ['supply.contacts'],
    },
    ...decided(find, ({ current, weakest, amps }) => ({
      value: current,
      limit: weakest === null ? null : amps,
      at: weakest === null ? null : placeOf(null, null, { supply: 'high', coil: 'cold' }),
      because: `${say.current(current)} flows while it pulls in; the weakest link is "${weakest?.name ?? ''}" with ${say.current(amps)}.`,
    })),
  };
}

/** Strongest supply, coil as warm as hold leaves it: what the coil must shed for as long as it is held. */
export function holdHeat(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'hold-heat',
    title: 'Coil sheds its heat in hold',
    question: 'burns',
    unit: 'W',
    marginUnit: 'share',
    wanted: RATING_MARGIN,
    how: 'Watts that the coil may shed for ever, over current squared times its hot resistance at the highest volts in hold, minus one.',
    needs: [...needs.holdHigh, 'surroundings.hottest', 'means.continuousPower'],
    ...decided(
      () => {
        const { hold } = corner(context, 'high', 'hot');
        return { margin: context.rig.continuousPower / hold.coilPower - 1, hold };
      },
      ({ hold }) => ({
        value: hold.coilPower,
        limit: rig.continuousPower,
        at: placeOf(null, null, { supply: 'high', coil: 'hot' }),
        because: `Hold takes ${say.current(hold.coil)} and makes ${say.power(hold.coilPower)} in the coil, which may shed ${say.power(rig.continuousPower)} for ever.`,
      }),
    ),
  };
}

/** Hold circuit: at most 3 % lost on the way. The drop in pull-in is reported with it; the pull judges that. */
export function voltsAtCoil(context: Context): Check {
  const { rig, needs, say } = context;
  const { nominal } = rig.job.supply;
  return {
    id: 'volts-at-coil',
    title: 'Volts arrive at the coil in hold',
    question: rig.toStop ? 'stops' : 'runs',
    unit: '%',
    marginUnit: 'share',
    wanted: 0,
    how: 'Allowed drop over hold current times the resistance of conductors and contacts, minus one. Conductors at the hottest surroundings, by IEC 60228 or copper alone.',
    needs: unique([...needs.holdLow, ...needs.pullInLow]),
    ...decided(
      () => {
        const { hold, pullIn } = corner(context, 'low', 'hot');
        const { loopAt, sourceResistance, wanted } = context.rig;
        const drop = (hold.supply * (loopAt.hold.low.resistance - sourceResistance)) / nominal;
        return { margin: wanted.holdDrop / drop - 1, drop, hold, pullIn };
      },
      ({ drop, hold, pullIn }) => ({
        value: fromSI(drop, '%'),
        limit: fromSI(rig.wanted.holdDrop, '%'),
        at: placeOf(null, null, { supply: 'low', coil: 'hot' }),
        because: `In hold ${say.voltage(hold.volts)} of ${say.voltage(rig.loopAt.hold.low.source)} arrive (${(100 * drop).toFixed(1)} % of ${nominal} V lost in the wiring); in pull-in ${say.voltage(pullIn.volts)} at ${say.current(pullIn.supply)}.`,
      }),
    ),
  };
}

export function resistorHeat(context: Context): Check | null {
  const { rig, needs, say } = context;
  const { coil } = rig.job.means;
  if (coil.stages !== 'series resistor') return null;
  const find = () => {
    const heat = corner(context, 'high', 'cold').hold.resistorPower;
    const rating = valueOf(coil.resistorRating, 'power');
    const hottest = valueOf(context.rig.job.surroundings.hottest, 'temperature');
    const left = deratedPower(rating, hottest);
    return { margin: left / heat - 1, heat, rating, hottest, left };
  };
  return {
    id: 'resistor-heat',
    title: 'Series resistor sheds its heat',
    question: 'burns',
    unit: 'W',
    marginUnit: 'share',
    wanted: 1,
    how: 'Rating where it is mounted, less what the hottest surroundings take of it (straight from 25 °C down to nothing at 275 °C, common practice for wire-wound resistors), over its heat in hold at the highest volts, minus one; twice the heat is wanted. Standard values: IEC 60063.',
    needs: unique([...needs.holdHigh, 'means.coil.resistorRating', 'surroundings.hottest']),
    ...decided(find, ({ heat, rating, hottest, left }) => {
      const bears =
        left < rating ? `may shed ${say.power(left)} of its ${say.power(rating)}` : `may shed ${say.power(rating)}`;
      return {
        value: heat,
        limit: left,
        at: placeOf(null, null, { supply: 'high', coil: 'cold' }),
        because: `The resistor makes ${say.power(heat)} in hold and ${bears} at ${say.temperature(hottest)}; loaded to half of that it lasts. ${standardWords(valueOf(coil.resistor, 'resistance'), say)}`,
      };
    }),
  };
}

/** Whether a resistor of these ohms can be bought, and which one comes nearest. */
function standardWords(resistance: number, say: Context['say']): string {
  const { nearest } = preferredValues(resistance);
  return Math.abs(nearest / resistance - 1) < 1e-6
    ? `${say.resistance(resistance)} is a standard value (E24).`
    : `The standard value (E24) nearest to ${say.resistance(resistance)} is ${say.resistance(nearest)}.`;
}
