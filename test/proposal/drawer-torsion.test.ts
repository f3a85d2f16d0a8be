/** Torsion springs of the drawer and to order, round the shaft: none missed, margins as assessed, coils reckoned anew. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { relativeMargin } from '../../src/assessment/finding.ts';
import { rigOf, type SolenoidJob } from '../../src/assessment/rig.ts';
import { windowChecks } from '../../src/assessment/window/kinds.ts';
import { lineIn } from '../../src/assessment/window/line.ts';
import { windowOf } from '../../src/assessment/window/window.ts';
import { apply } from '../../src/job/change.ts';
import { readDrawer, readDrawerDocument, writeDrawer } from '../../src/job/drawer/read.ts';
import type { Drawer, TorsionInHand } from '../../src/job/drawer/schema.ts';
import { readJob, writeJob } from '../../src/job/read.ts';
import { shaftSpringMoment } from '../../src/physics/spring/torsion.ts';
import { elasticModulus, wireStrength } from '../../src/physics/spring/wire.ts';
import { fitting } from '../../src/proposal/drawer.ts';
import { fitted, targetsOf } from '../../src/proposal/drawer-mounts.ts';
import { springToOrder } from '../../src/proposal/drawer-order.ts';
import { closingWords, mountWords, specificationRows } from '../../src/proposal/drawer-words.ts';
import { metricUnits } from '../../src/units/quantity.ts';
import { changed, demo } from '../job/jobs.ts';

const present = {
  on: 'shaft',
  name: 'Torsion spring',
  kind: 'torsion',
  towards: 'run',
  spring: { by: 'rate', rate: '8 N mm/°', freeAngle: '40°', limitAngle: '140°' },
};
const railcar = demo('railcar') as SolenoidJob;
const shaft = changed(railcar, { 'return.springs': [present] }) as SolenoidJob;
const pumpHouse = demo('pump-house') as SolenoidJob;

const holding = (springs: Drawer['springs'], places?: Drawer['places']): Drawer => ({
  format: 'stopwright drawer',
  version: 1,
  name: 'Torsion springs',
  notes: '',
  springs,
  solenoids: [],
  cables: [],
  ...(places === undefined ? {} : { places }),
});

const rated = (name: string, rate: number, most = 200): TorsionInHand => ({
  name,
  kind: 'torsion',
  spring: { by: 'rate', rate: `${rate} N mm/°`, mostWound: `${most}°` },
});
const wound = (name: string, wire: number, outside: number, turns: number): TorsionInHand => ({
  name,
  kind: 'torsion',
  spring: {
    by: 'dimensions',
    wire: 'EN 10270-1 SH',
    wireDiameter: `${wire} mm`,
    outsideDiameter: `${outside} mm`,
    activeTurns: `${turns}`,
  },
});
const readings: TorsionInHand = {
  name: 'by two readings',
  kind: 'torsion',
  spring: {
    by: 'two readings',
    first: { wound: '30°', moment: '180 N mm' },
    second: { wound: '90°', moment: '540 N mm' },
    mostWound: '170°',
  },
};

test('against every setting of the legs assessed one by one: none that holds is missed, none that does not is kept', () => {
  const springs = [
    ...[1, 3, 5, 6.5, 8, 10, 13, 17].map((rate) => rated(`rate ${rate}`, rate)),
    rated('soon at its end', 7, 60),
    ...[2, 2.5, 3].flatMap((d) => [6, 10].map((n) => wound(`wire ${d}, ${n} turns`, d, 24, n))),
    readings,
  ];
  const ids: ReadonlySet<string> = new Set([...windowChecks, 'spring-1', 'full-current-ends', 'side-load']);
  let [kept, out] = [0, 0];
  for (const job of [
    shaft,
    changed(pumpHouse, {
      'return.springs': [
        { ...present, towards: 'stop', spring: { ...present.spring, freeAngle: '60°', limitAngle: '200°' } },
      ],
    }) as SolenoidJob,
  ]) {
    const drawer = holding(springs);
    const { fits, misfits } = fitting(job, drawer);
    const [target] = targetsOf(job, drawer, null);
    assert.equal(target.question.on, 'shaft');
    springs.forEach((spring, i) => {
      let best = -Infinity;
      for (const mount of target.mounts) {
        const { findings } = assess(apply(job, [fitted(job, spring, mount)!]), metricUnits, 'at rest');
        best = Math.max(best, Math.min(...findings.filter(({ id }) => ids.has(id)).map(relativeMargin)));
      }
      const fit = fits.find((one) => one.spring === i);
      if (Math.abs(best - 1) > 0.01) assert.equal(fit !== undefined, best > 1, `${spring.name}: best ${best}`);
      if (fit !== undefined) assert.ok(fit.least >= best - 0.01, `${spring.name}: ${fit.least}, best ${best}`);
      const misfit = misfits.find((one) => one.spring === i);
      assert.ok(fit !== undefined || misfit !== undefined, `${spring.name} says why it is out`);
      if (misfit !== undefined)
        assert.doesNotMatch(closingWords(misfit.closing, 'moment', metricUnits), /NaN|Infinity|undefined/);
    });
    kept += fits.length;
    out += misfits.length;
    for (const fit of fits) {
      const read = readJob(writeJob(apply(job, fit.changes)));
      assert.ok(read.ok, fit.name);
      const { findings } = assess(read.job);
      for (const { id, margin } of fit.margins)
        assert.equal(findings.find((one) => one.id === id)!.margin, margin, `${fit.name}: ${id}`);
      assert.match(mountWords(fit.mount, metricUnits), /Round the shaft, its legs at rest at a shaft angle of .*°/);
    }
  }
  assert.ok(kept > 4 && out > 4, `${kept} in, ${out} out`);
});

test('what is kept out says by what: shaft, room, winding, stress', () => {
  const places = { shaft: { diameter: '14 mm', outsideMost: '30 mm' } };
  const { misfits } = fitting(
    shaft,
    holding(
      [wound('narrow', 2, 17, 8), wound('wide', 2.5, 34, 6), rated('stiff', 60), rated('soon at its end', 8, 20)],
      places,
    ),
  );
  const by = Object.fromEntries(misfits.map(({ name, closing }) => [name, closing.by]));
  assert.deepEqual([by['narrow'], by['wide'], by['stiff']], ['room', 'room', 'ceiling']);
  assert.ok(by['soon at its end'] === 'length' || by['soon at its end'] === 'floor', by['soon at its end']);
  const words = misfits.map(({ closing }) => closingWords(closing, 'moment', metricUnits)).join('; ');
  assert.match(words, /goes over .* at most, and the shaft is 14 mm/);
});

test('beside a spring on the lever it is one more, where the room round the shaft is told, and not without', () => {
  const weak = changed(railcar, {
    'return.springs[0].spring': {
      by: 'rate',
      rate: '0.3 N/mm',
      freeLength: '60 mm',
      initialTension: '0 N',
      limitLength: '140 mm',
    },
  }) as SolenoidJob;
  const springs = [2, 3, 4, 5, 6, 7, 8].map((rate) => rated(`rate ${rate}`, rate));
  const without = fitting(weak, holding(springs));
  assert.deepEqual(new Set(without.misfits.map(({ closing }) => closing.by)), new Set(['no place']));
  const { fits } = fitting(weak, holding(springs, { shaft: { diameter: '14 mm', outsideMost: '60 mm' } }));
  assert.ok(fits.length > 0, 'some fit');
  for (const { changes } of fits) assert.equal(apply(weak, changes).return.springs.length, 2);
});

test('to order: the coil has the rate, stress and moments that are told, lies in the window and keeps its margins', () => {
  const places = { shaft: { diameter: '14 mm', outsideMost: '60 mm' } };
  const { offers, closed, asked, question } = springToOrder(shaft, places);
  assert.ok(closed === null && offers.length > 0 && asked?.kind === 'torsion', JSON.stringify(closed));
  for (const { offer, fit, mount } of offers) {
    const made = offer.specification;
    assert.ok(made.kind === 'torsion' && mount.on === 'shaft');
    const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n } = made;
    // M/α = E d⁴ / (64 D n) and σ = 32 M / (π d³), EN 13906-3:2014, written out.
    const rate = (elasticModulus(made.wire) * d ** 4) / (64 * D * n);
    assert.ok(Math.abs(made.rate - rate) < 1e-9 * rate, 'rate');
    for (const { wound: angle, moment, stress } of made.loads) {
      assert.ok(Math.abs(moment - rate * angle) < 1e-9, 'moment');
      assert.ok(Math.abs(stress - (32 * moment) / (Math.PI * d ** 3)) < 1, 'stress');
      assert.ok(stress <= (0.7 * wireStrength(made.wire, d)) / 1.1 + 1, 'a tenth is kept back');
    }
    const most = made.loads[1].wound;
    const narrow = (D * n) / (n + most / (2 * Math.PI)) - d;
    assert.ok(Math.abs(made.mandrelMost - 0.95 * narrow) < 1e-9 && made.mandrelMost >= 0.014, 'it goes over the shaft');
    assert.ok(D / d >= 4 - 1e-9 && D / d <= 16 + 1e-9 && Number.isInteger(4 * n), `${D / d}, ${n} turns`);
    const read = readJob(writeJob(apply(shaft, fit.changes)));
    assert.ok(read.ok, 'it reads');
    const after = read.job as SolenoidJob;
    const line = lineIn(after, windowOf(after, question))!;
    assert.ok(line.toFloor!.distance >= 0 && line.toCeiling!.distance >= 0, 'inside');
    const { findings, verdict } = assess(after);
    assert.equal(verdict, fit.verdict);
    assert.equal(relativeMargin(findings.find(({ id }) => id === fit.decidedBy)!), fit.least);
    assert.ok(fit.least >= 1 - 1e-6, `${fit.least}`);
    // With the plunger out it gives the moment that is told.
    const rig = rigOf(after);
    const rest = windowOf(after, question).scenes[0].stations.at(-1)!.shaftAngle;
    const given = Math.abs(shaftSpringMoment(rig.shaftSprings[0].onShaft, rest));
    assert.ok(Math.abs(given - made.loads[0].moment) < 2e-3 * given + 1e-6, `${given}, said ${made.loads[0].moment}`);
    const rows = new Map(specificationRows(made, metricUnits));
    for (const row of [
      'Wire',
      'Outside diameter',
      'Turns',
      'Load M1',
      'Load M2',
      'Rate',
      'Goes over',
      'Length of body',
    ])
      assert.ok(rows.has(row), row);
  }
  // No coil goes over a shaft as thick as the room.
  const tight = springToOrder(shaft, { shaft: { diameter: '40 mm', outsideMost: '41 mm' } });
  assert.deepEqual([tight.offers, tight.closed], [[], 'no torsion spring']);
});

test('a drawer of torsion springs is written and read; readings that contradict each other are refused', () => {
  const drawer = holding([rated('a', 5), wound('b', 2, 20, 6), readings], {
    shaft: { diameter: '14 mm', outsideMost: '30 mm' },
  });
  const read = readDrawer(writeDrawer(drawer));
  assert.ok(read.ok, JSON.stringify(read));
  assert.deepEqual(read.drawer, drawer);
  const wrong = (spring: unknown) => {
    const refused = readDrawerDocument(holding([{ name: 'x', kind: 'torsion', spring } as TorsionInHand]));
    return refused.ok ? [] : refused.problems.map(({ path }) => path);
  };
  const [first, second] = [
    { wound: '30°', moment: '180 N mm' },
    { wound: '90°', moment: '90 N mm' },
  ];
  assert.deepEqual(wrong({ by: 'two readings', first, second, mostWound: '170°' }), [
    'springs[0].spring.second.moment',
  ]);
  assert.deepEqual(wrong({ by: 'two readings', first, second: first, mostWound: '170°' }), [
    'springs[0].spring.second.wound',
  ]);
  assert.deepEqual(
    wrong({ by: 'dimensions', wire: 'EN 10270-1 SH', wireDiameter: '4 mm', outsideDiameter: '9 mm', activeTurns: '5' }),
    ['springs[0].spring.outsideDiameter'],
  );
});
