/** A plunger solenoid that is known by its readings: what is read comes back, what is not read is not said. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../../src/physics/domain-error.ts';
import {
  forceTable,
  READ_FACTOR,
  tableForce,
  tableForces,
  type Caution,
  type ForceLevel,
} from '../../../src/physics/solenoid/table.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);

/** Readings as solenoids give them: pull falling with the gap, at one or two currents; the second is `apart` times the first. */
const tables = fc
  .record({
    rows: fc.array(fc.record({ step: share, fall: share }), { minLength: 2, maxLength: 8 }),
    start: share,
    atHome: share,
    current: share,
    apart: share,
    exponent: share,
    both: fc.boolean(),
  })
  .map(({ rows, start, atHome, current, apart, exponent, both }) => {
    let gap = start < 0.5 ? 0 : start * 1e-3;
    let force = 20 + 300 * atHome;
    const gaps: number[] = [];
    const forces: number[] = [];
    for (const { step, fall } of rows) {
      gaps.push(gap);
      forces.push(force);
      gap += 5e-4 + 5e-3 * step;
      force *= 0.4 + 0.55 * fall;
    }
    const low: ForceLevel = { current: 0.5 + 20 * current, gaps, forces };
    const ratio = 1.05 + 1.15 * apart;
    const high: ForceLevel = {
      current: low.current * ratio,
      gaps,
      // The exponent falls towards home, where the steel saturates first.
      forces: forces.map((value, i) => value * ratio ** ((exponent * 2 * (i + 1)) / forces.length)),
    };
    return { levels: both ? [low, high] : [low], low, high, ratio, both };
  });
const cautions: readonly Caution[] = ['least', 'greatest'];

/** A gap somewhere between the first and the last that were read. */
const within = ({ gaps }: ForceLevel, at: number) => gaps[0] + at * (gaps[gaps.length - 1] - gaps[0]);

test('every reading comes back, on either side of caution', () => {
  fc.assert(
    fc.property(tables, ({ levels }) => {
      const table = forceTable([...levels].reverse());
      for (const { current, gaps, forces } of levels) {
        for (const [i, gap] of gaps.entries()) {
          for (const caution of cautions) {
            assert.equal(Math.abs(tableForce(table, gap, current, caution) / forces[i] - 1) < 1e-12, true);
          }
        }
      }
    }),
    { numRuns: 200, seed: 1 },
  );
});

test('between gaps the pull stays between its neighbours and falls with the gap as the readings do', () => {
  fc.assert(
    fc.property(tables, share, share, ({ low, levels }, a, b) => {
      const table = forceTable(levels);
      const [near, far] = [within(low, Math.min(a, b)), within(low, Math.max(a, b))];
      const pull = (gap: number) => tableForce(table, gap, low.current, 'least');
      assert.equal(pull(near) >= pull(far) * (1 - 1e-12), true);
      assert.equal(pull(near) <= low.forces[0] * (1 + 1e-12), true);
      assert.equal(pull(far) >= low.forces[low.forces.length - 1] * (1 - 1e-12), true);
    }),
    { numRuns: 300, seed: 2 },
  );
});

test('at one current that was read: 2.15 downward and 0 upward for the least, the other way round for the greatest', () => {
  fc.assert(
    fc.property(tables, share, ({ low }, at) => {
      const table = forceTable([low]);
      const gap = within(low, at);
      const read = tableForce(table, gap, low.current, 'least');
      const pull = (ratio: number, caution: Caution) => tableForce(table, gap, ratio * low.current, caution) / read;
      for (const ratio of [0.7, 0.85, 0.99]) {
        assert.equal(Math.abs(pull(ratio, 'least') / ratio ** 2.15 - 1) < 1e-12, true);
        assert.equal(Math.abs(pull(ratio, 'greatest') - 1) < 1e-12, true);
      }
      for (const ratio of [1.01, 1.2, 1.5]) {
        assert.equal(Math.abs(pull(ratio, 'least') - 1) < 1e-12, true);
        assert.equal(Math.abs(pull(ratio, 'greatest') / ratio ** 2.15 - 1) < 1e-12, true);
      }
    }),
    { numRuns: 100, seed: 3 },
  );
});

test('least is never more than greatest, and both rise with the current', () => {
  fc.assert(
    fc.property(tables, share, share, share, ({ low, high, both, levels }, at, a, b) => {
      const table = forceTable(levels);
      const gap = within(low, at);
      const top = (both ? high : low).current;
      const place = (n: number) => (low.current / READ_FACTOR) * ((top * READ_FACTOR ** 2) / low.current) ** n;
      const [little, much] = [place(Math.min(a, b)), place(Math.max(a, b))];
      for (const current of [little, much]) {
        const [least, greatest] = cautions.map((caution) => tableForce(table, gap, current, caution));
        assert.ok(least <= greatest * (1 + 1e-12), `${current} A: least ${least}, greatest ${greatest}`);
      }
      for (const caution of cautions) {
        const [less, more] = [little, much].map((current) => tableForce(table, gap, current, caution));
        assert.ok(less <= more * (1 + 1e-12), `${caution}: ${less} N at ${little} A, ${more} N at ${much} A`);
      }
    }),
    { numRuns: 500, seed: 4 },
  );
});

test('between two currents one exponent reproduces both', () => {
  fc.assert(
    fc.property(tables, share, share, ({ low, high, ratio }, at, part) => {
      const table = forceTable([low, high]);
      const gap = within(low, at);
      const [below, above] = [low, high].map(({ current }) => tableForce(table, gap, current, 'least'));
      const exponent = Math.log(above / below) / Math.log(ratio);
      const current = low.current * ratio ** part;
      for (const caution of cautions) {
        const expected = below * (current / low.current) ** exponent;
        assert.equal(Math.abs(tableForce(table, gap, current, caution) / expected - 1) < 1e-9, true);
      }
    }),
    { numRuns: 200, seed: 5 },
  );
});

test('nothing is said beyond a factor 1.5 from what was read, nor outside the gaps', () => {
  fc.assert(
    fc.property(tables, share, ({ low, levels, high, both }, at) => {
      const table = forceTable(levels);
      const gap = within(low, at);
      const top = (both ? high : low).current;
      for (const caution of cautions) {
        for (const current of [low.current / 1.501, top * 1.501, 0, -1]) {
          assert.ok(Number.isNaN(tableForce(table, gap, current, caution)), `${current} A`);
        }
        for (const current of [low.current / 1.5, top * 1.5])
          assert.equal(tableForce(table, gap, current, caution) > 0, true);
        const last = low.gaps[low.gaps.length - 1];
        for (const outside of [last + 1e-4, low.gaps[0] - 1e-4, Number.NaN]) {
          assert.ok(Number.isNaN(tableForce(table, outside, low.current, caution)), `${outside} m`);
        }
        // What was between at zero gap may be half a tenth thick.
        assert.equal(tableForce(table, last + 4e-5, low.current, caution) > 0, true);
      }
    }),
    { numRuns: 200, seed: 6 },
  );
});

test('at a current that is not known nothing is said', () => {
  const table = forceTable([{ current: 2, gaps: [0, 0.01], forces: [100, 20] }]);
  for (const caution of cautions) assert.equal(tableForce(table, 0.005, Number.NaN, caution), Number.NaN);
});

test('between two currents far apart nothing is said beyond a factor 1.5 from either', () => {
  const readings = { gaps: [0, 0.01], forces: [100, 20] };
  const table = forceTable([
    { current: 1, ...readings },
    { current: 20, gaps: readings.gaps, forces: [400, 300] },
  ]);
  for (const caution of cautions) assert.equal(Number.isNaN(tableForce(table, 0.005, 5, caution)), true);
});

test('gaps that one current covers and the other does not are answered from the one that does', () => {
  const table = forceTable([
    { current: 2, gaps: [0, 0.01], forces: [100, 20] },
    { current: 2.5, gaps: [0, 0.004], forces: [140, 90] },
  ]);
  assert.equal(tableForce(table, 0.008, 2.5, 'least'), tableForce(table, 0.008, 2, 'least'));
  assert.equal(tableForce(table, 0.008, 2.5, 'greatest') > tableForce(table, 0.008, 2.5, 'least'), true);
  assert.equal(Number.isNaN(tableForce(table, 0.008, 3.2, 'least')), true);
});

test('readings that make no table are refused', () => {
  const good: ForceLevel = { current: 2, gaps: [0, 0.01], forces: [100, 20] };
  const bad: readonly (readonly ForceLevel[])[] = [
    [],
    [{ ...good, gaps: [], forces: [] }],
    [{ ...good, forces: [100] }],
    [{ ...good, current: 0 }],
    [{ ...good, current: Number.NaN }],
    [{ ...good, forces: [100, 0] }],
    [{ ...good, forces: [100, Number.NaN] }],
    [{ ...good, gaps: [0.01, 0.01] }],
    [good, { ...good, gaps: [0.01, 0] }],
  ];
  for (const levels of bad) {
    assert.throws(
      () => forceTable(levels),
      (error) => error instanceof DomainError && error.code === 'SW-D020',
      JSON.stringify(levels),
    );
  }
});

test('pulls at many gaps and currents together are those of each alone, and the weakest current pulls least where that is said', () => {
  let rising = 0;
  let notRising = 0;
  fc.assert(
    fc.property(
      tables,
      fc.array(share, { minLength: 1, maxLength: 20 }),
      share,
      fc.boolean(),
      (one, places, at, crossed) => {
        const { low, high, both } = one;
        // Crossed: the stronger current was read over a part of the gaps only, and less there.
        const part = {
          ...high,
          gaps: high.gaps.slice(0, 2),
          forces: low.forces.slice(0, 2).map((force) => 0.9 * force),
        };
        const table = forceTable(crossed ? [low, part] : one.levels);
        const gaps = places.map((place) => within(low, 1.2 * place - 0.1));
        const currents = [0, 0.8, 1, 1.1 + at, one.ratio, 2].map((times) => times * low.current);
        const rows = currents.map(() => new Float64Array(gaps.length + 3).fill(-7));
        for (const caution of cautions) {
          const doesRise = tableForces(table, gaps, gaps.length, currents, caution, rows);
          currents.forEach((current, k) => {
            gaps.forEach((gap, i) =>
              assert.equal(rows[k][i], tableForce(table, gap, current, caution), `${gap} m, ${current} A`),
            );
            assert.deepEqual([...rows[k].subarray(gaps.length)], [-7, -7, -7], 'nothing is written beyond the gaps');
          });
          if (crossed && gaps.some((gap) => gap >= part.gaps[0] && gap <= part.gaps[1]))
            assert.equal(doesRise, false, 'crossed');
          if (!doesRise) notRising++;
          if (!doesRise || caution === 'greatest') continue;
          rising += both ? 1 : 0;
          gaps.forEach((gap, i) => {
            for (let k = 1; k < currents.length; k++)
              for (let weaker = 0; weaker < k; weaker++)
                if (currents[weaker] < currents[k])
                  assert.ok(
                    !(rows[weaker][i] > rows[k][i] * (1 + 1e-12)),
                    `${gap} m: ${currents[weaker]} A pulls more than ${currents[k]} A`,
                  );
          });
        }
      },
    ),
    { numRuns: 300, seed: 8 },
  );
  assert.ok(rising > 50 && notRising > 50, `${rising} rise, ${notRising} do not`);
});
