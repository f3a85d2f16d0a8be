import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import { circle, line, part, polygon, type Drawing } from '../../src/sheets/drawing.ts';
import { inks } from '../../src/sheets/inks.ts';
import { drawMechanism } from '../../src/sheets/mechanism.ts';
import { point } from '../../src/sheets/plane.ts';
import { describe, escaped, number, svg, svgTree, type SvgNode } from '../../src/sheets/svg.ts';
import { invent } from './pictures.ts';

const payloads = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onload='alert(1)",
  '</text></svg><svg onload=alert(1)>',
  '<![CDATA[<script>alert(1)</script>]]>',
  '&lt;script&gt;',
  '&#60;script&#62;',
  ']]><!--',
  '\u0000\u0008\u000B\uFFFE\uD800x',
  'javascript:alert(1)',
  '<foreignObject><body onload="alert(1)">',
  '<a xlink:href="javascript:alert(1)">',
  '\u202Egnirps',
];

/** Reads the file back by a strict reader of the little that our writer uses; any other form fails. */
function readBack(file: string): { words: string[]; tags: Set<string> } {
  const words: string[] = [];
  const tags = new Set<string>();
  const open: string[] = [];
  let rest = file;
  while (rest.trim() !== '') {
    const match = /^\s*(?:<([a-z]+)((?: [a-zA-Z-]+="[^"<>]*")*)(\/?)>|<\/([a-z]+)>|([^<]+))/.exec(rest);
    assert.ok(match, `not well formed at: ${rest.slice(0, 80)}`);
    rest = rest.slice(match[0].length);
    const [, tag, , empty, closing, inside] = match;
    if (tag !== undefined) {
      tags.add(tag);
      if (empty !== '/') open.push(tag);
    } else if (closing !== undefined) assert.equal(open.pop(), closing);
    else if (inside !== undefined) words.push(plain(inside));
  }
  assert.deepEqual(open, []);
  return { words, tags };
}

const plain = (inside: string): string => {
  assert.doesNotMatch(inside, /&(?!(amp|lt|gt|quot|#39);)/);
  return inside
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&');
};

/** What XML 1.0 can carry of a text (its production Char), the rest as U+FFFD. */
function carriedBy(text: string): string {
  return Array.from(text, (letter) => {
    const code = letter.codePointAt(0) ?? 0;
    const carried =
      [0x9, 0xa, 0xd].includes(code)
      || (code >= 0x20 && code <= 0xd7ff)
      || (code >= 0xe000 && code <= 0xfffd)
      || code >= 0x10000;
    return carried ? letter : '\u{FFFD}';
  }).join('');
}

test('hostile names come back as text and as nothing else', () => {
  for (const name of payloads) {
    const drawing = drawMechanism({ ...invent({ connection: 'slotted lever', gap: 0.01, name }), trouble: name });
    const { words, tags } = readBack(svg(drawing));
    assert.deepEqual([...tags].sort(), ['desc', 'g', 'path', 'rect', 'svg', 'text', 'title']);
    const carried = carriedBy(name);
    assert.ok(words.includes(carried), `lost: ${name}`);
    assert.ok(words.some((word) => word.startsWith(carried) && word.endsWith(' N')));
  }
});

test('any text survives the way through an element and an attribute', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (given) => {
      const safe = escaped(given);
      assert.doesNotMatch(safe, /[<>"']/);
      const carried = carriedBy(given);
      assert.equal(plain(safe), carried);
    }),
    { seed: 40, numRuns: 2000 },
  );
});

test('a number that is none is refused with its value, and all others are short', () => {
  assert.throws(() => number(NaN), /NaN/);
  assert.throws(() => number(Infinity), /Infinity/);
  assert.equal(number(-0.0001), '0');
  assert.equal(number(12.34567), '12.346');
  assert.equal(number(1e-9), '0');
});

test('equal drawings give equal bytes, y points up, strokes of one look share a path', () => {
  const drawing: Drawing = {
    title: 'Sheet',
    width: 40,
    height: 30,
    sentences: ['One line.'],
    parts: [
      part('lines', 'mechanism', [
        line('outline', point(0, 0), point(10, 5)),
        line('outline', point(1, 1), point(2, 2)),
      ]),
    ],
  };
  const file = svg(drawing);
  assert.equal(file, svg(structuredClone(drawing)));
  assert.match(file, /d="M0 30L10 25M1 29L2 28"/);
  assert.deepEqual(describe(drawing), ['Sheet', 'One line.']);
});

test('filled shapes stay apart, so that two that overlap leave no hole', () => {
  const shapes = [
    circle('outline', point(5, 5), 3, 'paper'),
    polygon('outline', [point(4, 4), point(6, 4), point(6, 6)], 'paper'),
  ];
  const drawing = { title: '', width: 10, height: 10, sentences: [], parts: [part('a', 'mechanism', shapes)] };
  const group = svgTree(drawing).children.find(({ name }) => name === 'a');
  assert.equal(group?.children.length, 2);
});

test('the tree for the screen carries part names, an image role with words, and colours that a page can set', () => {
  const tree = svgTree(drawMechanism(invent({ connection: 'pinned link', gap: 0.01 })), { idPrefix: 'left-' });
  assert.equal(tree.attributes['role'], 'img');
  assert.equal(tree.attributes['aria-labelledby'], 'left-title left-description');
  assert.ok(tree.children.some(({ name }) => name === 'lever'));
  const colours = new Set<string>();
  const walk = (node: SvgNode): void => {
    for (const name of ['fill', 'stroke']) {
      const colour = node.attributes[name];
      if (colour !== undefined && colour !== 'none') colours.add(colour);
    }
    node.children.forEach(walk);
  };
  walk(tree);
  for (const colour of colours) assert.match(colour, /^var\(--sheet-[a-z]+, #[0-9a-f]{6}\)$/);
  const names = tree.children.flatMap(({ name }) => (name === undefined ? [] : [name]));
  assert.equal(new Set(names).size, names.length, 'part names are unique');
});

/** Contrast ratio as WCAG 2.2 defines it (relative luminance of sRGB). */
function contrast(a: string, b: string): number {
  const luminance = (colour: string): number => {
    const [r = 0, g = 0, blue = 0] = [1, 3, 5].map((i) => {
      const share = parseInt(colour.slice(i, i + 2), 16) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

test('every ink stands out from its paper by 4.5 to 1 (WCAG 2.2, 1.4.3)', () => {
  assert.ok(Math.abs(contrast('#777777', '#ffffff') - 4.48) < 0.005, 'known pair: #777777 on white is 4.48 to 1');
  for (const [sheet, colours] of Object.entries(inks)) {
    for (const [name, colour] of Object.entries(colours)) {
      if (name === 'paper' || name === 'grid') continue;
      assert.ok(contrast(colour, colours.paper) >= 4.5, `${name} on the ${sheet} sheet`);
    }
  }
});
