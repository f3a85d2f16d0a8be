/**
 * What a fitter can change on an installation, each as a row of settings from small to large.
 *
 * A knob offers settings; a setting is a change to the document with its words. Settings of one sense are ordered by the
 * size of the change, so that the first that mends is the smallest.
 *
 * Longer than 300 lines: one reason, that everything that may be turned stands in one list.
 */
import { change, type Change } from '../job/change.ts';
import { quantityIn } from '../job/fields.ts';
import type { Job } from '../job/schema.ts';
import { display, formatQuantity, fromSI, toSI, type Dimension, type DisplayUnits } from '../units/quantity.ts';

export interface Setting {
  readonly words: string;
  readonly changes: readonly Change[];
}

/** One sense in which something can be turned: `settingAt(amount)` for any amount between those of the ladder. */
export interface Knob {
  readonly name: string;
  /** Amounts from small to large, in the knob's own unit. */
  readonly ladder: readonly number[];
  /** Smallest step worth naming: an amount is rounded up to it. Zero where the ladder is all there is. */
  readonly step: number;
  /** Null where this amount has no meaning (a length below zero, the setting that is there already). */
  settingAt(amount: number): Setting | null;
}

const millimetres = [0.25, 0.5, 1, 1.5, 2, 3, 4, 6, 8, 11, 15, 20];
const degrees = [0.5, 1, 2, 4, 6, 9, 13, 18];
const shares = [0.05, 0.1, 0.2, 0.35, 0.5, 0.75, 1, 1.5, 2, 3];
const fewer = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
const sections_mm2 = [0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50];

const MM = toSI(1, 'mm');
const DEGREE = toSI(1, '°');
const SQUARE_MM = toSI(1, 'mm²');

/** The knobs of an installation with a solenoid, the easiest on the job first. */
export function knobsOf(job: Job, units: DisplayUnits): Knob[] {
  const { means } = job;
  if (means.kind !== 'solenoid') return [];
  const say = (dimension: Dimension, value: number) => display(value, dimension, units);
  return [
    ...bracket(job, say),
    ...joint(job, units),
    ...hub(job),
    ...adjuster(job, say),
    ...springs(job, units, say),
    ...overTravel(job, units, say),
    ...conductors(job, units),
    ...electrics(job, units),
    ...resize(
      job,
      'layout.bracketGive',
      'length',
      units,
      fewer,
      -1,
      (to) => `Stiffen the bracket until it gives no more than ${to} at full pull`,
    ),
    ...resize(
      job,
      'survey.lever.lash',
      'angle',
      units,
      fewer,
      -1,
      (to) => `Take up the play of the lever until it rocks no more than ${to}`,
    ),
    ...resize(
      job,
      'means.plunger.overhang',
      'length',
      units,
      fewer,
      -1,
      (to) => `Shorten the clevis until the pin stands ${to} from the mouth of the guide`,
    ),
  ];
}

type Say = (dimension: Dimension, value: number) => string;

/** Text of a quantity with another value: the unit and the ± of the old text are kept. */
export function rewritten(text: string, dimension: Dimension, value: number): string | null {
  const old = quantityIn(text, dimension);
  if (old === null) return null;
  const plain = formatQuantity(value, dimension, old.unit, { significantDigits: 5 });
  if (old.plusMinus === null || old.plusMinus === 0 || dimension === 'area') return plain;
  const half = fromSI(old.plusMinus, old.unit, dimension === 'temperature' ? 'temperatureDifference' : dimension);
  return `${plain} ± ${Number(half.toPrecision(3))}`;
}

function valueAtPath(job: Job, path: string, dimension: Dimension): number {
  const text = change(job, path, undefined).from;
  return typeof text === 'string' ? (quantityIn(text, dimension)?.value ?? NaN) : NaN;
}

function set(job: Job, path: string, dimension: Dimension, value: number): Change | null {
  const { from } = change(job, path, undefined);
  const to = typeof from === 'string' ? rewritten(from, dimension, value) : null;
  return to === null ? null : change(job, path, to);
}

/** A quantity made larger (+1) or smaller (-1) by shares of itself. */
function resize(
  job: Job,
  path: string,
  dimension: Dimension,
  units: DisplayUnits,
  ladder: readonly number[],
  way: 1 | -1,
  words: (to: string) => string,
): Knob[] {
  const value = valueAtPath(job, path, dimension);
  if (!(value > 0)) return [];
  return [
    {
      name: `${path} ${way === 1 ? 'up' : 'down'}`,
      ladder,
      step: 0.01,
      settingAt(share) {
        const to = value * (1 + way * share);
        const one = to > 0 ? set(job, path, dimension, to) : null;
        return one === null ? null : { words: words(display(to, dimension, units, 3)), changes: [one] };
      },
    },
  ];
}

/** A quantity moved by steps of a stated size, both ways. */
function shift(
  job: Job,
  path: string,
  dimension: Dimension,
  unit: number,
  ladder: readonly number[],
  step: number,
  words: (to: number, way: 1 | -1) => string,
  least = -Infinity,
): Knob[] {
  const value = valueAtPath(job, path, dimension);
  if (Number.isNaN(value)) return [];
  return ([1, -1] as const).map((way) => ({
    name: `${path} ${way === 1 ? 'up' : 'down'}`,
    ladder,
    step,
    settingAt(amount) {
      const to = value + way * amount * unit;
      const one = to > least ? set(job, path, dimension, to) : null;
      return one === null ? null : { words: words(to, way), changes: [one] };
    },
  }));
}

/** The bracket moved along the pull and across it, and turned. */
function bracket(job: Job, say: Say): Knob[] {
  const direction = valueAtPath(job, 'layout.pullDirection', 'angle');
  const x = valueAtPath(job, 'layout.homePin.x', 'length');
  const y = valueAtPath(job, 'layout.homePin.y', 'length');
  if (Number.isNaN(direction + x + y)) return [];
  const moved = (name: string, dx: number, dy: number, words: (distance: string) => string): Knob => ({
    name,
    ladder: millimetres,
    step: 0.1,
    settingAt(amount) {
      const changes = [
        set(job, 'layout.homePin.x', 'length', x + dx * amount * MM),
        set(job, 'layout.homePin.y', 'length', y + dy * amount * MM),
      ].filter((one) => one !== null);
      return changes.length < 2 ? null : { words: words(say('length', amount * MM)), changes };
    },
  });
  const ux = Math.cos(direction);
  const uy = Math.sin(direction);
  return [
    moved('bracket along', ux, uy, (distance) => `Move the bracket ${distance} in the direction of the pull`),
    moved('bracket back', -ux, -uy, (distance) => `Move the bracket ${distance} against the direction of the pull`),
    moved(
      'bracket across',
      -uy,
      ux,
      (distance) => `Move the bracket ${distance} across the pull, ${sideWords(-uy, ux)}`,
    ),
    moved(
      'bracket across back',
      uy,
      -ux,
      (distance) => `Move the bracket ${distance} across the pull, ${sideWords(uy, -ux)}`,
    ),
    ...shift(
      job,
      'layout.pullDirection',
      'angle',
      DEGREE,
      degrees,
      0.5,
      (to, way) =>
        `Turn the bracket until it pulls at ${say('angle', to)}, ${way === 1 ? 'counter-clockwise' : 'clockwise'}`,
    ),
  ];
}

/** Which way a direction points on the drawing. */
function sideWords(dx: number, dy: number): string {
  if (Math.abs(dy) >= Math.abs(dx)) return dy > 0 ? 'upwards on the drawing' : 'downwards on the drawing';
  return dx > 0 ? 'to the right on the drawing' : 'to the left on the drawing';
}

/** Slot, link, chain, hole; and another kind of connection where the arc is the trouble. */
function joint(job: Job, units: DisplayUnits): Knob[] {
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

function hub(job: Job): Knob[] {
  const { hubPositions } = job.survey.lever;
  if (hubPositions < 2) return [];
  return ([1, -1] as const).map((way) => ({
    name: `hub ${way}`,
    ladder: [1, 2, 3].filter((places) => places < hubPositions),
    step: 0,
    settingAt(places) {
      const to = (((job.layout.hubPosition + way * places) % hubPositions) + hubPositions) % hubPositions;
      const turned = `${places === 1 ? 'one place' : `${places} places`} ${way === 1 ? 'counter-clockwise' : 'clockwise'}`;
      return { words: `Refit the arm on its hub ${turned}`, changes: [change(job, 'layout.hubPosition', to)] };
    },
  }));
}

function adjuster(job: Job, say: Say): Knob[] {
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

/** Anchors moved along their spring, plunger springs pressed more or less, and a spring on the plunger where there is none. */
function springs(job: Job, units: DisplayUnits, say: Say): Knob[] {
  const knobs = job.return.springs.flatMap((spring, i): Knob[] => {
    const path = `return.springs[${i}]`;
    const called = spring.name || `spring ${i + 1}`;
    const rate =
      spring.spring.by === 'rate'
        ? [
            ...resize(
              job,
              `${path}.spring.rate`,
              'springRate',
              units,
              shares,
              1,
              (to) => `Take a stiffer "${called}": ${to}`,
            ),
            ...resize(
              job,
              `${path}.spring.rate`,
              'springRate',
              units,
              fewer,
              -1,
              (to) => `Take a softer "${called}": ${to}`,
            ),
          ]
        : [];
    if (spring.on === 'plunger') {
      return [
        ...shift(
          job,
          `${path}.lengthAtHome`,
          'length',
          MM,
          millimetres,
          0.5,
          (to) => `Seat "${called}" so that it is ${say('length', to)} long at home`,
          0.001,
        ),
        ...rate,
      ];
    }
    return [...anchor(job, path, called, say), ...rate];
  });
  return job.return.springs.some(({ on }) => on === 'plunger') ? knobs : [...knobs, ...plungerSpring(job, say)];
}

function anchor(job: Job, path: string, called: string, say: Say): Knob[] {
  const x = valueAtPath(job, `${path}.anchor.x`, 'length');
  const y = valueAtPath(job, `${path}.anchor.y`, 'length');
  const radius = valueAtPath(job, `${path}.radius`, 'length');
  const direction = valueAtPath(job, `${path}.angle`, 'angle') + valueAtPath(job, 'survey.lever.runAngle', 'angle');
  const dx = x - radius * Math.cos(direction);
  const dy = y - radius * Math.sin(direction);
  const length = Math.hypot(dx, dy);
  if (!(length > 0)) return [];
  return ([1, -1] as const).map((way) => ({
    name: `${path} anchor ${way}`,
    ladder: millimetres,
    step: 0.5,
    settingAt(amount) {
      const changes = [
        set(job, `${path}.anchor.x`, 'length', x + (way * amount * MM * dx) / length),
        set(job, `${path}.anchor.y`, 'length', y + (way * amount * MM * dy) / length),
      ].filter((one) => one !== null);
      const words = `Move the anchor of "${called}" ${say('length', amount * MM)} ${way === 1 ? 'away from' : 'towards'} the lever`;
      return changes.length < 2 ? null : { words, changes };
    },
  }));
}

/** A compression spring round the plunger: the only return that a self-locking lever cannot spoil. */
function plungerSpring(job: Job, say: Say): Knob[] {
  const stroke = valueAtPath(job, 'means.plunger.stroke', 'length');
  if (!(stroke > 0) || job.return.springs.length >= 8) return [];
  const text = (value: number) => formatQuantity(value, 'length', 'mm', { significantDigits: 4 });
  return [
    {
      name: 'plunger spring',
      ladder: [2, 4, 6, 8, 10, 12, 15, 20, 25, 30, 40, 60],
      step: 1,
      settingAt(force) {
        // Pressed to half at full stroke: the rate follows from the force at home and the stroke.
        const rate = force / 2 / stroke;
        const lengthAtHome = 1.2 * stroke;
        const spring = {
          on: 'plunger',
          name: 'Plunger spring',
          kind: 'compression',
          lengthAtHome: text(lengthAtHome),
          spring: {
            by: 'rate',
            rate: formatQuantity(rate, 'springRate', 'N/mm', { significantDigits: 3 }),
            freeLength: text(lengthAtHome + 2 * stroke),
            limitLength: text(0.8 * stroke),
          },
        };
        return {
          words: `Fit a compression spring round the plunger: ${say('force', force / 2)} at full stroke, ${say('force', force)} at home`,
          changes: [change(job, `return.springs[${job.return.springs.length}]`, spring)],
        };
      },
    },
  ];
}

function overTravel(job: Job, units: DisplayUnits, say: Say): Knob[] {
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

/** Standard sections, out and back alike. */
function conductors(job: Job, units: DisplayUnits): Knob[] {
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

function electrics(job: Job, units: DisplayUnits): Knob[] {
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
