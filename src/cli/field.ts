/** `stopwright field`: force and flux linkage of a solenoid from its own dimensions, gap by gap; or its map for a job. */
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { setImmediate } from 'node:timers/promises';
import { solenoidBench, type SolenoidBench } from '../assessment/solenoid/bench.ts';
import type { Problem } from '../job/opening.ts';
import { solenoidJsonSchema } from '../job/solenoid/json-schema.ts';
import { readSolenoid, type SolenoidReading } from '../job/solenoid/read.ts';
import { DomainError } from '../physics/domain-error.ts';
import { solenoidField } from '../physics/solenoid/field/solenoid-field.ts';
import { inReadersUnits } from '../sheets/solenoid/section.ts';
import { display, metricUnits, readQuantity } from '../units/quantity.ts';
import { UNREADABLE, WRONG_USAGE } from './exit-codes.ts';
import { fieldExitCode, fieldJson, fieldTable, NOT_CONVERGED, type FieldRow } from './field-rows.ts';
import { plain } from './print.ts';

export interface FieldOptions {
  readonly gaps?: readonly string[];
  readonly ampereTurns?: readonly string[];
  readonly json?: boolean;
  readonly map?: boolean;
  readonly schema?: boolean;
}

/** 128 + SIGINT, as shells have it. */
export const STOPPED = 130;

/** Gaps beyond this many lengths of the can are taken for a slip. */
const FARTHEST = 10;

const length = (metres: number): string => display(metres, 'length', metricUnits);

export async function fieldCommand(path: string | undefined, options: FieldOptions): Promise<number> {
  if (options.schema === true) {
    await write(`${JSON.stringify(solenoidJsonSchema(), null, 2)}\n`);
    return 0;
  }
  if (path === undefined) return refuse(WRONG_USAGE, 'Name a solenoid file, or - for standard input.');
  const file = solenoidFrom(path);
  if (!file.ok) return refuse(UNREADABLE, problemWords(path, file.problems));
  const bench = solenoidBench(file.solenoid);
  const { dimensions, problems, missing } = bench;
  if (problems.length > 0) return refuse(UNREADABLE, problemWords(path, problems));
  if (dimensions === null) {
    const wanted = missing.filter(({ words }) => words.includes('field')).map((one) => `  ${one.path}`);
    return refuse(UNREADABLE, ['There is no field to solve before these are measured:', ...wanted].join('\n'));
  }
  if (options.map === true) return mapCommand(bench, path, options);
  const gaps = numbers(options.gaps, 'gap', 'mm') ?? usualGaps(bench);
  const levels = numbers(options.ampereTurns, 'ampere-turns', 'A') ?? usualLevels(bench);
  if (typeof gaps === 'string') return refuse(WRONG_USAGE, gaps);
  if (typeof levels === 'string') return refuse(WRONG_USAGE, levels);
  const far = gaps.find((gap) => gap > FARTHEST * dimensions.can.length);
  if (far !== undefined)
    return refuse(
      WRONG_USAGE,
      `gap: ${length(far)} is out of all proportion to a can of ${length(dimensions.can.length)}.`,
    );

  const interrupt = untilInterrupted();
  const rows: FieldRow[] = [];
  try {
    for (const [k, gap] of gaps.entries()) {
      progress(`gap ${k + 1} of ${gaps.length}`);
      await setImmediate(); // lets Ctrl-C in
      if (interrupt.isThere()) break;
      const began = performance.now();
      const solved = solenoidField(dimensions, bench.steel, gap, levels);
      const seconds = (performance.now() - began) / 1000 / levels.length;
      rows.push(...solved.rows.map((row) => ({ ...row, nodes: solved.mesh.nodes, seconds })));
    }
    await setImmediate();
  } catch (error) {
    progress('');
    if (!(error instanceof DomainError)) throw error;
    return refuse(WRONG_USAGE, `${inReadersUnits(error.message, metricUnits)}.`);
  } finally {
    interrupt.end();
  }
  progress('');
  if (interrupt.isThere())
    return refuse(STOPPED, `Stopped after ${rows.length / levels.length} of ${gaps.length} gaps; nothing was written.`);
  await write(
    options.json === true
      ? `${JSON.stringify(fieldJson(bench, rows), null, 2)}
`
      : fieldTable(bench, rows),
  );
  return fieldExitCode(rows);
}

async function mapCommand(bench: SolenoidBench, path: string, { gaps, ampereTurns }: FieldOptions): Promise<number> {
  if (gaps !== undefined || ampereTurns !== undefined)
    return refuse(WRONG_USAGE, '--map takes gaps over the whole stroke and levels of its own: leave out the others.');
  const { mapForJob } = await import('./field-map.ts');
  const interrupt = untilInterrupted();
  try {
    const found = await mapForJob(bench, progress, interrupt.isThere);
    progress('');
    if (found === null) return refuse(STOPPED, 'Stopped; nothing was written.');
    if (!found.ok) return refuse(UNREADABLE, `${plain(path)} gives no map: ${plain(found.why)}.`);
    await write(`${JSON.stringify(found.map)}\n`);
    for (const note of found.notes) process.stderr.write(`${plain(note)}.\n`);
    return 0;
  } catch (error) {
    progress('');
    if (!(error instanceof DomainError)) throw error;
    return refuse(NOT_CONVERGED, `${inReadersUnits(error.message, metricUnits)}.`);
  } finally {
    interrupt.end();
  }
}

/** Listens for Ctrl-C. */
function untilInterrupted(): { readonly isThere: () => boolean; readonly end: () => void } {
  let isThere = false;
  const interrupted = (): void => {
    isThere = true;
  };
  process.on('SIGINT', interrupted);
  return { isThere: () => isThere, end: () => process.off('SIGINT', interrupted) };
}

function solenoidFrom(path: string): SolenoidReading {
  let text: string;
  try {
    text = readFileSync(path === '-' ? 0 : path, 'utf8');
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    const known: Readonly<Record<string, string>> = {
      ENOENT: 'there is no such file',
      EISDIR: 'that is a folder',
      EACCES: 'this user may not read it',
    };
    return { ok: false, problems: [{ path: '', read: plain(path), problem: known[code] ?? code }] };
  }
  return readSolenoid(text);
}

function problemWords(path: string, problems: readonly Problem[]): string {
  const shown = problems
    .slice(0, 50)
    .map((one) => `  ${plain(one.path || 'document')}: read ${plain(one.read)}\n      ${plain(one.problem)}`);
  if (problems.length > 50) shown.push(`  and ${problems.length - 50} more`);
  return [
    `${plain(path)} cannot be used: ${problems.length === 1 ? 'one problem' : `${problems.length} problems`}.`,
    ...shown,
  ].join('\n');
}

/** Numbers that were typed, SI; a sentence if one cannot be read; null if none were typed. */
function numbers(typed: readonly string[] | undefined, what: string, unit: string): number[] | string | null {
  if (typed === undefined) return null;
  const values: number[] = [];
  for (const text of typed) {
    const isBare = /^[\d.,\s+-]+(e[+-]?\d+)?$/i.test(text);
    const read = readQuantity(isBare ? `${text} ${unit}` : text, unit === 'mm' ? 'length' : 'current');
    if (!read.ok) return `${what}: ${read.problem}. Several stand one after the other: 0.5 1 2`;
    if (read.quantity.value < 0) return `${what}: ${text} is below zero`;
    values.push(read.quantity.value);
  }
  return values;
}

/** From home to the outer stop; from 0.05 mm where nothing keeps the faces apart. */
function usualGaps({ dimensions, stroke }: SolenoidBench): number[] | string {
  if (stroke === null) return 'The stroke was not measured: say which gaps, for instance --gaps 0.5 2 8';
  const first = dimensions!.residualShim! > 0 ? 0 : 0.05e-3;
  return [first, ...[0.05, 0.15, 0.35, 0.65, 1].map((share) => share * stroke).filter((gap) => gap > first)];
}

function usualLevels({ mostAmpereTurns }: SolenoidBench): number[] {
  return [0.1, 0.3, 0.6, 1].map((share) => Number((share * mostAmpereTurns!).toPrecision(2)));
}

function progress(words: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${words}`);
}

function refuse(code: number, words: string): number {
  process.stderr.write(`${words}\n`);
  return code;
}

function write(text: string): Promise<void> {
  return new Promise((resolve, reject) => process.stdout.write(text, (error) => (error ? reject(error) : resolve())));
}
