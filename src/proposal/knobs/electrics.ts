/** Conductors, ratings, the series resistor and the end switch. */
import { change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { display, toSI, type DisplayUnits } from '../../units/quantity.ts';
import { fewer, millimetres, MM, resize, shares, shift, valueAtPath, type Knob } from './knob.ts';

const sections_mm2 = [0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50];
const SQUARE_MM = toSI(1, 'mm²');

/** Standard sections, out and back alike. */
export function conductors(job: Job, units: DisplayUnits): Knob[] {
  const now = valueAtPath(job, 'supply.out.section', 'area');
  if (Number.isNaN(now)) return [];
  const back = job.supply.back.by === 'conductor' ? ['supply.back.section'] : [];
  return [
    {
      name: 'conductors',
      ladder: sections_mm2.filter((section) => section * SQUARE_MM > now * 1.01),
      step: 0,
      settingAt(section) {
        const text = `${section} mm²`;
        return {
          words: `Run ${display(section * SQUARE_MM, 'area', units)} conductors${back.length > 0 ? ', out and back' : ''}`,
          changes: ['supply.out.section', ...back].map((path) => change(job, path, text)),
        };
      },
    },
  ];
}

export function electrics(job: Job, units: DisplayUnits): Knob[] {
  const { means, supply } = job;
  if (means.kind !== 'solenoid') return [];
  const ratings = supply.contacts.flatMap(({ rating, name }, i) =>
    rating === undefined
      ? []
      : resize(
          job,
          `supply.contacts[${i}].rating`,
          'current',
          units,
          shares,
          1,
          (to) => `Fit a "${name}" rated for ${to}`,
        ),
  );
  const resistor =
    means.coil.stages !== 'series resistor'
      ? []
      : [
          ...resize(job, 'means.coil.resistor', 'resistance', units, shares, 1, (to) => `Take a resistor of ${to}`),
          ...resize(
            job,
            'means.coil.resistor',
            'resistance',
            units,
            fewer,
            -1,
            (to) => `Take a resistor of only ${to}`,
          ),
          ...resize(
            job,
            'means.coil.resistorRating',
            'power',
            units,
            shares,
            1,
            (to) => `Take a resistor rated for ${to} where it is mounted`,
          ),
        ];
  const endSwitch =
    means.endSwitch === 'none'
      ? []
      : shift(
          job,
          'means.endSwitch.worksAtGap',
          'length',
          MM,
          millimetres,
          0.1,
          (to) => `Set the end switch to change over ${display(to, 'length', units)} from home`,
          0,
        ).slice(0, 1);
  return [...ratings, ...resistor, ...endSwitch];
}
