/** What is written on pull against load, and the same in sentences. */
import type { DisplayUnits } from '../../units/display.ts';
import { amount, known } from '../amounts.ts';
import { textBox, type Part, type Role } from '../drawing.ts';
import { boxAround, point, type Box, type Point } from '../plane.ts';
import { Ground, placeLabels, type WantedLabel } from '../placing.ts';
import { areas, endLabels, pieces, valueAtGap, xOf, type EndLabel, type Panel, type Values } from './panel.ts';
import { fromUnit, inUnit, inWords, markedGaps, type PullAgainstLoad, type Shown } from './shown.ts';

/** One curve with its name. */
interface Named {
  readonly name: string;
  readonly words: string;
  readonly role: Role;
  readonly values: Values;
}

const towardsHome = (data: Shown): Named[] => [
  { name: 'greatest', words: 'pull, strongest', role: 'pull', values: data.greatest },
  { name: 'least', words: 'pull, weakest', role: 'pull', values: data.least },
  { name: 'needed', words: 'needed', role: 'need', values: data.needed },
  { name: 'needed-low', words: 'at low friction', role: 'need', values: data.neededLow },
];

const backOut = (data: Shown): Named[] => [
  { name: 'drive', words: 'drives it out', role: 'return', values: data.drive },
  { name: 'left', words: 'left over', role: 'return', values: data.left },
];

/** Right end of a curve on the sheet, and whether that is the right edge of the plot. */
function endOf(panel: Panel, data: Shown, values: Values): { at: Point; atEdge: boolean } | null {
  const drawn = pieces(panel, data.gaps, values);
  const last = drawn[drawn.length - 1];
  const at = last?.[last.length - 1];
  return at === undefined ? null : { at, atEdge: panel.right - at.x < 2 };
}

/** Names of the curves at their right ends, with their values at the cursor. */
export function names(
  data: Shown,
  now: number | null,
  units: DisplayUnits,
  upper: Panel,
  lower: Panel | null,
  sheet: { height: number; values: 'beside' | 'below' },
): Part[] {
  const labels = (panel: Panel, curves: readonly Named[]): EndLabel[] =>
    curves.flatMap(({ values, name, ...rest }) => {
      const end = endOf(panel, data, values);
      if (end === null || !end.atEdge) return [];
      const value = now === null ? null : valueAtGap(data.gaps, values, now);
      return [{ ...rest, name: `name-${name}`, at: end.at, value: value === null ? null : inWords(value, units) }];
    });
  const above = endLabels(
    upper,
    labels(upper, towardsHome(data)),
    {
      bottom: lower === null ? 3 : lower.top + 3,
      top: sheet.height - 6,
    },
    sheet.values,
  );
  return lower === null
    ? above
    : [...above, ...endLabels(lower, labels(lower, backOut(data)), { bottom: 2, top: lower.top + 2 }, sheet.values)];
}

/** Words inside the plots: marked gaps, hatched areas, curves that end early or leave through the top. */
export function words(
  given: PullAgainstLoad,
  units: DisplayUnits,
  data: Shown,
  upper: Panel,
  lower: Panel | null,
  drawn: readonly Part[],
  sheet: { width: number; height: number },
): Part[] {
  const ground = new Ground(sheet.width, sheet.height);
  const occupied: Box[] = [];
  for (const { name, role, elements } of drawn) {
    if (role === 'grid' || name === 'cursor') continue;
    for (const element of elements) {
      ground.element(element, 1);
      if (element.kind === 'text') occupied.push(textBox(element));
    }
  }
  const zero = data.gaps.map(() => 0);
  const above = [
    ...areaWords(
      'word-short',
      areas(upper, data.gaps, data.needed, data.least, 'above'),
      'fails: more needed than pull',
    ),
    ...endWords(upper, data, towardsHome(data)),
    ...beyondWords(data, units, upper),
    ...gapWords(given, units, upper),
  ];
  const below =
    lower === null
      ? []
      : [
          ...areaWords(
            'word-stays',
            areas(lower, data.gaps, zero, data.left, 'above'),
            given.by === 'air' ? 'fails: the rod stays' : 'fails: the plunger stays',
          ),
          ...endWords(lower, data, backOut(data)),
        ];
  const place = (panel: Panel, wanted: readonly WantedLabel[]): Part[] => {
    const { left, right, bottom, top } = panel;
    const room = { left: left + 0.5, right: right - 0.5, bottom: bottom + 0.5, top: top - 0.5 };
    return placeLabels(wanted, room, ground, occupied).map((placed) => placed.part);
  };
  return [...place(upper, above), ...(lower === null ? [] : place(lower, below))];
}

/** A word for hatched areas, at the widest of them. */
function areaWords(name: string, rings: readonly (readonly Point[])[], label: string): WantedLabel[] {
  const ring = [...rings].sort((a, b) => spread(b) - spread(a))[0];
  if (ring === undefined) return [];
  const box = boxAround(ring);
  if (box === null) return [];
  const middle = point((box.left + box.right) / 2, (box.bottom + box.top) / 2);
  return [{ name, role: 'fails', words: label, bold: true, anchor: middle, orAt: ring, towards: Math.PI / 2 }];
}

/** Names of curves that end before the right edge of the plot. */
function endWords(panel: Panel, data: Shown, curves: readonly Named[]): WantedLabel[] {
  return curves.flatMap(({ name, words: label, role, values }) => {
    const end = endOf(panel, data, values);
    return end === null || end.atEdge ? [] : [{ name: `name-${name}`, role, words: label, anchor: end.at, towards: 0 }];
  });
}

/** How far the pull goes where it leaves through the top. */
function beyondWords(data: Shown, units: DisplayUnits, panel: Panel): WantedLabel[] {
  const greatest = known(data.greatest[0]);
  const least = known(data.least[0]);
  if (greatest === null || greatest <= panel.high) return [];
  const exit = pieces(panel, data.gaps, data.greatest)[0]?.[0];
  if (exit === undefined) return [];
  const both = least !== null && least > panel.high ? `${inWords(least, units).split(' ')[0]} to ` : '';
  return [
    {
      name: 'word-beyond',
      role: 'pull',
      words: `${both === '' ? 'up to ' : both}${inWords(greatest, units)} at home`,
      anchor: exit,
      towards: -0.6,
    },
  ];
}

function gapWords(given: PullAgainstLoad, units: DisplayUnits, panel: Panel): WantedLabel[] {
  const heights = [6, 12, 18, 24, 32, 40, 50, 60].filter((down) => panel.top - down > panel.bottom + 4);
  return markedGaps(given).flatMap(({ name, words: label, gap_mm }) => {
    const x = xOf(panel, inUnit(gap_mm, 'length', units));
    if (x < panel.left - 1e-6 || x > panel.right + 1e-6) return [];
    const [anchor = point(x, panel.top), ...orAt] = heights.map((down) => point(x, panel.top - down));
    const towards = x > (panel.left + panel.right) / 2 ? Math.PI : 0;
    const value = amount(gap_mm / 1000, 'length', units);
    return [
      {
        name: `word-${name}`,
        role: 'words',
        words: `${label} ${value}`,
        anchor,
        orAt,
        towards,
        leaderBeyond: 2,
      } as const,
    ];
  });
}

function spread(ring: readonly Point[]): number {
  const xs = ring.map(({ x }) => x);
  return Math.max(...xs) - Math.min(...xs);
}

export function sentences(given: PullAgainstLoad, data: Shown, units: DisplayUnits): string[] {
  const found: string[] = [];
  const at = (gap: number): string => amount(fromUnit(gap, units) / 1000, 'length', units);
  const span = (where: readonly number[]): string => {
    const [first, last] = [at(Math.min(...where)), at(Math.max(...where))];
    return first === last ? `at ${first}` : `from ${first} to ${last}`;
  };
  const { gaps, least, needed, left } = data;
  const short = gaps.filter((_, i) => (needed[i] ?? -Infinity) > (least[i] ?? Infinity));
  if (short.length > 0) found.push(`More pull is needed than the weakest pull gives, ${span(short)} from home.`);
  const compared = gaps.some((_, i) => known(needed[i]) !== null && known(least[i]) !== null);
  if (short.length === 0 && compared) found.push('The weakest pull lies above the need wherever both are known.');
  const stays = gaps.filter((_, i) => (left[i] ?? 1) < 0);
  if (stays.length > 0)
    found.push(
      `${given.by === 'air' ? 'On the way out the rod' : 'Without current the plunger'} stays, ${span(stays)} from home.`,
    );
  for (const { words: label, gap_mm } of markedGaps(given))
    found.push(`${label.charAt(0).toUpperCase()}${label.slice(1)} at ${amount(gap_mm / 1000, 'length', units)}.`);
  const gap_mm = known(given.gap_mm);
  if (gap_mm !== null) {
    const gap = inUnit(gap_mm, 'length', units);
    const values = (
      [
        ['weakest pull', least],
        ['strongest pull', data.greatest],
        ['needed', needed],
        ['left to bring it out', left],
      ] as const
    ).flatMap(([name, curveValues]) => {
      const value = valueAtGap(gaps, curveValues, gap);
      return value === null ? [] : [`${name} ${inWords(value, units)}`];
    });
    found.push(
      `At ${amount(gap_mm / 1000, 'length', units)} from home: ${values.length > 0 ? values.join(', ') : 'nothing known'}.`,
    );
  }
  if (!compared) found.push('Pull and need are not both known: readings are missing.');
  return found;
}
