/** The hand cable: its bends, and where it takes hold of the lever. (Handle, core, lining and spring: cable-parts.ts.) */
import { routeOf } from '../../assessment/cable/course.ts';
import { change } from '../../job/change.ts';
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import type { HandCable } from '../../job/schema.ts';
import { turnedBy } from '../../physics/cable/route.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { keepingReadings, type Cabled } from './cable-as-read.ts';
import { cableParts } from './cable-parts.ts';
import {
  DEGREE,
  fewer,
  millimetres,
  MM,
  moves,
  resize,
  set,
  shares,
  shift,
  valueAtPath,
  type Knob,
  type Say,
} from './knob.ts';

export function cableKnobs(at: Cabled, units: DisplayUnits, say: Say): Knob[] {
  return [
    ...keepingReadings(at, (kept) => [
      ...slackTaken(kept, units),
      ...fastened(kept, say),
      ...conduitEnd(kept, say),
      ...otherSide(kept),
      ...bends(kept, units),
      ...leftOut(kept),
      ...undrawn(kept, units),
    ]),
    ...cableParts(at, units, say),
  ];
}

function slackTaken({ job, prefix }: Cabled, units: DisplayUnits): Knob[] {
  return resize(
    job,
    `${prefix}.leverEnd.slack`,
    'length',
    units,
    fewer,
    -1,
    (to) => `Take up slack until the core moves no more than ${to} before the lever`,
  );
}

/** Another hole in the arm. */
function fastened({ job, prefix }: Cabled, say: Say): Knob[] {
  return shift(
    job,
    `${prefix}.leverEnd.radius`,
    'length',
    MM,
    millimetres,
    0.5,
    (to) => `Fasten the core ${say('length', to)} from the shaft centre`,
    0.01,
  );
}

/** The end of the conduit moved along each axis of the drawing. */
function conduitEnd({ job, prefix }: Cabled, say: Say): Knob[] {
  const ways = [
    ['x', 1, 'to the right'],
    ['x', -1, 'to the left'],
    ['y', 1, 'upwards'],
    ['y', -1, 'downwards'],
  ] as const;
  return ways.flatMap(([axis, way, words]): Knob[] => {
    const path = `${prefix}.leverEnd.conduitEnd.${axis}`;
    const value = valueAtPath(job, path, 'length');
    if (Number.isNaN(value)) return [];
    return [
      {
        name: `${path} ${way}`,
        ladder: [...millimetres, 30, 45, 60, 90],
        step: 0.5,
        settingAt(amount) {
          const changes = moves([set(job, path, 'length', value + way * amount * MM)]);
          const moved = `Move the end of the conduit ${say('length', amount * MM)} ${words} on the drawing`;
          return changes === null ? null : { words: moved, changes };
        },
      },
    ];
  });
}

/** The conduit on the other side of the lever: what was to be pushed is pulled. */
export function otherSide({ job, cable, prefix }: Cabled): Knob[] {
  const { leverEnd, towardsStop } = cable;
  const path = (name: string) => `${prefix}.${name}`;
  const [x, y] = (['x', 'y'] as const).map((axis) =>
    valueAtPath(job, `${prefix}.leverEnd.conduitEnd.${axis}`, 'length'),
  );
  const middle =
    (valueAtPath(job, 'survey.lever.runAngle', 'angle') + valueAtPath(job, 'survey.lever.hardStopAngle', 'angle')) / 2
    + valueAtPath(job, path('leverEnd.angle'), 'angle');
  if (Number.isNaN(x + y + middle) || towardsStop === NOT_MEASURED) return [];
  // Mirrored in the line of the arm as it stands in the middle of its swing.
  const [c, s] = [Math.cos(2 * middle), Math.sin(2 * middle)];
  const mirrored = moves([
    set(job, path('leverEnd.conduitEnd.x'), 'length', x * c + y * s),
    set(job, path('leverEnd.conduitEnd.y'), 'length', x * s - y * c),
  ]);
  if (mirrored === null) return [];
  const pulls = towardsStop === 'pushed' ? [change(job, path('towardsStop'), 'pulled')] : [];
  // An axis that was measured is that of the old side.
  const { conduitDirection: _old, ...end } = leverEnd;
  const axis = leverEnd.conduitDirection === undefined ? [] : [change(job, path('leverEnd'), end)];
  const how = towardsStop === 'pushed' ? 'so that the core pulls' : 'so that the core turns it the other way';
  return [
    {
      name: 'conduit on the other side',
      ladder: [1],
      step: 0,
      settingAt: () => ({
        words: `Bring the conduit to the other side of the lever, ${how}`,
        changes: [...axis, ...mirrored, ...pulls],
      }),
    },
  ];
}

/** Each bend wider, and narrower where there is no room. */
function bends({ job, cable, prefix }: Cabled, units: DisplayUnits): Knob[] {
  return cable.route.flatMap((_, i) => {
    if (i === 0 || i === cable.route.length - 1) return [];
    const path = `${prefix}.route[${i}].radius`;
    const called = cornerCalled(cable, i);
    return [
      ...resize(job, path, 'length', units, shares, 1, (to) => `Give the bend at ${called} a radius of ${to}`),
      ...resize(job, path, 'length', units, fewer, -1, (to) => `Give the bend at ${called} a radius of only ${to}`),
    ];
  });
}

function cornerCalled({ route }: HandCable, i: number): string {
  const { name } = route[i];
  return name === undefined || name.trim() === '' ? `corner ${i}` : `"${name}"`;
}

/** The conduit laid straight past one corner, the one that saves the fewest degrees first. */
function leftOut({ job, cable, prefix }: Cabled): Knob[] {
  const { route } = cable;
  const turned = (corners: HandCable['route']) => {
    const course = routeOf(corners);
    return course === null || course.misfits.length > 0 ? NaN : turnedBy(course.pieces);
  };
  const whole = turned(route);
  const ways = route
    .slice(1, -1)
    .map((_, i) => {
      const without = route.filter((__, k) => k !== i + 1);
      return { without, called: cornerCalled(cable, i + 1), saved: whole - turned(without) };
    })
    .filter(({ saved }) => saved > DEGREE)
    .sort((a, b) => a.saved - b.saved);
  if (ways.length === 0) return [];
  return [
    {
      name: 'corner left out',
      ladder: ways.map((_, i) => i + 1),
      step: 0,
      settingAt(which) {
        const way = ways[which - 1];
        if (way === undefined) return null;
        const words = `Lay the conduit straight past ${way.called}: ${Math.round(way.saved / DEGREE)}° of bend less`;
        return { words, changes: [change(job, `${prefix}.route`, way.without)] };
      },
    },
  ];
}

/** Of a run that is not drawn. */
function undrawn({ job, cable }: Cabled, units: DisplayUnits): Knob[] {
  if (cable.route.length > 0) return [];
  return resize(
    job,
    'survey.run.bendTotal',
    'angle',
    units,
    fewer,
    -1,
    (to) => `Find a way with no more than ${to} of bends in all`,
  );
}
