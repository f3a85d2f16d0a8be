/** Where everything stands at one gap, as plain data for a drawing. Nulls stand where a reading is missing. */
import type { Job } from '../job/schema.ts';
import { springForce, leverSpringLength } from '../physics/spring/working.ts';
import { inMillimetres } from './check.ts';
import { addedOut, airRigOf, givenHome, type AirJob } from './air/air-rig.ts';
import { isAir, isSolenoid } from './assess.ts';
import type { CableJob } from './cable/assess.ts';
import type {
  DrawnActuator,
  DrawnConnection,
  DrawnForces,
  DrawnPosition,
  DrawnSpring,
  MechanismPicture,
  Point,
} from './picture.ts';
import { DefaultReader, valueOf } from './readings.ts';
import { keepOutOf } from './keep-out.ts';
import { leverOf, type Lever } from './lever.ts';
import { rigOf, type MechanicalRig, type SolenoidJob } from './rig.ts';
import { electricCorners, mechanicalSceneOf, pullAt, type MechanicalScene } from './scene.ts';
import { neededAt, outAt } from './forces.ts';
import { orNull } from './sweep.ts';
import { stationAt, travelOf, type Station, type Travel } from './travel.ts';

/** One reckoning of a job, from which pictures at any gap are taken while a travel control moves. */
export interface Mechanism {
  /** Largest gap that the travel control may show, m; null where the stroke is not known. */
  readonly stroke: number | null;
  pictureAt(gap: number): MechanismPicture;
}

export function mechanismOf(job: Job): Mechanism {
  if (isSolenoid(job)) return solenoidMechanism(job);
  return isAir(job) ? airMechanism(job) : leverOnly(job as CableJob);
}

/** @param gap m from home, as the travel control stands */
export function mechanismPicture(job: Job, gap: number): MechanismPicture {
  return mechanismOf(job).pictureAt(gap);
}

const PICTURE_STATIONS = 17;

/** What the mover gives at a gap, N. */
interface Given {
  least(gap: number): number;
  greatest(gap: number): number;
  /** What it adds to the way out. */
  readonly back: number;
}

function solenoidMechanism(job: SolenoidJob): Mechanism {
  const rig = rigOf(job);
  const electric = electricCorners(rig);
  const weakest = electric.find(({ supply, coil }) => supply === 'low' && coil === 'hot')!;
  const strongest = electric.find(({ supply, coil }) => supply === 'high' && coil === 'cold')!;
  return moverMechanism(rig, job.means.works, solenoidOf(rig), {
    least: (gap) => pullAt(rig, gap, weakest, 'least'),
    greatest: (gap) => pullAt(rig, gap, strongest, 'greatest'),
    back: 0,
  });
}

function airMechanism(job: AirJob): Mechanism {
  const air = airRigOf(job);
  const { mechanical } = air;
  const bore = orNull(valueOf(job.means.bore, 'length'));
  const actuator: DrawnActuator = { ...solenoidOf(mechanical), kind: 'air cylinder', bore };
  return moverMechanism(mechanical, mechanical.toStop ? 'by air' : 'by air, to run', actuator, {
    least: () => givenHome(air, air.low),
    greatest: () => givenHome(air, air.high),
    back: addedOut(air).net,
  });
}

function moverMechanism(
  rig: MechanicalRig,
  works: MechanismPicture['works'],
  actuator: DrawnActuator,
  given: Given,
): Mechanism {
  const { job, linkage, lever } = rig;
  const travel = travelOf(rig, rig.linkage, PICTURE_STATIONS);
  const scene = mechanicalSceneOf(rig, null, travel);
  const still = {
    works,
    sense: rig.sense,
    homePin: pointOrNull(linkage.homeX, linkage.homeY),
    pullDirection: orNull(valueOf(job.layout.pullDirection, 'angle')),
    stroke: orNull(rig.stroke),
    armMinusShaft: orNull(lever.armMinusShaft),
    shaftAngles: shaftAngles(lever),
    down: downOf(job),
    connection: connectionOf(job),
    actuator,
    endSwitchGap: rig.endSwitch === null ? null : orNull(rig.endSwitch.worksAtGap),
    home: Number.isNaN(travel.homeGap) ? null : position(rig, travel, travel.homeGap),
    rest: Number.isNaN(travel.startGap) ? null : position(rig, travel, rig.stroke),
    keepOut: keepOutOf(job),
  };
  const fullArrow =
    3 * Math.max(1, ...scene.needed.high.needed.map((needed) => (Number.isFinite(needed) ? needed : 0)));
  return {
    stroke: still.stroke,
    pictureAt(asked) {
      // The plunger cannot go on where the lever on its stop holds it short of home.
      const gap = asked < travel.homeGap ? travel.homeGap : asked;
      const now = position(rig, travel, gap);
      const carried = Math.min(Math.max(gap, travel.homeGap), travel.startGap);
      const station = stationAt(rig, travel, Number.isNaN(carried) ? gap : carried);
      return {
        ...still,
        now,
        springs: rig.springs.map((_, i) => drawnSpring(rig, i, gap, station)),
        forces: forcesAt(rig, scene, given, gap, station, fullArrow),
        trouble: troubleAt(station) ?? (gap > asked ? shortOfHome(gap) : null),
      };
    },
  };
}

/** Before the lever is taken along (a chain hangs) the lever stands on its rest stop; past a stop it stands on that stop. */
function position(rig: MechanicalRig, travel: Travel, gap: number): DrawnPosition {
  const { linkage, startGap, leverStopGap } = travel;
  const station = stationAt(rig, travel, Math.min(gap, startGap));
  const isPastStop = leverStopGap !== null && gap < leverStopGap;
  const shaftAngle = isPastStop ? rig.homeStop : station.shaftAngle;
  const ux = linkage.directionX;
  const uy = linkage.directionY;
  return {
    gap: orNull(gap),
    pin: pointOrNull(linkage.homeX - gap * ux, linkage.homeY - gap * uy),
    armAngle: orNull(shaftAngle + rig.lever.armMinusShaft),
    overTravel: station.stretch ?? 0,
    slack: linkage.kind === 'chain' && gap > startGap + 1e-6,
  };
}

function shaftAngles({ run, noFuel, hardStop, runStop }: Lever): MechanismPicture['shaftAngles'] {
  return { run: orNull(run), noFuel: orNull(noFuel), hardStop: orNull(hardStop), runStop: orNull(runStop) };
}

/** Null where the plane of the lever lies flat: the ground is then behind the drawing. */
function downOf(job: Job): number | null {
  const reader = new DefaultReader();
  const tilt = reader.value('layout.tilt', job.layout.tilt, 'angle');
  return tilt > 1.5 ? null : reader.value('layout.down', job.layout.down, 'angle');
}

function connectionOf(job: Job): DrawnConnection {
  const { connection } = job.layout;
  const length = (text: string) => orNull(valueOf(text, 'length'));
  switch (connection.kind) {
    case 'slotted lever':
      return {
        kind: connection.kind,
        slotFrom: length(connection.slotFrom),
        slotTo: length(connection.slotTo),
        pinDiameter: length(connection.pinDiameter),
        sideClearance: length(connection.sideClearance),
      };
    case 'pinned link':
      return {
        kind: connection.kind,
        armRadius: length(connection.armRadius),
        length: length(connection.length),
        pinDiameter: length(connection.pinDiameter),
      };
    case 'short chain':
      return { kind: connection.kind, armRadius: length(connection.armRadius), length: length(connection.length) };
    case 'plain pin':
      return {
        kind: connection.kind,
        armRadius: length(connection.armRadius),
        pinDiameter: length(connection.pinDiameter),
        holeDiameter: length(connection.holeDiameter),
      };
  }
}

function solenoidOf(rig: MechanicalRig): DrawnActuator {
  const { guide, linkage, stroke } = rig;
  // A pull plunger's guide lies ahead of the pin, a push rod's behind it.
  const along = guide.action === 'pull' ? guide.overhang : -(guide.overhang + stroke);
  return {
    kind: 'solenoid',
    action: guide.action,
    mouth: pointOrNull(linkage.homeX + along * linkage.directionX, linkage.homeY + along * linkage.directionY),
    guideLength: orNull(guide.lengthAtHome),
    plungerDiameter: orNull(guide.diameter),
    bore: null,
  };
}

function drawnSpring(rig: MechanicalRig, i: number, gap: number, station: Station): DrawnSpring {
  const { lever, working, name, helical, lengthAtHome, index } = rig.springs[i];
  const length = lever === null ? lengthAtHome + gap : leverSpringLength(lever, station.shaftAngle);
  const force = springForce(working, length);
  const direction = lever === null ? NaN : station.shaftAngle + lever.angle;
  return {
    on: lever === null ? 'plunger' : 'lever',
    name,
    kind: working.kind,
    from: lever === null ? null : pointOrNull(lever.anchorX, lever.anchorY),
    to: lever === null ? null : pointOrNull(lever.radius * Math.cos(direction), lever.radius * Math.sin(direction)),
    length: orNull(length),
    coilDiameter: helical === null ? null : orNull(helical.meanCoilDiameter),
    turns: helical === null ? null : orNull(helical.activeTurns),
    force: orNull(force),
    slack: force === 0,
    index,
  };
}

function forcesAt(
  rig: MechanicalRig,
  { travel }: MechanicalScene,
  given: Given,
  gap: number,
  station: Station,
  fullArrow: number,
): DrawnForces {
  const isFree = gap > travel.startGap + 1e-6;
  const needed = neededAt(rig, travel, station, 'high');
  const out = outAt(rig, travel, station, 'high');
  return {
    pullLeast: orNull(given.least(gap)),
    pullGreatest: orNull(given.greatest(gap)),
    pullNeeded: isFree ? null : orNull(needed.needed),
    side: isFree ? null : orNull(needed.side),
    return: isFree ? null : orNull(out.net + given.back),
    fullArrow,
  };
}

function troubleAt({ pose, gap }: Station): string | null {
  const where = `${inMillimetres(gap).toFixed(1)} mm from home`;
  if (pose.binds && pose.assembled) return `The pin grips in its hole ${where}.`;
  if (!pose.assembled && Number.isFinite(gap))
    return `The parts cannot reach each other ${where}, or a reading is missing.`;
  return null;
}

function shortOfHome(gap: number): string {
  return `Stopped ${inMillimetres(gap).toFixed(1)} mm from home: the lever is on its stop.`;
}

/** A lever worked by hand, as it stands at run: its swing, where the core is fastened and where its conduit ends. */
function leverOnly(job: CableJob): Mechanism {
  const lever = leverOf(job, new DefaultReader());
  const { leverEnd, core } = job.means;
  const radius = valueOf(leverEnd.radius, 'length');
  const armMinusShaft = valueOf(leverEnd.angle, 'angle');
  const end = pointOrNull(valueOf(leverEnd.conduitEnd.x, 'length'), valueOf(leverEnd.conduitEnd.y, 'length'));
  const fastened = (shaftAngle: number) =>
    pointOrNull(radius * Math.cos(shaftAngle + armMinusShaft), radius * Math.sin(shaftAngle + armMinusShaft));
  const at = (shaftAngle: number): DrawnPosition => ({
    gap: null,
    pin: fastened(shaftAngle),
    armAngle: orNull(shaftAngle + armMinusShaft),
    overTravel: 0,
    slack: false,
  });
  const atRun = fastened(lever.run);
  const picture: MechanismPicture = {
    works: 'by hand',
    sense: lever.toStop,
    homePin: atRun,
    pullDirection: end === null || atRun === null ? null : Math.atan2(end.y - atRun.y, end.x - atRun.x),
    stroke: null,
    armMinusShaft: orNull(armMinusShaft),
    shaftAngles: shaftAngles(lever),
    down: downOf(job),
    // The core is fastened to the arm itself.
    connection: { kind: 'short chain', armRadius: orNull(radius), length: 0 },
    actuator: {
      kind: 'hand cable',
      action: 'pull',
      mouth: end,
      guideLength: null,
      plungerDiameter: orNull(valueOf(core.diameter, 'length')),
      bore: null,
    },
    endSwitchGap: null,
    now: at(lever.run),
    home: at(lever.noFuel),
    rest: at(lever.run),
    springs: [],
    keepOut: keepOutOf(job),
    forces: null,
    trouble: null,
  };
  return { stroke: null, pictureAt: () => picture };
}

function pointOrNull(x: number, y: number): Point | null {
  return Number.isFinite(x) && Number.isFinite(y) ? { x, y } : null;
}
