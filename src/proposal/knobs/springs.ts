/** Return springs: how hard they are drawn or pressed, how stiff they are, and one more where it helps. */
import { change } from '../../job/change.ts';
import type { Job, ShaftReturnSpring } from '../../job/schema.ts';
import { formatQuantity, type DisplayUnits } from '../../units/quantity.ts';
import {
  DEGREE,
  degrees,
  fewer,
  millimetres,
  MM,
  moves,
  resize,
  set,
  shares,
  shift,
  valueAtPath,
  type Knob,
  type Say,
} from './knob.ts';

/** Anchors moved along their spring, plunger springs pressed more or less, and a spring on the plunger where there is none. */
export function springs(job: Job, units: DisplayUnits, say: Say): Knob[] {
  const knobs = job.return.springs.flatMap((spring, i): Knob[] => {
    const path = `return.springs[${i}]`;
    const called = spring.name || `spring ${i + 1}`;
    if (spring.on === 'shaft') return shaftSpring(job, spring, path, called, units, say);
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

/** A torsion spring: another rate, or its legs set to rest elsewhere. */
function shaftSpring(
  job: Job,
  { spring }: ShaftReturnSpring,
  path: string,
  called: string,
  units: DisplayUnits,
  say: Say,
): Knob[] {
  const rate = (ladder: readonly number[], way: 1 | -1) =>
    resize(job, `${path}.spring.rate`, 'torsionRate', units, ladder, way, (to) =>
      way === 1 ? `Take a stiffer "${called}": ${to}` : `Take a softer "${called}": ${to}`,
    );
  const rest = shift(
    job,
    `${path}.spring.freeAngle`,
    'angle',
    DEGREE,
    degrees,
    0.5,
    (to) => `Set the legs of "${called}" to rest at ${say('angle', to)}`,
  );
  switch (spring.by) {
    case 'rate':
      return [...rate(shares, 1), ...rate(fewer, -1), ...rest];
    case 'dimensions':
      return rest;
    case 'two readings':
      return [];
  }
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
      const changes = moves([
        set(job, `${path}.anchor.x`, 'length', x + (way * amount * MM * dx) / length),
        set(job, `${path}.anchor.y`, 'length', y + (way * amount * MM * dy) / length),
      ]);
      const words = `Move the anchor of "${called}" ${say('length', amount * MM)} ${way === 1 ? 'away from' : 'towards'} the lever`;
      return changes === null ? null : { words, changes };
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
