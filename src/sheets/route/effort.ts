/**
 * How the effort builds up along the run: force in the core over the distance from the lever, worn and cold as a heavy line,
 * as it is now as a thin one. Bends are bands with their numbers, what may be asked at the handle a level line. Nothing is
 * computed here but places on the sheet.
 */
import type { CableEffort, CableStudy } from '../../assessment/cable/data.ts';
import { fromSI } from '../../units/convert.ts';
import { display, metricUnits, type DisplayUnits } from '../../units/display.ts';
import { amount } from '../amounts.ts';
import {
  axes,
  curve,
  endLabelRoom,
  endLabels,
  roundEnds,
  xOf,
  yOf,
  type EndLabel,
  type Panel,
} from '../chart/panel.ts';
import { line, part, polygon, text, type Drawing, type Part } from '../drawing.ts';
import { notKnownYet } from '../not-known.ts';
import { point } from '../plane.ts';
import { textWidth } from '../text-width.ts';

export interface EffortOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
}

/** Times the greatest limit that is shown of the force, and a force of which no figure means anything, N. */
const MOST_SHOWN = 3;
const BEYOND_WORDS = 5000;

const TITLE = 'How the effort builds up along the run';

export function drawEffort(study: CableStudy, options: EffortOptions = {}): Drawing {
  const { width = 180, height = 80, units = metricUnits } = options;
  const { run, worst, now, limit } = study;
  if (run === null || worst === null || worst.profile.length < 2) return notKnownYet(TITLE, width, height);
  const force = (newtons: number) => fromSI(newtons, units.force, 'force');
  const far = (mm: number) => fromSI(mm / 1000, units.length, 'length');
  const ratio = worst.coreForce_N === null || !worst.handleForce_N ? 1 : worst.coreForce_N / worst.handleForce_N;
  const levels = limit === null ? [] : levelsOf(limit, ratio);
  const forces = worst.profile.map(({ force_N }) => force_N);
  // Far beyond every limit the curve is cut at the top: how far beyond says no more.
  const enough = MOST_SHOWN * Math.max(worst.leverForce_N, ...levels.map(({ at_N }) => at_N));
  const most = Math.max(Math.min(enough, Math.max(...forces)), ...levels.map(({ at_N }) => at_N), 1e-3);
  const labels = width < 150 ? 'below' : 'beside';
  const panel: Panel = {
    name: 'effort',
    left: 16,
    right: width - (labels === 'below' ? endLabelRoom.narrow : endLabelRoom.wide),
    bottom: 12,
    top: height - 12,
    from: 0,
    to: far(run.length_mm),
    low: 0,
    high: roundEnds(0, force(most) * 1.05, 5)[1],
  };
  const parts: Part[] = [
    ...bandsOf(study, panel, far),
    ...axes(panel, { vertical: `Force in the core, ${units.force}`, across: `from the lever, ${units.length}` }),
    ...levels.map(({ name, at_N }) => {
      const y = yOf(panel, force(at_N));
      return part(name, 'need', [line('dashed', point(panel.left, y), point(panel.right, y))]);
    }),
  ];
  const ends: EndLabel[] = levels.map(({ name, words, at_N }) => ({
    name: `${name}-name`,
    words,
    value: amount(at_N, 'force', units),
    role: 'need',
    at: point(panel.right, yOf(panel, force(at_N))),
  }));
  const along = (effort: CableEffort, name: string, words: string, isHeavy: boolean): void => {
    const places = effort.profile.map(({ fromLever_mm }) => far(fromLever_mm));
    const values = effort.profile.map(({ force_N }) => force(force_N));
    parts.push(part(name, isHeavy ? 'pull' : 'quiet', curve(panel, places, values, isHeavy ? 'heavy' : 'outline')));
    if (effort.coreForce_N === null) return;
    const at = point(panel.right, Math.min(panel.top, yOf(panel, force(effort.coreForce_N))));
    const value =
      effort.coreForce_N > BEYOND_WORDS
        ? `> ${display(BEYOND_WORDS, 'force', units, 3)}`
        : amount(effort.coreForce_N, 'force', units);
    ends.push({ name: `${name}-name`, words, value, role: isHeavy ? 'pull' : 'quiet', at });
  };
  if (now !== null) along(now, 'now', 'as it is now', false);
  along(worst, 'worst', 'worn and cold', true);
  parts.push(...endLabels(panel, ends, { bottom: 3, top: height - 4 }, labels));
  return { title: TITLE, width, height, parts, sentences: sentencesOf(study, worst, units) };
}

function levelsOf(limit: NonNullable<CableStudy['limit']>, ratio: number) {
  const { recommended_N, avoidBeyond_N } = limit;
  if (recommended_N === avoidBeyond_N) {
    return [{ name: 'allowed', words: 'acceptable', at_N: avoidBeyond_N * ratio }] as const;
  }
  return [
    { name: 'recommended', words: 'recommended', at_N: recommended_N * ratio },
    { name: 'avoid', words: 'avoid beyond', at_N: avoidBeyond_N * ratio },
  ] as const;
}

/** Bends as bands, with their numbers where there is room. */
function bandsOf({ run }: CableStudy, panel: Panel, far: (mm: number) => number): Part[] {
  if (run === null) return [];
  // From the handle, at the right, towards the lever.
  let last = panel.right;
  return run.pieces.flatMap((piece): Part[] => {
    const bend = piece.bend === null ? undefined : run.bends[piece.bend];
    if (bend === undefined) return [];
    const left = xOf(panel, far(run.length_mm - piece.to_mm));
    const right = xOf(panel, far(run.length_mm - piece.from_mm));
    const middle = (left + right) / 2;
    const corners = [
      point(left, panel.bottom),
      point(right, panel.bottom),
      point(right, panel.top),
      point(left, panel.top),
    ];
    const half = textWidth(`${bend.number}`, 2.5, true) / 2 + 0.5;
    const hasRoom = middle + half < last;
    if (hasRoom) last = middle - half;
    return [
      part(`band-${bend.number}`, 'quiet', [polygon('none', corners, 'tint')]),
      ...(hasRoom
        ? [
            part(`band-${bend.number}-name`, 'words', [
              text(point(middle, panel.top - 3.6), `${bend.number}`, { align: 'middle', bold: true }),
            ]),
          ]
        : []),
    ];
  });
}

function sentencesOf({ run, now, limit }: CableStudy, worst: CableEffort, units: DisplayUnits): string[] {
  const say = (newtons: number) => amount(newtons, 'force', units);
  const costs = worst.bendCost_N.flatMap((cost, i) => (cost === null ? [] : [{ cost, bend: run?.bends[i] }]));
  const dearest = costs.reduce<(typeof costs)[number] | null>(
    (most, next) => (most === null || next.cost > most.cost ? next : most),
    null,
  );
  return [
    worst.coreForce_N === null
      ? `Worn and cold, ${say(worst.leverForce_N)} at the lever do not get through the run.`
      : `Worn and cold, ${say(worst.leverForce_N)} at the lever become ${say(worst.coreForce_N)} in the core at the handle${worst.efficiency === null ? '' : `: ${Math.round(worst.efficiency * 100)} % of the work arrives`}.`,
    ...(now === null || now.coreForce_N === null ? [] : [`As it is now they are ${say(now.coreForce_N)}.`]),
    ...(dearest === null || dearest.bend === undefined
      ? []
      : [
          `Bend ${dearest.bend.number}${dearest.bend.name === null ? '' : `, ${dearest.bend.name},`} costs most: ${say(dearest.cost)}.`,
        ]),
    ...(limit === null || worst.handleForce_N === null
      ? []
      : [`The hand pulls ${say(worst.handleForce_N)}; more than ${say(limit.avoidBeyond_N)} is to be avoided.`]),
  ];
}
