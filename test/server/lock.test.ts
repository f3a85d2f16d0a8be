/** One program at a time on a store: the lock is the operating system's and ends with the process that holds it. */
import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { test } from 'node:test';
import type { Refused } from '../../src/server/refusal.ts';
import { openStore } from '../../src/server/store/open.ts';
import { runningServer, temporaryFolder } from './running.ts';

test('a store that another program holds is refused at the start in words', async (t) => {
  const folder = temporaryFolder(t);
  await (await openStore(folder)).close();
  const code = `const d = new (require('libsql'))(process.argv[1]); d.exec('BEGIN IMMEDIATE'); console.log('held'); setInterval(() => d, 1e3)`;
  const holder = spawn(process.execPath, ['-e', code, join(folder, 'jobs.db')], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  t.after(() => holder.kill('SIGKILL'));
  await once(holder.stdout, 'data');
  await assert.rejects(openStore(folder), (error: Refused) => error.refusal.reason === 'store-locked');
  holder.kill('SIGKILL');
  await once(holder, 'exit');
  await (await openStore(folder)).close();
});

test('while the server runs no other program can lock its store or write to it', async (t) => {
  const client = await runningServer(t);
  const { job, head } = await client.create({ from: { text: '{}' } });
  const code = `const d = new (require('libsql'))(process.argv[1]); try { d.exec("UPDATE job SET name = 'x'"); console.log('wrote') } catch (e) { console.log(e.code) }`;
  const said = execFileSync(process.execPath, ['-e', code, join(client.folder, 'jobs.db')], { encoding: 'utf8' });
  assert.equal(said.trim(), 'SQLITE_BUSY');
  assert.equal((await client.save(job.id, { parents: [head.id], text: '{"n":1}' })).kept, true);
});
