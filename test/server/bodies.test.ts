/** Bodies that are too slow, too large or nonsense: cut off or refused in words, and the server goes on. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { LARGEST_BODY_BYTES, TOKEN_HEADER } from '../../src/job/exchange.ts';
import { readJob } from '../../src/job/read.ts';
import { runningServer, sendRaw, statusOf } from './running.ts';

test('a request that trickles in is cut off, in its headers and in its body', async (t) => {
  const { port, token } = await runningServer(t, { patience: { headers: 300, request: 600 } });
  const forms = [
    `GET /api/health HTTP/1.1\r\nHost: localhost:${port}\r\n`,
    `POST /api/jobs HTTP/1.1\r\nHost: localhost:${port}\r\n${TOKEN_HEADER}: ${token}\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{`,
  ];
  for (const form of forms) {
    const started = performance.now();
    const answer = await sendRaw(port, form, 10_000);
    assert.ok(performance.now() - started < 5_000, 'the connection was held open');
    assert.ok([0, 408].includes(statusOf(answer)), answer);
  }
});

test('a body above the limit is refused in words, announced or not, and the server goes on', async (t) => {
  const { ask, port, token, list } = await runningServer(t);
  const tooMuch = new Uint8Array(LARGEST_BODY_BYTES + 1).fill(0x20);
  for (const path of ['/api/jobs', '/api/jobs/import']) {
    const answer = await ask('POST', path, tooMuch);
    assert.equal(answer.status, 413);
    assert.match(answer.body.what, /12 MB/);
  }
  const head = `POST /api/jobs/import HTTP/1.1\r\nHost: localhost:${port}\r\n${TOKEN_HEADER}: ${token}\r\nContent-Type: application/json\r\n`;
  const announced = await sendRaw(port, `${head}Content-Length: 999999999999\r\n\r\n{`, 2_000);
  assert.equal(statusOf(announced), 413, 'refused before it was sent');
  const size = 1 << 20;
  const chunk = Buffer.concat([Buffer.from(`${size.toString(16)}\r\n`), Buffer.alloc(size, 0x20), Buffer.from('\r\n')]);
  const chunks = Array.from({ length: 13 }, () => chunk);
  const chunked = await sendRaw(
    port,
    Buffer.concat([Buffer.from(`${head}Transfer-Encoding: chunked\r\n\r\n`), ...chunks]),
    2_000,
  );
  assert.equal(statusOf(chunked), 413);
  const justRight = `{"x":"${'y'.repeat(LARGEST_BODY_BYTES - 8)}"}`;
  assert.equal((await ask('POST', '/api/jobs/import', justRight)).status, 201);
  assert.equal((await list()).length, 1);
});

test('10 MB of nonsense is refused clearly and quickly by the real reader', async (t) => {
  const { ask, list, reported } = await runningServer(t, { readJob });
  const size = 10_000_000;
  const kinds: Record<string, string> = {
    letters: 'stop lever '.repeat(size / 11),
    brackets: '['.repeat(size),
    nested: `{"a":`.repeat(size / 5),
    closed: '['.repeat(size / 2) + ']'.repeat(size / 2),
    digits: '9'.repeat(size),
    fields: `{${Array.from({ length: 600_000 }, (_, n) => `"a${n}":${n}`).join()}}`,
    zeros: '\0'.repeat(size),
    markup: '<script>alert(1)</script>'.repeat(size / 25),
  };
  for (const [kind, text] of Object.entries(kinds)) {
    const started = performance.now();
    const imported = await ask('POST', '/api/jobs/import', text);
    assert.equal(imported.status, 422, kind);
    assert.ok((imported.body.problems?.length ?? 0) > 0, kind);
    assert.ok(imported.text.length < 100_000, `${kind}: the answer has ${imported.text.length} characters`);
    const created = await ask('POST', '/api/jobs', text);
    assert.equal(created.status, 400, kind);
    assert.ok(created.text.length < 100_000, kind);
    assert.ok(performance.now() - started < 2_000, `${kind} took ${performance.now() - started} ms`);
  }
  const notText = new Uint8Array(size).map((_, n) => (n * 7919) % 251);
  assert.equal((await ask('POST', '/api/jobs/import', notText)).status, 422);
  assert.equal((await ask('POST', '/api/jobs', notText)).status, 400);
  assert.deepEqual(await list(), []);
  assert.deepEqual(reported, []);
});
