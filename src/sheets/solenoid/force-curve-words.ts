/** What is written on force over the gap, and the same in sentences. */
import type { DisplayUnits } from '../../units/display.ts';
import { amount, known } from '../amounts.ts';
import { pieces, valueAtGap, xOf, yOf, type Panel } from '../chart/panel.ts';
import { textBox, type Part } from '../drawing.ts';
import { Ground, placeLabels, type WantedLabel } from '../placing.ts';
import { point } from '../plane.ts';
import type { ForceCurves, ForceReading } from './force-curves.ts';

/** Residuals beside their readings, and how high the force goes where it leaves through the top. */
export function words(
  given: ForceCurves,
  panel: Panel,
  drawn: readonly Part[],
  sheet: { readonly width: number; readonly height: number },
  inLength: (metres: number) => number,
  inForce: (newtons: number) => number,
  units: DisplayUnits,
): Part[] {
  const ground = new Ground(sheet.width, sheet.height);
  const occupied = drawn.flatMap(({ name, elements }) => {
    if (name.endsWith('grid')) return [];
    return elements.flatMap((element) => {
      ground.element(element, 1);
      return element.kind === 'text' ? [textBox(element)] : [];
    });
  });
  const wanted: WantedLabel[] = given.readings.map((reading) => ({
    name: `residual-${reading.name}`,
    role: reading.contradicts ? 'fails' : 'need',
    words: `${amount(reading.force, 'force', units)}${residualWords(reading, units)}`,
    bold: reading.contradicts,
    anchor: point(xOf(panel, inLength(reading.gap)), yOf(panel, inForce(reading.force))),
    towards: 0.5,
    leaderBeyond: 4,
  }));
  for (const one of given.curves) {
    const most = Math.max(...one.force);
    if (!one.isChief || inForce(most) <= panel.high) continue;
    const exit = pieces(panel, one.gaps.map(inLength), one.force.map(inForce))[0]?.[0];
    if (exit !== undefined)
      wanted.push({
        name: 'beyond',
        role: 'pull',
        words: `${amount(most, 'force', units)} at ${amount(one.gaps[0] ?? 0, 'length', units)}`,
        anchor: exit,
        towards: -0.5,
      });
  }
  if (given.next !== null)
    wanted.push({
      name: 'next-words',
      role: 'now',
      words: given.next.words,
      anchor: point(xOf(panel, inLength(given.next.gap)), panel.top - 12),
      towards: 0,
    });
  if (given.isCoarse)
    wanted.push({
      name: 'coarse',
      role: 'words',
      words: 'coarse, being refined',
      bold: true,
      anchor: point((panel.left + panel.right) / 2, panel.top - 6),
    });
  const room = { left: panel.left + 0.5, right: panel.right - 0.5, bottom: panel.bottom + 0.5, top: panel.top - 0.5 };
  return placeLabels(wanted, room, ground, occupied).map((placed) => placed.part);
}

/** ", 2.1 N above the curve". */
function residualWords({ force, expected }: ForceReading, units: DisplayUnits): string {
  if (known(expected) === null) return '';
  const residual = force - (expected ?? 0);
  const said = amount(Math.abs(residual), 'force', units);
  return `, ${said} ${residual < 0 ? 'under' : 'over'}`;
}

export function sentences({ curves, readings, gap, next, isCoarse }: ForceCurves, units: DisplayUnits): string[] {
  const found: string[] = [];
  const force = (newtons: number | null): string => amount(newtons ?? Number.NaN, 'force', units);
  const length = (metres: number): string => amount(metres, 'length', units);
  for (const { words: said, gaps, force: values, band } of curves) {
    const [first, last] = [0, gaps.length - 1];
    found.push(
      `${said}: ${force(values[first] ?? null)} at ${length(gaps[first] ?? 0)}, ${force(values[last] ?? null)} at ${length(gaps[last] ?? 0)}.`,
    );
    if (gap === null) continue;
    const at = valueAtGap(gaps, values, gap);
    const [low, high] =
      band === null ? [null, null] : [valueAtGap(gaps, band.low, gap), valueAtGap(gaps, band.high, gap)];
    if (at !== null)
      found.push(
        `At ${length(gap)}: ${force(at)}${low !== null && high !== null ? `, with 95 % between ${force(low)} and ${force(high)}` : ''}.`,
      );
  }
  for (const reading of readings)
    found.push(
      `${reading.words}: ${force(reading.force)} at ${length(reading.gap)}${residualWords(reading, units)}${reading.expected === null ? '' : ' the curve'}${reading.contradicts ? ', which contradicts the rest' : ''}.`,
    );
  if (next !== null) found.push(`Take the next reading at ${length(next.gap)}: ${next.words}.`);
  if (isCoarse) found.push('This is a coarse curve; a finer one is on its way.');
  return found;
}
