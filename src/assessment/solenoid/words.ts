/** What the winding and the pulls of a solenoid say, in words with numbers. */
import type { Judgement } from '../../physics/solenoid/trim-judgement.ts';
import { LAYERED_ROUND_SHARE, LOOSE_ROUND_SHARE, MOST_ROUND_SHARE } from '../../physics/winding.ts';
import { display, metricUnits } from '../../units/quantity.ts';
import type { BenchReading, BenchWinding } from './bench.ts';

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const length = (metres: number): string => display(metres, 'length', metricUnits, 3);
const newtons = (force: number): string => display(force, 'force', metricUnits, 3);

/** What is odd about a winding; `byWire` is the one reckoned from ohms and wire beside turns that were counted. */
export function windingWords(winding: BenchWinding, byWire: BenchWinding | null): { path: string; words: string }[] {
  const said: { path: string; words: string }[] = [];
  const { fill, turns, wireDiameter } = winding;
  const count = Math.round(turns);
  if (fill !== null && wireDiameter !== null) {
    const wire = `${count} turns of ${length(wireDiameter)} wire (${length(fill.overallDiameter)} over its enamel)`;
    const share = percent(fill.roundShare);
    const path = 'coil.wireDiameter';
    if (fill.room === 'does not fit')
      said.push({
        path,
        words: `${wire} would take ${share} of the window; round wire fills ${percent(MOST_ROUND_SHARE)} at the very most. Read the ohms, the wire and the window again`,
      });
    if (fill.room === 'tight')
      said.push({
        path,
        words: `${wire} take ${share} of the window: over ${percent(LAYERED_ROUND_SHARE)} fits only if every turn was laid in the grooves of the layer below. Read the wire again`,
      });
    if (fill.room === 'loose')
      said.push({
        path,
        words: `${wire} take ${share} of the window, less than ${percent(LOOSE_ROUND_SHARE)}: a second winding, thicker insulation, or a wrong reading`,
      });
    if (!fill.inTable)
      said.push({
        path,
        words: `the table of enamelled wire goes from 0.2 to 1.4 mm; the enamel of ${length(wireDiameter)} wire is estimated`,
      });
  }
  if (byWire !== null && byWire.from === 'ohms and wire') {
    const difference = Math.log(byWire.turns / turns);
    const spread = Math.hypot(byWire.spread, winding.spread);
    if (Math.abs(difference) > 3 * spread)
      said.push({
        path: 'coil.turns',
        words: `${count} turns are said, but ohms and wire give ${Math.round(byWire.turns)} (give or take ${percent(2 * byWire.spread)}): one of them was read wrong`,
      });
  }
  return said;
}

/** Pulls that contradict the dimensions or each other, the worst first; empty where all agree. */
export function contradictionWords(judgement: Judgement, readings: readonly BenchReading[]): string[] {
  if (judgement.agree) return [];
  const name = (i: number): string =>
    `${readings[i].path} (${newtons(readings[i].pull)} at a gap of ${length(readings[i].gap)})`;
  const rest = readings.length === 1 ? 'the dimensions lead' : 'the dimensions and the other pulls lead';
  const off = (difference: number): string => {
    const share = Math.expm1(difference);
    return `${percent(Math.abs(share))} ${share < 0 ? 'below' : 'above'}`;
  };
  const words = judgement.contradicting.map((i) => {
    const { expected, difference, score } = judgement.readings[i];
    return `${name(i)} lies ${off(difference)} what ${rest} one to expect there (${newtons(expected)}): ${Math.abs(score).toFixed(1)} standard deviations`;
  });
  for (const { first, second, score } of judgement.pairs)
    words.push(
      `${name(first)} and ${name(second)} contradict each other: they differ from what they should by ${Math.abs(score).toFixed(1)} standard deviations of their difference`,
    );
  if (words.length === 0)
    words.push(
      `no single pull stands out, but together they scatter more than their errors allow (chance ${(100 * judgement.chance).toFixed(2)} %)`,
    );
  words.push(
    judgement.widen > 1
      ? `nothing was left out: all pulls were used as read, and the band is ${judgement.widen.toFixed(1)} times as wide as it would be if they agreed. Read the first named again`
      : 'nothing was left out: all pulls were used as read. Read the first named again',
  );
  return words;
}
