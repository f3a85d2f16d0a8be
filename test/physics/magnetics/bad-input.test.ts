import assert from 'node:assert/strict';
import { test } from 'node:test';
import { prepareField } from '../../../src/physics/magnetics/field.ts';
import { displacementShares } from '../../../src/physics/magnetics/force.ts';
import { meshRegions } from '../../../src/physics/magnetics/mesh.ts';
import type { Point } from '../../../src/physics/magnetics/outline.ts';
import type { FieldProblem, FieldRegion } from '../../../src/physics/magnetics/problem.ts';

const ring = (inner: number, outer: number, bottom: number, top: number): Point[] => [
  [inner, bottom],
  [outer, bottom],
  [outer, top],
  [inner, top],
];
const open = { kind: 'open' } as const;
const iron = { relativePermeability: 1000 };
const problem = (...regions: FieldRegion[]): FieldProblem => ({ regions, surroundings: open });
const refused = (code: string, word: RegExp, build: () => unknown): void =>
  assert.throws(build, { name: 'DomainError', code, message: word });

test('outlines without meaning are refused by name', () => {
  refused('SW-M010', /"stub" needs three corners/, () =>
    prepareField(
      problem({
        name: 'stub',
        outline: [
          [0, 0],
          [1, 1],
        ],
        material: iron,
      }),
    ),
  );
  refused('SW-M010', /NaN/, () =>
    prepareField(
      problem({
        name: 'a',
        outline: [
          [0, 0],
          [1, 0],
          [Number.NaN, 1],
        ],
        material: iron,
      }),
    ),
  );
  refused('SW-M010', /left of the axis/, () =>
    prepareField(
      problem({
        name: 'a',
        outline: [
          [-0.01, 0],
          [0.01, 0],
          [0.01, 0.01],
        ],
        material: iron,
      }),
    ),
  );
  refused('SW-M010', /no region/, () => prepareField(problem()));
  refused('SW-M011', /"foil" has no thickness/, () =>
    prepareField(problem({ name: 'foil', outline: ring(0.01, 0.01, 0, 0.05), material: iron })),
  );
  refused('SW-M012', /crosses itself/, () =>
    prepareField(
      problem({
        name: 'bow',
        outline: [
          [0, 0],
          [0.02, 0.012],
          [0.02, 0],
          [0, 0.01],
        ],
        material: iron,
      }),
    ),
  );
});

test('overlapping regions are refused, whichever way they overlap', () => {
  const big: FieldRegion = { name: 'big', outline: ring(0.01, 0.03, 0, 0.03), material: iron };
  for (const outline of [
    ring(0.02, 0.04, 0.01, 0.04),
    ring(0.015, 0.025, 0.01, 0.02),
    ring(0.005, 0.04, 0.01, 0.02),
    ring(0.01, 0.03, 0, 0.03),
    ring(0.01, 0.03, 0, 0.02),
  ])
    refused('SW-M013', /overlap/, () => prepareField(problem(big, { name: 'other', outline, material: iron })));
  // Sharing an edge, or part of one, is no overlap.
  assert.ok(
    prepareField(problem(big, { name: 'neighbour', outline: ring(0.03, 0.04, 0.01, 0.05), material: iron })).mesh.nodes
      > 50,
  );
});

test('a kilometre and a nanometre are refused', () => {
  for (const size of [1000, 1e-9])
    refused('SW-M014', /meant for 0.1 mm to 10 m/, () =>
      prepareField(problem({ name: 'a', outline: ring(0, size, 0, size), material: iron })),
    );
});

test('element lengths, permeabilities and ampere-turns out of range are refused', () => {
  const coil: FieldRegion = { name: 'c', outline: ring(0.01, 0.02, 0, 0.02), material: 'air', winding: 'coil' };
  for (const length of [0, -1, 100, Number.NaN])
    refused('SW-M015', /element length/, () => prepareField(problem(coil), length));
  for (const relativePermeability of [0, -5, Number.NaN, Infinity])
    refused('SW-M018', /permeability of region "c"/, () =>
      prepareField(problem({ ...coil, material: { relativePermeability } })),
    );
  const field = prepareField(problem(coil));
  for (const turns of [Number.NaN, Infinity, 1e9])
    refused('SW-M017', /ampere-turns of winding "coil"/, () => field.solve({ coil: turns }));
  refused('SW-M017', /no region belongs to a winding "spool"; there are: coil/, () => field.solve({ spool: 1 }));
});

test('a moving part that touches a fixed one is refused', () => {
  refused('SW-M016', /touches/, () =>
    prepareField(
      problem(
        { name: 'a', outline: ring(0, 0.01, 0, 0.01), material: iron },
        { name: 'b', outline: ring(0, 0.01, 0.01, 0.02), material: iron, moving: true },
      ),
    ),
  );
});

test('the mesh covers its regions exactly, without inverted elements, and shares run from 0 to 1', () => {
  const regions: FieldRegion[] = [
    { name: 'core', outline: ring(0, 0.01, 0, 0.02), material: iron },
    {
      name: 'cone',
      outline: [
        [0, 0.0205],
        [0.01, 0.021],
        [0.01, 0.04],
        [0, 0.04],
      ],
      material: iron,
      moving: true,
    },
    { name: 'ring', outline: ring(0.0101, 0.02, 0.01, 0.03), material: iron },
  ];
  for (const scale of [0.5, 1, 2]) {
    const mesh = meshRegions(
      regions.map((r) => ({ ...r, permeable: true })),
      open,
      scale,
    );
    const area = [0, 0, 0];
    for (let e = 0; e < mesh.region.length; e++) {
      const [a, b, c] = [0, 1, 2].map((k) => 2 * mesh.triangles[6 * e + k]);
      const x = mesh.coordinates;
      const twice = (x[b] - x[a]) * (x[c + 1] - x[a + 1]) - (x[c] - x[a]) * (x[b + 1] - x[a + 1]);
      assert.ok(twice > 0);
      if (mesh.region[e] >= 0) area[mesh.region[e]] += twice / 2;
    }
    [0.0002, 0.0195e-2 - 0.0005e-2 / 2, 0.0099 * 0.02].forEach((expected, i) =>
      assert.ok(Math.abs(area[i] / expected - 1) < 1e-9, `region ${i}: ${area[i]}`),
    );
    const shares = displacementShares(mesh, regions);
    assert.ok(shares.every((s) => s >= 0 && s <= 1) && shares.includes(1) && shares.includes(0));
  }
});
