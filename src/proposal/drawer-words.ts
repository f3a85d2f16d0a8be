/** Springs of the drawer in sentences: how to mount one, and what keeps one out. */
import type { SpringWindow } from '../assessment/window/kinds.ts';
import { actWords, edgeWords } from '../assessment/window/words.ts';
import type { Specification } from '../physics/spring/design/question.ts';
import { display, type DisplayUnits } from '../units/quantity.ts';
import type { Mount } from './drawer-mount.ts';
import type { OrderAnswer } from './drawer-order.ts';
import type { TorsionSpecification } from './drawer-order-torsion.ts';
import type { Closing } from './drawer-screen.ts';

/** "Anchor 4 mm further from the lever, at x 79.7 mm, y 2.5 mm". */
export function mountWords(mount: Mount, units: DisplayUnits): string {
  const say = (value: number) => display(value, 'length', units, 4);
  if (mount.on === 'plunger')
    return `Round the plunger, ${say(mount.lengthAtHome)} long at home${mount.packing > 0 ? `: ${say(mount.packing)} of packing under its seat` : ''}`;
  if (mount.on === 'shaft')
    return `Round the shaft, its legs at rest at a shaft angle of ${display(mount.freeAngle, 'angle', units)}: wound by ${display(mount.woundAtRest, 'angle', units)} with the plunger out`;
  const at = `x ${say(mount.x)}, y ${say(mount.y)}; the spring is then ${say(mount.lengthAtRest)} long with the plunger out`;
  if (mount.hole !== null) return `Anchor in hole "${mount.hole}", ${at}`;
  const moved = mount.moved ?? 0;
  if (Math.abs(moved) < 1e-9) return `Anchor where it is, ${at}`;
  return `Anchor ${display(Math.abs(moved), 'length', units, 3)} ${moved > 0 ? 'further from' : 'nearer to'} the lever, at ${at}`;
}

/** Why a spring stays out. */
export function closingWords(closing: Closing, acts: SpringWindow['acts'], units: DisplayUnits): string {
  const length = (value: number) => display(value, 'length', units, 3);
  if ('extreme' in closing && closing.on === 'shaft') {
    const wound = display(closing.extreme, 'angle', units);
    return closing.by === 'stress'
      ? `wound by ${wound} its wire bends too hard: ${spare(closing.margin)} to what is allowed`
      : `it is wound by ${wound}: ${spare(closing.margin)} to the furthest that it may`;
  }
  switch (closing.by) {
    case 'floor':
    case 'ceiling': {
      const { station, edge, value } = closing;
      const where = station.gap < 5e-6 ? 'at home' : `${length(station.gap)} from home`;
      const gives = Number.isNaN(value) ? '' : ` it gives ${actWords(value, { acts }, units)},`;
      const asked = closing.by === 'floor' ? 'too weak' : 'too strong';
      if (!Number.isFinite(edge.value)) return `no spring of this place can serve ${where}: ${edgeWords(edge)}`;
      return `${asked} ${where}:${gives} ${closing.by === 'floor' ? 'at least' : 'at most'} ${actWords(edge.value, { acts }, units)} is wanted for ${edgeWords(edge)}`;
    }
    case 'stress':
      return `its wire is stressed too high at ${length(closing.extreme)}: ${spare(closing.margin)} to what is allowed`;
    case 'length':
      return `it goes to ${length(closing.extreme)}, ${spare(closing.margin)} to the furthest that it may`;
    case 'coils touch':
      return `pressed to ${length(closing.extreme)} its coils come too near each other: ${spare(closing.margin)}`;
    case 'buckling':
      return `pressed to ${length(closing.extreme)} it may buckle: ${spare(closing.margin)}`;
    case 'room':
      if (closing.what === 'outside')
        return `it is ${length(closing.size)} outside, and the ${closing.on === 'shaft' ? 'room' : 'bore'} is ${length(closing.room)}`;
      return closing.on === 'shaft'
        ? `wound up it goes over ${length(closing.size)} at most, and the shaft is ${length(closing.room)}`
        : `it is ${length(closing.size)} inside, and the plunger is ${length(closing.room)}`;
    case 'finding':
      return `it lies in the window, but "${closing.title}" comes out short`;
    case 'not known':
      return 'a reading of it is missing, or its wire is not tabulated';
    case 'no place':
      return 'there is no place for a spring of its kind';
  }
}

function spare(margin: number): string {
  return margin < 0
    ? `${Math.round(-100 * margin)} % past`
    : `only ${Math.round(100 * margin)} % left of the 10 % wanted`;
}

/** Why no spring to order is offered. */
export function closedWords(closed: OrderAnswer['closed']): string | null {
  if (closed === null) return null;
  switch (closed) {
    case 'window shut':
      return 'No spring can be ordered into a window that is shut.';
    case 'not known':
      return 'The window is not known: readings are missing.';
    case 'no torsion spring':
      return 'No coil of stocked wire lies in the window with its stress, and goes over the shaft and into its room where these are told.';
    case 'no place':
      return 'There is no place for it: the job has no spring on the lever, and the room round the plunger is not told.';
    case 'comes out short':
      return 'None of the springs that can be wound keeps all its margins in this installation.';
    default:
      return `No spring that can be wound fits: ${closed.limit} stops the nearest one${closed.used < 100 ? `, at ${closed.used.toFixed(2)} of what is allowed` : ''}.`;
  }
}

/** A specification, line by line, as a spring-maker reads it. */
export function specificationRows(
  made: Specification | TorsionSpecification,
  units: DisplayUnits,
): readonly (readonly [string, string])[] {
  if (made.kind === 'torsion') return torsionRows(made, units);
  const length = (value: number, digits = 4) => display(value, 'length', units, digits);
  const force = (value: number) => display(value, 'force', units, 4);
  const loads = made.loads.map(
    (load) =>
      [
        `Load ${load.name}`,
        `${force(load.force)} ± ${force(load.tolerance)} at ${length(load.length)}; shear stress ${display(load.stress, 'stress', units, 3)}, corrected ${display(load.correctedStress, 'stress', units, 3)}`,
      ] as const,
  );
  return [
    ['Kind', `${made.kind} spring, round wire, cold coiled`],
    [
      'Wire',
      `${made.wire}, ${length(made.wireDiameter)}, tensile strength at least ${display(made.strength, 'stress', units, 4)}`,
    ],
    ['Outside diameter', `${length(made.outsideDiameter)} ± ${length(made.diameterTolerance, 2)}`],
    ['Turns', `${made.activeTurns.toFixed(1)} active, ${made.totalTurns} in all, ${made.direction}`],
    [
      'Ends',
      made.hookLength === null ? made.ends : `${made.ends}, ${length(made.hookLength)} from body to inside of hook`,
    ],
    ['Free length', `${length(made.freeLength)}${made.kind === 'extension' ? ' inside the hooks' : ''}`],
    ...loads,
    ['Rate', `${display(made.rate, 'springRate', units, 4)} ± ${(100 * made.rateTolerance_share).toFixed(0)} %`],
    ...(made.kind === 'extension' ? [['Initial tension', force(made.initialTension)] as const] : []),
    [made.kind === 'extension' ? 'Length of body' : 'Solid length', length(made.solidLength)],
    ['Tolerances', `EN 15800 grade ${made.grade}`],
    ['Mass', display(made.mass, 'mass', units, 3)],
    ['Surface', made.surface],
  ];
}

function torsionRows(made: TorsionSpecification, units: DisplayUnits): readonly (readonly [string, string])[] {
  const length = (value: number, digits = 4) => display(value, 'length', units, digits);
  return [
    ['Kind', 'torsion spring, round wire, cold coiled, coils close to each other, loaded the way that winds it up'],
    [
      'Wire',
      `${made.wire}, ${length(made.wireDiameter)}, tensile strength at least ${display(made.strength, 'stress', units, 4)}`,
    ],
    ['Outside diameter', length(made.outsideDiameter)],
    [
      'Turns',
      `${made.activeTurns} that give way; straight legs count as both lengths over 9.4 times ${length(made.meanCoilDiameter)}: wind so much less`,
    ],
    ...made.loads.map(
      ({ name, wound, moment, stress }) =>
        [
          `Load ${name}`,
          `${display(moment, 'torque', units, 3)} wound by ${display(wound, 'angle', units, 3)} from rest; bending stress ${display(stress, 'stress', units, 3)}`,
        ] as const,
    ),
    ['Rate', display(made.rate, 'torsionRate', units, 4)],
    ['Goes over', `a shaft of ${length(made.mandrelMost, 3)} at most when it is wound furthest`],
    ['Length of body', `${length(made.bodyLength, 3)} when it is wound furthest`],
    ['Mass', display(made.mass, 'mass', units, 3)],
  ];
}
