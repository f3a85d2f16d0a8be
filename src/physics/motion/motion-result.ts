import type { Course } from './course.ts';
import type { EnergyAudit, Motion, MotionEvent, ReleaseOutcome } from './motion.ts';
import { STATE } from './plunger-system.ts';

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
    outcome: course.outcomeAtOff ?? course.standing(),
    release,
    events,
    timeToHome: home?.time ?? null,
    landingSpeed: home?.speed ?? null,
    stallGap: whileOn.filter(({ kind }) => kind === 'stalls').at(-1)?.gap ?? null,
    peakCurrent: record.peakCurrent,
    dip:
      isFromRest && dipLeast.current < dipPeak.current
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

function auditOf({ state, system, curve, landings, fieldBefore }: Course): EnergyAudit {
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
  return { source, ...spent, imbalance: put > 0 ? Math.abs(missing) / put : 0 };
}
