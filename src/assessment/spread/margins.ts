/**
 * Margins of the findings as numbers, for one document after another: the very checks of an assessment, asked for their
 * number alone. Which readings are missing, and what each finding rests on, is worked out once; sentences are said to
 * nobody. [PHYSICS 10]
 */
import { checksOf } from '../assess.ts';
import { LARGEST_MARGIN, type Check, type Context, findingOf } from '../check.ts';
import { coilHeatOf, heatChecks } from '../checks/heat.ts';
import type { Finding } from '../finding.ts';
import { missingReadings, needsOf } from '../needs.ts';
import { QuietReader, type DefaultReader } from '../readings.ts';
import { rigOf, rigReadBy, type SolenoidJob } from '../rig.ts';
import { electricCorners, scenesOf, type SceneRoom } from '../scene.ts';
import { wordsIn, type Words } from '../words.ts';
import type { Writable } from '../../physics/linkage.ts';
import { metricUnits } from '../../units/quantity.ts';

/** What a finding is, as far as a study of spread needs it. */
export type SpreadFinding = Pick<Finding, 'id' | 'title' | 'question' | 'marginUnit' | 'wanted' | 'margin' | 'missing'>;

const silent: Words = Object.fromEntries(
  Object.keys(wordsIn(metricUnits)).map((name) => [name, () => '']),
) as unknown as Words;

/** Of the findings that follow time, the one that needs no course: the coil held for good. */
const STEADY = 'class-in-hold';

/** Findings of the document as it is written, in a fixed order. Those that need a missing reading have no margin. */
export function spreadFindings(job: SolenoidJob): readonly SpreadFinding[] {
  const missing = missingReadings(job);
  return checksIn(contextOf(job, needsOf(job)), true).map((check) => {
    const { id, title, question, marginUnit, wanted, margin, missing: untaken } = findingOf(check, missing);
    return { id, title, question, marginUnit, wanted, margin, missing: untaken };
  });
}

export interface MarginReckoner {
  /** Writes the margin of each finding, in the order of `ids`; NaN where it is not known. */
  margins(job: SolenoidJob, into: Float64Array, at: number): void;
}

/**
 * A reckoner for documents that have the same parts and the same missing readings as `job`, and differ in numbers only.
 * Margins are those of `assess`, capped in the same way.
 *
 * A document that comes again, with other numbers in it (`drawnJob`), is asked by the same checks; all that is reckoned of it
 * is written over what was there.
 *
 * @param ids    findings in the order of their places
 * @param wanted those of them that are asked for; the others stay NaN
 */
export function marginReckoner(
  job: SolenoidJob,
  ids: readonly string[],
  wanted: readonly string[] = ids,
): MarginReckoner {
  const needs = needsOf(job);
  const missing = missingReadings(job);
  const column = new Map(ids.flatMap((id, i) => (wanted.includes(id) ? [[id, i] as const] : [])));
  const unknown = new Set(
    checksIn(contextOf(job, needs), true)
      .filter((check) => check.needs.some((path) => missing.has(path)))
      .map(({ id }) => id),
  );
  // What a finding rests on is settled above; while drawing, nobody asks again.
  const nothing = Object.fromEntries(Object.keys(needs).map((name) => [name, []])) as unknown as Context['needs'];
  const isHeatWanted = column.has(STEADY) && !unknown.has(STEADY);
  const rooms: SceneRoom[] = [];
  const reader = new QuietReader();
  let standing: Standing | null = null;
  return {
    margins(drawn, into, at) {
      into.fill(NaN, at, at + ids.length);
      if (standing?.job === drawn) renew(standing.context, drawn, reader, rooms);
      else {
        const context = contextOf(drawn, nothing);
        const asked = checksIn(context, isHeatWanted).flatMap((check) => {
          const place = column.get(check.id);
          return place === undefined || unknown.has(check.id) ? [] : [{ place, margin: marginOf(check) }];
        });
        standing = { job: drawn, context, asked };
      }
      for (const { place, margin } of standing.asked)
        into[at + place] = Math.max(-LARGEST_MARGIN, Math.min(LARGEST_MARGIN, margin()));
    },
  };
}

/** The checks of one document, which stay while its numbers change. */
interface Standing {
  readonly job: SolenoidJob;
  readonly context: Writable<Context>;
  readonly asked: readonly { readonly place: number; readonly margin: () => number }[];
}

const marginOf = (check: Check): (() => number) => check.margin ?? (() => check.judge().margin);

function contextOf(job: SolenoidJob, needs: Context['needs']): Writable<Context> {
  const rig = rigOf(job);
  const electric = electricCorners(rig);
  return { rig, electric, scenes: scenesOf(rig, electric), needs, say: silent };
}

function renew(context: Writable<Context>, job: SolenoidJob, reader: DefaultReader, rooms: SceneRoom[]): void {
  context.rig = rigReadBy(job, reader);
  context.electric = electricCorners(context.rig);
  context.scenes = scenesOf(context.rig, context.electric, rooms);
}

function checksIn(context: Context, withHeat: boolean): readonly Check[] {
  const heat = withHeat ? heatChecks(context, coilHeatOf(context)).filter(({ id }) => id === STEADY) : [];
  return [...checksOf(context), ...heat];
}
