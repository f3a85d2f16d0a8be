/**
 * Who may ask. Requirements: OWASP ASVS 5.0, chapters 3 (web frontend security) and 4 (API and web service); RFC 9110 §7.2 and
 * RFC 9112 §3.2 (Host), §15.5.20 (421). The lists of malformed forms are our own.
 */
import assert from 'node:assert/strict';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { test, type TestContext } from 'node:test';
import { TOKEN_HEADER } from '../../src/job/exchange.ts';
import { runningServer, sendRaw, statusOf, temporaryFolder } from './running.ts';

function foreignHosts(port: number): string[] {
  const other = port === 65_535 ? 1 : port + 1;
  return [
    'Host: example.org',
    `Host: example.org:${port}`,
    `Host: 127.0.0.1.example.org:${port}`,
    `Host: localhost.example.org:${port}`,
    `Host: example.org#127.0.0.1:${port}`,
    `Host: example.org@127.0.0.1:${port}`,
    `Host: user@localhost:${port}`,
    `Host: user:word@localhost:${port}`,
    'Host: 127.0.0.1',
    'Host: localhost',
    'Host: [::1]',
    `Host: 127.0.0.1:${other}`,
    `Host: localhost:${other}`,
    'Host: localhost:',
    'Host: localhost:0',
    `Host: localhost:0${port}`,
    `Host: localhost:+${port}`,
    `Host: localhost:${port}:${port}`,
    `Host: localhost :${port}`,
    `Host: localhost: ${port}`,
    `Host: LOCALHOST:${port}`,
    `Host: Localhost:${port}`,
    `Host: localhost.:${port}`,
    `Host: .localhost:${port}`,
    `Host: a.localhost:${port}`,
    `Host: 127.1:${port}`,
    `Host: 127.0.0.2:${port}`,
    `Host: 127.000.000.001:${port}`,
    `Host: 0x7f000001:${port}`,
    `Host: 2130706433:${port}`,
    `Host: 0.0.0.0:${port}`,
    `Host: ::1:${port}`,
    `Host: [::]:${port}`,
    `Host: [0:0:0:0:0:0:0:1]:${port}`,
    `Host: [::ffff:127.0.0.1]:${port}`,
    `Host: [::1%lo]:${port}`,
    `Host: http://localhost:${port}`,
    `Host: localhost:${port}/`,
    `Host: localhost:${port}, example.org`,
    `Host: localhost:${port}\r\nHost: localhost:${port}`,
    `Host: localhost:${port}\r\nHost: example.org`,
    `Host: example.org\r\nHost: localhost:${port}`,
    `Host: example.org\r\nX-Forwarded-Host: localhost:${port}`,
    'Host:',
    'X-No-Host: here',
  ];
}

test('a Host that is not exactly ours is refused with 421 on every route and method', async (t) => {
  const { port, token } = await runningServer(t);
  const routes = ['/', '/index.html', '/api/health', '/api/token', '/api/jobs', '/api/jobs/import', '/nowhere'];
  const methods = ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS'];
  const hosts = foreignHosts(port);
  assert.ok(hosts.length >= 40);
  let sent = 0;
  for (const host of hosts) {
    const answers = await Promise.all(
      routes.flatMap((route) =>
        methods.map(async (method) => {
          const request = `${method} ${route} HTTP/1.1\r\n${host}\r\n${TOKEN_HEADER}: ${token}\r\nContent-Type: application/json\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}`;
          return { method, route, answer: await sendRaw(port, request) };
        }),
      ),
    );
    for (const { method, route, answer } of answers) {
      assert.equal(statusOf(answer), 421, `${method} ${route} with ${JSON.stringify(host)}:\n${answer}`);
      assert.ok(!answer.includes(token), 'the token went to a stranger');
      sent += 1;
    }
  }
  assert.equal(sent, hosts.length * routes.length * methods.length);
});

test('a request target that names a host of its own is refused, and so are the old and the odd forms', async (t) => {
  const { port } = await runningServer(t);
  const host = `Host: localhost:${port}`;
  const forms: [string, number[]][] = [
    [`GET http://example.org/api/health HTTP/1.1\r\n${host}`, [421]],
    [`GET http://localhost:${port}/api/health HTTP/1.1\r\n${host}`, [421]],
    [`OPTIONS * HTTP/1.1\r\n${host}`, [421]],
    ['GET /api/health HTTP/1.0', [421]],
    [`GET /api/health HTTP/1.1\r\nHost: example.org\r\nExpect: something`, [421]],
    [`GET /api/health HTTP/1.1\r\nHost: example.org\r\nExpect: 100-continue`, [421]],
    [`GET /api/health HTTP/1.1\r\nHost: example.org\r\nConnection: upgrade\r\nUpgrade: websocket`, [421]],
    // These never become a request: the parser answers, or the connection just ends.
    [`GET /api/health HTTP/1.1\r\nHost : localhost:${port}`, [400]],
    [`GET /api/health HTTP/1.1\r\nHost: local\u0000host:${port}`, [400]],
    [`GET /api/health HTTP/1.1\r\n ${host}`, [400, 421]],
    [`CONNECT localhost:${port} HTTP/1.1\r\n${host}`, [0]],
  ];
  for (const [form, allowed] of forms) {
    const status = statusOf(
      await sendRaw(port, `${form}\r\n${form.includes('upgrade') ? '' : 'Connection: close\r\n'}\r\n`, 1_000),
    );
    assert.ok(allowed.includes(status), `${JSON.stringify(form)} gave ${status}`);
  }
});

test('the three names of this machine with our port are answered, over IPv4 and IPv6', async (t) => {
  const { port } = await runningServer(t);
  for (const name of ['127.0.0.1', 'localhost', '[::1]']) {
    const request = `GET /api/health HTTP/1.1\r\nHost: ${name}:${port}\r\nConnection: close\r\n\r\n`;
    assert.equal(statusOf(await sendRaw(port, request)), 200, name);
    const hasIPv6 = Object.values(networkInterfaces()).some((list) => list?.some((each) => each.address === '::1'));
    if (hasIPv6) assert.equal(statusOf(await sendRaw(port, request, 5_000, '::1')), 200, `${name} over ::1`);
  }
});

test('no address of this machine but loopback is listened on', async (t) => {
  const { port } = await runningServer(t);
  const outside = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter((each) => !each.internal && each.family === 'IPv4');
  if (outside.length === 0) return t.skip('this machine has no other address');
  for (const { address } of outside) {
    await assert.rejects(sendRaw(port, 'GET / HTTP/1.1\r\n\r\n', 1_000, address), { code: 'ECONNREFUSED' });
  }
});

test('pages of other sites and of other servers on this machine are refused', async (t) => {
  const { ask, port } = await runningServer(t);
  for (const site of ['cross-site', 'same-site', 'Same-Origin', 'nonsense', '']) {
    const answer = await ask('GET', '/api/token', undefined, { 'Sec-Fetch-Site': site });
    assert.equal(answer.status, 403, site);
    assert.equal(answer.body.reason, 'origin');
  }
  const other = port === 65_535 ? 1 : port + 1;
  const origins = [
    'null',
    'http://example.org',
    `https://127.0.0.1:${port}`,
    `http://127.0.0.1:${other}`,
    'http://127.0.0.1',
  ];
  for (const origin of [...origins, `http://localhost:${port}`, `http://127.0.0.1:${port}.example.org`]) {
    for (const method of ['GET', 'POST']) {
      const answer = await ask(method, '/api/jobs', method === 'GET' ? undefined : {}, { Origin: origin });
      assert.equal(answer.status, 403, `${method} from ${origin}`);
    }
  }
  const ours = { Origin: `http://127.0.0.1:${port}`, 'Sec-Fetch-Site': 'same-origin' };
  assert.equal((await ask('GET', '/api/token', undefined, ours)).status, 200);
  assert.equal((await ask('POST', '/api/jobs', { from: { text: '{}' } }, ours)).status, 201);
});

test('nothing is changed by GET, without the token of this start, or with another body type', async (t) => {
  const { ask, list, token } = await runningServer(t);
  const body = { from: { text: '{}' } };
  const lastChanged = token.at(-1) === 'A' ? 'B' : 'A';
  for (const wrong of ['', 'x', token.slice(0, -1), token.slice(0, -1) + lastChanged, `${token}A`, '\u00e9']) {
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS']) {
      for (const path of ['/api/jobs', '/api/health', '/', '/nowhere']) {
        const answer = await ask(method, path, body, { [TOKEN_HEADER]: wrong });
        assert.equal(answer.status, 403, `${method} ${path} with ${JSON.stringify(wrong)}`);
        assert.equal(answer.body.reason, 'token');
      }
    }
  }
  const types = ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data', '', 'application/jsonp'];
  for (const type of [...types, 'text/json', 'application/json; charset=utf-7', 'text/plain, application/json']) {
    const answer = await ask('POST', '/api/jobs', body, { 'Content-Type': type });
    assert.equal(answer.status, 415, type);
  }
  for (const path of ['/api/jobs?from=x', '/api/jobs/import', '/api/jobs/nowhere/restore']) {
    await ask('GET', path);
    await ask('GET', path, undefined, { 'X-HTTP-Method-Override': 'POST' });
  }
  assert.deepEqual(await list(), []);
});

test('no answer allows another origin, and a preflight is refused', async (t) => {
  const { ask } = await runningServer(t);
  const asks = [
    ask('OPTIONS', '/api/jobs', undefined, {
      Origin: 'http://example.org',
      'Access-Control-Request-Method': 'POST',
      'Access-Control-Request-Headers': TOKEN_HEADER,
    }),
    ask('GET', '/api/health'),
    ask('GET', '/'),
  ];
  for (const { headers } of await Promise.all(asks)) {
    assert.deepEqual(
      [...headers.keys()].filter((name) => name.startsWith('access-control-')),
      [],
    );
  }
});

function builtApp(t: TestContext): string {
  const folder = temporaryFolder(t);
  mkdirSync(join(folder, 'web/assets'), { recursive: true });
  writeFileSync(join(folder, 'secret.json'), 'the secret');
  writeFileSync(
    join(folder, 'web/index.html'),
    '<!doctype html><title>Stopwright</title><script type="module" src="/assets/app-1.js"></script>',
  );
  writeFileSync(join(folder, 'web/assets/app-1.js'), 'console.log(1)');
  symlinkSync(join(folder, 'secret.json'), join(folder, 'web/linked.json'));
  return join(folder, 'web');
}

test('every answer carries the policy: nothing from elsewhere, no inline script, no frame', async (t) => {
  const { ask, port } = await runningServer(t, { webFolder: builtApp(t) });
  const asked = await Promise.all([
    ask('GET', '/'),
    ask('GET', '/assets/app-1.js'),
    ask('GET', '/nowhere.js'),
    ask('GET', '/api/health'),
    ask('GET', '/api/nowhere'),
    ask('POST', '/api/jobs', 'nonsense'),
    ask('POST', '/api/jobs', {}, { [TOKEN_HEADER]: 'wrong' }),
  ]);
  for (const { headers } of asked) {
    const policy = headers.get('content-security-policy') ?? '';
    assert.match(policy, /default-src 'none'/);
    assert.match(policy, /frame-ancestors 'none'/);
    assert.match(policy, /base-uri 'none'/);
    assert.match(policy, /form-action 'none'/);
    assert.doesNotMatch(policy, /unsafe|https?:|\*|blob:/);
    assert.equal(headers.get('x-content-type-options'), 'nosniff');
    assert.equal(headers.get('referrer-policy'), 'no-referrer');
    assert.equal(headers.get('cross-origin-opener-policy'), 'same-origin');
    assert.equal(headers.get('cross-origin-resource-policy'), 'same-origin');
    assert.equal(headers.get('server'), null);
    assert.equal(headers.get('x-powered-by'), null);
  }
  const refused = await sendRaw(port, 'GET / HTTP/1.1\r\nHost: example.org\r\nConnection: close\r\n\r\n');
  assert.match(refused, /Content-Security-Policy: default-src 'none'/);
});

test('the app is served, its changed files are noticed, and no path leads out of its folder', async (t) => {
  const webFolder = builtApp(t);
  const { ask, port } = await runningServer(t, { webFolder });
  const page = await ask('GET', '/');
  assert.equal(page.status, 200);
  assert.match(page.headers.get('content-type') ?? '', /^text\/html/);
  assert.equal(page.headers.get('cache-control'), 'no-cache');
  assert.equal((await ask('GET', '/job/some-id')).text, page.text, 'an address inside the app opens the app');
  const again = await ask('GET', '/', undefined, { 'If-None-Match': page.headers.get('etag') ?? '' });
  assert.equal(again.status, 304);
  const script = await ask('GET', '/assets/app-1.js');
  assert.match(script.headers.get('content-type') ?? '', /javascript/);
  assert.match(script.headers.get('cache-control') ?? '', /immutable/);

  const before = (await ask<{ build: string }>('GET', '/api/health')).body.build;
  writeFileSync(join(webFolder, 'assets/app-1.js'), 'console.log(2)');
  assert.equal((await ask('GET', '/assets/app-1.js')).text, 'console.log(1)', 'one build is never mixed with another');
  const later = await runningServer(t, { webFolder });
  assert.notEqual((await later.ask<{ build: string }>('GET', '/api/health')).body.build, before);

  const ways = [
    '/../secret.json',
    '/..%2fsecret.json',
    '/%2e%2e/secret.json',
    '/%2e%2e%2fsecret.json',
    '/..%5csecret.json',
    '/..\\secret.json',
    '/assets/../../secret.json',
    '/assets/..%2f..%2fsecret.json',
    '/%252e%252e/secret.json',
    '//secret.json',
    '/linked.json',
    '/secret.json%00.html',
    '/./../secret.json',
    '/....//secret.json',
    '/%c0%ae%c0%ae/secret.json',
    `/${'../'.repeat(12)}etc/passwd`,
    '/file:///etc/passwd',
  ];
  for (const way of ways) {
    const answer = await sendRaw(port, `GET ${way} HTTP/1.1\r\nHost: localhost:${port}\r\nConnection: close\r\n\r\n`);
    const isApp = statusOf(answer) === 200 && answer.endsWith(page.text);
    const isRefusal = [400, 404].includes(statusOf(answer)) && answer.includes('"next":');
    assert.ok(isApp || isRefusal, `${way}:\n${answer}`);
    assert.ok(!answer.includes('the secret') && !answer.includes('root:'), way);
  }
});
