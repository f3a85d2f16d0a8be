/** Torsion springs round the shaft: where their legs may be set to rest, and what is known of one in the hand. */
import { valueOf, DefaultReader } from '../assessment/readings.ts';
import { rigOf, type SolenoidJob } from '../assessment/rig.ts';
import type { SpringLimits } from '../assessment/spring-limits.ts';
import { springsOf } from '../assessment/springs-of.ts';
import type { WindowQuestion } from '../assessment/window/kinds.ts';
import { windowOf } from '../assessment/window/window.ts';
import type { Drawer, TorsionInHand } from '../job/drawer/schema.ts';
import type { ShaftReturnSpring } from '../job/schema.ts';
import { largestMandrel, permissibleBendingShare } from '../physics/spring/torsion.ts';
import { wireStrength } from '../physics/spring/wire.ts';
import { formatQuantity, fromSI, toSI } from '../units/quantity.ts';
import type { KnownSpring, Mount, Target } from './drawer-mount.ts';

type ShaftMount = Extract<Mount, { readonly on: 'shaft' }>;

const DEGREE = toSI(1, '°');
/** Legs are set to whole steps of the shaft's angle, and wound so far at most with the plunger out. */
const LEG_STEP_DEGREES = 5;
const MOST_WOUND_DEGREES = 180;

/** The torsion spring in question: the present one, or one more where the drawer tells the room for it. */
export function shaftQuestion(job: SolenoidJob, drawer: Drawer, question: WindowQuestion): WindowQuestion | null {
  if (question.on === 'shaft') return question;
  const index = job.return.springs.findIndex(({ on }) => on === 'shaft');
  if (index >= 0) return { on: 'shaft', index };
  return drawer.places?.shaft === undefined ? null : { on: 'shaft', index: null };
}

export function shaftTarget(job: SolenoidJob, drawer: Drawer, question: WindowQuestion): Target {
  const window = windowOf(job, question);
  const stations = window.scenes.flatMap((scene) => scene.stations);
  const surveyed = window.scenes[0]?.stations.length ?? 0;
  const rest = stations[surveyed - 1];
  // It brings the plunger out: against the way home.
  const drives = rigOf(job).sense === 1 ? -1 : 1;
  const mounts = rest === undefined ? [] : legsFrom(question.index, drives, rest.shaftAngle);
  const room = drawer.places?.shaft;
  const positive = (value: number) => (value > 0 ? value : null);
  return {
    question,
    window,
    mounts,
    lengths: mounts.map(({ freeAngle }) =>
      Float64Array.from(stations, ({ shaftAngle }) => drives * (freeAngle - shaftAngle)),
    ),
    arms: mounts.map(() => new Float64Array(stations.length).fill(1)),
    surveyed,
    outsideMost: room === undefined ? null : positive(valueOf(room.outsideMost, 'length')),
    insideLeast: room === undefined ? null : positive(valueOf(room.diameter, 'length')),
  };
}

function legsFrom(index: number | null, drives: 1 | -1, restAngle: number): ShaftMount[] {
  const first = Math.ceil((drives * fromSI(restAngle, '°')) / LEG_STEP_DEGREES - 1e-9);
  return Array.from({ length: MOST_WOUND_DEGREES / LEG_STEP_DEGREES + 1 }, (_, k) => {
    const freeAngle = drives * (first + k) * LEG_STEP_DEGREES * DEGREE;
    return { on: 'shaft', index, freeAngle, woundAtRest: drives * (freeAngle - restAngle), drives };
  });
}

const degrees = (value: number): string => formatQuantity(value, 'angle', '°', { significantDigits: 6 });

/** As a job describes it, its legs set to rest at the mount's angle. */
export function roundShaft(
  { name, spring }: TorsionInHand,
  { freeAngle, drives }: Pick<ShaftMount, 'freeAngle' | 'drives'>,
  towards: ShaftReturnSpring['towards'],
): ShaftReturnSpring {
  const frame = { on: 'shaft', name, kind: 'torsion', towards } as const;
  /** Shaft angle at which it is wound so far. */
  const at = (wound: string) => {
    const value = valueOf(wound, 'angle');
    return Number.isNaN(value) ? wound : degrees(freeAngle - drives * value);
  };
  switch (spring.by) {
    case 'rate':
      return {
        ...frame,
        spring: { by: 'rate', rate: spring.rate, freeAngle: degrees(freeAngle), limitAngle: at(spring.mostWound) },
      };
    case 'dimensions':
      return { ...frame, spring: { ...spring, freeAngle: degrees(freeAngle) } };
    case 'two readings': {
      const reading = ({ wound, moment }: { readonly wound: string; readonly moment: string }) => ({ angle: at(wound), moment }); // prettier-ignore
      return {
        ...frame,
        spring: {
          by: 'two readings',
          first: reading(spring.first),
          second: reading(spring.second),
          limitAngle: at(spring.mostWound),
        },
      };
    }
  }
}

/** Null where a reading is missing or its wire is not tabulated. */
export function torsionIn(spring: TorsionInHand): KnownSpring | null {
  // Its legs at rest at nought, driving towards greater angles: wound by as much as the shaft stands below nought.
  const { shaftSprings } = springsOf([roundShaft(spring, { freeAngle: 0, drives: 1 }, 'stop')], 1, new DefaultReader());
  const [{ onShaft, coil, limitAngle }] = shaftSprings;
  const { rate, freeAngle } = onShaft;
  const limits: SpringLimits = {
    force:
      coil === null
        ? Infinity
        : (permissibleBendingShare * wireStrength(coil.wire, coil.wireDiameter) * Math.PI * coil.wireDiameter ** 3)
          / 32,
    deflection: coil === null ? freeAngle - limitAngle : Infinity,
    end: 'length',
    buckling: Infinity,
  };
  if (Number.isNaN(rate + freeAngle + limits.force + limits.deflection)) return null;
  return {
    working: { kind: 'extension', rate, freeLength: -freeAngle, initialTension: 0 },
    limits,
    outside: coil === null ? null : coil.meanCoilDiameter + coil.wireDiameter,
    insideAt: (wound) => (coil === null ? null : largestMandrel(coil, Math.max(0, wound))),
  };
}
