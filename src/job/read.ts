/**
 * From text to a job document: every problem is collected with its path, none is repaired, nothing is guessed.
 */
import { airContradictions } from './air-contradictions.ts';
import { migrate } from './migrations/migrate.ts';
import { jsonOf, problemsOf, versionOf, type DocumentKind, type Problem } from './opening.ts';
import { quantityIn } from './quantity-text.ts';
import { springContradictions } from './spring-contradictions.ts';
import { jobSchema, FORMAT, VERSION, type Job, type Solenoid } from './schema.ts';

export type JobReading =
  | { readonly ok: true; readonly job: Job; /** The version that the document was written in. */ readonly from: number }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const kind: DocumentKind = { called: 'job', format: FORMAT, version: VERSION };

/** Reads the text of a job file. */
export function readJob(text: string): JobReading {
  const json = jsonOf(text, kind);
  return json.ok ? readDocument(json.value) : json;
}

/** Reads a value that came from JSON. */
export function readDocument(value: unknown): JobReading {
  const known = versionOf(value, kind);
  if (!known.ok) return known;
  const { version } = known;
  const parsed = jobSchema.safeParse(migrate(value, version));
  if (!parsed.success) {
    return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, value)) };
  }
  const job: Job = parsed.data;
  const problems = contradictions(job);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, job, from: version };
}

/** The text that a document is kept and exported as. */
export function writeJob(job: Job): string {
  return `${JSON.stringify(job, null, 2)}\n`;
}

/** Readings that cannot all be true together. */
function contradictions(job: Job): Problem[] {
  const problems: Problem[] = [];
  const seen = new Map<string, number>();
  job.survey.effort.readings.forEach((reading, i) => {
    const path = `survey.effort.readings[${i}]`;
    const angle = quantityIn(reading.angle, 'angle');
    const pull = quantityIn(reading.pull, 'force');
    const back = quantityIn(reading.easingBack, 'force');
    if (pull !== null && back !== null && back.value > pull.value) {
      problems.push({
        path: `${path}.easingBack`,
        read: reading.easingBack,
        problem: `easing back needs no more than pulling on (${reading.pull}): were the two exchanged?`,
      });
    }
    if (angle === null) return;
    const key = `${reading.engine} ${angle.value.toFixed(6)}`;
    const before = seen.get(key);
    if (before !== undefined) {
      problems.push({
        path: `${path}.angle`,
        read: reading.angle,
        problem: `reading ${before + 1} already stands at this angle with the engine ${reading.engine}; keep one of them`,
      });
    }
    seen.set(key, i);
  });
  if (job.layout.hubPosition >= job.survey.lever.hubPositions) {
    problems.push({
      path: 'layout.hubPosition',
      read: String(job.layout.hubPosition),
      problem: `the hub has ${job.survey.lever.hubPositions} positions, counted from 0`,
    });
  }
  if (job.means.kind === 'solenoid') {
    job.means.force.forEach((table, t) => {
      const gaps = new Set<string>();
      table.rows.forEach((row, r) => {
        const gap = quantityIn(row.gap, 'length')?.value.toFixed(7);
        if (gap === undefined) return;
        if (gaps.has(gap))
          problems.push({
            path: `means.force[${t}].rows[${r}].gap`,
            read: row.gap,
            problem: 'another row of this table already stands at this gap; keep one of them',
          });
        gaps.add(gap);
      });
    });
  }
  if (job.means.kind === 'solenoid') mapLists(problems, job.means);
  leverAngles(problems, job.survey.lever);
  problems.push(...springContradictions(job), ...airContradictions(job));
  ordered(
    problems,
    'layout.connection.slotTo',
    job.layout.connection,
    'slotFrom',
    'slotTo',
    'the outer end of the slot must lie further out than its inner end',
  );
  ordered(
    problems,
    'layout.connection.holeDiameter',
    job.layout.connection,
    'pinDiameter',
    'holeDiameter',
    'the hole must be larger than its pin',
  );
  for (const state of ['resting', 'low', 'cranking'] as const)
    ordered(
      problems,
      'supply.charging',
      job.supply,
      state,
      'charging',
      `the volts while charging cannot lie under those ${state === 'cranking' ? 'while cranking' : `called ${state}`}`,
      'voltage',
    );
  ordered(
    problems,
    'surroundings.hottest',
    job.surroundings,
    'coldest',
    'hottest',
    'the hottest cannot lie under the coldest',
    'temperature',
  );
  return problems;
}

/** Lists of a computed map belong together: gaps and levels rise, every list is as long as its levels. */
function mapLists(problems: Problem[], { map, coil }: Solenoid): void {
  if (map === undefined) return;
  const bad = (path: string, read: string, problem: string) =>
    problems.push({ path: `means.map.${path}`, read, problem });
  const windings = coil.stages === 'pull-in and hold windings' ? 2 : 1;
  if (map.turns.length !== windings)
    bad(
      'turns',
      String(map.turns.length),
      `the co-energy map knows the turns of ${map.turns.length}, and this coil has ${windings === 1 ? 'one winding' : 'two windings'}: take the map away first`,
    );
  const rises = (values: readonly number[]) => values.every((value, i) => i === 0 || value > values[i - 1]);
  if (!rises(map.lines.map(({ gap_m }) => gap_m)))
    bad('lines', 'gaps out of order', 'gaps must rise from line to line');
  const [first] = map.lines;
  map.lines.forEach(({ ampereTurns, coEnergy_J, fluxLinkage_Wb, force_N }, i) => {
    const count = ampereTurns.length;
    const same = [coEnergy_J, fluxLinkage_Wb, force_N].every((list) => list.length === count);
    const isPositive = [ampereTurns, coEnergy_J, fluxLinkage_Wb, force_N].every((list) => list.every((one) => one > 0));
    const isWhole =
      rises(ampereTurns)
      && ampereTurns[0] === first.ampereTurns[0]
      && ampereTurns[count - 1] === first.ampereTurns[first.ampereTurns.length - 1];
    if (!same || !isPositive || !isWhole)
      bad(
        `lines[${i}]`,
        `${count} levels`,
        'the lists of a line must be of one length and above zero, its levels rising, the first and the last the same in every line',
      );
  });
}

/** Run stop, run, no-fuel, hard stop: in this order, one way or the other. */
function leverAngles(problems: Problem[], lever: Job['survey']['lever']): void {
  const run = quantityIn(lever.runAngle, 'angle');
  const noFuel = quantityIn(lever.noFuelAngle, 'angle');
  if (run === null || noFuel === null) return;
  const swing = noFuel.value - run.value;
  if (Math.abs(swing) < 1e-6 || Math.abs(swing) > Math.PI) {
    problems.push({
      path: 'survey.lever.noFuelAngle',
      read: lever.noFuelAngle,
      problem: `no-fuel must lie some way from run (${lever.runAngle}), at most half a turn`,
    });
    return;
  }
  const hardStop = quantityIn(lever.hardStopAngle, 'angle');
  const runStop = quantityIn(lever.runStopAngle, 'angle');
  const way = Math.sign(swing);
  if (hardStop !== null && way * (hardStop.value - run.value) <= 0) {
    problems.push({
      path: 'survey.lever.hardStopAngle',
      read: lever.hardStopAngle,
      problem: `the hard stop lies on the stop side: beyond run (${lever.runAngle}) on the way to no-fuel (${lever.noFuelAngle})`,
    });
  }
  if (runStop !== null && way * (noFuel.value - runStop.value) <= 0) {
    problems.push({
      path: 'survey.lever.runStopAngle',
      read: lever.runStopAngle,
      problem: `the stop on the run side lies before no-fuel (${lever.noFuelAngle}), at run (${lever.runAngle}) or beyond it`,
    });
  }
}

function ordered(
  problems: Problem[],
  path: string,
  part: object,
  lower: string,
  upper: string,
  problem: string,
  dimension: 'length' | 'voltage' | 'temperature' = 'length',
): void {
  const fields = part as Readonly<Record<string, unknown>>;
  const low = fields[lower];
  const high = fields[upper];
  if (typeof low !== 'string' || typeof high !== 'string') return;
  const from = quantityIn(low, dimension);
  const to = quantityIn(high, dimension);
  if (from === null || to === null) return;
  const wrong = dimension === 'length' ? to.value <= from.value : to.value < from.value;
  if (wrong) problems.push({ path, read: high, problem: `${problem} (${low})` });
}
