/** What a search may change beside the layout: how the present springs are drawn, the conductors, the series resistor. */
import type { SolenoidJob } from '../../assessment/rig.ts';
import { display, metricUnits, type Dimension } from '../../units/quantity.ts';
import { conductors, electrics } from '../knobs/electrics.ts';
import type { Knob, Setting } from '../knobs/knob.ts';
import { springs } from '../knobs/springs.ts';

/** Everything as it is comes first. */
export const asItIs: Setting = { words: '', changes: [] };

const say = (dimension: Dimension, value: number): string => display(value, dimension, metricUnits);

/** Present springs with their anchor, seat or legs elsewhere; one round the plunger where there is no spring at all. */
export function springSettings(job: SolenoidJob): readonly Setting[] {
  const knobs = springs(job, metricUnits, say);
  const moved = knobs.filter(({ name }) => / anchor |\.lengthAtHome |\.freeAngle /.test(name)).slice(0, 4);
  const added = job.return.springs.length > 0 ? [] : knobs.filter(({ name }) => name === 'plunger spring');
  return [
    asItIs,
    ...moved.flatMap((knob) => settingsAt(knob, [3, 6, 11])),
    ...added.flatMap((knob) => settingsAt(knob, [8, 15, 25])),
  ];
}

/** The next two conductors that are sold, the resistor a fifth larger or smaller, and both together. */
export function electricSettings(job: SolenoidJob): readonly Setting[] {
  const thicker = conductors(job, metricUnits).flatMap((knob) => settingsAt(knob, knob.ladder.slice(0, 2)));
  const resistors = electrics(job, metricUnits)
    .filter(({ name }) => /means\.coil\.resistor /.test(name))
    .flatMap((knob) => settingsAt(knob, [0.2]));
  const both = thicker.flatMap((one) =>
    resistors.map((other) => ({
      words: `${one.words}. ${other.words}`,
      changes: [...one.changes, ...other.changes],
    })),
  );
  return [asItIs, ...thicker, ...resistors, ...both];
}

function settingsAt(knob: Knob, amounts: readonly number[]): Setting[] {
  return amounts.map((amount) => knob.settingAt(amount)).filter((setting) => setting !== null);
}
