/** npm start: tells its address, serves, and leaves nothing running whichever way it is ended. */
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const endings = [
  { signal: 'SIGTERM', to: 'npm' },
  { signal: 'SIGINT', to: 'npm' },
  { signal: 'SIGHUP', to: 'npm' },
  { signal: 'SIGKILL', to: 'npm' },
  { signal: 'SIGINT', to: 'the whole group, as Ctrl-C does' },
] as const;

for (const { signal, to } of endings) {
  test(`npm start ends with ${signal} to ${to}`, { skip: process.platform === 'win32' }, async () => {
    const data = mkdtempSync(join(tmpdir(), 'stopwright-start-'));
    // A group of its own, so that it can be told as a whole and swept up after a failure.
    const npm = spawn('npm', ['start', '--', '--port', '0', '--no-open', '--data', data], {
      cwd: root,
      detached: true,
    });
    const group = -npm.pid!;
    try {
      let said = '';
      for (const stream of [npm.stdout, npm.stderr]) stream.setEncoding('utf8').on('data', (text) => (said += text));
      // Comes when the last process that writes here is gone, however deep below npm it runs.
      const silence = once(npm, 'close');
      const address = await within(60_000, () => /http:\/\/127\.0\.0\.1:\d+\/?/.exec(said)?.[0]);
      assert.ok(address, `no address in: ${said}`);
      const response = await fetch(address);
      await response.text();
      assert.equal(response.status, 200);

      process.kill(to === 'npm' ? npm.pid! : group, signal);
      const ended = await Promise.race([silence, wait(4000, undefined, { ref: false })]);
      assert.ok(ended, `still running after ${signal}: ${said}`);
      await assert.rejects(fetch(address), 'the port is free again');
    } finally {
      sweep(group);
      rmSync(data, { recursive: true });
    }
  });
}

function sweep(group: number): void {
  try {
    process.kill(group, 'SIGKILL');
  } catch {
    // nothing is left in it, as it should be
  }
}

/** Asks until there is an answer that counts, or the time is over. */
async function within<T>(milliseconds: number, ask: () => T): Promise<T> {
  const end = performance.now() + milliseconds;
  while (!ask() && performance.now() < end) await wait(20);
  return ask();
}
