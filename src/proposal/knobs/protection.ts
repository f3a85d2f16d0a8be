/** Fuse, cut-out, suppression, how long the command lasts, and what the further stations are wired with. */
import { change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { fusesOf, type FuseSeries } from '../../physics/fuse.ts';
import { display, toSI, type DisplayUnits } from '../../units/quantity.ts';
import { resize, shares, valueAtPath, type Knob } from './knob.ts';

const cutOutSeconds = [1, 1.5, 2, 3, 4, 6, 8, 10, 15, 20];

export function protection(job: Job, units: DisplayUnits): Knob[] {
  if (job.means.kind !== 'solenoid') return [];
  const { command } = job.supply;
  const lasts =
    typeof command === 'string'
      ? []
      : resize(job, 'supply.command.holds', 'time', units, shares, 1, (to) => `Let the command last ${to}`);
  return [...fuses(job), cutOut(job), ...suppression(job), ...lasts, ...breaks(job, units), ...stations(job, units)];
}

/** Greatest first: of those that open in time, the one that bears the pull longest. */
function fuses(job: Job): Knob[] {
  const now = job.supply.fuse;
  const fitted = typeof now === 'string' || now.type === 'other' ? null : `${now.type} ${now.rating}`;
  return (['blade', 'large blade'] as const).map((series: FuseSeries): Knob => {
    const ratings = fusesOf(series)
      .map(({ rating }) => rating)
      .toReversed();
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

function breaks(job: Job, units: DisplayUnits): Knob[] {
  return job.supply.contacts.flatMap(({ name }, i) =>
    resize(
      job,
      `supply.contacts[${i}].breaks`,
      'current',
      units,
      shares,
      1,
      (to) => `Fit a "${name}" that breaks ${to} of a coil`,
    ),
  );
}

const sections_mm2 = [0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50];

/** All further stations alike: thicker conductors, and a diode in each that feeds something else too. */
function stations(job: Job, units: DisplayUnits): Knob[] {
  const each = job.supply.stations.map((station, i) => ({ ...station, path: `supply.stations[${i}]` }));
  if (each.length === 0) return [];
  const open = each.filter(({ alsoFeeds, diode }) => alsoFeeds.trim() !== '' && diode === 'none');
  const sectionOf = (path: string) => valueAtPath(job, `${path}.out.section`, 'area');
  return [
    {
      name: 'conductors of the stations',
      ladder: sections_mm2,
      step: 0,
      settingAt(section) {
        const area = toSI(section, 'mm²');
        const thinner = each.filter(({ path }) => sectionOf(path) < area / 1.01);
        if (thinner.length === 0) return null;
        return {
          words: `Run ${display(area, 'area', units)} conductors from ${namesOf(thinner)}`,
          changes: thinner.map(({ path }) => change(job, `${path}.out.section`, `${section} mm²`)),
        };
      },
    },
    {
      name: 'diodes of the stations',
      ladder: open.length === 0 ? [] : [1],
      step: 0,
      settingAt: () => ({
        words: `Put a diode in series with ${namesOf(open)}`,
        changes: open.map(({ path }) => change(job, `${path}.diode`, 'in series')),
      }),
    },
  ];
}

const namesOf = (list: readonly { readonly name: string }[]): string =>
  list.map(({ name }) => `"${name}"`).join(' and ');

/** A zener lets the current die quickest; twice and three times the nominal volts are common. */
function suppression(job: Job): Knob[] {
  const { nominal, suppression: now } = job.supply;
  if (now === 'none' || (typeof now !== 'string' && now.kind === 'zener')) return [];
  const isWrongWay = typeof now !== 'string' && now.polarity === 'anode to plus';
  const turned: Knob = {
    name: 'diode turned round',
    ladder: [1],
    step: 0,
    settingAt: () => ({
      words: 'Turn the diode round: its ring to plus',
      changes: [change(job, 'supply.suppression.polarity', 'cathode to plus')],
    }),
  };
  return [
    ...(isWrongWay ? [turned] : []),
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
