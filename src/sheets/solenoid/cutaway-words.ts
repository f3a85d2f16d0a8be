/** What is written on the cutaway beside its dimension lines, and all of it in sentences. */
import { recessDepth, type SolenoidDimensions } from '../../physics/solenoid/field/dimensions.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { formatQuantity } from '../../units/format.ts';
import { textBox, type Part } from '../drawing.ts';
import type { Box, Point } from '../plane.ts';
import { Ground, placeLabels, type WantedLabel } from '../placing.ts';
import { onSection, size, type SectionFrame, type SectionOutlines, type SectionPart } from './section.ts';

const partWords: Readonly<Record<SectionPart, string>> = {
  can: 'can',
  bottomPlate: 'bottom plate',
  topPlate: 'top plate',
  seat: 'seat',
  coil: 'winding',
  guideTube: 'brass tube',
  plunger: 'plunger',
  shim: 'shim',
};

interface LabelRoom {
  readonly width: number;
  readonly height: number;
  readonly foot: number;
  readonly units: DisplayUnits;
}

/** Names of the parts with what no dimension line shows. */
export function drawLabels(
  frame: SectionFrame,
  solenoid: SolenoidDimensions,
  rings: SectionOutlines,
  wrong: readonly SectionPart[],
  drawn: readonly Part[],
  boxes: readonly Box[],
  { width, height, foot, units }: LabelRoom,
): Part[] {
  const ground = new Ground(width, height);
  const occupied: Box[] = [...boxes];
  for (const { elements, role, name: of } of drawn)
    for (const element of elements) {
      ground.element(element, of === 'axis' ? 6 : role === 'words' ? 3 : of.startsWith('part-') ? 2 : 1);
      if (element.kind === 'text' && element.angle === 0) occupied.push(textBox(element));
    }
  const { can, coil, seat, plunger, radialClearance, guideTube, residualShim } = solenoid;
  const has = (value: number | undefined): value is number => value !== undefined && Number.isFinite(value);
  const wanted: WantedLabel[] = [];
  const name = (of: SectionPart, words: string, anchor: Point, towards: number): void => {
    if (rings[of] === undefined || !Number.isFinite(anchor.x + anchor.y)) return;
    const isWrong = wrong.includes(of);
    wanted.push({
      name: `name-${of}`,
      role: isWrong ? 'fails' : 'words',
      words: isWrong ? `${words}: does not fit` : words,
      bold: isWrong,
      anchor,
      towards,
      leaderBeyond: 1,
    });
  };
  const at = (radius: number, along: number): Point => onSection(frame, radius, along);
  const isNarrow = width < 130;
  const diameters = (inner: number, outer: number): string =>
    has(inner) && has(outer) && !isNarrow ? ` Ø ${size(2 * inner, units)} to ${size(2 * outer, units)}` : '';
  const middle = (a: number, b: number): number => (a + b) / 2;
  const coilMiddle = at(middle(coil.innerRadius, coil.outerRadius), middle(coil.bottom, coil.top));
  name('coil', `${partWords.coil}${diameters(coil.innerRadius, coil.outerRadius)}`, coilMiddle, Math.PI / 2);
  const recess = seat.cone ? ` ${formatQuantity(seat.cone.includedAngle, 'angle', '°', { significantDigits: 4 })}` : '';
  name('seat', `${partWords.seat}${recess}`, at(seat.radius * 0.4, seat.faceHeight * 0.5), -Math.PI / 2);
  const tail = seat.faceHeight + plunger.length;
  const bore = plunger.bore ? `, bored Ø ${size(2 * plunger.bore.radius, units)}` : '';
  name('plunger', `${partWords.plunger}${bore}`, at(plunger.radius * 0.6, middle(can.length, tail)), Math.PI / 2);
  name('can', `can, wall ${size(can.wall, units)}`, at(can.outerRadius - can.wall / 2, can.length * 0.93), 0.6);
  if (has(radialClearance))
    name(
      'topPlate',
      `clearance ${size(radialClearance, units)}`,
      at(plunger.radius + radialClearance / 2, can.length),
      0.5,
    );
  if (guideTube)
    name(
      'guideTube',
      `${partWords.guideTube}${diameters(guideTube.innerRadius, guideTube.outerRadius)}`,
      at(middle(guideTube.innerRadius, guideTube.outerRadius), can.length * 0.8),
      0.8,
    );
  const floor = seat.faceHeight - recessDepth(solenoid);
  if (has(residualShim) && residualShim > 0)
    name(
      'shim',
      `shim ${size(residualShim, units)}`,
      at(seat.cone ? seat.cone.tipRadius / 2 : plunger.radius * 0.6, floor + residualShim / 2),
      -1,
    );
  const room = { left: 2, right: width - 2, bottom: foot, top: height - 2 };
  return placeLabels(wanted, room, ground, occupied).map((placed) => placed.part);
}

/** The drawing in words: every dimension that it shows. */
export function sentences(
  solenoid: SolenoidDimensions,
  gap: number,
  units: DisplayUnits,
  wrong: string | null,
): string[] {
  const { can, bottomPlate, topPlate, plunger, seat, coil, radialClearance, guideTube, residualShim } = solenoid;
  const s = (metres: number): string => size(metres, units);
  const found = [
    `Half section of a plunger solenoid, the plunger ${s(gap)} from home.`,
    `Can: diameter ${s(2 * can.outerRadius)}, wall ${s(can.wall)}, length ${s(can.length)}.`,
    `Plates: bottom ${s(bottomPlate.thickness)}, top ${s(topPlate.thickness)} thick.`,
    `Plunger: diameter ${s(2 * plunger.radius)}, length ${s(plunger.length)}, clearance ${s(radialClearance)} in the top plate.`,
    `Seat: ${seat.cone ? `conical, ${formatQuantity(seat.cone.includedAngle, 'angle', '°')}` : 'flat'}, ${s(seat.faceHeight)} from the outer face of the bottom plate.`,
    `Winding: diameters ${s(2 * coil.innerRadius)} to ${s(2 * coil.outerRadius)}, from ${s(coil.bottom)} to ${s(coil.top)}.`,
  ];
  if (guideTube)
    found.push(`Guide tube: diameters ${s(2 * guideTube.innerRadius)} to ${s(2 * guideTube.outerRadius)}.`);
  if (residualShim !== undefined && residualShim > 0) found.push(`Residual shim ${s(residualShim)}.`);
  if (wrong !== null) found.push(`This cannot be built: ${wrong}.`);
  return found;
}
