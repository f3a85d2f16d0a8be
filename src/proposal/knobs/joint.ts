/** The connection, its adjuster and its over-travel spring. */
import { change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { display, formatQuantity, type DisplayUnits } from '../../units/quantity.ts';
import { fewer, millimetres, MM, resize, shares, shift, valueAtPath, type Knob, type Say } from './knob.ts';

/** Slot, link, chain, hole; and another kind of connection where the arc is the trouble. */
export function joint(job: Job, units: DisplayUnits): Knob[] {
  const { connection } = job.layout;
  const name = connection.kind;
  const at = (field: string) => `layout.connection.${field}`;
  const mm = (path: string, words: (to: string) => string, least = 0.001) =>
    shift(job, path, 'length', MM, millimetres, 0.1, (to) => words(display(to, 'length', units)), least);
  if (name === 'slotted lever') {
    return [
      ...mm(at('slotFrom'), (to) => `Begin the slot ${to} from the shaft centre`),
      ...mm(at('slotTo'), (to) => `End the slot ${to} from the shaft centre`),
    ];
  }
  const arm = mm(at('armRadius'), (to) => `Drill the arm ${to} from the shaft centre`, 0.005);
  if (name === 'plain pin') {
    return [
      ...slotInstead(job, units),
      ...mm(
        at('holeDiameter'),
        (to) => `Open the hole in the arm to ${to}`,
        valueAtPath(job, at('pinDiameter'), 'length'),
      ),
      ...arm,
    ];
  }
  const what = name === 'short chain' ? 'chain' : 'link';
  return [...mm(at('length'), (to) => `Make the ${what} ${to} between pin centres`, 0.005), ...arm];
}

/** A slot in place of a round hole takes up the whole rise of the arc. */
function slotInstead(job: Job, units: DisplayUnits): Knob[] {
  const radius = valueAtPath(job, 'layout.connection.armRadius', 'length');
  const pin = valueAtPath(job, 'layout.connection.pinDiameter', 'length');
  if (Number.isNaN(radius + pin)) return [];
  const text = (value: number) => formatQuantity(value, 'length', 'mm', { significantDigits: 4 });
  return [
    {
      name: 'slot instead of hole',
      ladder: [4, 8, 12, 16],
      step: 0,
      settingAt(room) {
        const from = radius - pin / 2 - room * MM;
        const to = radius + pin / 2 + room * MM;
        if (!(from > pin / 2)) return null;
        const slot = {
          kind: 'slotted lever',
          slotFrom: text(from),
          slotTo: text(to),
          pinDiameter: text(pin),
          sideClearance: '0.2 mm',
        };
        return {
          words: `Make the hole in the arm a slot from ${display(from, 'length', units)} to ${display(to, 'length', units)}`,
          changes: [change(job, 'layout.connection', slot)],
        };
      },
    },
  ];
}

export function adjuster(job: Job, say: Say): Knob[] {
  if (job.layout.adjuster === 'none') {
    return [
      {
        name: 'adjuster',
        ladder: [4, 6, 8, 12],
        step: 0,
        settingAt: (range) => ({
          words: `Fit an adjuster with ${say('length', range * MM)} of range at the clevis`,
          changes: [change(job, 'layout.adjuster', { range: `${range} mm`, pitch: '1 mm' })],
        }),
      },
    ];
  }
  return shift(
    job,
    'layout.adjuster.range',
    'length',
    MM,
    millimetres,
    0.5,
    (to) => `Give the adjuster ${say('length', to)} of range`,
    0,
  ).slice(0, 1);
}

export function overTravel(job: Job, units: DisplayUnits, say: Say): Knob[] {
  if (job.layout.overTravel !== 'none') {
    const at = (field: string) => `layout.overTravel.${field}`;
    return [
      ...resize(
        job,
        at('preload'),
        'force',
        units,
        shares,
        1,
        (to) => `Take an over-travel spring with a preload of ${to}`,
      ),
      ...resize(
        job,
        at('preload'),
        'force',
        units,
        fewer,
        -1,
        (to) => `Take an over-travel spring with a preload of only ${to}`,
      ),
      ...resize(job, at('travel'), 'length', units, shares, 1, (to) => `Give the over-travel spring ${to} of travel`),
    ];
  }
  return [
    {
      name: 'over-travel',
      ladder: [20, 30, 40, 50, 60, 80, 100, 130, 170],
      step: 0,
      settingAt: (preload) => ({
        words: `Fit an over-travel spring in the connection, preload ${say('force', preload)}`,
        changes: [change(job, 'layout.overTravel', { preload: `${preload} N`, rate: '3 N/mm', travel: '8 mm' })],
      }),
    },
  ];
}
