/** What is written beside the parts. Anchors stay where they are at every gap; leaders follow what moves. */
import { amount, known, range } from '../amounts.ts';
import { lettering } from '../drawing.ts';
import { along, between, plus, polar, times, type Point } from '../plane.ts';
import type { WantedLabel } from '../placing.ts';
import { gapFaces, gapLabelAnchor, dimensionAside } from './dimension.ts';
import { endsOfSwing } from './fit.ts';
import { arrowLength, forceLines, FULL_ARROW, RETURN_ASIDE, SHORTEST_ARROW } from './forces.ts';
import type { Staged } from './stage.ts';
import { lengthOnSheet, onAxis, toSheet } from './view.ts';

const SIDE = 'label-side';

/** @param roomy false on a small sheet: what the drawing shows without words stays unwritten */
export function wantedLabels(staged: Staged, roomy: boolean): WantedLabel[] {
  const forces = forceLabels(staged);
  return [
    ...gapLabel(staged),
    ...angleLabels(staged),
    ...shaftLabel(staged),
    ...forces.filter(({ name }) => name !== SIDE),
    ...springLabels(staged),
    ...(roomy ? [...endLabels(staged), ...nameLabels(staged)] : []),
    // Last, since it comes and goes with the force: its place must take nobody else's.
    ...forces.filter(({ name }) => name === SIDE),
  ];
}

function angleLabels({ picture, marks, frame, units }: Staged): WantedLabel[] {
  const { run, noFuel, hardStop, runStop } = picture.shaftAngles;
  return (
    [
      ['run', 'run', run, marks.run],
      ['no-fuel', 'no fuel from', noFuel, marks.noFuel],
      ['hard-stop', 'hard stop', hardStop, marks.hardStop],
      ['run-stop', 'run stop', runStop, marks.runStop],
    ] as const
  ).flatMap(([name, words, shaftAngle, armAngle]) => {
    if (shaftAngle === null || armAngle === null) return [];
    const anchor = plus(frame.origin, polar(marks.radius + 4, armAngle));
    const label = `${words} ${amount(shaftAngle, 'angle', units)}`;
    return [{ name: `label-${name}`, role: 'words', words: label, anchor, towards: armAngle } as const];
  });
}

function gapLabel(staged: Staged): WantedLabel[] {
  const { picture, axis, units, farSide } = staged;
  const anchor = gapLabelAnchor(staged);
  const faces = gapFaces(staged);
  if (anchor === null || faces === null || axis === null || picture.now.gap === null) return [];
  const outward = axis.inward;
  return [
    {
      name: 'label-gap',
      role: 'now',
      words: `gap ${amount(picture.now.gap, 'length', units)}`,
      widest: `gap ${amount(Math.max(picture.stroke ?? 0, picture.now.gap), 'length', units)}`,
      height: lettering.middle,
      bold: true,
      anchor,
      target: onAxis(axis, (faces.moving + faces.fixed) / 2, dimensionAside(staged)),
      towards: Math.atan2(outward.x, -outward.y) + (farSide === 1 ? 0 : Math.PI),
      leaderBeyond: 12,
    },
  ];
}

function shaftLabel({ picture, marks, frame, units }: Staged): WantedLabel[] {
  const { now, home, rest, armMinusShaft } = picture;
  if (now.armAngle === null || armMinusShaft === null) return [];
  const ends = [home?.armAngle, rest?.armAngle].map(known).filter((angle) => angle !== null);
  const middle = ends.length === 2 ? ((ends[0] ?? 0) + (ends[1] ?? 0)) / 2 : now.armAngle;
  return [
    {
      name: 'label-shaft',
      role: 'now',
      words: `shaft ${amount(now.armAngle - armMinusShaft, 'angle', units)}`,
      widest: `shaft ${amount(-2, 'angle', units)}`,
      bold: true,
      anchor: plus(frame.origin, polar(marks.radius + 2, middle)),
      target: plus(frame.origin, polar(marks.radius + 0.5, now.armAngle)),
      reaches: ends.map((angle) => plus(frame.origin, polar(marks.radius + 0.5, angle))),
      towards: middle,
      leaderBeyond: 1.5,
    },
  ];
}

function forceLabels(staged: Staged): WantedLabel[] {
  const { picture, units, farSideOfPull } = staged;
  const { forces } = picture;
  const lines = forceLines(staged);
  if (lines === null || forces === null) return [];
  const { at, pull, back, aside } = lines;
  const ends = endsOfTravel(staged);
  const [homeEnd = at, restEnd = homeEnd] = ends;
  const still = between(homeEnd, restEnd, 0.5);
  const labels: WantedLabel[] = [];
  const add = (name: string, role: WantedLabel['role'], words: string, force: number, way: Point, shift = 0): void => {
    const { length } = arrowLength(force, forces.fullArrow);
    if (name === 'side' && length < SHORTEST_ARROW) return;
    const start = along(at, aside, shift);
    labels.push({
      name: `label-${name}`,
      role,
      words,
      widest: words.replaceAll(/\d+(?=\.)/g, '000'),
      // The same place whichever way the force points, but where that names its side of the pin.
      anchor:
        name === 'side'
          ? still
          : along(along(still, aside, shift), name === 'pull' ? pull : back, Math.min(FULL_ARROW * 0.4, 14)),
      target: along(start, way, length * 0.6),
      reaches: ends.map((end) => along(along(end, aside, shift), way, FULL_ARROW * 0.3)),
      leaderBeyond: 1.2,
      towards: Math.atan2(aside.y * farSideOfPull, aside.x * farSideOfPull),
    });
  };
  const { pullLeast, pullGreatest, pullNeeded, side } = forces;
  if (pullLeast !== null || pullGreatest !== null) {
    const least = pullLeast ?? pullGreatest ?? 0;
    const most = pullGreatest ?? least;
    if (most > 0) add('pull', 'pull', `pull ${range(least, most, 'force', units)}`, least, pull);
  }
  if (pullNeeded !== null && pullNeeded !== 0) {
    add('need', 'need', `needed ${amount(pullNeeded, 'force', units)}`, pullNeeded, pullNeeded > 0 ? back : pull);
  }
  if (side !== null && Math.abs(side) > 1e-3) {
    add('side', 'side', `side ${amount(Math.abs(side), 'force', units)}`, side, side > 0 ? aside : times(aside, -1));
  }
  if (forces.return !== null && Math.abs(forces.return) > 1e-3) {
    const value = amount(Math.abs(forces.return), 'force', units);
    const comes = forces.return > 0;
    const words = comes ? `return ${value}` : `stays: short by ${value}`;
    add('return', comes ? 'return' : 'fails', words, forces.return, comes ? back : pull, RETURN_ASIDE * farSideOfPull);
  }
  return labels;
}

/** The plunger pin at home and at full stroke. */
function endsOfTravel({ picture, frame, pull }: Staged): Point[] {
  if (picture.homePin === null || pull === null) return [];
  const home = toSheet(frame, picture.homePin);
  return [home, along(home, pull, -lengthOnSheet(frame, picture.stroke ?? 0))];
}

/** Names of both ends of the travel, beside the lever as it stands there, each on its outer side. */
function endLabels({ picture, frame, shape }: Staged): WantedLabel[] {
  const { works, home, rest } = picture;
  const [homeAngle, restAngle] = [known(home?.armAngle), known(rest?.armAngle)];
  if (shape === null || homeAngle === null || restAngle === null) return [];
  const [atHome, atRest] =
    works === 'energise to run' || works === 'by air, to run'
      ? ['home: run', 'at rest: stop']
      : ['home: stop', 'at rest: run'];
  const half = lengthOnSheet(frame, (shape.hubRadius + shape.endRadius) / 2);
  const turn = homeAngle > restAngle ? Math.PI / 2 : -Math.PI / 2;
  return [['home', atHome, homeAngle, turn] as const, ['rest', atRest, restAngle, -turn] as const].map(
    ([name, words, armAngle, side]) => {
      const beside = (share: number): Point =>
        plus(
          plus(frame.origin, polar(lengthOnSheet(frame, shape.reach) * share, armAngle)),
          polar(half, armAngle + side),
        );
      const [anchor, orAt] = [beside(0.45), [beside(0.25), beside(0.65), beside(0.1)]];
      return { name: `label-${name}`, role: 'quiet', words, anchor, orAt, towards: armAngle + side } as const;
    },
  );
}

function springLabels({ picture, frame, axis, units }: Staged): WantedLabel[] {
  return picture.springs.flatMap((spring, i) => {
    const still = spring.to === null ? [] : endsOfSwing(picture, spring.to).map((end) => toSheet(frame, end));
    const value = spring.slack ? 'slack' : spring.force === null ? null : amount(spring.force, 'force', units);
    const base = {
      name: `label-spring-${i + 1}`,
      role: 'words',
      words: value === null ? spring.name : `${spring.name} ${value}`,
      widest: `${spring.name} ${amount(888, 'force', units)}`,
    } as const;
    if (spring.from !== null && spring.to !== null) {
      const from = toSheet(frame, spring.from);
      const [first = from, second = first] = still;
      return [
        {
          ...base,
          anchor: between(from, between(first, second, 0.5), 0.5),
          target: between(from, toSheet(frame, spring.to), 0.5),
        },
      ];
    }
    if (spring.on === 'plunger' && axis !== null) return [{ ...base, anchor: onAxis(axis, -3, 0) }];
    return [];
  });
}

const actuatorNames = { solenoid: 'solenoid', 'hand cable': 'hand cable', 'air cylinder': 'air cylinder' } as const;

function nameLabels(staged: Staged): WantedLabel[] {
  const { picture, axis, body, frame, shape, farSide } = staged;
  const labels: WantedLabel[] = [];
  if (axis !== null && body !== null) {
    const { kind, action } = picture.actuator;
    labels.push({
      name: 'label-actuator',
      role: 'quiet',
      words: `${actuatorNames[kind]}, ${action === 'pull' ? 'pulls' : 'pushes'}`,
      anchor: onAxis(axis, body.depth * 0.5, -farSide * body.halfHeight),
      towards: Math.atan2(-farSide * axis.inward.x, farSide * axis.inward.y),
    });
  }
  if (shape !== null) {
    const hub = lengthOnSheet(frame, shape.hubRadius);
    const away =
      axis === null ? -Math.PI / 2 : Math.atan2(frame.origin.y - axis.mouth.y, frame.origin.x - axis.mouth.x);
    labels.push({
      name: 'label-pump-shaft',
      role: 'quiet',
      words: 'pump shaft',
      anchor: plus(frame.origin, polar(hub + 1, away)),
      towards: away,
    });
    const held = connectionWords(staged);
    const angle = picture.now.armAngle === null ? null : (picture.rest?.armAngle ?? picture.now.armAngle);
    if (held !== null && angle !== null) {
      const anchor = plus(frame.origin, polar(lengthOnSheet(frame, shape.reach) * 0.55, angle));
      const target = plus(frame.origin, polar(lengthOnSheet(frame, shape.reach) * 0.55, picture.now.armAngle ?? angle));
      labels.push({ name: 'label-connection', role: 'quiet', words: held, anchor, target });
    }
  }
  return labels;
}

function connectionWords({ picture, units }: Staged): string | null {
  const { connection, now } = picture;
  const mm = (length: number | null): string => (length === null ? '?' : amount(length, 'length', units));
  const given = now.overTravel > 0 ? `, over-travel spring gives ${mm(now.overTravel)}` : '';
  switch (connection.kind) {
    case 'slotted lever':
      return now.overTravel > 0 ? `slotted lever${given}` : null;
    case 'pinned link':
      return `link ${mm(connection.length)}, arm ${mm(connection.armRadius)}${given}`;
    case 'short chain':
      return `chain ${mm(connection.length)}${now.slack ? ', slack' : ''}${given}`;
    case 'plain pin':
      return `pin ${mm(connection.pinDiameter)} in ${mm(connection.holeDiameter)} hole${given}`;
  }
}
