/** The cylinder, its spring, its air and the way of it. */
import { change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { standardBores, standardPipes, standardStrokes } from '../../physics/air/bores.ts';
import { toSI, type DisplayUnits } from '../../units/quantity.ts';
import { fewer, moves, resize, set, shares, shift, valueAtPath, type Knob, type Say } from './knob.ts';

const BAR = toSI(1, 'bar');
const bars = [0.25, 0.5, 1, 1.5, 2, 3, 4, 6];
/** Down to a tenth and less: a throttle is turned until little is left. */
const throttled = [0.1, 0.25, 0.4, 0.5, 0.6, 0.7, 0.8, 0.87, 0.92, 0.95];

export function airKnobs(job: Job, units: DisplayUnits, say: Say): Knob[] {
  const conductance = (name: 'valve' | 'exhaust', words: { wider: string; narrower: string }) => [
    ...resize(job, `means.${name}`, 'sonicConductance', units, shares, 1, (to) => `${words.wider}: ${to}`),
    ...resize(job, `means.${name}`, 'sonicConductance', units, throttled, -1, (to) => `${words.narrower}: ${to}`),
  ];
  return [
    ...pressures(job, say),
    ...conductance('valve', { wider: 'Take a valve that lets more through', narrower: 'Throttle the way in' }),
    ...conductance('exhaust', { wider: 'Open the way out', narrower: 'Throttle the way out' }),
    ...sizes(job, say, 'means.line.bore', standardPipes, (to) => `Lay a pipe with a bore of ${to}`),
    ...resize(job, 'means.line.length', 'length', units, fewer, -1, (to) => `Put the valve nearer: ${to} of pipe`),
    ...bores(job, say),
    ...sizes(job, say, 'means.stroke', standardStrokes, (to) => `Take a cylinder with a stroke of ${to}`),
    ...springInside(job, units, say),
    ...resize(job, 'survey.air.reservoir', 'volume', units, shares, 1, (to) => `Fit an air vessel of ${to}`),
    ...resize(
      job,
      'means.guideLength',
      'length',
      units,
      shares,
      1,
      (to) => `Take a cylinder whose rod is guided over ${to}`,
    ),
    ...resize(
      job,
      'means.overhang',
      'length',
      units,
      fewer,
      -1,
      (to) => `Shorten the clevis until the pin stands ${to} from the mouth of the guide`,
    ),
  ];
}

function pressures(job: Job, say: Say): Knob[] {
  if (typeof job.survey.air === 'string') return [];
  const [more, less] = [
    shift(
      job,
      'survey.air.low',
      'pressure',
      BAR,
      bars,
      0.1,
      (to) => `Never let the air fall under ${say('pressure', to)}`,
      0,
    )[0],
    shift(
      job,
      'survey.air.high',
      'pressure',
      BAR,
      bars,
      0.1,
      (to) => `Fit a regulator that lets no more than ${say('pressure', to)} in`,
      0,
    )[1],
  ];
  return [more, less].filter((knob) => knob !== undefined);
}

/** The sizes that are sold, larger and smaller than what is there, the nearest first. */
function steps(
  there: number,
  sold: readonly number[],
): readonly [larger: readonly number[], smaller: readonly number[]] {
  const gap = 1e-6;
  return [sold.filter((size) => size > there + gap), sold.filter((size) => size < there - gap).toReversed()];
}

function sizes(job: Job, say: Say, path: string, sold: readonly number[], words: (to: string) => string): Knob[] {
  const there = valueAtPath(job, path, 'length');
  if (Number.isNaN(there)) return [];
  return steps(there, sold).map((list, way) => ({
    name: `${path} ${way === 0 ? 'up' : 'down'}`,
    ladder: list.map((_, i) => i + 1),
    step: 0,
    settingAt(place) {
      const to = list[place - 1];
      const one = to === undefined ? null : set(job, path, 'length', to);
      return one === null ? null : { words: words(say('length', to)), changes: [one] };
    },
  }));
}

/** A cylinder of another bore comes with another rod. */
function bores(job: Job, say: Say): Knob[] {
  const there = valueAtPath(job, 'means.bore', 'length');
  if (Number.isNaN(there)) return [];
  const sold = standardBores.map(({ bore }) => bore);
  return steps(there, sold).map((list, way) => ({
    name: `bore ${way === 0 ? 'up' : 'down'}`,
    ladder: list.map((_, i) => i + 1),
    step: 0,
    settingAt(place) {
      const bore = list[place - 1];
      const one = standardBores.find((row) => row.bore === bore);
      if (one === undefined) return null;
      const rod = valueAtPath(job, 'means.rod', 'length');
      const rodChange = Number.isNaN(rod) ? [] : [set(job, 'means.rod', 'length', one.rod)];
      const changes = moves([set(job, 'means.bore', 'length', one.bore), ...rodChange]);
      const words = `Take a cylinder of ${say('length', one.bore)} bore with its ${say('length', one.rod)} rod`;
      return changes === null ? null : { words, changes };
    },
  }));
}

function springInside(job: Job, units: DisplayUnits, say: Say): Knob[] {
  const { means } = job;
  if (means.kind !== 'air cylinder' || means.returns === 'not measured') return [];
  if (means.returns === 'by air')
    return [
      {
        name: 'spring inside',
        ladder: [10, 20, 30, 40, 60, 80],
        step: 0,
        settingAt: (preload) => ({
          words: `Take a cylinder with a spring inside, ${say('force', preload)} where no air leaves it`,
          changes: [change(job, 'means.returns', { preload: `${preload} N`, rate: '0.5 N/mm' })],
        }),
      },
    ];
  const preload = (ladder: readonly number[], way: 1 | -1, words: string) =>
    resize(job, 'means.returns.preload', 'force', units, ladder, way, (to) => `${words} ${to} where no air leaves it`);
  return [
    ...preload([...shares, 5, 8, 12], 1, 'Take a stiffer spring inside:'),
    ...preload(fewer, -1, 'Take a softer spring inside:'),
    ...resize(
      job,
      'means.returns.rate',
      'springRate',
      units,
      fewer,
      -1,
      (to) => `Take a spring inside that rises less: ${to}`,
    ),
  ];
}
