/** The rows of `stopwright field`, as a table of 80 columns and as JSON. */
import type { SolenoidBench } from '../assessment/solenoid/bench.ts';
import type { SolenoidFieldRow } from '../physics/solenoid/field/solenoid-field.ts';
import { plain, wrapped } from './print.ts';

export interface FieldRow extends SolenoidFieldRow {
  readonly nodes: number;
  /** Meshing and solving, with both checks; what the gap took, shared among its rows. */
  readonly seconds: number;
}

/** A solve did not converge: its row has no numbers. */
export const NOT_CONVERGED = 3;

const WIDTH = 80;

const isSound = ({ convergence, forceByCoEnergy }: FieldRow): boolean =>
  convergence.converged && forceByCoEnergy !== undefined;

export function fieldExitCode(rows: readonly FieldRow[]): number {
  return rows.every(isSound) ? 0 : NOT_CONVERGED;
}

/** The rows for a script; numbers that were not found are null. */
export function fieldJson(bench: SolenoidBench, rows: readonly FieldRow[]): object {
  return {
    format: 'stopwright field',
    version: 1,
    name: bench.name,
    steel: { name: bench.steel.name, source: bench.steel.source },
    turns: bench.winding?.turns ?? null,
    turnsFrom: bench.winding?.from ?? null,
    rows: rows.map((row) => {
      const { converged, iterations, residual } = row.convergence;
      return {
        gap_mm: row.gap * 1e3,
        ampereTurns: row.ampereTurns,
        converged,
        force_N: converged ? row.force : null,
        forceByCoEnergy_N: converged ? (row.forceByCoEnergy ?? null) : null,
        fluxLinkagePerTurn_Wb: converged ? row.fluxLinkage : null,
        estimatedError: converged ? row.estimatedError : null,
        iterations,
        residual,
        nodes: row.nodes,
        seconds: row.seconds,
      };
    }),
    findings: bench.findings,
    assumed: bench.assumed,
    leavesOut: LEAVES_OUT,
  };
}

const LEAVES_OUT =
  'Leaves out hysteresis, eddy currents, joints between the parts and a plunger out of centre; a pull on a balance decides. '
  + 'Keep hands clear of a plunger under current.';

/** The rows for a person, 80 columns wide. */
export function fieldTable(bench: SolenoidBench, rows: readonly FieldRow[]): string {
  const { winding, steel } = bench;
  const turns = winding === null ? 'turns not known' : `${Math.round(winding.turns)} turns (${winding.from})`;
  const column = (text: string, width: number): string => text.padStart(width);
  const line = (cells: readonly string[]): string =>
    cells.map((cell, i) => column(cell, [8, 9, 11, 11, 11, 8, 7, 7, 8][i])).join('');
  const lines = [
    plain(bench.name).slice(0, WIDTH),
    wrapped(`${plain(steel.name)}; ${turns}`, WIDTH, '', '  '),
    '',
    line(['gap', 'ampere-', 'force,', 'force, co-', 'flux per', 'error', 'error', 'nodes', 'time']),
    line(['', 'turns', 'virt. work', 'energy', 'turn', 'force', 'flux', '', '']),
    line(['mm', '', 'N', 'N', 'µWb', '%', '%', '', 's']),
  ];
  for (const row of rows) {
    const { gap, ampereTurns, force, forceByCoEnergy, fluxLinkage, estimatedError, nodes, seconds } = row;
    const end = [String(nodes), seconds.toFixed(2)];
    const start = [(gap * 1e3).toFixed(2), digits(ampereTurns)];
    lines.push(
      row.convergence.converged
        ? line([
            ...start,
            digits(force),
            forceByCoEnergy === undefined ? 'not found' : digits(forceByCoEnergy),
            digits(fluxLinkage * 1e6),
            (100 * estimatedError.force).toFixed(2),
            (100 * estimatedError.fluxLinkage).toFixed(2),
            ...end,
          ])
        : line([...start, 'not found', '', '', '', '', ...end]),
    );
  }
  if (!rows.every(isSound))
    lines.push('', wrapped('"not found": the solve did not converge; do not use that row.', WIDTH, '', ''));
  const notes = [
    ...bench.findings.map((one) => `${one.path}: ${one.words}.`),
    ...bench.assumed.map((one) => `Taken, not read: ${one.path} = ${one.text} (${one.source}).`),
    LEAVES_OUT,
  ];
  lines.push('', ...notes.map((note) => wrapped(plain(note), WIDTH, '', '  ')), '');
  return lines.join('\n');
}

/** Five digits that count, never in powers of ten. */
function digits(value: number): string {
  if (value === 0) return '0';
  const decimals = Math.max(0, Math.min(5, 4 - Math.floor(Math.log10(Math.max(Math.abs(value), 1e-9)))));
  return value.toFixed(decimals);
}
