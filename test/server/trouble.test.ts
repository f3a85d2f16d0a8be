/** What the database says, in words. The codes and their families: https://www.sqlite.org/rescode.html. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { RefusalReason } from '../../src/job/exchange.ts';
import { pageCommand } from '../../src/server/open-page.ts';
import { databaseCode, storeTrouble } from '../../src/server/store/trouble.ts';

const failed = (code: string) => Object.assign(new Error('disk I/O error'), { code });

test('every family of failures has its reason and its sentences, for opening, reading and writing', () => {
  const expected: [string, RefusalReason, RefusalReason, RefusalReason][] = [
    ['SQLITE_FULL', 'store-read-only', 'store-failed', 'disk-full'],
    ['SQLITE_BUSY', 'store-locked', 'store-failed', 'store-locked'],
    ['SQLITE_BUSY_RECOVERY', 'store-locked', 'store-failed', 'store-locked'],
    ['SQLITE_LOCKED', 'store-locked', 'store-failed', 'store-locked'],
    ['SQLITE_READONLY', 'store-read-only', 'store-failed', 'store-read-only'],
    ['SQLITE_READONLY_DIRECTORY', 'store-read-only', 'store-failed', 'store-read-only'],
    ['SQLITE_CANTOPEN', 'store-read-only', 'store-failed', 'store-read-only'],
    ['SQLITE_PERM', 'store-read-only', 'store-failed', 'store-read-only'],
    ['SQLITE_CORRUPT', 'store-damaged', 'store-damaged', 'store-damaged'],
    ['SQLITE_CORRUPT_INDEX', 'store-damaged', 'store-damaged', 'store-damaged'],
    ['SQLITE_NOTADB', 'store-damaged', 'store-damaged', 'store-damaged'],
    ['SQLITE_IOERR', 'store-read-only', 'store-failed', 'store-failed'],
    ['SQLITE_IOERR_FSYNC', 'store-read-only', 'store-failed', 'store-failed'],
    ['SQLITE_NOMEM', 'store-read-only', 'store-failed', 'store-failed'],
  ];
  for (const [code, ...reasons] of expected) {
    for (const [index, act] of (['open', 'read', 'write'] as const).entries()) {
      const refused = storeTrouble(failed(code), '/data/ida/jobs', act);
      assert.equal(refused?.refusal.reason, reasons[index], `${code} while ${act}`);
      const { what, safe, next } = refused.refusal;
      for (const sentence of [what, safe, next]) assert.match(sentence, /^[A-Z].*\.$/);
      assert.ok([what, next].join(' ').includes('/data/ida/jobs'), 'it says where');
      assert.doesNotMatch(refused.message, /SQLITE|I\/O/);
    }
  }
});

test('an error that is not the database’s is left alone', () => {
  for (const error of [
    new Error('x'),
    failed('ENOENT'),
    Object.assign(new Error('x'), { code: 5 }),
    'SQLITE_FULL',
    null,
  ]) {
    assert.equal(databaseCode(error), '');
    assert.equal(storeTrouble(error, '/folder', 'write'), null);
  }
});

test('the page is opened by what each system has for it, and not at all without a screen', () => {
  assert.deepEqual(pageCommand('darwin', {}), ['open']);
  assert.equal(pageCommand('win32', {})?.[0], 'rundll32');
  assert.deepEqual(pageCommand('linux', { DISPLAY: ':0' }), ['xdg-open']);
  assert.deepEqual(pageCommand('linux', { WAYLAND_DISPLAY: 'wayland-0' }), ['xdg-open']);
  assert.equal(pageCommand('linux', {}), undefined);
});
