/**
 * Nothing is cited that docs/sources.md does not list, and no error is thrown that docs/errors.md does not explain.
 *
 * A citation is a standard by its number (EN 13906-1, ISO 128-2, NIST SP 811) or persons by initials and surname followed
 * by a comma ("J. Kiefer, Sequential minimax search … (1953)"), in a comment of src or anywhere in test/published.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const read = (path: string) => readFileSync(join(root, path), 'utf8');
const files = (folder: string) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.split(sep).join('/')}`)
    .filter((path) => /\.tsx?$/.test(path));

/** Comments without their stars and strokes, so that a citation over two lines reads as one. */
function comments(text: string): string[] {
  return [...text.matchAll(/\/\*\*.*?\*\/|(?:^[ \t]*\/\/ [^\n]*\n)+/gms)].map(([comment]) =>
    comment.replace(/\s*\n\s*(?:\*|\/\/) ?/g, ' '),
  );
}

interface Citation {
  readonly standards: readonly string[];
  /** Surnames of one work, and its year where one is given. */
  readonly works: readonly { readonly surnames: readonly string[]; readonly year: string | null }[];
}

const STANDARD = /\b(?:EN|IEC|ISO|ASTM|DIN|JCGM|WCAG|NIST SP|RFC) [A-Z]?\d+(?:[.-]\d+)*/g;
const PERSON = String.raw`(?:[A-Z]\. ?)+(?:[A-Z]')?\p{Lu}[\p{Ll}-]+`;
const PERSONS = new RegExp(String.raw`${PERSON}(?:, ${PERSON})*(?=,| et al)`, 'gu');

function citationsIn(text: string): Citation {
  const works = [...text.matchAll(PERSONS)].map((match) => {
    const surnames = match[0].split(/, /).map((person) => person.replace(/^(?:[A-Z]\. ?)+/, ''));
    // What follows up to the next work: its title, and its year if it has one.
    const rest = text.slice(match.index + match[0].length);
    const end = rest.search(new RegExp(String.raw`\[\d\]|; ${PERSON},`, 'u'));
    const year = /\b(?:1[89]|20)\d\d\b(?!-\d)/.exec(rest.slice(0, end < 0 ? 250 : Math.min(250, end)))?.[0] ?? null;
    return { surnames, year };
  });
  return { standards: [...text.matchAll(STANDARD)].map(([standard]) => standard), works };
}

const list = read('docs/sources.md').split('\n');

/** A standard cited as a whole (ISO 3098) is listed where one of its parts is; a part only as itself. */
function lists(standard: string): boolean {
  const isPart = standard.includes('-');
  const line = new RegExp(
    String.raw`\b${standard.replaceAll('.', String.raw`\.`)}(?!\d|\.\d${isPart ? String.raw`|-\d` : ''})`,
  );
  return list.some((one) => line.test(one));
}

/** Each thing that a text cites and docs/sources.md does not list, in words. */
function missing(text: string): string[] {
  const { standards, works } = citationsIn(text);
  return [
    ...standards.filter((standard) => !lists(standard)),
    ...works
      .filter(({ surnames, year }) => {
        const named = (line: string) => surnames.every((surname) => line.includes(surname));
        return !list.some((line) => named(line) && (year === null || !/\d{4}\)/.test(line) || line.includes(year)));
      })
      .map(({ surnames, year }) => `${surnames.join(', ')}${year === null ? '' : ` (${year})`}`),
  ];
}

test('every source that a comment cites stands in docs/sources.md', () => {
  const found = files('src').flatMap((path) =>
    comments(read(path)).flatMap((comment) => missing(comment).map((what) => `${path}: ${what}`)),
  );
  assert.deepEqual(found, [], 'add a line to docs/sources.md that says how the source reached us');
});

test('every source of a published check stands in docs/sources.md', () => {
  const found = files('test/published').flatMap((path) => missing(read(path)).map((what) => `${path}: ${what}`));
  assert.deepEqual(found, [], 'add a line to docs/sources.md that says how the source reached us');
});

test('every file that docs/sources.md names cites that source', () => {
  let rows = 0;
  for (const line of list) {
    const cells = line.split(' | ');
    const [first = '', , , where = ''] = cells;
    for (const [, path = ''] of where.matchAll(/`([a-z-]+\/[^`]*\.ts)`/g)) {
      rows++;
      const cites = comments(read(`src/${path}`)).join(' ');
      const { standards, works } = citationsIn(first);
      const cited = [
        ...standards.map((standard) => cites.includes(standard)),
        ...works.flatMap(({ surnames }) => surnames.map((surname) => cites.includes(surname))),
      ];
      assert.ok(cited.every(Boolean), `src/${path} does not cite ${first}`);
    }
  }
  assert.ok(rows > 30, `${rows} rows name a file`);
});

test('a citation that nobody listed is noticed', () => {
  assert.deepEqual(missing('after ISO 99999-1:2020 and EN 13906-9'), ['ISO 99999-1', 'EN 13906-9']);
  assert.deepEqual(missing('[1] A. Nobody, B. O. Nowhere, On nothing, J. None 3 (1999) 1'), ['Nobody, Nowhere (1999)']);
  assert.deepEqual(missing('R. P. Brent, Algorithms for minimization (1974)'), ['Brent (1974)']);
  assert.deepEqual(missing('R. P. Brent, Algorithms for minimization (1973); EN 13906-1:2013, clause 9'), []);
});

test('every error that is thrown is explained in docs/errors.md, and none is explained that is not thrown', () => {
  const codes = (text: string) => new Set(text.match(/SW-[A-Z]\d{3}/g) ?? []);
  const thrown = codes(
    files('src')
      .map((path) => read(path).replace(/\/\*\*.*?\*\//gs, ''))
      .join('\n'),
  );
  const explained = codes(read('docs/errors.md'));
  assert.deepEqual([...thrown].sort(), [...explained].sort());
  for (const path of files('src')) {
    for (const code of codes(comments(read(path)).join(' '))) {
      assert.ok(thrown.has(code), `${path} documents ${code}, which nothing throws`);
    }
  }
});
