/** The map that a job keeps says the same as the solve that it came from. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mapPlan, mapSteps, type CoEnergyMap, type MapPlan } from '../../../src/assessment/solenoid/map.ts';
import { gridLinesOf } from '../../../src/assessment/time/magnet-of.ts';
import { solenoidBench } from '../../../src/assessment/solenoid/bench.ts';
import { trimmedCurve, trimSteps } from '../../../src/assessment/solenoid/curve.ts';
import { apply, change } from '../../../src/job/change.ts';
import { demoJobs } from '../../../src/job/demos.ts';
import { readJob, writeJob } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import type { SolenoidDocument } from '../../../src/job/solenoid/schema.ts';
import { coEnergySurface, surfaceAt } from '../../../src/physics/solenoid/field/co-energy-surface.ts';
import { fieldMap } from '../../../src/physics/solenoid/field/field-map.ts';
import { solenoidField } from '../../../src/physics/solenoid/field/solenoid-field.ts';
import { changed, example } from '../../job/solenoid/documents.ts';

const railcar = example('railcar');
const bench = solenoidBench(railcar);
const untouched = solenoidBench(changed(railcar, { pulls: [] }) as SolenoidDocument);

function last<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

const maps = last(trimSteps(bench));
const plan = mapPlan(untouched, null);
const plain = last(mapSteps(plan));
const fittedPlan = mapPlan(bench, maps);
/** Coarser, for its time. */
const coarse = (of: MapPlan): MapPlan => ({ ...of, request: { ...of.request, tolerance: 0.1, elementLength: 2 } });
const fitted = last(mapSteps(coarse(fittedPlan)));

/** Into a job with one winding, out as text, and back. */
function throughJob(map: CoEnergyMap): CoEnergyMap {
  const job = demoJobs.find(({ name }) => name === 'railcar')?.document as unknown as Job;
  const coil = { stages: 'single coil', resistance: '6.1 Ω', readAt: '20 °C' };
  const changes = [change(job, 'means.coil', coil), change(job, 'means.map', map)];
  const reading = readJob(writeJob(apply(job, changes)));
  assert.ok(reading.ok, JSON.stringify(reading));
  assert.ok(reading.job.means.kind === 'solenoid' && reading.job.means.map !== undefined);
  return reading.job.means.map;
}

test('the surface laid through the map of a job is the solved one to 1e-12', () => {
  const small = { ...plan.request, gaps: plan.request.gaps.slice(0, 3), tolerance: 0.1, checks: 0 };
  const solved = fieldMap(plan.dimensions, plan.steel, small).surface;
  const { lines, turns } = last(mapSteps({ ...plan, request: small }));
  const rebuilt = coEnergySurface(gridLinesOf(throughJob({ turns: [turns!], lines })));
  const [from, to] = [solved.gaps[0], solved.gaps[solved.gaps.length - 1]];
  for (let i = 0; i <= 40; i++)
    for (let k = 0; k <= 20; k++) {
      const [gap, level] = [from + ((to - from) * i) / 40, solved.mostAmpereTurns * (k / 20) ** 2];
      const [a, b] = [surfaceAt(solved, gap, level), surfaceAt(rebuilt, gap, level)];
      for (const of of ['coEnergy', 'fluxLinkage', 'force'] as const)
        assert.ok(
          Math.abs(a[of] - b[of]) <= 1e-12 * Math.abs(a[of]),
          `${of} at ${gap} m, ${level}: ${a[of]} and ${b[of]}`,
        );
    }
});

test('without pulls it is the field, solved anew between its gaps and levels: force within 1.5 %, flux linkage within 1 %', () => {
  const surface = coEnergySurface(gridLinesOf(plain));
  for (const gap of [0, 0.7e-3, 3.3e-3, 12.5e-3])
    for (const row of solenoidField(plan.dimensions, plan.steel, gap, [300, 900, 4000]).rows) {
      const found = surfaceAt(surface, gap, row.ampereTurns);
      const where = `${gap} m, ${row.ampereTurns}`;
      assert.ok(Math.abs(found.force / row.force - 1) < 0.015, `${where}: ${found.force} N for ${row.force} N`);
      assert.ok(
        Math.abs(found.fluxLinkage / row.fluxLinkage - 1) < 0.01,
        `${where}: ${found.fluxLinkage} Wb for ${row.fluxLinkage} Wb`,
      );
    }
  assert.ok(plain.estimatedError.force < 0.06 && plain.estimatedError.fluxLinkage < 0.03, JSON.stringify(plain));
});

test('with pulls it is the fitted solenoid: the force curve within its band, and not the one without pulls', () => {
  const surface = coEnergySurface(gridLinesOf(fitted));
  const drive = { by: 'voltage', voltage: 12, coilTemperature: 293.15 } as const;
  const curve = trimmedCurve(bench, maps, drive);
  assert.ok(curve.ok);
  const flowing = (curve.ampereTurns / bench.winding!.turns) * fitted.turns!;
  curve.gap_mm.forEach((gap_mm, i) => {
    const { force } = surfaceAt(surface, Math.min(gap_mm / 1e3, bench.stroke!), flowing);
    assert.ok(
      force > 0.97 * curve.low95_N[i] && force < 1.03 * curve.high95_N[i],
      `${gap_mm} mm: ${force} N, ${curve.low95_N[i]} to ${curve.high95_N[i]} N`,
    );
  });
  assert.notEqual(fittedPlan.key, plan.key);
  assert.equal(mapPlan(bench, structuredClone(maps)).key, fittedPlan.key);
});

test('the map covers the whole stroke and the strongest current, and a document has room for it', () => {
  for (const { lines } of [fitted, plain]) {
    assert.deepEqual([lines[0].gap_m, lines[lines.length - 1].gap_m, lines.length], [0, bench.stroke, 12]);
    const levels = lines[0].ampereTurns;
    assert.ok(levels[levels.length - 1] >= bench.mostAmpereTurns!);
    assert.ok(JSON.stringify(lines).length < 40_000, `${JSON.stringify(lines).length}`);
  }
});

test('turns are those of the winding as the pulls leave them; unknown turns stay unknown', () => {
  assert.equal(plain.turns, Number(untouched.winding!.turns.toPrecision(6)));
  assert.notEqual(fitted.turns, plain.turns);
  assert.ok(Math.abs(fitted.turns! / plain.turns - 1) < 0.2, `${fitted.turns} and ${plain.turns}`);
  const copy = structuredClone(railcar);
  const unread = { turns: 'not measured', resistance: 'not measured', wireDiameter: 'not measured' } as const;
  const unknown = solenoidBench({ ...copy, pulls: [], coil: { ...copy.coil, ...unread } });
  assert.equal(mapPlan(unknown, null).turns, null);
});
