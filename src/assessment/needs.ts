/**
 * Which readings a question rests on, as paths. The checks add these groups up; a test takes every reading away in turn
 * and expects exactly the findings that name it to become "not known".
 */
import { NOT_MEASURED } from '../job/quantity-text.ts';
import { pathText } from '../job/path.ts';
import type { Job } from '../job/schema.ts';
import { handStopPaths } from './hand-stop/hung-lever.ts';
import type { SolenoidJob } from './rig.ts';
import { springPaths } from './spring-paths.ts';

/** What any mover of the lever rests on, by groups. */
export interface MechanicalNeeds {
  /** Where pin, arm and shaft stand at every gap. */
  readonly geometry: readonly string[];
  /** Where the plunger starts and ends: geometry and the lever's two stops. */
  readonly travel: readonly string[];
  /** The place as surveyed: travel, but not how far the engine moves. */
  readonly travelUnmoved: readonly string[];
  /** Effort of the lever. */
  readonly load: readonly string[];
  readonly firstPull: readonly string[];
  /** Force of the return springs, one inside the mover with them. */
  readonly springs: readonly string[];
  /** Guide friction. */
  readonly guide: readonly string[];
  readonly weight: readonly string[];
  /** Push of the end switch over its last travel. */
  readonly switchForce: readonly string[];
  readonly sticking: readonly string[];
  readonly overTravel: readonly string[];
  /** Rub radii of pins. */
  readonly pins: readonly string[];
  /** Lash and slot clearance, which come off the travel. */
  readonly lash: readonly string[];
  readonly give: readonly string[];
  /** Everything that the pull needed rests on, over the whole travel. */
  readonly pullNeeded: readonly string[];
  readonly returned: readonly string[];
}

export interface Needs extends MechanicalNeeds {
  /** Currents by stage, supply and warmth of the coil. */
  readonly pullInLow: readonly string[];
  readonly pullInHigh: readonly string[];
  readonly holdLow: readonly string[];
  readonly holdHigh: readonly string[];
  /** The loops by way of the further stations. */
  readonly stationLoops: readonly string[];
  readonly pullInTable: readonly string[];
  readonly holdTable: readonly string[];
  readonly pullAvailable: readonly string[];
  /** Everything that the course of a pull, or of a release, rests on. */
  readonly motion: readonly string[];
}

/** Paths of the mover's own readings. */
export interface MoverPaths {
  /** How far and which way it moves. */
  readonly travel: readonly string[];
  /** What the play of a plain pin in its guide rests on, and what guide friction asks beyond that. */
  readonly guide: {
    readonly length: string;
    readonly overhang: string;
    readonly clearance: string;
    readonly diameter: string;
  };
  /** Which way its guide lies; empty where that is no reading. */
  readonly action: readonly string[];
  readonly mass: readonly string[];
  readonly switchForce: readonly string[];
  readonly sticking: readonly string[];
  readonly springInside: readonly string[];
}

const plungerPaths = ({ endSwitch }: SolenoidJob['means']): MoverPaths => ({
  travel: ['means.plunger.stroke'],
  guide: {
    length: 'means.plunger.guideLength',
    overhang: 'means.plunger.overhang',
    clearance: 'means.plunger.boreClearance',
    diameter: 'means.plunger.diameter',
  },
  action: [],
  mass: ['means.plunger.mass'],
  switchForce: endSwitch === 'none' ? [] : ['means.endSwitch.worksAtGap', 'means.endSwitch.operatingForce'],
  sticking: ['means.stickingForce'],
  springInside: [],
});

export function mechanicalNeedsOf(job: Job, mover: MoverPaths): MechanicalNeeds {
  const { survey, layout } = job;
  const { connection } = layout;
  const lever = (...names: string[]) => names.map((name) => `survey.lever.${name}`);
  const joint = (...names: string[]) => names.map((name) => `layout.connection.${name}`);
  const isPin = connection.kind === 'plain pin';
  const jointGeometry = {
    'slotted lever': [],
    'pinned link': joint('length', 'armRadius'),
    'short chain': joint('length', 'armRadius'),
    'plain pin': joint('armRadius', 'pinDiameter', 'holeDiameter'),
  }[connection.kind];
  const { length, overhang, clearance, diameter } = mover.guide;
  const geometry = [
    ...lever('runAngle', 'noFuelAngle', 'armOffset'),
    'layout.homePin.x',
    'layout.homePin.y',
    'layout.pullDirection',
    ...mover.travel,
    ...jointGeometry,
    ...(isPin ? [length, overhang, clearance, ...mover.action] : []),
    'surroundings.engineMoves',
  ];
  const travel = [...geometry, ...lever('hardStopAngle', 'runStopAngle')];
  const readings = survey.effort.readings.flatMap((_, i) =>
    ['angle', 'radius', 'pull', 'easingBack'].map((name) => `survey.effort.readings[${i}].${name}`),
  );
  const load = [...(readings.length === 0 ? ['survey.effort.readings'] : readings), ...handStopPaths(job)];
  const firstPull =
    survey.effort.firstPull === undefined ? [] : ['survey.effort.firstPull.radius', 'survey.effort.firstPull.pull'];
  const springs = [
    ...job.return.springs.flatMap((spring, i) => springPaths(spring, `return.springs[${i}]`)),
    ...mover.springInside,
  ];
  // A plain pin's geometry already rests on guide length and overhang.
  const guide = isPin ? [diameter] : [length, overhang, diameter, ...mover.action];
  const weight = [...mover.mass, 'surroundings.vibration'];
  const overTravel = layout.overTravel === 'none' ? [] : ['layout.overTravel.preload', 'layout.overTravel.rate'];
  const pins = connection.kind === 'pinned link' ? joint('pinDiameter') : [];
  const resist = [...load, ...springs, ...guide, ...weight, ...overTravel, ...pins];
  return {
    geometry,
    travel,
    travelUnmoved: travel.filter((path) => path !== 'surroundings.engineMoves'),
    load,
    firstPull,
    springs,
    guide,
    weight,
    switchForce: mover.switchForce,
    sticking: mover.sticking,
    overTravel,
    pins,
    lash: [...lever('lash'), ...(connection.kind === 'slotted lever' ? joint('sideClearance') : [])],
    give: ['layout.bracketGive'],
    pullNeeded: [...travel, ...resist, ...mover.switchForce],
    returned: [...travel, ...resist, ...mover.sticking],
  };
}

export function needsOf(job: SolenoidJob): Needs {
  const { means, supply } = job;
  const mechanical = mechanicalNeedsOf(job, plungerPaths(means));
  const { pullNeeded, sticking, firstPull } = mechanical;
  const hot = 'surroundings.hottest';
  const cold = 'surroundings.coldest';
  const coil = (stage: 'pull-in' | 'hold') => ['means.coil.readAt', ...coilPaths(means.coil.stages, stage)];
  const conductor = (name: string) => [`supply.${name}.section`, `supply.${name}.length`];
  const stationPaths = supply.stations.map(({ contacts }, i) => [
    ...conductor(`stations[${i}].out`),
    ...contacts.map((_, c) => `supply.stations[${i}].contacts[${c}].resistance`),
  ]);
  const ends = [
    'supply.internalResistance',
    ...(supply.back.by === 'earth' ? ['supply.back.resistance'] : conductor('back')),
  ];
  const loop = [
    ...ends,
    ...conductor('out'),
    ...supply.contacts.map((_, i) => `supply.contacts[${i}].resistance`),
    // Energise to run, every station stands in the one loop.
    ...(means.works === 'energise to run' ? stationPaths.flat() : []),
  ];
  const pullInLow = [...coil('pull-in'), hot, ...loop];
  const twoWindings = means.coil.stages === 'pull-in and hold windings';
  const table = (stage: 'pull-in' | 'hold') => tablePaths(means.force, twoWindings ? stage : null);
  const pullInTable = table('pull-in');
  const holdTable = table('hold');
  const pullInHigh = [...coil('pull-in'), cold, ...loop];
  const holdLow = [...coil('hold'), hot, ...loop];
  const holdHigh = [...coil('hold'), cold, ...loop];
  return {
    ...mechanical,
    pullInLow,
    pullInHigh,
    holdLow,
    holdHigh,
    stationLoops: [...ends, ...stationPaths.flat()],
    pullInTable,
    holdTable,
    pullAvailable: [...pullInLow, ...pullInTable],
    motion: [
      ...new Set([
        ...pullNeeded,
        ...sticking,
        ...firstPull,
        ...pullInLow,
        ...pullInHigh,
        ...holdLow,
        ...holdHigh,
        ...(means.coil.stages === 'timed economiser' ? ['means.coil.delay'] : []),
        // A co-energy map stands in the place of the pulls.
        ...(means.map === undefined ? [...pullInTable, ...holdTable] : []),
      ]),
    ],
  };
}

/** Two windings lie side by side in pull-in; in hold the heavy one is off. */
function coilPaths(stages: SolenoidJob['means']['coil']['stages'], stage: 'pull-in' | 'hold'): readonly string[] {
  const isHold = stage === 'hold';
  switch (stages) {
    case 'single coil':
      return ['means.coil.resistance'];
    case 'pull-in and hold windings':
      return isHold ? ['means.coil.holdResistance'] : ['means.coil.pullInResistance', 'means.coil.holdResistance'];
    case 'series resistor':
      return isHold ? ['means.coil.resistance', 'means.coil.resistor'] : ['means.coil.resistance'];
    case 'timed economiser':
      return isHold ? ['means.coil.resistance', 'means.coil.holdShare'] : ['means.coil.resistance'];
  }
}

function tablePaths(tables: SolenoidJob['means']['force'], stage: 'pull-in' | 'hold' | null): readonly string[] {
  const paths = tables.flatMap((table, t) => {
    if (stage !== null && table.stage !== stage) return [];
    const at = `means.force[${t}]`;
    const drive =
      table.drive.by === 'current' ? [`${at}.drive.current`] : [`${at}.drive.voltage`, `${at}.drive.coilTemperature`];
    return [...drive, ...table.rows.flatMap((_, r) => [`${at}.rows[${r}].gap`, `${at}.rows[${r}].force`])];
  });
  return paths.length === 0 ? ['means.force'] : paths;
}

/** Paths of all readings of a document that were not taken; empty lists that must hold a reading count as one. */
export function missingReadings(job: Job): ReadonlySet<string> {
  const missing = new Set<string>();
  const steps: PropertyKey[] = [];
  const walk = (value: unknown): void => {
    if (value === NOT_MEASURED) missing.add(pathText(steps));
    else if (typeof value === 'object' && value !== null) {
      for (const key in value) {
        steps.push(Array.isArray(value) ? Number(key) : key);
        walk((value as Readonly<Record<string, unknown>>)[key]);
        steps.pop();
      }
    }
  };
  walk(job);
  if (job.survey.effort.readings.length === 0) missing.add('survey.effort.readings');
  if (job.means.kind === 'solenoid') {
    const { force, coil } = job.means;
    const none = (stage: string) =>
      !force.some((table) => coil.stages !== 'pull-in and hold windings' || table.stage === stage);
    if (none('pull-in') || none('hold')) missing.add('means.force');
  }
  return missing;
}
