/** Heating refuses what has no meaning, with the value in the sentence. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { heating } from '../../../src/physics/heat/heating.ts';
import type { HeatStage } from '../../../src/physics/heat/stages.ts';
import { engineSpace, held, holdWinding, stalled, usual } from './bodies.ts';

test('what has no meaning is refused with the value', () => {
  const stage: HeatStage = { duration: 10, power: held, surroundings: engineSpace };
  const start = { winding: 300, can: 300 };
  const refuses = (code: string, value: RegExp, what: () => unknown): void =>
    assert.throws(what, (error: Error) => error.message.startsWith(code) && value.test(error.message), code);
  refuses('SW-D054', /none/, () => heating(usual, [], start));
  refuses('SW-D054', /0 s/, () => heating(usual, [{ ...stage, duration: 0 }], start));
  refuses('SW-D054', /600 K/, () => heating(usual, [stage], { winding: 600, can: 300 }));
  refuses('SW-D054', /100 K/, () => heating(usual, [stage], { winding: 300, can: 100 }));
  refuses('SW-D054', /NaN/, () => heating(usual, [{ ...stage, surroundings: { air: NaN, bracket: 300 } }], start));
  refuses('SW-D054', /450 K/, () => heating(usual, [{ ...stage, surroundings: { air: 450, bracket: 300 } }], start));
  refuses('SW-D054', /5 s/, () => heating(usual, [{ ...stage, bracketCourse: [[5, 300]] }], start));
  refuses('SW-D054', /undefined/, () => heating(usual, [{ ...stage, bracketCourse: [] }], start));
  refuses('SW-D054', /0 s after 0 s/, () =>
    heating(usual, [{ ...stage, bracketCourse: [[0, 300], [0, 310]] }], start)); // prettier-ignore
  refuses('SW-D054', /2 K/, () => heating(usual, [stage], start, { tolerance: 2 }));
  refuses('SW-D055', /-3 K/, () => heating(usual, [stage], start, { hotSpotAllowance: -3 }));
  refuses('SW-D051', /1.2/, () => heating({ ...usual, emissivity: 1.2 }, [stage], start));
  refuses('SW-D051', /-1/, () => heating({ ...usual, canHeatCapacity: -1 }, [stage], start));
  refuses('SW-D052', /not 0/, () => heating({ ...usual, windingToCan: 0 }, [stage], start));
  refuses('SW-D052', /-1/, () => heating({ ...usual, canToBracket: -1 }, [stage], start));
  refuses('SW-D053', /Infinity/, () => heating(usual, [{ ...stage, power: { ...stalled, source: Infinity } }], start));
  refuses('SW-D053', /-0.1/, () => heating(usual, [{ ...stage, power: { ...stalled, loopResistance: -0.1 } }], start));
  refuses('SW-D053', /NaN/, () =>
    heating(usual, [{ ...stage, power: { drive: 'current', current: NaN, winding: holdWinding } }], start),
  );
});
