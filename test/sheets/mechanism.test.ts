import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import type { MechanismPicture } from '../../src/assessment/picture.ts';
import type { Drawing } from '../../src/sheets/drawing.ts';
import { drawMechanism, fromSheet, toSheet } from '../../src/sheets/mechanism.ts';
import { svg } from '../../src/sheets/svg.ts';
import { imperialUnits } from '../../src/units/display.ts';
import { assertDrawn } from './golden.ts';
import { invent, unmeasured, type Invention } from './pictures.ts';
import { textsOf, touchingTexts } from './touching.ts';

const kinds = ['slotted lever', 'pinned link', 'short chain', 'plain pin'] as const;

const inventions: fc.Arbitrary<Invention> = fc
  .record({
    connection: fc.constantFrom(...kinds),
    stroke: fc.integer({ min: 8, max: 45 }),
    share: fc.integer({ min: 0, max: 20 }),
    armRadius: fc.integer({ min: 30, max: 120 }),
    action: fc.constantFrom('pull', 'push'),
    works: fc.constantFrom('energise to stop', 'energise to run'),
    actuator: fc.constantFrom('solenoid', 'solenoid', 'hand cable', 'air cylinder'),
    turn: fc.integer({ min: -31, max: 31 }),
    mirrored: fc.boolean(),
    springOnPlunger: fc.boolean(),
  })
  .map(({ stroke, share, armRadius, turn, ...rest }) => ({
    ...rest,
    stroke: stroke / 1000,
    gap: (stroke / 1000) * (share / 20),
    armRadius: armRadius / 1000,
    turn: turn / 10,
  }));

const sheets = fc.constantFrom(
  {},
  { width: 120, height: 120 },
  { width: 287, height: 200, scales: 'standard' as const },
);

test('golden: four connections, both actions, turned and mirrored, imperial, small, dark, unmeasured', () => {
  const drawings: [string, string][] = [
    ['slotted-lever', svg(drawMechanism(invent({ connection: 'slotted lever', gap: 0.0122 })))],
    [
      'slotted-lever-home-dark',
      svg(drawMechanism(invent({ connection: 'slotted lever', gap: 0 })), { colours: 'dark' }),
    ],
    ['pinned-link', svg(drawMechanism(invent({ connection: 'pinned link', gap: 0.0042, overTravel: 0.0012 })))],
    ['short-chain-mirrored', svg(drawMechanism(invent({ connection: 'short chain', gap: 0.0042, mirrored: true })))],
    [
      'plain-pin-turned',
      svg(drawMechanism(invent({ connection: 'plain pin', gap: 0.0142, turn: 1.1, springOnPlunger: true }))),
    ],
    [
      'push-to-run-imperial',
      svg(
        drawMechanism(invent({ connection: 'slotted lever', gap: 0.0142, action: 'push', works: 'energise to run' }), {
          units: imperialUnits,
        }),
      ),
    ],
    [
      'hand-cable-to-standard-scale',
      svg(
        drawMechanism(invent({ connection: 'short chain', gap: 0.0142, actuator: 'hand cable', works: 'by hand' }), {
          scales: 'standard',
          width: 287,
          height: 200,
        }),
      ),
    ],
    [
      'small-sheet',
      svg(drawMechanism(invent({ connection: 'slotted lever', gap: 0.0122 }), { width: 110, height: 110 })),
    ],
    ['unmeasured', svg(drawMechanism(unmeasured))],
  ];
  for (const [name, drawn] of drawings) assertDrawn(`mechanism-${name}`, drawn);
});

test('no text covers another or leaves the sheet', () => {
  fc.assert(
    fc.property(inventions, sheets, (invention, options) => {
      assert.deepEqual(touchingTexts(drawMechanism(invent(invention), options)), []);
    }),
    { seed: 20, numRuns: 400 },
  );
});

test('scale, frame and labels stand still while the plunger travels', () => {
  fc.assert(
    fc.property(inventions, (invention) => {
      const places = (gap: number): { frame: unknown; labels: Record<string, unknown> } => {
        const drawing = drawMechanism(invent({ ...invention, gap }));
        const labels = drawing.parts.filter(({ name }) => name.startsWith('label-'));
        const at = labels.map(({ name, elements }) => {
          const words = elements.find((element) => element.kind === 'text');
          return [name, words && { x: words.at.x.toFixed(6), y: words.at.y.toFixed(6) }] as const;
        });
        return { frame: near(drawing.frame), labels: Object.fromEntries(at) };
      };
      const stroke = invention.stroke ?? 0.03;
      const [home, near_] = [places(stroke * 0.3), places(stroke * 0.4)];
      assert.deepEqual(home, near_);
    }),
    { seed: 21, numRuns: 100 },
  );
});

test('whatever is missing or broken, every attribute is a number and nothing is thrown', () => {
  const broken = fc.constantFrom(null, NaN, Infinity, -Infinity, 0, -1, 1e-12, 10);
  fc.assert(
    fc.property(
      inventions,
      fc.array(fc.tuple(fc.nat(70), broken), { maxLength: 12 }),
      sheets,
      (invention, breaks, options) => {
        const picture = withBreaks(invent(invention), breaks);
        const file = svg(drawMechanism(picture, options));
        assert.doesNotMatch(file, /NaN|Infinity|undefined|null/);
      },
    ),
    { seed: 22, numRuns: 1000 },
  );
});

test('what is not measured is said, and what is known is still drawn', () => {
  const picture = { ...invent({ connection: 'slotted lever', gap: 0.01 }), homePin: null };
  const drawing = drawMechanism({ ...picture, now: { ...picture.now, pin: null }, home: null, rest: null });
  assert.ok(textsOf(drawing).some(({ text }) => text === 'Not measured: place of the home pin'));
  assert.ok(drawing.sentences.some((sentence) => sentence === 'Not measured: place of the home pin.'));
  assert.ok(drawing.parts.some(({ name, elements }) => name === 'lever' && elements.length > 0));
  assert.ok(
    textsOf(drawMechanism({ ...picture, trouble: 'The link does not reach.' })).some(
      ({ text }) => text === 'The link does not reach.',
    ),
  );
});

test('handles stand on what they move, in the frame of the job', () => {
  const picture = invent({ connection: 'slotted lever', gap: 0.0122, turn: 0.4 });
  const { handles, frame } = drawMechanism(picture);
  const at = (moves: string | null): { x: number; y: number } => {
    const handle = handles.find((candidate) => candidate.moves === moves);
    assert.ok(handle, `no handle moves ${moves}`);
    return fromSheet(frame, handle);
  };
  const close = (a: { x: number; y: number }, b: { x: number; y: number } | null): void => {
    assert.ok(b !== null && Math.hypot(a.x - b.x, a.y - b.y) < 1e-9);
  };
  close(at('layout.homePin'), picture.homePin);
  close(at(null), picture.now.pin);
  close(at('return.springs[0].anchor'), picture.springs[0]?.from ?? null);
  assert.ok(Math.abs(Math.hypot(at('layout.connection.slotTo').x, at('layout.connection.slotTo').y) - 0.062) < 1e-9);
  const direction = handles.find(({ moves }) => moves === 'layout.pullDirection');
  assert.ok(direction);
  const read = Math.atan2(direction.y - direction.about.y, direction.x - direction.about.x) + direction.add;
  assert.ok(Math.abs(Math.sin(read - (picture.pullDirection ?? 0))) < 1e-9);
  assert.ok(Math.cos(read - (picture.pullDirection ?? 0)) > 0);
});

test('the pull direction can be read off its handle where a rod pushes', () => {
  const picture = invent({ connection: 'pinned link', gap: 0.01, action: 'push', turn: 2 });
  const direction = drawMechanism(picture).handles.find(({ moves }) => moves === 'layout.pullDirection');
  assert.ok(direction);
  const read = Math.atan2(direction.y - direction.about.y, direction.x - direction.about.x) + direction.add;
  assert.ok(Math.cos(read - (picture.pullDirection ?? 0)) > 1 - 1e-9);
});

test('true scale: pin, slot and gap measure on the sheet what they measure on the engine', () => {
  const picture = invent({ connection: 'slotted lever', gap: 0.0122 });
  const drawing = drawMechanism(picture, { scales: 'standard', width: 297, height: 210 });
  assert.equal(drawing.frame.scale, 1);
  const pin = drawing.parts.find(({ name }) => name === 'connection')?.elements[0];
  assert.ok(pin?.kind === 'circle');
  assert.ok(Math.abs(pin.radius - 4) < 1e-9);
  const place = toSheet(drawing.frame, picture.now.pin ?? { x: 0, y: 0 });
  assert.ok(Math.hypot(pin.centre.x - place.x, pin.centre.y - place.y) < 1e-9);
  const dimension = drawing.parts.find(({ name }) => name === 'gap')?.elements.find((element, i) => i === 2);
  assert.ok(dimension?.kind === 'line');
  assert.ok(Math.abs(Math.hypot(dimension.to.x - dimension.from.x, dimension.to.y - dimension.from.y) - 12.2) < 1e-9);
});

test('mirrored and turned, the same lines come out mirrored and turned', () => {
  // Part by part, the count of elements does not depend on which way the installation stands.
  const frame = { scale: 1, origin: { x: 100, y: 65 } };
  const count = (invention: Invention): string => shape(drawMechanism(invent(invention), { frame }));
  fc.assert(
    fc.property(inventions, (invention) => {
      assert.equal(count({ ...invention, turn: 0, mirrored: false }), count({ ...invention, turn: 1, mirrored: true }));
    }),
    { seed: 23, numRuns: 100 },
  );
});

function shape({ parts }: Drawing): string {
  return parts
    .filter(({ name }) => ['lever', 'plunger', 'connection', 'stops', 'shaft', 'force-pull', 'spring-1'].includes(name))
    .map(({ name, elements }) => `${name} ${elements.map(({ kind }) => kind).join(' ')}`)
    .join('\n');
}

const near = (frame: { scale: number; origin: { x: number; y: number } }): string =>
  [frame.scale, frame.origin.x, frame.origin.y].map((value) => value.toFixed(6)).join(' ');

/** The picture with some of its numbers, picked by order, replaced. */
function withBreaks(
  picture: MechanismPicture,
  breaks: readonly (readonly [number, number | null])[],
): MechanismPicture {
  const replaced = new Map(breaks);
  let order = 0;
  const walk = (value: unknown): unknown => {
    if (typeof value === 'number') {
      const next = replaced.get(order++);
      return next === undefined ? value : next;
    }
    if (Array.isArray(value)) return value.map((item) => walk(item));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, walk(inner)]));
  };
  return walk(picture) as MechanismPicture;
}
