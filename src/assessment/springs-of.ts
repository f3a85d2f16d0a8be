/**
 * The return springs of a job as physics has them: drawn or pressed on lever or plunger, or wound round the shaft.
 *
 * A spring known by two readings that contradict each other is refused at the door; met here all the same, it is NaN.
 */
import { quantityIn } from '../job/quantity-text.ts';
import type { LinearReturnSpring, ReturnSpring, ShaftReturnSpring } from '../job/schema.ts';
import { springRate, type HelicalSpring } from '../physics/spring/helical.ts';
import { helicalOfWire } from '../physics/spring/compression.ts';
import {
  measuredShaftSpring,
  measuredSpring,
  type Band,
  type Measured,
  type Reading,
} from '../physics/spring/measured.ts';
import { torsionRate, type ShaftSpring, type TorsionSpring } from '../physics/spring/torsion.ts';
import { elasticModulus, type SpringWire } from '../physics/spring/wire.ts';
import type { LeverSpring, WorkingSpring } from '../physics/spring/working.ts';
import type { Dimension } from '../units/quantity.ts';
import { valueOf, type DefaultReader } from './readings.ts';

export interface RigSpring {
  readonly path: string;
  /** Index in the job's list of return springs. */
  readonly index: number;
  readonly name: string;
  readonly description: LinearReturnSpring;
  readonly working: WorkingSpring;
  /** Only for a spring given by its dimensions. */
  readonly helical: (HelicalSpring & { readonly wire: SpringWire }) | null;
  /** Longest (extension) or shortest (compression) allowed length; NaN where dimensions decide. */
  readonly limitLength: number;
  readonly lever: LeverSpring | null;
  /** Spring on the plunger: its length at home. */
  readonly lengthAtHome: number;
}

/** A torsion spring round the shaft. */
export interface RigShaftSpring {
  readonly path: string;
  readonly index: number;
  readonly name: string;
  readonly description: ShaftReturnSpring;
  readonly onShaft: ShaftSpring;
  /** Only for a spring given by its dimensions. */
  readonly coil: (TorsionSpring & { readonly wire: SpringWire }) | null;
  /** Shaft angle to which it may be wound at most; NaN where dimensions decide. */
  readonly limitAngle: number;
}

export interface RigSprings {
  readonly springs: readonly RigSpring[];
  readonly shaftSprings: readonly RigShaftSpring[];
}

/** @param toStop +1 where the lever turns counter-clockwise towards stop */
export function springsOf(descriptions: readonly ReturnSpring[], toStop: 1 | -1, reader: DefaultReader): RigSprings {
  const springs: RigSpring[] = [];
  const shaftSprings: RigShaftSpring[] = [];
  descriptions.forEach((one, index) => {
    if (one.on === 'shaft') shaftSprings.push(shaftSpringOf(one, index, toStop));
    else springs.push(springOf(one, index, reader));
  });
  return { springs, shaftSprings };
}

const pathOf = (index: number) => `return.springs[${index}]`;

function springOf(description: LinearReturnSpring, index: number, reader: DefaultReader): RigSpring {
  const { spring } = description;
  const helical = spring.by === 'dimensions' ? helicalOf(spring) : null;
  const working = workingOf(description, helical, pathOf(index), reader);
  return {
    path: pathOf(index),
    index,
    name: description.name,
    description,
    working,
    helical,
    limitLength: spring.by === 'dimensions' ? NaN : valueOf(spring.limitLength, 'length'),
    lever:
      description.on === 'lever'
        ? {
            spring: working,
            anchorX: valueOf(description.anchor.x, 'length'),
            anchorY: valueOf(description.anchor.y, 'length'),
            radius: valueOf(description.radius, 'length'),
            angle: valueOf(description.angle, 'angle'),
          }
        : null,
    lengthAtHome: description.on === 'plunger' ? valueOf(description.lengthAtHome, 'length') : NaN,
  };
}

function workingOf(
  { on, kind, spring }: LinearReturnSpring,
  helical: HelicalSpring | null,
  path: string,
  reader: DefaultReader,
): WorkingSpring {
  if (spring.by === 'two readings') {
    const { first, second } = spring;
    const free = spring.freeLength === undefined ? null : bandIn(spring.freeLength, 'length');
    const found = measuredSpring(
      kind,
      readingIn(first.length, first.force),
      readingIn(second.length, second.force),
      free,
    );
    return { kind, ...lineOf(found) };
  }
  const initialTension =
    on === 'lever' && kind === 'extension'
      ? reader.value(
          `${path}.spring.initialTension`,
          spring.initialTension,
          'force',
          'return.springs[].spring.initialTension',
        )
      : 0;
  const rate =
    spring.by === 'rate'
      ? valueOf(spring.rate, 'springRate')
      : helical === null || !isRead(helical)
        ? NaN
        : springRate(helical);
  return { kind, rate, freeLength: valueOf(spring.freeLength, 'length'), initialTension };
}

type ByDimensions = Extract<ReturnSpring['spring'], { by: 'dimensions' }>;

function coilIn(spring: ByDimensions) {
  const wireDiameter = valueOf(spring.wireDiameter, 'length');
  return {
    wire: spring.wire,
    wireDiameter,
    meanCoilDiameter: valueOf(spring.outsideDiameter, 'length') - wireDiameter,
    activeTurns: valueOf(spring.activeTurns, 'ratio'),
  };
}

function helicalOf(spring: ByDimensions): HelicalSpring & { wire: SpringWire } {
  const coil = coilIn(spring);
  return { wire: coil.wire, ...helicalOfWire(coil) };
}

const isRead = (coil: Omit<HelicalSpring, 'shearModulus'>) =>
  !Number.isNaN(coil.wireDiameter + coil.meanCoilDiameter + coil.activeTurns);

function shaftSpringOf(description: ShaftReturnSpring, index: number, toStop: 1 | -1): RigShaftSpring {
  const { spring, towards } = description;
  const drives = towards === 'stop' ? toStop : toStop === 1 ? -1 : 1;
  const coil = spring.by === 'dimensions' ? { ...coilIn(spring), elasticModulus: elasticModulus(spring.wire) } : null;
  return {
    path: pathOf(index),
    index,
    name: description.name,
    description,
    onShaft: { drives, ...torsionLine(description, drives, coil) },
    coil,
    limitAngle: spring.by === 'dimensions' ? NaN : valueOf(spring.limitAngle, 'angle'),
  };
}

function torsionLine(
  { spring }: ShaftReturnSpring,
  drives: 1 | -1,
  coil: TorsionSpring | null,
): Pick<ShaftSpring, 'rate' | 'freeAngle'> {
  switch (spring.by) {
    case 'two readings': {
      const [first, second] = [spring.first, spring.second].map(({ angle, moment }) => ({
        at: bandIn(angle, 'angle'),
        load: bandIn(moment, 'torque'),
      }));
      const { rate, freeLength } = lineOf(measuredShaftSpring(drives, first, second));
      return { rate, freeAngle: freeLength };
    }
    case 'rate':
      return { rate: valueOf(spring.rate, 'torsionRate'), freeAngle: valueOf(spring.freeAngle, 'angle') };
    case 'dimensions':
      return {
        rate: coil === null || !isRead(coil) ? NaN : torsionRate(coil),
        freeAngle: valueOf(spring.freeAngle, 'angle'),
      };
  }
}

function bandIn(text: string, dimension: Dimension): Band {
  const quantity = quantityIn(text, dimension);
  const value = quantity?.value ?? NaN;
  const half = quantity?.plusMinus ?? 0;
  return { low: value - half, value, high: value + half };
}

const readingIn = (length: string, force: string): Reading => ({
  at: bandIn(length, 'length'),
  load: bandIn(force, 'force'),
});

function lineOf(found: Measured): Omit<WorkingSpring, 'kind'> {
  if (!found.ok) return { rate: NaN, freeLength: NaN, initialTension: NaN };
  const { rate, free, initialTension } = found.spring;
  return { rate: rate.value, freeLength: free.value, initialTension: initialTension.value };
}
