// Child processes that get every signal we get, so that none outlives us.
import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import { root } from './sources.mjs';

const signals = /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP']);

/**
 * Runs a program in the repository's folder and resolves to its exit code. With `quiet`, what it writes is kept and
 * returned instead of shown. A signal that reaches us meanwhile is passed on, and once the child is gone we go too; a
 * child that does not go within its `patience`, milliseconds, is ended.
 *
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ quiet?: boolean, env?: Record<string, string>, patience?: number }} [options]
 * @returns {Promise<{ code: number, text: string }>}
 */
export function run(program, args, { quiet = false, env = {}, patience = 3000 } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, {
      cwd: root,
      env: { ...process.env, ...env },
      stdio: quiet ? ['ignore', 'pipe', 'pipe'] : 'inherit',
      shell: process.platform === 'win32' && program === 'npm',
    });
    let text = '';
    for (const stream of [child.stdout, child.stderr]) stream?.setEncoding('utf8').on('data', (some) => (text += some));

    /** @type {NodeJS.Signals | null} */
    let told = null;
    const passOn = (/** @type {NodeJS.Signals} */ signal) => {
      told = signal;
      child.kill(signal);
      setTimeout(() => child.kill('SIGKILL'), patience).unref();
    };
    for (const signal of signals) process.on(signal, passOn);
    const finish = () => {
      for (const signal of signals) process.off(signal, passOn);
      if (told !== null) process.exit(128 + constants.signals[told]);
    };
    child.on('error', (error) => {
      finish();
      reject(error);
    });
    child.on('close', (code, signal) => {
      finish();
      resolve({ code: code ?? 128 + constants.signals[/** @type {NodeJS.Signals} */ (signal)], text });
    });
  });
}
