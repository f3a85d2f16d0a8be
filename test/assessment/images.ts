/**
 * The same installation seen otherwise: mirrored, turned, pushed, with the roles of stop and run exchanged, written in
 * other units. Each gives a document whose mechanics are those of the first.
 */
import type { Job, ReturnSpring, ShaftReturnSpring } from '../../src/job/schema.ts';
import { fromSI, unitsOf, type Dimension } from '../../src/units/quantity.ts';
import { quantityIn } from '../../src/job/quantity-text.ts';
import { altered, readable } from '../job/jobs.ts';
import { exactly, isMeasured, quantitiesOf, quantityOf } from '../job/quantities.ts';

const TURN = 2 * Math.PI;

function mapped(text: string, dimension: Dimension, to: (value: number) => number): string {
  const quantity = quantityIn(text, dimension);
  return quantity === null ? text : exactly(to(quantity.value), dimension, quantity.plusMinus);
}

type Places = Readonly<Record<string, unknown>>;

/** Every shaft angle of the document: those of the lever and those of the effort readings. */
function shaftAngles(job: Job, to: (angle: number) => number): Places {
  const { lever, effort } = job.survey;
  const angles = {
    'survey.lever.runAngle': lever.runAngle,
    'survey.lever.noFuelAngle': lever.noFuelAngle,
    'survey.lever.hardStopAngle': lever.hardStopAngle,
    'survey.lever.runStopAngle': lever.runStopAngle,
    ...Object.fromEntries(effort.readings.map(({ angle }, i) => [`survey.effort.readings[${i}].angle`, angle])),
  };
  return Object.fromEntries(Object.entries(angles).map(([path, text]) => [path, mapped(text, 'angle', to)]));
}

type Angles = (angle: number) => number;

/** Shaft angles wherever a torsion spring has them. */
function legs(spring: ShaftReturnSpring['spring'], shaft: Angles): ShaftReturnSpring['spring'] {
  const at = (text: string) => mapped(text, 'angle', shaft);
  switch (spring.by) {
    case 'rate':
      return { ...spring, freeAngle: at(spring.freeAngle), limitAngle: at(spring.limitAngle) };
    case 'dimensions':
      return { ...spring, freeAngle: at(spring.freeAngle) };
    case 'two readings': {
      const { first, second, limitAngle } = spring;
      return {
        ...spring,
        first: { ...first, angle: at(first.angle) },
        second: { ...second, angle: at(second.angle) },
        limitAngle: at(limitAngle),
      };
    }
  }
}

type Turn = (x: number, y: number) => readonly [number, number];

function point(place: { readonly x: string; readonly y: string }, turn: Turn): unknown {
  const x = quantityIn(place.x, 'length');
  const y = quantityIn(place.y, 'length');
  if (x === null || y === null) throw new Error('a point that was not measured has no image');
  const [toX, toY] = turn(x.value, y.value);
  return { x: exactly(toX, 'length'), y: exactly(toY, 'length') };
}

function springs(job: Job, turn: Turn, relative: Angles, shaft: Angles): readonly ReturnSpring[] {
  return job.return.springs.map((spring) => springSeen(spring, turn, relative, shaft));
}

function springSeen(spring: ReturnSpring, turn: Turn, relative: Angles, shaft: Angles): ReturnSpring {
  switch (spring.on) {
    case 'plunger':
      return spring;
    case 'lever':
      return {
        ...spring,
        anchor: point(spring.anchor, turn) as typeof spring.anchor,
        angle: mapped(spring.angle, 'angle', relative),
      };
    case 'shaft':
      return { ...spring, spring: legs(spring.spring, shaft) };
  }
}

/** Looked at from the other side: x becomes -x, and every angle is taken from the other side. */
export function mirrored(job: Job): Job {
  const over = (angle: number) => Math.PI - angle;
  const flip: Turn = (x, y) => [-x, y];
  const { hubPositions } = job.survey.lever;
  return readable(
    altered(job, {
      ...shaftAngles(job, over),
      'survey.lever.armOffset': mapped(job.survey.lever.armOffset, 'angle', (offset) => -offset),
      'layout.hubPosition': (hubPositions - job.layout.hubPosition) % hubPositions,
      'layout.homePin': point(job.layout.homePin, flip),
      'layout.pullDirection': mapped(job.layout.pullDirection, 'angle', over),
      'layout.down': mapped(job.layout.down ?? '270°', 'angle', over),
      'return.springs': springs(job, flip, (relative) => -relative, over),
    }),
  );
}

/** The whole drawing turned counter-clockwise, the ground with it. */
export function turned(job: Job, by: number): Job {
  const cos = Math.cos(by);
  const sin = Math.sin(by);
  const turn: Turn = (x, y) => [x * cos - y * sin, x * sin + y * cos];
  const on = (angle: number) => angle + by;
  return readable(
    altered(job, {
      ...shaftAngles(job, on),
      'layout.homePin': point(job.layout.homePin, turn),
      'layout.pullDirection': mapped(job.layout.pullDirection, 'angle', on),
      'layout.down': mapped(job.layout.down ?? '270°', 'angle', on),
      'return.springs': springs(job, turn, (relative) => relative, on),
    }),
  );
}

/** The same lever, its angles counted from another zero: what shaft angles gain, the arm's offset loses. */
export function recounted(job: Job, by: number): Job {
  return readable(
    altered(job, {
      ...shaftAngles(job, (angle) => angle + by),
      'survey.lever.armOffset': mapped(job.survey.lever.armOffset, 'angle', (offset) => offset - by),
      'return.springs': springs(
        job,
        (x, y) => [x, y],
        (relative) => relative - by,
        (angle) => angle + by,
      ),
    }),
  );
}

/** The arm on another place of its hub, and the offset that undoes it. */
export function rehubbed(job: Job, places: number): Job {
  const { hubPositions, armOffset } = job.survey.lever;
  const step = TURN / hubPositions;
  return readable(
    altered(job, {
      'layout.hubPosition': (job.layout.hubPosition + places) % hubPositions,
      'survey.lever.armOffset': mapped(armOffset, 'angle', (offset) => offset - (places % hubPositions) * step),
    }),
  );
}

const otherWay = {
  'energise to stop': 'energise to run',
  'energise to run': 'energise to stop',
  'air to stop': 'air to run',
  'air to run': 'air to stop',
  'not measured': 'not measured',
} as const;

/**
 * The other way of working with the same mechanics: what was no-fuel is run and the other way about, so that the current
 * carries the same lever over the same swing. Effort that was read towards stop was read towards run.
 */
export function rolesExchanged(job: Job): Job {
  if (job.means.kind === 'hand cable') throw new Error('a hand cable works one way only');
  const { lever, effort } = job.survey;
  return readable(
    altered(job, {
      'survey.lever.runAngle': lever.noFuelAngle,
      'survey.lever.noFuelAngle': lever.runAngle,
      'survey.lever.hardStopAngle': lever.runStopAngle,
      'survey.lever.runStopAngle': lever.hardStopAngle,
      'survey.effort.towards': effort.towards === 'stop' ? 'run' : 'stop',
      'return.springs': job.return.springs.map((spring) =>
        spring.on === 'shaft'
          ? { ...spring, towards: spring.towards === 'stop' ? ('run' as const) : ('stop' as const) }
          : spring,
      ),
      'means.works': otherWay[job.means.works],
    }),
  );
}

/** Every quantity written in another unit of its dimension, to all its digits; `pick` chooses among the units. */
export function rewritten(job: Job, pick: (units: readonly string[], path: string) => string): Job {
  const places = quantitiesOf(job)
    .filter(isMeasured)
    .map((found) => {
      const { dimension } = found.rule;
      const { value, plusMinus } = quantityOf(found);
      const unit = pick(
        unitsOf(dimension).filter((symbol) => symbol !== 'AWG'),
        found.path,
      );
      const half =
        plusMinus === null
          ? ''
          : ` ± ${fromSI(plusMinus, unit, dimension === 'temperature' ? 'temperatureDifference' : dimension)}`;
      const middle = fromSI(value, unit, dimension);
      return [found.path, half === '' ? `${middle} ${unit}`.trim() : `(${middle}${half}) ${unit}`.trim()] as const;
    });
  return readable(altered(job, Object.fromEntries(places)));
}
