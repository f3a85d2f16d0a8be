/** The window of a spring in sentences: its edges, what moves them, the present spring in it, and why it is shut. */
import { display, type DisplayUnits } from '../../units/quantity.ts';
import type { Edge, SpringWindow, WindowCheck } from './kinds.ts';
import type { LineInWindow, Nearest, Stretch } from './line.ts';

const checkWords: Record<WindowCheck, string> = {
  'pulls-in-from-full-stroke': 'the first movement from full stroke',
  'pulls-in-everywhere': 'the pull on the way home',
  'holds-at-home': 'hold at home',
  'returns-from-every-gap': 'the return from this gap',
  'returns-from-home': 'the return from home against sticking',
  'over-travel-stays-shut': 'an over-travel spring that stays shut',
  'chain-stays-taut': 'a chain that stays taut',
};

/** "the pull on the way home, low battery, hot coil, high friction". */
export function edgeWords({ check, supply, coil, friction }: Edge): string {
  return [
    checkWords[check],
    supply === null ? null : supply === 'low' ? 'weakest supply' : 'charging',
    coil === null ? null : `${coil} coil`,
    friction === null ? null : `${friction} friction`,
  ]
    .filter((part) => part !== null)
    .join(', ');
}

/** A moment about the shaft, or a force on the plunger. */
export function actWords(value: number, { acts }: Pick<SpringWindow, 'acts'>, units: DisplayUnits): string {
  if (!Number.isFinite(value)) return value > 0 ? 'without end' : 'none';
  return display(value, acts === 'moment' ? 'torque' : 'force', units, 3);
}

const gapWords = (gap: number, units: DisplayUnits) =>
  gap < 5e-6 ? 'at home' : `${display(gap, 'length', units, 3)} from home`;

/** Whether it is open, where it is narrowest, and what decides there. */
export function windowSentences(window: SpringWindow, units: DisplayUnits): string[] {
  const { tightest, question } = window;
  if (tightest === null) return [window.unknown ?? 'The window is not known: readings are missing.'];
  const { station, moved } = tightest;
  const { floor, ceiling } = station;
  const where = [gapWords(station.gap, units), moved].filter((part) => part !== null).join(', ');
  const thing =
    question.on === 'plunger' ? 'on the plunger' : question.on === 'lever' ? 'on the lever' : 'round the shaft';
  if (floor.value === Infinity)
    return [
      `The window is shut ${where}: no spring ${thing}, however strong, gives ${edgeWords(floor)} its margin; the connection is held fast by friction.`,
    ];
  if (ceiling.value === -Infinity)
    return [`The window is shut ${where}: with no spring at all ${edgeWords(ceiling)} still comes out short.`];
  const floorText = `at least ${actWords(floor.value, window, units)} for ${edgeWords(floor)}`;
  const ceilingText = `at most ${actWords(ceiling.value, window, units)} for ${edgeWords(ceiling)}`;
  if (ceiling.value < 0)
    return [
      `The window is shut ${where}: ${edgeWords(ceiling)} would come out short even without a spring, by ${actWords(-ceiling.value, window, units)}.`,
    ];
  return tightest.width >= 0
    ? [`The window is open. It is narrowest ${where}: ${floorText}, ${ceilingText}.`]
    : [`The window is shut ${where}: ${floorText}, and ${ceilingText}.`];
}

/** The present spring against both edges. */
export function lineSentences(line: LineInWindow | null, window: SpringWindow, units: DisplayUnits): string[] {
  if (line === null) return [];
  const { toFloor, toCeiling } = line;
  if (toFloor === null || toCeiling === null)
    return ['What the present spring gives is not known: a reading of it is missing.'];
  const at = ({ station, moved }: Nearest) =>
    [gapWords(station.gap, units), moved].filter((part) => part !== null).join(', ');
  const far = (nearest: Nearest, edge: Edge, above: string, below: string) =>
    nearest.distance === Infinity || nearest.distance === -Infinity
      ? null
      : `${actWords(Math.abs(nearest.distance), window, units)} ${nearest.distance >= 0 ? above : below}, ${at(nearest)} (${edgeWords(edge)})`;
  const parts = [
    far(toFloor, toFloor.station.floor, 'above its floor', 'below its floor'),
    far(toCeiling, toCeiling.station.ceiling, 'below its ceiling', 'above its ceiling'),
  ].filter((part) => part !== null);
  if (parts.length === 0) return [];
  const isInside = toFloor.distance >= 0 && toCeiling.distance >= 0;
  return [`The present spring lies ${isInside ? 'inside' : 'outside'}: at its nearest ${parts.join('; ')}.`];
}

/** What moves an edge, stretch by stretch. */
export function stretchSentences(rows: readonly Stretch[], units: DisplayUnits): string[] {
  return rows.map(({ from, to, edge }) => {
    const where =
      to - from < 5e-6
        ? gapWords(from, units)
        : `${display(from, 'length', units, 3)} to ${display(to, 'length', units, 3)} from home`;
    return `${where}: ${edge.value === 0 ? 'none needed' : edgeWords(edge)}`;
  });
}
