/** Do conductors and contacts bear what flows, and does the suppression lie the right way round? */
import { ampacity } from '../../physics/ampacity.ts';
import { contactsOf, decided, LARGEST_MARGIN, placeOf, unique, type Check, type Context } from '../check.ts';
import { valueOf } from '../readings.ts';

/** Margin that counts as enough for a break rating, as a share. Common practice, no source. */
const BREAK_MARGIN = 0.1;

/** What flows for ever: hold, charging, cold coil. The pull-in current is the fuse's and the cut-out's affair. */
export function conductorsCarry(context: Context): Check {
  const { rig, needs, say } = context;
  const { supply } = rig.job;
  const conductors = [
    { name: 'conductor out', path: 'supply.out', section: supply.out.section },
    ...(supply.back.by === 'conductor'
      ? [{ name: 'conductor back', path: 'supply.back', section: supply.back.section }]
      : []),
    ...supply.stations.map(({ name, out }, i) => ({
      name: `conductor from "${name}"`,
      path: `supply.stations[${i}].out`,
      section: out.section,
    })),
  ];
  const find = () => {
    const { hold } = context.electric.find(({ supply: end, coil }) => end === 'high' && coil === 'cold')!;
    let [weakest] = conductors;
    let amperes = Infinity;
    for (const one of conductors) {
      const carried = ampacity(valueOf(one.section, 'area'), context.rig.insulation, true)?.amperes ?? 0;
      if (carried >= amperes) continue;
      amperes = carried;
      weakest = one;
    }
    return { margin: amperes / hold.supply - 1, hold, weakest, amperes };
  };
  return {
    id: 'conductors-carry',
    title: 'Conductors carry their current',
    question: 'burns',
    unit: 'A',
    marginUnit: 'share',
    wanted: 0,
    how: 'Current that the section may carry for good in an engine space (ISO 10133 table A.1, from memory; wire gauges 33 CFR 183.425 table 5), over the hold current at the highest volts with a cold coil, minus one. Local rules go first.',
    needs: unique([...needs.holdHigh, ...conductors.map(({ path }) => `${path}.section`)]),
    ...decided(find, ({ hold, weakest, amperes }) => {
      const carries =
        amperes === 0
          ? 'is thinner than anything in the table, or its insulation bears too little'
          : `may carry ${say.current(amperes)} in an engine space`;
      return {
        value: hold.supply,
        limit: amperes,
        at: placeOf(null, null, { supply: 'high', coil: 'cold' }),
        because: `${say.current(hold.supply)} flows for as long as it is held; the ${weakest.name} (${weakest.section}) ${carries}.`,
      };
    }),
  };
}

/** Opened during the pull, a contact must break the whole pull-in current of a coil. */
export function contactsBreak(context: Context): Check | null {
  const { rig, needs, say } = context;
  const { supply } = rig.job;
  const breaking = contactsOf(rig.job).flatMap(({ contact: { name, breaks } }) =>
    breaks === undefined ? [] : [{ name, breaks }],
  );
  if (breaking.length === 0) return null;
  const find = () => {
    const { pullIn } = context.electric.find(({ supply: end, coil }) => end === 'high' && coil === 'cold')!;
    const weakest = breaking
      .map(({ name, breaks }) => ({ name, amps: valueOf(breaks, 'current') }))
      .reduce((least, one) => (one.amps < least.amps ? one : least));
    return { margin: weakest.amps / pullIn.supply - 1, pullIn, weakest };
  };
  return {
    id: 'contacts-break',
    title: 'Contacts break the current of the coil',
    question: 'burns',
    unit: 'A',
    marginUnit: 'share',
    wanted: BREAK_MARGIN,
    how: 'Least inductive break rating, over the pull-in current at the highest volts with a cold coil, minus one: a key let go during the pull breaks all of it.',
    needs: needs.pullInHigh,
    ...decided(find, ({ pullIn, weakest }) => {
      const bare =
        supply.suppression === 'none' ? ' Nothing is fitted across the coil, so they also take its whole arc.' : '';
      return {
        value: pullIn.supply,
        limit: weakest.amps,
        at: placeOf(null, null, { supply: 'high', coil: 'cold' }),
        because: `${say.current(pullIn.supply)} is broken if the command ends during the pull; "${weakest.name}" may break ${say.current(weakest.amps)}.${bare}`,
      };
    }),
  };
}

/** A diode the wrong way round is a dead short in the moment of switching on. */
export function diodeLiesRight({ rig }: Context): Check | null {
  const { suppression } = rig.job.supply;
  if (typeof suppression === 'string' || suppression.kind === 'zener') return null;
  const isRight = suppression.polarity === 'cathode to plus';
  return {
    id: 'diode-polarity',
    title: 'Diode across the coil lies the right way round',
    question: 'burns',
    unit: '',
    marginUnit: 'share',
    wanted: 0,
    how: 'Looked at, not reckoned: the ring marks the cathode, and the cathode belongs to plus.',
    needs: ['supply.suppression.polarity'],
    judge: () => ({
      value: NaN,
      limit: null,
      margin: isRight ? LARGEST_MARGIN : -1,
      at: null,
      because: isRight
        ? 'Its cathode is on plus: it carries current only after switching off.'
        : 'Its anode is on plus: switched on, it is a dead short across the supply. Turn it round before the battery is joined.',
    }),
  };
}
