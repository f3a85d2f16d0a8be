/** `stopwright field`: its numbers against the reference, its words, its exit codes, and Ctrl-C. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, describe, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { solenoidBench } from '../../src/assessment/solenoid/bench.ts';
import type { CoEnergyMap } from '../../src/assessment/solenoid/map.ts';
import { demoJobs } from '../../src/job/demos.ts';
import { readDocument } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';
import { fieldCommand, STOPPED } from '../../src/cli/field.ts';
import { fieldExitCode, fieldJson, fieldTable, NOT_CONVERGED, type FieldRow } from '../../src/cli/field-rows.ts';
import type { SolenoidDocument } from '../../src/job/solenoid/schema.ts';
import { writeSolenoid } from '../../src/job/solenoid/read.ts';
import { changed, example, exampleText, referenceDocument } from '../job/solenoid/documents.ts';
import { referenceCases } from '../published/solenoid-reference.ts';
import { assertHarmless, assertReadable, stopwright } from './command.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'stopwright-field-'));
after(() => rmSync(folder, { recursive: true }));

interface Answer {
  readonly format: string;
  readonly version: number;
  readonly rows: readonly {
    gap_mm: number;
    ampereTurns: number;
    converged: boolean;
    force_N: number;
    forceByCoEnergy_N: number;
    fluxLinkagePerTurn_Wb: number;
    estimatedError: { force: number; fluxLinkage: number };
    nodes: number;
    seconds: number;
  }[];
}

test('every example of its help runs where the examples are', async () => {
  const { out, code } = await stopwright(['field', '--help']);
  assert.equal(code, 0);
  assertReadable(out);
  const examples = out.split('Examples:\n')[1].trim().split('\n');
  assert.ok(examples.length >= 3);
  await Promise.all(
    examples.map(async (line) => {
      const run = await stopwright(line.trim().split(' ').slice(1), { folder: root });
      assert.equal(run.err, '', line);
      assert.equal(run.code, 0, line);
      if (/--json|--map/.test(line)) assertHarmless(run.out);
      else assertReadable(run.out);
    }),
  );
});

describe('a document of each reference geometry gives the reference within 1 % of force and 0.5 % of flux', () => {
  for (const reference of referenceCases)
    test(reference.name, async () => {
      const { points, gaps, ampereTurns } = reference;
      const levels = [ampereTurns[0], ampereTurns[2], ampereTurns[4]];
      const some = [gaps[1], gaps[4], gaps[7]];
      const gapArguments = some.map((gap) => String(Number((gap * 1e3).toPrecision(9))));
      const { code, out, err } = await stopwright(
        ['field', '-', '--json', '--gaps', ...gapArguments, '--ampere-turns', ...levels.map(String)],
        { input: writeSolenoid(referenceDocument(reference)) },
      );
      assert.equal(code, 0, err);
      const answer = JSON.parse(out) as Answer;
      assert.deepEqual([answer.format, answer.version, answer.rows.length], ['stopwright field', 1, 9]);
      for (const row of answer.rows) {
        const where = `${row.gap_mm} mm, ${row.ampereTurns} ampere-turns`;
        const point = points.find(
          (p) => Math.abs(p.gap * 1e3 - row.gap_mm) < 1e-6 && p.ampereTurns === row.ampereTurns,
        );
        assert.ok(point !== undefined && row.converged, where);
        const allowed = Math.max(0.01, (2 * point.forceErrorPercent) / 100);
        assert.ok(Math.abs(row.force_N / point.force - 1) <= allowed, `${where}: ${row.force_N} for ${point.force}`);
        assert.ok(Math.abs(row.forceByCoEnergy_N / row.force_N - 1) < 1e-3, where);
        assert.ok(Math.abs(row.fluxLinkagePerTurn_Wb / point.fluxLinkage - 1) <= 0.005, where);
        assert.ok(
          row.nodes > 500 && row.seconds > 0 && row.estimatedError.force > 0 && row.estimatedError.force < 0.05,
        );
      }
    });
});

test('a map goes under the means of a job as it is printed, and the job reads', async () => {
  const { code, out, err } = await stopwright(['field', 'examples/solenoid-ferry-spare.json', '--map'], {
    folder: root,
  });
  assert.equal(code, 0, err);
  const map = JSON.parse(out) as CoEnergyMap;
  const { winding, stroke } = solenoidBench(example('ferry-spare'));
  assert.deepEqual([map.lines.length, map.lines[0].gap_m, map.lines.at(-1)?.gap_m], [12, 0, stroke]);
  assert.ok(Math.abs(map.turns[0] / winding!.turns - 1) < 0.1, `${map.turns[0]} turns for ${winding!.turns}`);
  const job = demoJobs.find(({ name }) => name === 'pump-house')?.document as unknown as Job;
  const reading = readDocument({ ...job, means: { ...job.means, map } });
  assert.ok(reading.ok, JSON.stringify(reading));
});

test('a table says the same as the JSON, with what was taken and not read', async () => {
  const args = ['field', 'examples/solenoid-ferry-spare.json', '--gaps', '1/16 in', '2', '--ampere-turns', '400'];
  const [table, json] = await Promise.all([
    stopwright(args, { folder: root }),
    stopwright([...args, '--json'], { folder: root }),
  ]);
  assertReadable(table.out);
  const { rows } = JSON.parse(json.out) as Answer;
  assert.ok(Math.abs(rows[0].gap_mm - 25.4 / 16) < 1e-9);
  assert.ok(table.out.includes(rows[0].force_N.toPrecision(5)) && table.out.includes(rows[1].force_N.toPrecision(5)));
  assert.match(table.out, /950 turns \(counted\)/);
  assert.match(table.out, /Taken, not read: seat.residualShim/);
});

describe('what cannot be used is refused in words', () => {
  const railcar = example('railcar');
  const refusals: readonly (readonly [what: string, args: string[], input: string, code: number, words: RegExp])[] = [
    ['no file named', ['field'], '', 64, /Name a solenoid file/],
    ['no such file', ['field', 'nowhere.json'], '', 65, /there is no such file/],
    ['no JSON', ['field', '-'], 'hello', 65, /not JSON/],
    ['a wall too thick', ['field', '-'], text(changed(railcar, { 'can.wall': '30 mm' })), 65, /can\.wall: read 60 mm/],
    ['an unmeasured wall', ['field', '-'], text(changed(railcar, { 'can.wall': 'not measured' })), 65, /can\.wall/],
    ['a gap below zero', ['field', '-', '--gaps=-1'], text(railcar), 64, /below zero/],
    ['a gap that is none', ['field', '-', '--gaps', '3 N'], text(railcar), 64, /gap: .*3 N/],
    ['a gap of a kilometre', ['field', '-', '--gaps', '1000 m'], text(railcar), 64, /out of all proportion/],
    [
      'faces that meet',
      ['field', '-', '--gaps', '0'],
      text(changed(railcar, { 'seat.residualShim': '0 mm' })),
      64,
      /gap 0 mm/,
    ],
    ['a billion ampere-turns', ['field', '-', '--ampere-turns', '1e9'], text(railcar), 64, /ampere-turns/],
    ['a map with gaps', ['field', '-', '--map', '--gaps', '1'], text(railcar), 64, /--map takes gaps .* of its own/],
    [
      'a map without turns',
      ['field', '-', '--map'],
      text(changed(railcar, { 'coil.turns': 'not measured', 'coil.resistance': 'not measured', pulls: [] })),
      65,
      /no map: the turns are not known/,
    ],
    [
      'a map without the stroke',
      ['field', '-', '--map'],
      text(changed(railcar, { 'plunger.stroke': 'not measured' })),
      65,
      /no map: not measured: plunger[.]stroke/,
    ],
    ['no such option', ['field', '--gasp', '1'], '', 64, /--gaps/],
  ];
  for (const [what, args, input, code, words] of refusals)
    test(what, async () => {
      const run = await stopwright(args, { input, folder });
      assert.equal(run.code, code, run.err);
      assert.equal(run.out, '');
      assert.match(run.err, words);
      assert.doesNotMatch(run.err, /NaN|undefined|SW-|at .*\.m?[jt]s:\d/);
    });
});

function text(document: unknown): string {
  return writeSolenoid(document as SolenoidDocument);
}

const row: FieldRow = {
  gap: 1e-3,
  ampereTurns: 500,
  force: 12.345678,
  forceByCoEnergy: 12.345679,
  fluxLinkage: 1.234e-4,
  coEnergy: 0.03,
  energy: 0.03,
  estimatedError: { force: 0.004, fluxLinkage: 0.002 },
  convergence: { converged: true, iterations: 6, residual: 1e-12, decrement: 1e-14 },
  nodes: 2500,
  seconds: 0.1,
};
const lost: FieldRow = { ...row, force: 7e7, convergence: { ...row.convergence, converged: false, iterations: 60 } };

test('a solve that did not converge gives no numbers and its own exit code', () => {
  const bench = solenoidBench(example('railcar'));
  assert.equal(fieldExitCode([row]), 0);
  assert.equal(fieldExitCode([row, lost]), NOT_CONVERGED);
  assert.equal(fieldExitCode([{ ...row, forceByCoEnergy: undefined }]), NOT_CONVERGED);
  const table = fieldTable(bench, [row, lost]);
  assertReadable(table);
  assert.ok(table.includes('not found') && table.includes('12.346') && !table.includes('7000'));
  const { rows } = fieldJson(bench, [lost]) as { rows: Record<string, unknown>[] };
  assert.deepEqual([rows[0]['force_N'], rows[0]['converged'], rows[0]['iterations']], [null, false, 60]);
});

test('Ctrl-C stops a map too', async () => {
  const path = join(folder, 'stopped.json');
  writeFileSync(path, exampleText('railcar'));
  const running = fieldCommand(path, { map: true });
  setTimeout(() => process.emit('SIGINT'), 300);
  assert.equal(await running, STOPPED);
});

test('Ctrl-C stops between two gaps, and nothing is written', async () => {
  const path = join(folder, 'railcar.json');
  writeFileSync(path, exampleText('railcar'));
  const listeners = process.listenerCount('SIGINT');
  const running = fieldCommand(path, {
    gaps: Array.from({ length: 400 }, (_, k) => `${1 + k / 100}`),
    ampereTurns: ['500'],
  });
  setTimeout(() => process.emit('SIGINT'), 50);
  assert.equal(await running, STOPPED);
  assert.equal(process.listenerCount('SIGINT'), listeners);
});
