/** What looks like a slip of the pen in the supply, and what a table of conductors leaves out. */
import { valueOf } from '../readings.ts';
import type { SolenoidJob, SourceState } from '../rig.ts';
import { stateWords } from './smallest.ts';
import type { SupplyStudy } from './study.ts';
import type { Words } from '../words.ts';

/** A run longer than this is out of all proportion, m. */
const FARTHEST = 1000;

/** Conductors longer than any stop circuit runs. */
export function farRuns({ supply }: SolenoidJob): string[] {
  const runs: readonly (readonly [string, string])[] = [
    ['Conductor out', supply.out.length],
    ...(supply.back.by === 'conductor' ? [['Conductor back', supply.back.length] as const] : []),
    ...supply.stations.map(({ name, out }) => [`Conductor of "${name}"`, out.length] as const),
  ];
  return runs
    .filter(([, length]) => valueOf(length, 'length') > FARTHEST)
    .map(
      ([name, length]) => `${name}: ${length} is more than a kilometre, which no stop circuit runs. Check the length.`,
    );
}

export function remarksOn(job: SolenoidJob, say: Words, states: SupplyStudy['states']): string[] {
  const { supply } = job;
  const volts = Object.fromEntries(states.map(({ state, volts_V }) => [state, volts_V ?? NaN])) as Record<
    SourceState,
    number
  >;
  const remarks = farRuns(job);
  if (volts.low > volts.charging)
    remarks.push(
      `The source is said to give more when low (${say.voltage(volts.low)}) than when charging (${say.voltage(volts.charging)}). Check both.`,
    );
  if (volts.cranking > volts.low)
    remarks.push(
      `The source is said to give more while cranking (${say.voltage(volts.cranking)}) than when low (${say.voltage(volts.low)}). Check both.`,
    );
  for (const { state, volts_V } of states)
    if (volts_V !== null && volts_V < supply.nominal / 4)
      remarks.push(
        `${say.voltage(volts_V)} ${stateWords[state]} is less than a quarter of ${supply.nominal} V. Check it.`,
      );
  if (supply.stations.length > 0)
    remarks.push(
      'Conductors of the further stations stay as they are; only those of the first place of control change here.',
    );
  if (job.means.works === 'energise to stop')
    remarks.push('While cranking it need not stop; that column is for knowing only.');
  remarks.push(
    'Wire gauges are reckoned as copper of their area; strands have a few per cent more resistance. Local rules on conductors and fuses go before this table.',
  );
  return remarks;
}
