/** Jobs through the API: made, listed, renamed, deleted and undeleted, copied, taken in and given out byte for byte. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import type { JobAnswer, JobEntryAnswer, StoreAnswer } from '../../src/job/exchange.ts';
import { readJob } from '../../src/job/read.ts';
import { readDemos } from '../../src/server/demos.ts';
import { runningServer } from './running.ts';

const demos = [
  { name: 'railcar', title: 'Inspection railcar', text: '{ "name": "Inspection railcar" }\n' },
  { name: 'ferry', title: 'Chain ferry', text: '{"name":"Chain ferry"}' },
];

test('the first start puts the demo jobs there, the railcar first; a later start puts back none that was deleted', async (t) => {
  const first = await runningServer(t, { demos });
  const [railcar, ferry, ...others] = await first.list();
  assert.ok(railcar && ferry && others.length === 0);
  assert.deepEqual([railcar.demo, railcar.name, ferry.demo], ['railcar', 'Inspection railcar', 'ferry']);
  assert.equal((await first.open(railcar.id)).head.text, demos[0]?.text);
  await first.ask('PATCH', `/api/jobs/${ferry.id}`, { deleted: true });
  await first.server.close();
  const second = await runningServer(t, { folder: first.folder, demos });
  const marks = (await second.list()).map(({ demo, deletedAt }) => [demo, deletedAt !== null]);
  assert.deepEqual(marks, [
    ['railcar', false],
    ['ferry', true],
  ]);
  const again = await second.create({ from: { demo: 'ferry' } });
  assert.deepEqual([again.job.demo, again.head.text], ['ferry', demos[1]?.text]);
  assert.equal((await second.ask('POST', '/api/jobs', { from: { demo: 'steamer' } })).status, 404);
});

test('the demo jobs of the program read, and open the railcar first', () => {
  const names = readDemos().map(({ name }) => name);
  assert.equal(names[0], 'railcar');
  assert.equal(new Set(names).size, names.length);
  for (const { name, text } of readDemos()) assert.equal(readJob(text).ok, true, `${name} does not read`);
});

test('a job is made, renamed, deleted and undeleted; its document and history stay as they are', async (t) => {
  const { create, ask, open, list, history } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{"name":"Pump house"}' }, author: 'fitter' });
  assert.deepEqual([job.name, job.head, head.author, head.parents], ['Pump house', head.id, 'fitter', []]);
  const change = (body: object) => ask<JobEntryAnswer>('PATCH', `/api/jobs/${job.id}`, body);
  assert.equal((await change({ name: 'North pump' })).body.job.name, 'North pump');
  const deleted = (await change({ deleted: true })).body.job;
  assert.ok(deleted.deletedAt !== null);
  assert.equal(
    (await change({ deleted: true })).body.job.deletedAt,
    deleted.deletedAt,
    'deleting twice is deleting once',
  );
  assert.equal((await list())[0]?.deletedAt, deleted.deletedAt);
  assert.equal((await open(job.id)).head.text, head.text, 'a deleted job can still be looked at');
  assert.deepEqual((await change({ deleted: false })).body.job, { ...job, name: 'North pump' });
  assert.equal((await history(job.id)).length, 1);
  for (const wrong of [
    {},
    { name: '' },
    { name: '  ' },
    { name: 'a\nb' },
    { name: 'x'.repeat(201) },
    { head: job.id },
    { deleted: 1 },
    [],
  ]) {
    const answer = await change(wrong);
    assert.equal(answer.status, 400, JSON.stringify(wrong));
  }
});

test('a copy starts with the same bytes and goes its own way', async (t) => {
  const { create, save, open } = await runningServer(t);
  const first = await create({ from: { text: '{"a": 1}' }, name: 'Ferry' });
  await save(first.job.id, { parents: [first.head.id], text: '{"a": 2}' });
  const copy = await create({ from: { copyOf: first.job.id } });
  assert.deepEqual([copy.job.name, copy.head.text, copy.head.parents], ['Ferry (copy)', '{"a": 2}', []]);
  const older = await create({ from: { copyOf: first.job.id, revision: first.head.id }, name: 'As it was' });
  assert.deepEqual([older.job.name, older.head.text], ['As it was', '{"a": 1}']);
  await save(copy.job.id, { parents: [copy.head.id], text: '{"a": 3}' });
  assert.equal((await open(first.job.id)).head.text, '{"a": 2}');
});

test('asking again with the same id makes no second job', async (t) => {
  const { create, ask, list } = await runningServer(t);
  const request = { id: 'made-by-the-app-1', from: { text: '{"a":1}' } };
  const [once, twice] = [await create(request), await create(request)];
  assert.deepEqual(twice, once);
  assert.equal((await list()).length, 1);
  const other = await ask('POST', '/api/jobs', { ...request, from: { text: '{"a":2}' } });
  assert.deepEqual([other.status, other.body.reason], [409, 'id-in-use']);
});

test('save and load are the identity: import, export and open give back every byte', async (t) => {
  const { ask, open, create } = await runningServer(t);
  const property = fc.asyncProperty(
    fc.dictionary(fc.string({ unit: 'binary' }), fc.jsonValue({ maxDepth: 3 }), { maxKeys: 4 }),
    fc.constantFrom('', ' ', '\n', '\r\n', '\t\n\n'),
    fc.constantFrom('', '\uFEFF'),
    fc.constantFrom(undefined, 1, 2, '\t'),
    async (value, space, mark, indent) => {
      const json = JSON.stringify(value, null, indent);
      const bytes = Buffer.from(mark + (mark === '' ? space : '') + json + space, 'utf8');
      const imported = await ask<JobAnswer>('POST', '/api/jobs/import', new Uint8Array(bytes));
      assert.equal(imported.status, 201, imported.text);
      const { job, head } = imported.body;
      const exported = await ask('GET', `/api/jobs/${job.id}/export`);
      assert.deepEqual(Buffer.from(exported.text, 'utf8'), bytes);
      const second = await ask<JobAnswer>('POST', '/api/jobs/import', exported.text);
      assert.equal(second.body.head.digest, head.digest);
      assert.equal((await open(job.id)).head.text, exported.text);
      assert.equal(head.bytes, bytes.length);
      const created = await create({ from: { text: exported.text } });
      assert.equal(created.head.digest, head.digest);
    },
  );
  await fc.assert(property, { numRuns: Number(process.env['STOPWRIGHT_IDENTITY_RUNS'] ?? 60), seed: 20_261 });
});

test('what cannot be kept exactly is refused instead of being changed', async (t) => {
  const { ask, list } = await runningServer(t);
  const notUtf8 = new Uint8Array([0x7b, 0x22, 0xff, 0x22, 0x3a, 0x31, 0x7d]);
  const file = await ask('POST', '/api/jobs/import', notUtf8);
  assert.equal(file.status, 422);
  assert.match(file.body.problems?.[0]?.problem ?? '', /UTF-8/);
  const half = await ask('POST', '/api/jobs', '{"from":{"text":"{\\"a\\":\\"\\ud800\\"}"}}');
  assert.equal(half.status, 400);
  assert.deepEqual(await list(), []);
});

test('a file that does not read is refused with all its problems, and nothing is taken in', async (t) => {
  const { ask, list } = await runningServer(t);
  for (const path of ['/api/jobs/import', '/api/jobs/import?name=x']) {
    const answer = await ask('POST', path, '[not a job');
    assert.equal(answer.status, 422);
    assert.deepEqual(
      answer.body.problems?.map(({ path }) => path),
      ['', 'second'],
    );
    for (const sentence of [answer.body.what, answer.body.safe, answer.body.next])
      assert.match(sentence, /^[A-Z].*\.$/);
  }
  assert.deepEqual(await list(), []);
});

test('text that somebody typed stays text: in names, in answers, and never in a file name', async (t) => {
  const { ask, create, list } = await runningServer(t);
  const payloads = [
    '<script>alert(1)</script>',
    '"; rm -rf /',
    '../../etc/passwd',
    "Robert'); DROP TABLE job;--",
    '=1+1',
    'ä ✓ 🚂',
    '\u202Egnp.exe',
    '${7*7}',
    '%00',
  ];
  for (const name of payloads) {
    const { job } = await create({ from: { text: JSON.stringify({ name }) } });
    assert.equal(job.name, name);
    const answer = await ask('GET', `/api/jobs/${job.id}`);
    assert.match(answer.headers.get('content-type') ?? '', /^application\/json/);
    const file = await ask('GET', `/api/jobs/${job.id}/export`);
    assert.match(
      file.headers.get('content-disposition') ?? '',
      /^attachment; filename="stopwright-[0-9a-f]{8}-[0-9a-f]{8}\.json"$/,
    );
    const imported = await ask<JobAnswer>('POST', `/api/jobs/import?name=${encodeURIComponent(name)}`, '{}');
    assert.equal(imported.body.job.name, name);
  }
  assert.equal((await list()).length, 2 * payloads.length);
});

test('whatever is asked, the answer is words or data, never a stack, and never takes long', async (t) => {
  const { ask, create, reported } = await runningServer(t);
  const { job } = await create({ from: { text: '{}' } });
  const paths = [
    '',
    '/import',
    `/${job.id}`,
    `/${job.id}/revisions`,
    `/${job.id}/restore`,
    `/${job.id}/session/undo`,
    `/${job.id}/session/Undo`,
    '/nowhere',
    `/nowhere/revisions`,
    `/${job.id}/revisions/nowhere`,
    `/${job.id}/export?revision=nowhere`,
    `/${job.id}/revisions?before=x`,
    `/${job.id}/revisions?limit=-1`,
  ];
  const property = fc.asyncProperty(
    fc.constantFrom('GET', 'POST', 'PUT', 'PATCH', 'DELETE'),
    fc.constantFrom(...paths),
    fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.json(),
      fc
        .jsonValue({ maxDepth: 2 })
        .map((value) => JSON.stringify({ from: value, parents: [value], text: value, name: value })),
      fc
        .record({
          parents: fc.array(fc.constantFrom(job.id, 'no-such-id', '', null)),
          text: fc.constantFrom('{}', '{', 5),
          id: fc.constantFrom(job.id, 'x'),
        })
        .map((value) => JSON.stringify(value)),
    ),
    async (method, path, body) => {
      const started = performance.now();
      const answer = await ask(method, `/api/jobs${path}`, method === 'GET' ? undefined : body);
      assert.ok(performance.now() - started < 1_000);
      assert.ok(answer.status < 500, `${method} ${path} ${body}: ${answer.text}`);
      assert.doesNotMatch(answer.text, /\bat .*\.(ts|js|mjs):\d+|node:|SQLITE|Error:/);
      if (answer.status >= 400) {
        for (const key of ['reason', 'what', 'safe', 'next'] as const) assert.equal(typeof answer.body[key], 'string');
      }
    },
  );
  await fc.assert(property, { numRuns: Number(process.env['STOPWRIGHT_BODY_RUNS'] ?? 1_500), seed: 20_262 });
  assert.deepEqual(reported, []);
});

test('the store says where it is', async (t) => {
  const { ask, folder } = await runningServer(t);
  const { body } = await ask<StoreAnswer>('GET', '/api/store');
  assert.deepEqual(body, { folder, version: 1, oldCopies: [] });
});
