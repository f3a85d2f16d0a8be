/** The executable as a person or a script starts it, in an empty folder of its own. */
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const executable = fileURLToPath(new URL('../../bin/stopwright.mjs', import.meta.url));

export interface Outcome {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export interface Start {
  readonly input?: string;
  readonly folder?: string;
  readonly env?: Readonly<Record<string, string>>;
}

export function stopwright(args: readonly string[], { input = '', folder, env = {} }: Start = {}): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [executable, ...args], {
      cwd: folder,
      env: { PATH: process.env['PATH'] ?? '', ...env },
    });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
    // A command that does not read its input closes it early.
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}

const WIDTH = 80;

/** At most 80 columns, no control character but the line break, no mark of direction, nothing that a programmer left. */
export function assertReadable(text: string): void {
  for (const line of text.split('\n')) {
    const columns = Array.from(line).length;
    assert.ok(columns <= WIDTH, `${columns} columns: ${line}`);
  }
  assertHarmless(text);
}

/** Nothing that a terminal obeys, and no stack. */
export function assertHarmless(text: string): void {
  assert.doesNotMatch(text, /(?!\n)[\p{Cc}\p{Cf}\u2028\u2029]/u);
  assert.doesNotMatch(text, /NaN|Infinity|undefined|\[object|at .*\.m?[jt]s:\d/);
}
