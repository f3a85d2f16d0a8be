/**
 * The ways in which a spring of the drawer may be fitted to a job: anchor holes or places along the present spring, seats
 * round the plunger. Every way is told as plain data, and turned into a change of the job.
 */
import { springForce } from '../physics/spring/working.ts';
import { rigOf, type SolenoidJob } from '../assessment/rig.ts';
import { limitsOf } from '../assessment/spring-limits.ts';
import { springsOf, type RigSpring } from '../assessment/springs-of.ts';
import { DefaultReader, valueOf } from '../assessment/readings.ts';
import { usualQuestion, windowOf } from '../assessment/window/window.ts';
import type { SpringWindow, WindowQuestion } from '../assessment/window/kinds.ts';
import { change, type Change } from '../job/change.ts';
import type { Drawer, DrawerSpring } from '../job/drawer/schema.ts';
import type { LinearReturnSpring, ReturnSpring } from '../job/schema.ts';
import { formatQuantity } from '../units/quantity.ts';
import type { KnownSpring, Mount, Target } from './drawer-mount.ts';
import { roundShaft, shaftQuestion, shaftTarget, torsionIn } from './drawer-mounts-shaft.ts';

const SLIDE = 0.025;
const STEP = 0.001;
const MOST_PACKING = 0.015;

/** The places of this job where a spring may be fitted: the spring in question's, and the plunger where its room is known. */
export function targetsOf(job: SolenoidJob, drawer: Drawer, asked: WindowQuestion | null): Target[] {
  const question = asked ?? usualQuestion(job);
  const targets: Target[] = [];
  if (question.on === 'lever' && question.index !== null) targets.push(leverTarget(job, drawer, question));
  const shaft = shaftQuestion(job, drawer, question);
  if (shaft !== null && (asked === null || asked.on === 'shaft')) targets.push(shaftTarget(job, drawer, shaft));
  const seat = plungerSeat(job, drawer);
  if (seat !== null && (asked === null || asked.on === 'plunger')) targets.push(plungerTarget(job, seat));
  return targets;
}

const stationsOf = ({ scenes }: SpringWindow) => scenes.flatMap(({ stations }) => stations);

function leverTarget(job: SolenoidJob, drawer: Drawer, question: WindowQuestion): Target {
  const window = windowOf(job, question);
  const rig = rigOf(job);
  const spring = rig.springs.find(({ index }) => index === question.index)!;
  const anchors = anchorsOf(drawer, spring, window);
  const stations = stationsOf(window);
  const surveyed = window.scenes[0]?.stations.length ?? 0;
  const { radius, angle } = spring.lever!;
  const rows = anchors.map(({ x: ax, y: ay }) => {
    const lengths = new Float64Array(stations.length);
    const arms = new Float64Array(stations.length);
    stations.forEach(({ shaftAngle }, j) => {
      const x = radius * Math.cos(shaftAngle + angle);
      const y = radius * Math.sin(shaftAngle + angle);
      lengths[j] = Math.hypot(x - ax, y - ay);
      // Counter-clockwise moment of one newton that draws the ends together, taken against the way home.
      arms[j] = lengths[j] === 0 ? 0 : (-rig.sense * (x * (ay - y) - y * (ax - x))) / lengths[j];
    });
    return { lengths, arms };
  });
  return {
    question,
    window,
    mounts: anchors.map((anchor, m) => ({ ...anchor, lengthAtRest: rows[m].lengths[surveyed - 1] })),
    lengths: rows.map(({ lengths }) => lengths),
    arms: rows.map(({ arms }) => arms),
    surveyed,
    outsideMost: null,
    insideLeast: null,
  };
}

type LeverMount = Extract<Mount, { on: 'lever' }>;
type Anchor = Omit<LeverMount, 'lengthAtRest'>;

function anchorsOf(drawer: Drawer, spring: RigSpring, window: SpringWindow): Anchor[] {
  const { lever, index } = spring;
  if (lever === null) return [];
  const frame = { on: 'lever' as const, index };
  const holes = drawer.places?.anchors;
  if (holes !== undefined && holes.length > 0)
    return holes
      .map(({ name, at }) => ({
        ...frame,
        hole: name,
        moved: null,
        x: valueOf(at.x, 'length'),
        y: valueOf(at.y, 'length'),
      }))
      .filter(({ x, y }) => Number.isFinite(x + y));
  const slide = drawer.places?.slide;
  const of = (text: string | undefined, otherwise: number) =>
    text === undefined ? otherwise : valueOf(text, 'length');
  const [towards, away, step] = [of(slide?.towards, SLIDE), of(slide?.away, SLIDE), of(slide?.step, STEP)];
  // Along the spring as it stands at rest, where it is hooked on.
  const stations = window.scenes[0]?.stations ?? [];
  const rest = stations[stations.length - 1];
  if (rest === undefined) return [];
  const dx = lever.anchorX - lever.radius * Math.cos(rest.shaftAngle + lever.angle);
  const dy = lever.anchorY - lever.radius * Math.sin(rest.shaftAngle + lever.angle);
  const length = Math.hypot(dx, dy);
  if (!(length > 0)) return [];
  const mounts: Anchor[] = [];
  for (let k = -Math.floor(towards / step + 1e-9); k <= Math.floor(away / step + 1e-9); k++) {
    const moved = k * step;
    if (length + moved <= 0) continue;
    // Told in tenths of a millimetre, and reckoned as told.
    const told = (value: number) => (k === 0 ? value : Math.round(value * 1e4) / 1e4);
    mounts.push({
      ...frame,
      hole: null,
      moved,
      x: told(lever.anchorX + (moved * dx) / length),
      y: told(lever.anchorY + (moved * dy) / length),
    });
  }
  return mounts;
}

interface Seat {
  readonly question: WindowQuestion;
  readonly room: number;
  readonly outsideMost: number | null;
}

/** Room round the plunger: what the drawer says, else the length of the spring that is there. */
function plungerSeat(job: SolenoidJob, drawer: Drawer): Seat | null {
  const index = job.return.springs.findIndex(({ on }) => on === 'plunger');
  const question: WindowQuestion = { on: 'plunger', index: index < 0 ? null : index };
  const said = drawer.places?.plunger;
  if (said !== undefined) {
    const room = valueOf(said.roomAtHome, 'length');
    const bore = valueOf(said.outsideMost, 'length');
    return room > 0 ? { question, room, outsideMost: bore > 0 ? bore : null } : null;
  }
  const present = job.return.springs[index];
  if (present === undefined || present.on !== 'plunger') return null;
  const room = valueOf(present.lengthAtHome, 'length');
  return room > 0 ? { question, room, outsideMost: null } : null;
}

function plungerTarget(job: SolenoidJob, { question, room, outsideMost }: Seat): Target {
  const window = windowOf(job, question);
  const stations = stationsOf(window);
  const mounts: Mount[] = [];
  for (let k = 0; k * STEP <= Math.min(MOST_PACKING, room / 2) + 1e-9; k++)
    mounts.push({ on: 'plunger', index: question.index, lengthAtHome: room - k * STEP, packing: k * STEP });
  const diameter = valueOf(job.means.plunger.diameter, 'length');
  return {
    question,
    window,
    mounts,
    lengths: mounts.map((mount) =>
      Float64Array.from(stations, ({ gap }) => (mount.on === 'plunger' ? mount.lengthAtHome : NaN) + gap),
    ),
    // A push on the plunger drives it out: a spring that draws would be of no use here.
    arms: mounts.map(() => new Float64Array(stations.length).fill(-1)),
    surveyed: window.scenes[0]?.stations.length ?? 0,
    outsideMost,
    insideLeast: Number.isFinite(diameter) ? diameter : null,
  };
}

/** The spring as the job would describe it in this mount. */
export function describedIn(job: SolenoidJob, spring: DrawerSpring, mount: Mount): ReturnSpring | null {
  const name = spring.name;
  if (mount.on === 'shaft')
    return spring.kind === 'torsion'
      ? roundShaft(spring, mount, job.means.works === 'energise to stop' ? 'run' : 'stop')
      : null;
  if (spring.kind === 'torsion') return null;
  if (mount.on === 'plunger')
    return spring.kind === 'compression'
      ? {
          on: 'plunger',
          name,
          kind: 'compression',
          lengthAtHome: millimetres(mount.lengthAtHome),
          spring: spring.spring,
        }
      : null;
  const present = job.return.springs[mount.index];
  if (present === undefined || present.on !== 'lever') return null;
  const anchor = mount.moved === 0 ? present.anchor : { x: millimetres(mount.x), y: millimetres(mount.y) };
  return { ...present, name, kind: spring.kind, anchor, spring: spring.spring };
}

const millimetres = (value: number): string => formatQuantity(value, 'length', 'mm', { significantDigits: 6 });

/** The change that fits the spring. */
export function fitted(job: SolenoidJob, spring: DrawerSpring, mount: Mount): Change | null {
  const to = describedIn(job, spring, mount);
  return to === null ? null : change(job, `return.springs[${mount.index ?? job.return.springs.length}]`, to);
}

/** Null where a reading is missing, or a spring of its kind has no place there. */
export function springIn(spring: DrawerSpring, on: Mount['on']): KnownSpring | null {
  if (on === 'shaft') return spring.kind === 'torsion' ? torsionIn(spring) : null;
  if (spring.kind === 'torsion' || (on === 'plunger' && spring.kind !== 'compression')) return null;
  const description: LinearReturnSpring =
    on === 'plunger'
      ? { on, name: spring.name, kind: 'compression', lengthAtHome: '1 m', spring: spring.spring }
      : {
          on,
          name: spring.name,
          kind: spring.kind,
          anchor: { x: '0 mm', y: '0 mm' },
          radius: '1 mm',
          angle: '0°',
          spring: spring.spring,
        };
  const { springs } = springsOf([description], 1, new DefaultReader());
  const [known] = springs;
  const { working, helical } = known;
  if (Number.isNaN(springForce(working, working.freeLength * (spring.kind === 'extension' ? 1.1 : 0.9)))) return null;
  const outside = helical === null ? null : helical.meanCoilDiameter + helical.wireDiameter;
  const inside = helical === null ? null : helical.meanCoilDiameter - helical.wireDiameter;
  return { working, limits: limitsOf(known), outside, insideAt: () => inside };
}
