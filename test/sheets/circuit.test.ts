import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { circuitPicture, type CircuitCondition, type CircuitPicture } from '../../src/assessment/circuit/picture.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import type { Job } from '../../src/job/schema.ts';
import { drawCircuit, drawCircuitSheet, LEAST_WIDTH, type CircuitDrawing } from '../../src/sheets/circuit.ts';
import { textBox, type Drawing } from '../../src/sheets/drawing.ts';
import { boxesOverlap, crosses, grown } from '../../src/sheets/plane.ts';
import { svg } from '../../src/sheets/svg.ts';
import { imperialUnits, metricUnits } from '../../src/units/display.ts';
import { valueAt } from '../../src/job/path.ts';
import { altered, changed, demo } from '../job/jobs.ts';
import { assertDrawn } from './golden.ts';
import { textsOf, touchingTexts } from './touching.ts';

/** Invented for these tests: every kind of coil, contact, suppression and way back. */
const railcar = demo('railcar');
const station = {
  name: 'Rear platform',
  out: { section: '2.5 mm²', length: '9 m' },
  contacts: [{ name: 'Push button', kind: 'switch', resistance: '8 mΩ' }],
  diode: 'in series',
  alsoFeeds: 'warning lamp',
};
const jobs: Readonly<Record<string, Job>> = {
  railcar,
  'pump house': demo('pump-house'),
  stations: changed(railcar, {
    'supply.stations': [station, { ...station, name: "Guard's seat at the far end of the trailer", diode: 'none' }],
    'supply.back': { by: 'earth', resistance: '8 mΩ' },
    'supply.contacts[3]': { name: 'Strap from engine to frame', kind: 'earth strap', resistance: '2 mΩ' },
    'supply.suppression': { kind: 'zener', voltage: '47 V' },
  }),
  'single coil, diode wrong way': changed(railcar, {
    'means.coil': { stages: 'single coil', resistance: '1.1 Ω', readAt: '20 °C' },
    'means.endSwitch': 'none',
    'supply.suppression': { kind: 'diode', polarity: 'anode to plus' },
  }),
  economiser: changed(railcar, {
    'means.coil': {
      stages: 'timed economiser',
      resistance: '1.1 Ω',
      readAt: '20 °C',
      holdShare: '0.4',
      delay: '0.8 s',
    },
    'means.endSwitch': 'none',
    'supply.suppression': { kind: 'diode and resistor', polarity: 'cathode to plus', resistance: '10 Ω' },
  }),
  'a length not measured': altered(railcar, { 'supply.out.length': NOT_MEASURED }),
  'nine contacts with long names': changed(railcar, {
    'supply.contacts': Array.from({ length: 9 }, (_, i) => ({
      name: `Terminal strip number ${i + 1} behind the instrument panel in the cab`,
      kind: (['connector', 'switch', 'relay', 'fuse', 'other'] as const)[i % 5],
      resistance: '3 mΩ',
    })),
  }),
  'no contact at all': changed(railcar, { 'supply.contacts': [], 'supply.fuse': { type: 'blade', rating: '30 A' } }),
};

const conditions = (['off', 'pull-in', 'hold'] as const).flatMap((stage) =>
  (['low', 'charging'] as const).map((state): CircuitCondition => ({ state, stage, coil: 'hot' })),
);

function picture(job: Job, condition: CircuitCondition): CircuitPicture {
  const found = circuitPicture(job, condition);
  assert.ok(found, 'a solenoid has a circuit');
  return found;
}

/** Widths in mm of the panel beside the drawings (410 px), a phone, a tablet, and A4 across. */
const widths = [LEAST_WIDTH, 90, 100, 150, 200, 262];

const everywhere = (run: (drawing: CircuitDrawing, where: string, job: Job, seen: CircuitPicture) => void): void => {
  for (const [name, job] of Object.entries(jobs))
    for (const condition of conditions)
      for (const width of widths)
        for (const units of [metricUnits, imperialUnits]) {
          const seen = picture(job, condition);
          run(
            drawCircuit(seen, { width, units }),
            `${name}, ${condition.stage}, ${condition.state}, ${width} mm`,
            job,
            seen,
          );
        }
};

test('at every width no text covers another or leaves the sheet, and every attribute is a number', () => {
  everywhere((drawing, where) => {
    assert.deepEqual(touchingTexts(drawing), [], where);
    assert.doesNotMatch(svg(drawing), /NaN|Infinity|undefined|null/, where);
    const names = drawing.parts.map(({ name }) => name);
    assert.equal(new Set(names).size, names.length, `${where}: names of parts`);
  });
});

/** Lines of wires and symbols that run through words. */
function crossedTexts(drawing: Drawing): string[] {
  const texts = textsOf(drawing).filter(({ text }) => !/^[+tAB]$/.test(text));
  const lines = drawing.parts.flatMap(({ elements }) =>
    elements.flatMap((element) => {
      if (element.kind === 'line') return [[element.from, element.to] as const];
      if (element.kind !== 'polyline') return [];
      const ends = element.closed ? [...element.points, element.points[0]] : element.points;
      return ends.slice(1).map((to, i) => [ends[i], to] as const);
    }),
  );
  return texts.flatMap((element) => {
    const box = grown(textBox(element), -0.3);
    return lines.some(([from, to]) => crosses(from, to, box)) ? [element.text] : [];
  });
}

test('no wire and no symbol runs through words', () => {
  everywhere((drawing, where) => assert.deepEqual(crossedTexts(drawing), [], where));
});

test('every number carries its unit, at every node and in every branch', () => {
  everywhere((drawing, where) => {
    for (const { text } of textsOf(drawing)) {
      const isNumber = /^(?:[AB] )?[\d.?]+$/.test(text);
      assert.ok(!isNumber, `${where}: "${text}" has no unit`);
    }
    for (const { name, elements } of drawing.parts)
      if (/^(node|amps)-/.test(name)) {
        const words = elements.find((element) => element.kind === 'text');
        assert.match(words?.text ?? '', /^(?:[AB] )?(?:\d[\d.]*|\?) (?:V|A|mA)$/, `${where}: ${name}`);
      }
  });
});

test('state, stage and coil stand in the title, on the sheet and for whoever cannot see it', () => {
  const drawing = drawCircuit(picture(railcar, { state: 'cranking', stage: 'hold', coil: 'cold' }), { width: 262 });
  assert.equal(drawing.title, 'Circuit: hold, cranking, cold coil');
  assert.ok(
    textsOf(drawing).some(({ text }) => text === drawing.title),
    'the title is drawn',
  );
});

test('what is drawn is what was reckoned: volts after each part, amps from the source', () => {
  const seen = picture(railcar, { state: 'low', stage: 'pull-in', coil: 'hot' });
  for (const width of [90, 262]) {
    const words = textsOf(drawCircuit(seen, { width })).map(({ text }) => text);
    for (const part of [seen.source, ...seen.out, ...seen.back])
      assert.ok(words.includes(`${part.toVolts!.toFixed(2)} V`), `${width}: ${part.name}`);
    assert.ok(words.includes(`${seen.amps!.toPrecision(3)} A`), `${width}: amps`);
    for (const value of ['22.00 V open', '6 mm², 4.2 m', '30 A, 6 mΩ', 'closed'])
      assert.ok(words.includes(value), value);
  }
});

const stylesOf = (drawing: Drawing, name: string): Set<string> =>
  new Set(
    drawing.parts
      .find((part) => part.name === name)
      ?.elements.flatMap((element) => ('style' in element ? [element.style] : [])),
  );

test('what carries current is heavy, what does not is thin: the pull-in winding in hold, everything when off', () => {
  for (const width of [90, 262]) {
    const at = (stage: CircuitCondition['stage']) =>
      drawCircuit(picture(railcar, { state: 'low', stage, coil: 'hot' }), { width });
    for (const name of ['winding-0', 'winding-1', 'out-1'])
      assert.ok(stylesOf(at('pull-in'), name).has('heavy'), `${name} in pull-in`);
    assert.ok(!stylesOf(at('hold'), 'winding-0').has('heavy'), 'the pull-in winding is dead in hold');
    assert.ok(stylesOf(at('hold'), 'winding-1').has('heavy'), 'the hold winding carries on');
    for (const name of ['winding-0', 'winding-1', 'out-1', 'back-0'])
      assert.ok(!stylesOf(at('off'), name).has('heavy'), `${name} when off`);
    assert.ok(!at('off').parts.some(({ name }) => name === 'current'), 'no wire carries current when off');
    assert.ok(!stylesOf(at('pull-in'), 'diode').has('heavy'), 'a diode that lies right carries nothing');
  }
});

test('narrow sheets fold the loop into a column, wide ones lay it out', () => {
  const seen = picture(railcar, { state: 'low', stage: 'pull-in', coil: 'hot' });
  const narrow = drawCircuit(seen, { width: 90 });
  const wide = drawCircuit(seen, { width: 262 });
  assert.ok(narrow.height > 2 * narrow.width && wide.width > 2 * wide.height, `${narrow.height}, ${wide.height}`);
});

test('whatever can be tapped lies on the sheet, is large enough for a finger, covers no other, and leads to a field that is there', () => {
  everywhere((drawing, where, job, seen) => {
    const { targets, width, height } = drawing;
    assert.ok(targets.length >= seen.out.length + seen.back.length + 3, where);
    targets.forEach(({ box, path, name }, i) => {
      assert.ok(
        box.left >= 0 && box.right <= width && box.bottom >= 0 && box.top <= height,
        `${where}: ${name} off the sheet`,
      );
      // 44 CSS pixels are 11.6 mm.
      assert.ok(Math.min(box.right - box.left, box.top - box.bottom) >= 11.6, `${where}: ${name} is too small`);
      for (const other of targets.slice(i + 1))
        assert.ok(!boxesOverlap(box, other.box), `${where}: ${name} and ${other.name}`);
      const optional = /^supply\.(resting|charging|low|cranking)$/.test(path);
      assert.ok(optional || valueAt(job, path) !== undefined, `${where}: ${path}`);
    });
  });
});

test('a name that is markup stays words', () => {
  const job = changed(railcar, { 'supply.contacts[0].name': '<b onload="x">&' });
  const text = svg(drawCircuit(picture(job, { state: 'low', stage: 'hold', coil: 'hot' }), { width: 262 }));
  assert.doesNotMatch(text, /<b /);
  assert.match(text, /&lt;b/);
});

test('whatever the names, no texts touch', () => {
  const name = fc.string({ minLength: 1, maxLength: 80, unit: 'grapheme' });
  fc.assert(
    fc.property(fc.array(name, { minLength: 1, maxLength: 6 }), fc.constantFrom(84, 100, 262), (names, width) => {
      const contacts = names.map((one, i) => ({
        name: one,
        kind: i === 0 ? 'relay' : 'connector',
        resistance: '3 mΩ',
      }));
      const job = altered(railcar, { 'supply.contacts': contacts });
      assert.deepEqual(
        touchingTexts(drawCircuit(picture(job, { state: 'low', stage: 'hold', coil: 'hot' }), { width })),
        [],
      );
    }),
    { numRuns: 100, seed: 20250301 },
  );
});

test('on paper it has caution and title block, and fits one sheet', () => {
  const fields = {
    owner: 'Volunteer workshop',
    job: 'Inspection railcar',
    digest: '3f9a 20c1 77be',
    revision: '4',
    date: '2025-03-01',
    drawnBy: 'Anna Tesk',
    checkedBy: '',
  };
  for (const name of ['railcar', 'pump house', 'economiser']) {
    const sheet = drawCircuitSheet(picture(jobs[name], { state: 'low', stage: 'pull-in', coil: 'hot' }), fields);
    assert.ok(sheet.fits, name);
    assert.deepEqual(touchingTexts(sheet), [], name);
    const words = textsOf(sheet).map(({ text }) => text);
    for (const one of ['3f9a 20c1 77be', '1 of 1', 'none', 'Circuit: pull-in, low battery, hot coil'])
      assert.ok(words.includes(one), `${name}: ${one}`);
    assert.match(words.join(' '), /Isolate fuel and battery/);
  }
});

test('golden: wide, folded, dark, inch, with stations', () => {
  const at = (name: string, stage: CircuitCondition['stage']) =>
    picture(jobs[name], { state: 'low', stage, coil: 'hot' });
  assertDrawn('circuit-railcar-pull-in', svg(drawCircuit(at('railcar', 'pull-in'), { width: 262 })));
  assertDrawn('circuit-railcar-off-narrow', svg(drawCircuit(at('railcar', 'off'), { width: 100 })));
  assertDrawn(
    'circuit-pump-house-hold-dark',
    svg(drawCircuit(at('pump house', 'hold'), { width: 90 }), { colours: 'dark' }),
  );
  assertDrawn('circuit-stations', svg(drawCircuit(at('stations', 'hold'), { width: 262, units: imperialUnits })));
  assertDrawn(
    'circuit-diode-wrong-way',
    svg(drawCircuit(at('single coil, diode wrong way', 'pull-in'), { width: 262 })),
  );
  assertDrawn('circuit-unknown', svg(drawCircuit(at('a length not measured', 'hold'), { width: 90 })));
});
