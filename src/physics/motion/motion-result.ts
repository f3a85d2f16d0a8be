import type { Course } from './course.ts';
import type { EnergyAudit, Motion, MotionEvent, MotionOutcome, ReleaseOutcome } from './motion.ts';
import { STATE } from './plunger-system.ts';

/** Shallower dips, as a share of the peak, are none: no meter shows them, and rounding makes smaller ones. */
const LEAST_DIP = 1e-3;

/** What a course that has run amounts to. */
export function resultOf(course: Course): Motion {
  const { request, record, steps, converged, residual } = course;
  const { magnet, startAt, circuit } = request;
  const { events } = record;
  const isFromRest = startAt === 'rest';
  const home = isFromRest ? events.find(({ kind }) => kind === 'comes home') : undefined;
  const off = events.find(({ kind }) => kind === 'current off');
  const whileOn = events.slice(0, off === undefined ? events.length : events.indexOf(off));
  const release = off === undefined ? null : releaseOf(course);
  const { dipPeak, dipLeast } = record;
  return {
    outcome: course.outcomeAtOff ?? standingOf(course),
    release,
    events,
    timeToHome: home?.time ?? null,
    landingSpeed: home?.speed ?? null,
    stallGap: whileOn.filter(({ kind }) => kind === 'stalls').at(-1)?.gap ?? null,
    peakCurrent: record.peakCurrent,
    dip:
      isFromRest && dipPeak.current - dipLeast.current > LEAST_DIP * dipPeak.current
        ? { peakTime: dipPeak.time, peakCurrent: dipPeak.current, time: dipLeast.time, current: dipLeast.current }
        : null,
    ...releaseTimes(events, off, release),
    peakVolts: record.peakVolts,
    peakAmpereTurns: record.peakAmpereTurns,
    isBeyondMagnet: record.peakAmpereTurns > magnet.mostAmpereTurns * (1 + 1e-9),
    energy: auditOf(course),
    trace: record.trace.finish(circuit.stages.kind === 'pull-in and hold windings' ? 2 : 1),
    steps,
    converged,
    residual,
    approximation: magnet.approximation,
  };
}

/** How it stands now, as far as the current is on. */
export function standingOf({ request, system, state, record }: Course): MotionOutcome {
  if (system.direction === 0 && state[STATE.gap] <= request.homeGap) return 'home';
  const left = record.count('leaves home');
  if (left > 1) return 'hunts';
  if (left > 0) return 'dropped out';
  if (system.direction !== 0) return 'still moving';
  return record.count('starts moving') > 0 ? 'stalled' : 'did not start';
}

function releaseOf({ system, state, request }: Course): ReleaseOutcome {
  if (system.direction !== 0) return 'still moving';
  const gap = state[STATE.gap];
  if (gap >= request.outGap) return 'returned';
  return gap <= request.homeGap ? 'did not leave home' : 'stopped on the way';
}

function releaseTimes(
  events: readonly MotionEvent[],
  off: MotionEvent | undefined,
  release: ReleaseOutcome | null,
): Pick<Motion, 'releaseTime' | 'returnTime'> {
  if (off === undefined) return { releaseTime: null, returnTime: null };
  const after = events.slice(events.indexOf(off));
  const leaves = after.find(({ kind }) => kind === 'leaves home');
  const rests = after.filter(({ kind }) => kind === 'at rest' || kind === 'stalls').at(-1);
  const hasReturned = release === 'returned' || release === 'stopped on the way';
  return {
    releaseTime: leaves === undefined ? null : leaves.time - off.time,
    returnTime: hasReturned && rests !== undefined ? rests.time - off.time : null,
  };
}

function auditOf({ state, system, curve, landings, fieldBefore, energyScale }: Course): EnergyAudit {
  system.settle(state);
  curve.write(system.piece, state[STATE.gap], system.load);
  const kinetic = 0.5 * system.load.mass * state[STATE.speed] ** 2;
  const field = system.fieldEnergy - fieldBefore;
  const spent = {
    copper: state[STATE.copper],
    loopAndResistor: state[STATE.resistor],
    suppression: state[STATE.suppression],
    field,
    kinetic,
    load: state[STATE.load],
    landings,
  };
  const source = state[STATE.source];
  const missing = source - Object.values(spent).reduce((sum, energy) => sum + energy, 0);
  const put = source + fieldBefore + Math.max(0, -spent.load);
  // Switched off at once, next to nothing is put in, and its rounding is no imbalance.
  return { source, ...spent, imbalance: Math.abs(missing) / Math.max(put, 1e-3 * energyScale) };
}
