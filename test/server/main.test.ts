/** The program as people start it: options, the printed address, a second start, a kill, a signal. */
import assert from 'node:assert/strict';
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { test, type TestContext } from 'node:test';
import { fileURLToPath } from 'node:url';
import type { JobsAnswer } from '../../src/job/exchange.ts';
import { readDemos } from '../../src/server/demos.ts';
import { clientOf, temporaryFolder } from './running.ts';

const program = fileURLToPath(new URL('../../src/server/main.ts', import.meta.url));

interface Started {
  readonly child: ChildProcess;
  readonly address: string;
  readonly port: number;
  readonly output: () => string;
  readonly errors: () => string;
}

function run(t: TestContext, words: string[]): { child: ChildProcess; output: () => string; errors: () => string } {
  const child = spawn(process.execPath, ['--import', 'tsx', program, '--no-open', ...words], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  t.after(() => child.kill('SIGKILL'));
  let [output, errors] = ['', ''];
  child.stdout.on('data', (part) => (output += String(part)));
  child.stderr.on('data', (part) => (errors += String(part)));
  return { child, output: () => output, errors: () => errors };
}

async function started(t: TestContext, words: string[]): Promise<Started> {
  const running = run(t, words);
  const closed = once(running.child, 'close');
  while (!running.output().includes('\n')) {
    const [first] = await Promise.race([once(running.child.stdout!, 'data'), closed]);
    assert.equal(typeof first, 'object', `it ended: ${running.errors()}`);
  }
  const address = /^Stopwright is at (http:\/\/127\.0\.0\.1:(\d+)\/)\n$/.exec(running.output());
  assert.ok(address?.[1] && address[2], running.output());
  return { ...running, address: address[1], port: Number(address[2]) };
}

async function ended(t: TestContext, words: string[]): Promise<{ code: number; output: string; errors: string }> {
  const { child, output, errors } = run(t, words);
  const [code] = (await once(child, 'close')) as [number];
  return { code, output: output(), errors: errors() };
}

test('it prints one line with its address and has the demo jobs, in a folder for this user only', async (t) => {
  const folder = join(temporaryFolder(t), 'jobs');
  const { address, child } = await started(t, ['--port', '0', '--data', folder]);
  const { jobs } = (await (await fetch(`${address}api/jobs`)).json()) as JobsAnswer;
  assert.deepEqual(
    jobs.map(({ demo }) => demo),
    readDemos().map(({ name }) => name),
  );
  assert.equal(jobs[0]?.demo, 'railcar');
  assert.equal(statSync(folder).mode & 0o077, 0);
  assert.equal(statSync(join(folder, 'jobs.db')).mode & 0o077, 0);
  child.kill('SIGTERM');
  assert.deepEqual(await once(child, 'exit'), [0, null], 'a signal ends it tidily');
});

test('a second start on the same folder is refused and told where the first one is; after kill -9 it starts', async (t) => {
  const folder = temporaryFolder(t);
  const first = await started(t, ['--port', '0', '--data', folder]);
  const client = await clientOf(first.port);
  const { job, head } = await client.create({ from: { demo: 'railcar' }, name: 'Mine' });
  const second = await ended(t, ['--port', '0', '--data', folder]);
  assert.equal(second.code, 69);
  assert.equal(second.output, '');
  assert.match(second.errors, /already open in another Stopwright/);
  assert.ok(second.errors.includes(first.address), second.errors);
  assert.equal((await client.open(job.id)).head.text, head.text, 'the first one goes on');
  first.child.kill('SIGKILL');
  await once(first.child, 'exit');
  const third = await started(t, ['--port', '0', '--data', folder]);
  assert.equal((await (await clientOf(third.port)).open(job.id)).head.text, head.text);
});

test('a page that was open before a restart is told so, gets the new token, and its save is kept once', async (t) => {
  const folder = temporaryFolder(t);
  const first = await started(t, ['--port', '0', '--data', folder]);
  const before = await clientOf(first.port);
  const { job, head } = await before.create({ from: { demo: 'railcar' } });
  first.child.kill('SIGKILL');
  await once(first.child, 'exit');
  const second = await started(t, ['--port', '0', '--data', folder]);
  const now = await clientOf(second.port);
  const save = { id: 'typed-before-the-restart', parents: [head.id], text: head.text };
  const refused = await now.ask('POST', `/api/jobs/${job.id}/revisions`, save, { 'x-stopwright-token': before.token });
  assert.deepEqual([refused.status, refused.body.reason], [403, 'token']);
  assert.match(refused.body.what, /started again.*NOT kept/);
  assert.equal((await now.save(job.id, save)).revision.id, save.id);
});

test('a taken port is said, and the next free one used', async (t) => {
  const other = createServer();
  other.listen(0, '127.0.0.1');
  await once(other, 'listening');
  t.after(() => other.close());
  const { port: taken } = other.address() as AddressInfo;
  const { port, errors } = await started(t, ['--port', String(taken), '--data', temporaryFolder(t)]);
  assert.ok(port > taken && port <= taken + 20);
  assert.match(errors(), new RegExp(`Port ${taken} is taken; using ${port}\\.`));
});

test('wrong options are refused with what would be right; --help helps', async (t) => {
  for (const words of [
    ['--port', 'x'],
    ['--port', '65536'],
    ['--port', '-1'],
    ['--prot', '1'],
    ['job.json'],
    ['--port'],
  ]) {
    const { code, output, errors } = await ended(t, words);
    assert.equal(code, 64, words.join(' '));
    assert.equal(output, '');
    assert.doesNotMatch(errors, /\bat .*:\d+/, errors);
  }
  const { code, output } = await ended(t, ['--help']);
  assert.equal(code, 0);
  for (const option of ['--port', '--data', '--no-open']) assert.ok(output.includes(option));
});
