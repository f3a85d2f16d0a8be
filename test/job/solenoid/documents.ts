/** Solenoid documents for tests: the examples, and the reference geometries as a fitter would write them down. */
import { readFileSync } from 'node:fs';
import type { SolenoidDocument } from '../../../src/job/solenoid/schema.ts';
import { readSolenoid } from '../../../src/job/solenoid/read.ts';
import type { ReferenceCase } from '../../published/solenoid-reference.ts';

export const exampleNames = ['railcar', 'pump-house', 'ferry-spare'] as const;

export function exampleText(name: (typeof exampleNames)[number]): string {
  return readFileSync(new URL(`../../../examples/solenoid-${name}.json`, import.meta.url), 'utf8');
}

export function example(name: (typeof exampleNames)[number]): SolenoidDocument {
  const read = readSolenoid(exampleText(name));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.solenoid;
}

/** Metres as millimetres with what rounding leaves. */
const mm = (metres: number): string => `${Number((metres * 1e3).toPrecision(12))} mm`;

/** A reference geometry as a document: diameters for radii, depth below the top for the height of the face. */
export function referenceDocument({ name, solenoid, gaps }: ReferenceCase): SolenoidDocument {
  const { can, bottomPlate, topPlate, plunger, radialClearance, seat, coil } = solenoid;
  return {
    format: 'stopwright solenoid',
    version: 1,
    name,
    notes: '',
    can: { outsideDiameter: mm(2 * can.outerRadius), wall: mm(can.wall), length: mm(can.length) },
    plates: { bottom: mm(bottomPlate.thickness), top: mm(topPlate.thickness) },
    plunger: {
      diameter: mm(2 * plunger.radius),
      length: mm(plunger.length),
      stroke: mm(gaps[gaps.length - 1]),
      bore: 'none',
    },
    radialClearance: mm(radialClearance),
    seat: {
      diameter: mm(2 * seat.radius),
      faceBelowTop: mm(can.length - seat.faceHeight),
      shape:
        seat.cone === undefined
          ? { kind: 'flat' }
          : {
              kind: 'cone',
              includedAngle: `${Number(((seat.cone.includedAngle * 180) / Math.PI).toPrecision(12))}°`,
              tipDiameter: mm(2 * seat.cone.tipRadius),
            },
      residualShim: '0 mm',
    },
    guideTube: 'none',
    steel: { by: 'table', table: 'low-carbon steel plate' },
    coil: {
      insideDiameter: mm(2 * coil.innerRadius),
      outsideDiameter: mm(2 * coil.outerRadius),
      bottomCheek: mm(coil.bottom - bottomPlate.thickness),
      topCheek: mm(can.length - topPlate.thickness - coil.top),
      resistance: 'not measured',
      readAt: 'not measured',
      wireDiameter: 'not measured',
      turns: 'not measured',
      ratedVoltage: 'not measured',
    },
    pulls: [],
  };
}

/** A copy with other values at some paths (`seat.shape.kind`, `pulls.0.gap`); undefined takes a field away. */
export function changed(document: SolenoidDocument, edits: Readonly<Record<string, unknown>>): unknown {
  const copy = structuredClone(document) as unknown;
  for (const [path, value] of Object.entries(edits)) {
    const steps = path.split('.');
    const last = steps.pop()!;
    const place = steps.reduce((at, step) => (at as Record<string, unknown>)[step], copy) as Record<string, unknown>;
    if (value === undefined) delete place[last];
    else place[last] = value;
  }
  return copy;
}
