/** Fuse, cut-out, suppression and how long the command lasts. */
import { change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { fusesOf, type FuseSeries } from '../../physics/fuse.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { resize, shares, type Knob } from './knob.ts';

const cutOutSeconds = [1, 1.5, 2, 3, 4, 6, 8, 10, 15, 20];

export function protection(job: Job, units: DisplayUnits): Knob[] {
  if (job.means.kind !== 'solenoid') return [];
  const { command } = job.supply;
  const lasts =
    typeof command === 'string'
      ? []
      : resize(job, 'supply.command.holds', 'time', units, shares, 1, (to) => `Let the command last ${to}`);
  return [...fuses(job), cutOut(job), ...suppression(job), ...lasts];
}

function fuses(job: Job): Knob[] {
  const now = job.supply.fuse;
  const fitted = typeof now === 'string' || now.type === 'other' ? null : `${now.type} ${now.rating}`;
  return (['blade', 'large blade'] as const).map((series: FuseSeries): Knob => {
    const ratings = fusesOf(series).map(({ rating }) => rating);
    return {
      name: `${series} fuse`,
      ladder: ratings,
      step: 0,
      settingAt(rating) {
        if (fitted === `${series} ${rating} A`) return null;
        return {
          words: `Fit a ${rating} A ${series} fuse`,
          changes: [change(job, 'supply.fuse', { type: series, rating: `${rating} A` })],
        };
      },
    };
  });
}

/** Longest first: what interferes least with the pull. */
function cutOut(job: Job): Knob {
  return {
    name: 'cut-out',
    ladder: cutOutSeconds.toReversed(),
    step: 0,
    settingAt: (seconds) => ({
      words: `Fit a timer or thermal cut-out that ends the pull-in current after ${seconds} s`,
      changes: [change(job, 'supply.cutOut', { after: `${seconds} s` })],
    }),
  };
}

/** A zener lets the current die quickest; twice and three times the nominal volts are common. */
function suppression(job: Job): Knob[] {
  const { nominal, suppression: now } = job.supply;
  if (now === 'none' || (typeof now !== 'string' && now.kind === 'zener')) return [];
  return [
    {
      name: 'zener',
      ladder: [1.5, 2, 3],
      step: 0,
      settingAt(times) {
        const volts = `${times * nominal} V`;
        return {
          words: `Fit a suppressor of ${volts} across the coil in the place of what is there`,
          changes: [change(job, 'supply.suppression', { kind: 'zener', voltage: volts })],
        };
      },
    },
  ];
}
