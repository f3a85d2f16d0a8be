/** Readings of a solenoid that cannot all be true together: parts that do not fit each other, tables that do not rise. */
import { display, metricUnits } from '../../units/quantity.ts';
import { quantityIn } from '../quantity-text.ts';
import type { Problem } from '../opening.ts';
import type { SolenoidDocument } from './schema.ts';

export function contradictions(solenoid: SolenoidDocument): Problem[] {
  return [...misfits(solenoid), ...steelTable(solenoid), ...pullsOutside(solenoid)];
}

/** A length as read or as reckoned from several; null where a reading is missing. The path is the field to look at. */
interface Size {
  readonly path: string;
  readonly words: string;
  readonly value: number | null;
}

type Rule = readonly [smaller: Size, larger: Size, mayTouch?: boolean];

/** Parts that touch may overlap by this, m: the rounding of readings must not refuse them. */
const TOUCH = 1e-9;

function misfits(solenoid: SolenoidDocument): Problem[] {
  return fitRules(solenoid).flatMap(([smaller, larger, mayTouch = false]): Problem[] => {
    if (smaller.value === null || larger.value === null) return [];
    if (mayTouch ? smaller.value <= larger.value + TOUCH : smaller.value < larger.value) return [];
    const said = display(smaller.value, 'length', metricUnits, 6);
    const limit = display(larger.value, 'length', metricUnits, 6);
    const must = mayTouch ? 'no larger' : 'smaller';
    return [
      {
        path: smaller.path,
        read: said,
        problem: `${smaller.words} (${said}) must be ${must} than ${larger.words} (${limit}; see ${larger.path})`,
      },
    ];
  });
}

function fitRules(solenoid: SolenoidDocument): Rule[] {
  const { can, plates, plunger, seat, coil, guideTube } = solenoid;
  const length = (text: string): number | null => quantityIn(text, 'length')?.value ?? null;
  const read = (path: string, words: string, text: string): Size => ({ path, words, value: length(text) });
  const reckoned = (
    path: string,
    words: string,
    from: readonly (number | null)[],
    f: (...n: number[]) => number,
  ): Size => {
    const known = from.filter((value) => value !== null);
    return { path, words, value: known.length === from.length ? f(...known) : null };
  };
  const [outside, wall, over] = [length(can.outsideDiameter), length(can.wall), length(can.length)];
  const [bottom, top] = [length(plates.bottom), length(plates.top)];

  const canOutside = read('can.outsideDiameter', 'the outside of the can', can.outsideDiameter);
  const canInside = reckoned('can.wall', 'the inside of the can', [outside, wall], (d, w) => d - 2 * w);
  const room = reckoned('can.length', 'the room between the plates', [over, bottom, top], (l, b, t) => l - b - t);
  const body = read('plunger.diameter', 'the plunger', plunger.diameter);
  const plateBore = reckoned(
    'radialClearance',
    'the bore of the top plate (plunger and clearance on both sides)',
    [body.value, length(solenoid.radialClearance)],
    (d, c) => d + 2 * c,
  );
  const coilInside = read('coil.insideDiameter', 'the inside of the winding', coil.insideDiameter);
  const coilOutside = read('coil.outsideDiameter', 'the outside of the winding', coil.outsideDiameter);
  const cheeks = reckoned(
    'coil.bottomCheek',
    'both cheeks together',
    [length(coil.bottomCheek), length(coil.topCheek)],
    (b, t) => b + t,
  );
  const seatDiameter = read('seat.diameter', 'the seat', seat.diameter);
  const face = read('seat.faceBelowTop', 'the depth of the seat below the top', seat.faceBelowTop);
  const floor = reckoned('can.length', 'the depth of the bottom plate below the top', [over, bottom], (l, b) => l - b);
  const rules: Rule[] = [
    [reckoned('can.wall', 'twice the wall of the can', [wall], (w) => 2 * w), canOutside],
    [
      reckoned('plates.top', 'both plates together', [bottom, top], (b, t) => b + t),
      read('can.length', 'the can', can.length),
    ],
    [plateBore, canInside],
    [coilInside, coilOutside],
    [coilOutside, canInside, true],
    [cheeks, room],
    [body, coilInside],
    [seatDiameter, coilInside, true],
    [read('plates.top', 'the top plate', plates.top), face],
    [face, floor],
  ];
  let tip = body;
  if (seat.shape.kind === 'cone') {
    tip = read('seat.shape.tipDiameter', 'the flat at the tip of the cone', seat.shape.tipDiameter);
    const angle = quantityIn(seat.shape.includedAngle, 'angle')?.value ?? null;
    const depth = reckoned(
      'seat.shape.includedAngle',
      'the depth of the cone',
      [body.value, tip.value, angle],
      (d, t, a) => (d - t) / 2 / Math.tan(a / 2),
    );
    const height = reckoned(
      'seat.faceBelowTop',
      'the height of the seat above the bottom plate',
      [floor.value, face.value],
      (b, f) => b - f,
    );
    rules.push([tip, body], [body, seatDiameter, true], [depth, height]);
  }
  if (plunger.bore !== 'none')
    rules.push([read('plunger.bore.diameter', 'the hole in the plunger', plunger.bore.diameter), tip]);
  if (guideTube !== 'none') {
    const tubeInside = read('guideTube.insideDiameter', 'the inside of the guide tube', guideTube.insideDiameter);
    const tubeOutside = read('guideTube.outsideDiameter', 'the outside of the guide tube', guideTube.outsideDiameter);
    rules.push([tubeInside, tubeOutside], [body, tubeInside, true], [tubeOutside, coilInside, true]);
  }
  return rules;
}

/** Permeability of vacuum, H/m. */
const VACUUM = 4e-7 * Math.PI;

function steelTable({ steel }: SolenoidDocument): Problem[] {
  if (steel.by !== 'own readings') return [];
  const rows = steel.rows.map((row) => ({
    b: quantityIn(row.fluxDensity, 'magneticFluxDensity')?.value,
    h: quantityIn(row.fieldStrength, 'magneticFieldStrength')?.value,
  }));
  return rows.flatMap(({ b, h }, i): Problem[] => {
    const problem = ((): string | null => {
      if (b === undefined || h === undefined) return 'a row holds two readings; leave out a row that was not read';
      if (i === 0) return b === 0 && h === 0 ? null : 'the first row must be 0 T at 0 A/m: there the curve begins';
      const before = rows[i - 1];
      if (before.b === undefined || before.h === undefined) return null;
      if (!(b > before.b && h > before.h))
        return 'both must rise from row to row; this one does not lie above the last';
      // Readings deep in saturation are rounded, so a hundredth is let pass.
      if (b - before.b < 0.99 * VACUUM * (h - before.h))
        return 'from the last row to this one the flux density rises less than in air: no steel does that';
      return null;
    })();
    const { fluxDensity, fieldStrength } = steel.rows[i];
    return problem === null ? [] : [{ path: `steel.rows[${i}]`, read: `${fluxDensity}, ${fieldStrength}`, problem }];
  });
}

/** Gaps are from home to the outer stop; a little beyond may be a reading with the stop taken off. */
const BEYOND_STROKE = 1.5;

function pullsOutside({ pulls, plunger }: SolenoidDocument): Problem[] {
  const stroke = quantityIn(plunger.stroke, 'length');
  return pulls.flatMap(({ gap }, i): Problem[] => {
    const at = quantityIn(gap, 'length');
    if (stroke === null || at === null || at.value <= BEYOND_STROKE * stroke.value + TOUCH) return [];
    return [
      {
        path: `pulls[${i}].gap`,
        read: gap,
        problem: `this lies far outside the stroke (${plunger.stroke}): gaps are measured from home`,
      },
    ];
  });
}
