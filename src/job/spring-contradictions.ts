/** What a return spring is said to be, and cannot be: readings of one spring that cannot all be true together. */
import type { Problem } from './opening.ts';
import { quantityIn } from './quantity-text.ts';
import type { Job, LinearReturnSpring, ReturnSpring, ShaftReturnSpring } from './schema.ts';
import type { Dimension } from '../units/quantity.ts';

export function springContradictions(job: Job): Problem[] {
  return job.return.springs.flatMap((spring, i) => contradictionsIn(job, spring, `return.springs[${i}].spring`));
}

function contradictionsIn(job: Job, spring: ReturnSpring, path: string): Problem[] {
  switch (spring.spring.by) {
    case 'dimensions':
      return tooTight(spring.spring, path);
    case 'two readings':
      return spring.on === 'shaft' ? twoMoments(job, spring, path) : twoForces(spring, path);
    case 'rate':
      return [];
  }
}

/** The same for a spring that is drawn or pressed, wherever it lies. */
export function linearContradictions(one: Pick<LinearReturnSpring, 'kind' | 'spring'>, path: string): Problem[] {
  return one.spring.by === 'dimensions' ? tooTight(one.spring, path) : twoForces(one, path);
}

/** A torsion spring in the hand, told by how far it is wound. */
export function torsionContradictions(
  spring:
    | { readonly by: 'rate' }
    | { readonly by: 'dimensions'; readonly wireDiameter: string; readonly outsideDiameter: string }
    | {
        readonly by: 'two readings';
        readonly first: { readonly wound: string; readonly moment: string };
        readonly second: { readonly wound: string; readonly moment: string };
      },
  path: string,
): Problem[] {
  if (spring.by === 'rate') return [];
  if (spring.by === 'dimensions') return tooTight(spring, path);
  const { first, second } = spring;
  const [w1, w2] = [first, second].map(({ wound }) => valueIn(wound, 'angle'));
  const [m1, m2] = [first, second].map(({ moment }) => valueIn(moment, 'torque'));
  if (w1 === w2) return [sameAt(`${path}.second.wound`, second.wound, 'angle')];
  if (!((m2 - m1) / (w2 - w1) <= 0)) return [];
  return [
    {
      path: `${path}.second.moment`,
      read: second.moment,
      problem: `wound further, a torsion spring holds more: ${first.moment} at ${first.wound} and ${second.moment} at ${second.wound} cannot both be right`,
    },
  ];
}

function tooTight(
  spring: { readonly wireDiameter: string; readonly outsideDiameter: string },
  path: string,
): Problem[] {
  const wire = valueIn(spring.wireDiameter, 'length');
  const outside = valueIn(spring.outsideDiameter, 'length');
  if (!(outside <= 2.5 * wire)) return [];
  return [
    {
      path: `${path}.outsideDiameter`,
      read: spring.outsideDiameter,
      problem: `a coil cannot be wound so tight from wire of ${spring.wireDiameter}: its outside must be over 2.5 times the wire`,
    },
  ];
}

function twoForces({ kind, spring }: Pick<LinearReturnSpring, 'kind' | 'spring'>, path: string): Problem[] {
  if (spring.by !== 'two readings') return [];
  const { first, second, freeLength } = spring;
  const [l1, l2] = [first, second].map(({ length }) => valueIn(length, 'length'));
  const [f1, f2] = [first, second].map((one) => valueIn(one.force, 'force'));
  if (l1 === l2) return [sameAt(`${path}.second.length`, second.length, 'length')];
  const isDrawn = kind === 'extension';
  const rate = ((f2 - f1) / (l2 - l1)) * (isDrawn ? 1 : -1);
  if (rate <= 0) {
    return [
      {
        path: `${path}.second.force`,
        read: second.force,
        problem: `${isDrawn ? 'drawn longer, an extension' : 'pressed shorter, a compression'} spring holds more: ${first.force} at ${first.length} and ${second.force} at ${second.length} cannot both be right`,
      },
    ];
  }
  if (freeLength === undefined) return [];
  const free = quantityIn(freeLength, 'length');
  if (free === null || Number.isNaN(rate)) return [];
  const bad = (problem: string) => [{ path: `${path}.freeLength`, read: freeLength, problem }];
  const half = free.plusMinus ?? 0;
  const isLoaded = isDrawn ? free.value - half > Math.min(l1, l2) : free.value + half < Math.max(l1, l2);
  if (isLoaded)
    return bad(
      `at its free length it holds nothing, so it must be ${isDrawn ? 'no longer' : 'no shorter'} than at both readings (${first.length} and ${second.length})`,
    );
  // Where the line through the readings meets no force, and how far short of the free length that is.
  const none = l1 - (isDrawn ? f1 : -f1) / rate;
  const early = isDrawn ? none - free.value : free.value - none;
  const travel = Math.max(Math.abs(l1 - free.value), Math.abs(l2 - free.value));
  const allowed = Math.max(0.1 * travel, half + readAbout(first, second, rate));
  if (early <= allowed) return [];
  return bad(
    `by the line through both readings it would hold nothing at ${(1000 * none).toFixed(1)} mm already: read lengths and forces again`,
  );
}

/** How far the ± of the readings moves the point where their line meets no force, m: the greater of the two taken alone. */
function readAbout(
  first: { readonly length: string; readonly force: string },
  second: { readonly length: string; readonly force: string },
  rate: number,
): number {
  return Math.max(
    ...[first, second].map(
      ({ length, force }) =>
        (quantityIn(length, 'length')?.plusMinus ?? 0) + (quantityIn(force, 'force')?.plusMinus ?? 0) / rate,
    ),
  );
}

function twoMoments(job: Job, { towards, spring }: ShaftReturnSpring, path: string): Problem[] {
  if (spring.by !== 'two readings') return [];
  const { first, second } = spring;
  const [a1, a2] = [first, second].map((one) => valueIn(one.angle, 'angle'));
  const [m1, m2] = [first, second].map((one) => valueIn(one.moment, 'torque'));
  if (a1 === a2) return [sameAt(`${path}.second.angle`, second.angle, 'angle')];
  const { runAngle, noFuelAngle } = job.survey.lever;
  const toStop = Math.sign(valueIn(noFuelAngle, 'angle') - valueIn(runAngle, 'angle'));
  // It is wound up, and gives more, the further the lever stands against its drive.
  const rate = (toStop * (towards === 'stop' ? -1 : 1) * (m2 - m1)) / (a2 - a1);
  if (!(rate <= 0)) return [];
  return [
    {
      path: `${path}.second.moment`,
      read: second.moment,
      problem: `a spring that drives the lever towards ${towards} gives more the further the lever stands from ${towards}: ${first.moment} at ${first.angle} and ${second.moment} at ${second.angle} cannot both be right`,
    },
  ];
}

const sameAt = (path: string, read: string, what: 'length' | 'angle'): Problem => ({
  path,
  read,
  problem: `both readings stand at one ${what}: a rate needs two ${what}s, as far apart as the ${what === 'length' ? 'spring' : 'lever'} works`,
});

/** NaN where it was not measured: every comparison with it is then false. */
function valueIn(text: string, dimension: Dimension): number {
  return quantityIn(text, dimension)?.value ?? NaN;
}
