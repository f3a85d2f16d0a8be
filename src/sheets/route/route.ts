/**
 * The run of a hand cable: elevation and plan to one scale, its bends numbered from the handle with angle and radius.
 *
 * A bend is named in full in the view that shows it best, and by its number in the other. Nothing is computed here but places
 * on the sheet.
 */
import type { CableBend, CablePiece, CablePlace, CableRun } from '../../assessment/cable/data.ts';
import { display, metricUnits, type DisplayUnits } from '../../units/display.ts';
import {
  circle,
  lettering,
  line,
  part,
  polygon,
  polyline,
  text,
  type Drawing,
  type Element,
  type Part,
} from '../drawing.ts';
import { Ground, placeLabels, type WantedLabel } from '../placing.ts';
import { angleOf, between, distance, minus, point, type Box, type Point } from '../plane.ts';
import { freeScale, scaleBar, scaleWords, standardScale } from '../scale.ts';
import { linesOf } from '../text-width.ts';
import { placed, projections, viewOf, type Projection, type RouteFrame, type View } from './views.ts';

export type { RouteFrame, ViewFrame } from './views.ts';

export interface RouteOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
  /** Of ISO 5455, or any that fills the sheet. */
  readonly scales?: 'standard' | 'free';
  /** Keeps scale and place of an earlier drawing. */
  readonly frame?: RouteFrame;
  /** Words keep off the corners, so that handles have room there. */
  readonly hasHandles?: boolean;
}

export interface RouteDrawing extends Drawing {
  /** Null where nothing is drawn. */
  readonly frame: RouteFrame | null;
}

const TITLE = 'The run of the cable';
const MARGIN = 14;
/** Between the two views: room for the words of both. */
const BETWEEN = 16;
const FOOT = 14;
/** So many bends are named in full, and so many numbered; beyond that the sheet would be nothing but words. */
const NAMED = 14;
const NUMBERED = 40;
/** Letters of a name that still has room beside its place. */
const SHORT_NAME = 24;

export function drawRoute(run: CableRun | null, options: RouteOptions = {}): RouteDrawing {
  const { width = 180, height = 120, units = metricUnits, scales = 'standard' } = options;
  const sides = run === null || !run.isDrawn ? null : projections(run);
  if (run === null || sides === null) return { ...undrawn(run, width, height, units), frame: null };
  const frame = options.frame ?? layOut(sides, width, height, scales);
  const views = frame.views.map((view) => viewOf(view, frame.scale));
  const parts: Part[] = [];
  const ground = new Ground(width, height);
  const wanted: WantedLabel[] = [];
  for (const view of views) {
    const own = partsOf(run, view);
    for (const { elements } of own) {
      for (const element of elements) {
        ground.element(element, 1);
        if (element.kind === 'circle') ground.fill(aroundCircle(element.centre, 2.2), 3);
      }
    }
    for (const [corner, place] of run.corners.entries()) {
      if (options.hasHandles === true || run.misfits.some((misfit) => misfit.corner === corner))
        ground.fill(aroundCircle(view.at(place), 2.4), 3);
    }
    parts.push(...own);
    wanted.push(...labelsOf(run, view, views, units));
  }
  const titles = views.map(({ name, title, box }) =>
    part(`${name}-title`, 'words', [text(point(MARGIN, box.top + 7.5), title, { bold: true })]),
  );
  const bar = scaleBar(point(MARGIN, 5), frame.scale, Math.min(60, width / 3), units);
  const ratio = scaleWords(frame.scale);
  const words = ratio === null ? [] : [text(point(width - MARGIN, 5), `Scale ${ratio}`, { align: 'end' })];
  const room: Box = { left: 1, right: width - 1, bottom: FOOT - 2, top: height - 1 };
  const busy = views.map(({ box }) => ({
    left: MARGIN,
    right: MARGIN + 45,
    bottom: box.top + 6.5,
    top: box.top + 11,
  }));
  const labels = placeLabels(wanted, room, ground, busy);
  parts.push(...titles, part('scale', 'words', [...bar.elements, ...words]), ...labels.map((label) => label.part));
  return { title: TITLE, width, height, parts, sentences: sentencesOf(run, units), frame };
}

function layOut(
  sides: readonly [Projection, Projection],
  width: number,
  height: number,
  scales: 'standard' | 'free',
): RouteFrame {
  const wide = Math.max(...sides.map(({ box }) => box.right - box.left), 1);
  const tall = Math.max(
    1,
    sides.reduce((sum, { box }) => sum + box.top - box.bottom, 0),
  );
  const most = Math.min((width - 2 * MARGIN) / wide, (height - FOOT - 2 * BETWEEN) / tall);
  // A run that is too long for the smallest scale of the standard has one of its own.
  const scale = scales === 'free' || standardScale(most) > most ? freeScale(most) : standardScale(most);
  const [above, below] = sides;
  const bottom = FOOT + 4;
  const plan = placed(below, point((width - (below.box.right - below.box.left) * scale) / 2, bottom), scale);
  const side = (width - (above.box.right - above.box.left) * scale) / 2;
  return { scale, views: [placed(above, point(side, plan.box.top + BETWEEN), scale), plan] };
}

function partsOf(run: CableRun, view: View): Part[] {
  const at = (places: readonly CablePlace[]) => places.map(view.at);
  const corners = at(run.corners);
  const straights: Element[] = [];
  const parts: Part[] = [part(`${view.name}-corners`, 'quiet', [polyline('centre', corners)])];
  for (const piece of run.pieces) {
    const points = at(piece.points);
    if (piece.bend === null) straights.push(polyline('outline', points));
    else parts.push(part(`${view.name}-bend-${piece.bend + 1}`, 'pull', [polyline('heavy', points)]));
  }
  parts.push(part(`${view.name}-straights`, 'mechanism', straights));
  const [handle, lever] = [corners[0], corners[corners.length - 1]];
  if (handle !== undefined && lever !== undefined) {
    const [a, b] = [point(handle.x - 1.4, handle.y), point(handle.x + 1.4, handle.y)];
    parts.push(
      part(`${view.name}-handle`, 'mechanism', [circle('outline', handle, 1.4, 'paper'), line('thin', a, b)]),
      part(`${view.name}-lever`, 'mechanism', [circle('outline', lever, 1.1, 'solid')]),
    );
  }
  const joined = run.junction?.at ?? null;
  if (joined !== null)
    parts.push(
      part(`${view.name}-junction`, 'mechanism', [polygon('outline', aroundCircle(view.at(joined), 1.3), 'paper')]),
    );
  const misfits = run.misfits.flatMap(({ corner }) => {
    const place = corners[corner];
    return place === undefined ? [] : crossAt(place);
  });
  if (misfits.length > 0) parts.push(part(`${view.name}-misfits`, 'fails', misfits));
  return parts;
}

const aroundCircle = ({ x, y }: Point, r: number): Point[] => [
  point(x - r, y - r),
  point(x + r, y - r),
  point(x + r, y + r),
  point(x - r, y + r),
];

function crossAt({ x, y }: Point): Element[] {
  const r = 1.6;
  return [
    line('heavy', point(x - r, y - r), point(x + r, y + r)),
    line('heavy', point(x - r, y + r), point(x + r, y - r)),
  ];
}

function labelsOf(run: CableRun, view: View, views: readonly View[], units: DisplayUnits): WantedLabel[] {
  const first = run.corners[0];
  const last = run.corners[run.corners.length - 1];
  const ends: WantedLabel[] =
    first === undefined || last === undefined
      ? []
      : [
          { name: `${view.name}-handle-name`, role: 'words', words: 'handle', anchor: view.at(first) },
          { name: `${view.name}-lever-name`, role: 'words', words: 'lever', anchor: view.at(last) },
        ];
  const { junction } = run;
  const joined: WantedLabel[] =
    junction === null || junction.at === null
      ? []
      : [
          {
            name: `${view.name}-junction-name`,
            role: 'words',
            // A long name stands in the sentence below the sheet.
            words: junction.name.length > SHORT_NAME ? junction.by : `${junction.by}: ${junction.name}`,
            anchor: view.at(junction.at),
          },
        ];
  const isWide = run.bends.length <= NAMED;
  const bends =
    run.bends.length > NUMBERED
      ? []
      : run.pieces.flatMap((piece): WantedLabel[] => {
          const bend = piece.bend === null ? undefined : run.bends[piece.bend];
          if (bend === undefined) return [];
          const points = piece.points.map(view.at);
          const middle = points[Math.floor(points.length / 2)];
          const [from, to] = [points[0], points[points.length - 1]];
          if (middle === undefined || from === undefined || to === undefined) return [];
          // Outwards, away from the middle of the chord.
          const out = minus(middle, between(from, to, 0.5));
          const isBest = isWide && bestView(piece, views) === view.name;
          return [
            {
              name: `${view.name}-bend-${bend.number}-name`,
              role: 'pull',
              words: isBest ? bendWords(bend, units) : `${bend.number}`,
              bold: !isBest,
              anchor: middle,
              ...(Math.hypot(out.x, out.y) > 0.2 ? { towards: angleOf(out) } : {}),
            },
          ];
        });
  const misfits = run.misfits.flatMap((misfit): WantedLabel[] => {
    const place = run.corners[misfit.corner];
    if (place === undefined || view.name !== 'plan') return [];
    return [
      {
        name: `misfit-${misfit.corner}`,
        role: 'fails',
        words: misfitWords(misfit, units),
        anchor: view.at(place),
        bold: true,
      },
    ];
  });
  return [...misfits, ...ends, ...joined, ...bends];
}

/** The view in which a bend lies most open: where its arc stands furthest off its chord. */
function bestView({ points }: CablePiece, views: readonly View[]): View['name'] {
  const height = ({ at }: View) => {
    const [a, m, b] = [points[0], points[Math.floor(points.length / 2)], points[points.length - 1]];
    if (a === undefined || m === undefined || b === undefined) return 0;
    return distance(at(m), between(at(a), at(b), 0.5));
  };
  return views.reduce((best, next) => (height(next) > height(best) ? next : best)).name;
}

function bendWords({ number, angle_deg, radius_mm }: CableBend, units: DisplayUnits): string {
  const radius = radius_mm === null ? '' : `, R ${display(radius_mm / 1000, 'length', units, 3)}`;
  return `${number}: ${Math.round(angle_deg)}°${radius}`;
}

function misfitWords({ why, radiusThatFits_mm }: CableRun['misfits'][number], units: DisplayUnits): string {
  if (why === 'turns back') return 'turns straight back';
  if (why === 'same place' || radiusThatFits_mm === null) return 'two corners at one place';
  return `no room: ${display(radiusThatFits_mm / 1000, 'length', units, 3)} would fit`;
}

function sentencesOf(run: CableRun, units: DisplayUnits): string[] {
  const { bends, misfits, junction } = run;
  const rise =
    Math.abs(run.rise_mm) < 0.5
      ? 'level from end to end'
      : `${display(Math.abs(run.rise_mm) / 1000, 'length', units)} ${run.rise_mm > 0 ? 'up' : 'down'} from the handle to the lever`;
  return [
    `From the handle to the lever ${display(run.length_mm / 1000, 'length', units)} of conduit, ${bends.length} ${bends.length === 1 ? 'bend' : 'bends'}, ${Math.round(run.turned_deg)}° in all, ${rise}.`,
    ...bends
      .slice(0, NUMBERED)
      .map((bend) => `Bend ${bendWords(bend, units)}${bend.name === null ? '' : `, ${bend.name}`}.`),
    ...(junction === null
      ? []
      : [
          `After ${display(junction.from_mm / 1000, 'length', units)} from the handle "${junction.name}" joins by a ${junction.by}.`,
        ]),
    ...(bends.length > NUMBERED ? [`And ${bends.length - NUMBERED} more.`] : []),
    ...misfits.map(
      (misfit) =>
        `Corner ${misfit.corner}${misfit.name === null ? '' : `, ${misfit.name}`}: ${misfitWords(misfit, units)}.`,
    ),
  ];
}

function undrawn(run: CableRun | null, width: number, height: number, units: DisplayUnits): Drawing {
  const sentences =
    run === null || run.isDrawn
      ? ['Not known yet: readings of the route are missing.']
      : [`The route is not drawn. ${sentencesOf(run, units)[0] ?? ''}`];
  const lines = sentences.flatMap((sentence) => linesOf(sentence, width - 8, lettering.small));
  const top = height / 2 + 2.2 * (lines.length - 1);
  const notice = lines.map((words, i) => text(point(width / 2, top - 4.4 * i), words, { align: 'middle' }));
  return { title: TITLE, width, height, parts: [part('notice', 'notice', notice)], sentences };
}
