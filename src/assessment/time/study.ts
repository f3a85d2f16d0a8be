/**
 * The first second of one installation as plain data for drawings, tables and files: the motions that the findings rest on,
 * followed finely enough to be looked at.
 */
import { adiabaticTemperatures } from '../../physics/heat/adiabatic.ts';
import type { Motion, MotionEventKind, Suppression } from '../../physics/motion/motion.ts';
import { coilInHeat, heavyWinding } from './heat-of.ts';
import { COMMAND_MARGIN, placeIn } from '../checks/time.ts';
import { placeWords } from '../finding.ts';
import {
  DIODE_DROP,
  HARDEST,
  LATEST,
  letGo,
  pullIn,
  SLOWEST,
  suppressionOf,
  type MotionAsk,
  type MotionCorner,
  type MotionFound,
} from './motion-of.ts';
import { missingReadings, needsOf } from '../needs.ts';
import { valueOf } from '../readings.ts';
import { rigOf, type Rig, type SolenoidJob } from '../rig.ts';
import { electricCorners, scenesOf, type Scene } from '../scene.ts';
import type { HoldTime, ReleaseRun, TimeEvent, TimeEventKind, TimeOutcome, TimePicture, TimeRun } from './picture.ts';
import { timeWords } from '../words.ts';

/** Enough to draw a metre of paper. */
const POINTS = 400;

export interface TimeAsk {
  /** Relative error of a step; 1e-6 where left out. */
  readonly tolerance?: number;
}

export function timePicture(job: SolenoidJob, ask: TimeAsk = {}): TimePicture {
  const missing = missingFor(job);
  if (missing.length > 0) return { runs: [], releases: [], measured: null, holdTime: null, missing };
  const rig = rigOf(job);
  const [scene] = scenesOf(rig, electricCorners(rig));
  const motionAsk = { tolerance: ask.tolerance ?? 1e-6, tracePoints: POINTS };
  const [slowest, hardest] = closely(
    [(one) => pullIn(rig, scene, SLOWEST, one), (one) => pullIn(rig, scene, HARDEST, one)],
    motionAsk,
  );
  const known = [slowest, hardest].find((found) => !found.known);
  if (known !== undefined && !known.known)
    return { runs: [], releases: [], measured: null, holdTime: null, missing: [known.because, ...known.readings] };
  return {
    runs: [
      runOf(rig, 'weakest', 'weakest', SLOWEST, slowest),
      runOf(rig, 'strongest', 'strongest', HARDEST, hardest),
    ].filter((run) => run !== null),
    releases: releasesOf(rig, scene, motionAsk),
    measured: null,
    holdTime: holdTimeOf(rig, slowest),
    missing: [],
  };
}

/** How long is looked at over when the last thing happens; longer where it stalls, for the current goes on rising. */
const AFTERMATH = 1.5;
const AFTERMATH_OF_STALL = 4;

type Follow = (ask: MotionAsk) => MotionFound;

/**
 * Each followed once for what happens and once more, all for the same time and no longer than that takes, so that the
 * points of the traces lie where it does.
 */
function closely(follows: readonly Follow[], ask: MotionAsk): MotionFound[] {
  const first = follows.map((follow) => follow({ ...ask, tracePoints: 0 }));
  const duration = Math.max(...first.map(lookedAt));
  return follows.map((follow) => follow(duration > 0 ? { ...ask, duration } : ask));
}

/** s; nothing where nothing happens. */
function lookedAt(found: MotionFound): number {
  if (!found.known) return 0;
  const { events, outcome, release } = found.motion;
  const isStalled = release === null && outcome === 'stalled';
  return (events.at(-1)?.time ?? 0) * (isStalled ? AFTERMATH_OF_STALL : AFTERMATH);
}

/** Readings that every motion needs and that were not taken, as paths. */
function missingFor(job: SolenoidJob): string[] {
  const untaken = missingReadings(job);
  return needsOf(job).motion.filter((path) => untaken.has(path));
}

function runOf(rig: Rig, name: string, words: string, corner: MotionCorner, found: MotionFound): TimeRun | null {
  return found.known ? courseOf(rig, name, words, corner, found.motion) : null;
}

function courseOf(rig: Rig, name: string, words: string, corner: MotionCorner, motion: Motion): TimeRun {
  const { trace } = motion;
  return {
    name,
    words,
    conditions: placeWords(placeIn(rig, corner), String),
    time_s: Array.from(trace.time),
    supplyCurrent_A: Array.from(trace.supplyCurrent),
    gap_m: Array.from(trace.gap),
    terminal_V: Array.from(trace.terminalVolts),
    coilTemperature_K: temperatureOf(rig, corner, motion),
    events: motion.events.flatMap((event): TimeEvent[] => {
      const kind = eventKind[event.kind];
      return kind === null ? [] : [{ kind, time_s: event.time, gap_m: event.gap, supplyCurrent_A: event.current }];
    }),
    outcome: outcomeOf(motion),
    cautions: [
      ...(motion.approximation === null ? [] : [motion.approximation]),
      'Eddy currents in solid steel are left out: measured times are longer.',
      ...(motion.converged ? [] : ['The reckoning stopped short of the end; what is shown ends there.']),
    ],
  };
}

const eventKind: Readonly<Record<MotionEventKind, TimeEventKind | null>> = {
  'starts moving': 'starts moving',
  stalls: 'stalls',
  'turns back': null,
  'end switch works': 'end switch works',
  'end switch recloses': 'end switch recloses',
  'stage change': 'stage changes',
  'comes home': 'comes home',
  bounces: 'bounces',
  'current off': 'current off',
  'current gone': null,
  'leaves home': 'leaves home',
  'at rest': 'at rest',
};

function outcomeOf({ outcome, release }: Motion): TimeOutcome {
  if (release !== null)
    return release === 'returned' ? 'comes out' : release === 'did not leave home' ? 'stays at home' : 'not finished';
  switch (outcome) {
    case 'home':
      return 'comes home';
    case 'stalled':
      return 'stalls';
    case 'did not start':
      return 'does not start';
    case 'dropped out':
    case 'hunts':
      return 'drops out';
    case 'still moving':
      return 'not finished';
  }
}

/**
 * Mean temperature of the winding that carries the pull-in current: its own heat, none lost, which in so short a time is all
 * but true. Null at every time where the wire was not measured.
 */
function temperatureOf(rig: Rig, corner: MotionCorner, { trace }: Motion): (number | null)[] {
  const coil = coilInHeat(rig);
  const { coldest, hottest } = rig.job.surroundings;
  const start =
    corner.coil === 'cold' ? valueOf(coldest, 'temperature') : valueOf(hottest, 'temperature') + rig.riseInHold;
  const { resistance, at } = heavyWinding(rig.job.means);
  const [current] = trace.windingCurrents;
  if (coil === null) return Array.from(trace.time, () => null);
  const winding = { resistance, at, heatCapacity: coil.body.windingHeatCapacity };
  return Array.from(adiabaticTemperatures(winding, trace.time, current, start));
}

/** What could be fitted across the coil, beside what is. */
function suppressions(rig: Rig): { name: string; words: string; suppression: Suppression; isFitted: boolean }[] {
  const { suppression: fitted, nominal } = rig.job.supply;
  const kind = typeof fitted === 'string' ? (fitted === 'none' ? 'none' : null) : fitted.kind;
  const { resistance } = heavyWinding(rig.job.means);
  const usual: readonly { name: string; words: string; suppression: Suppression }[] = [
    { name: 'none', words: 'nothing', suppression: suppressionOf('none') },
    { name: 'diode', words: 'diode', suppression: suppressionOf({ kind: 'diode', polarity: 'cathode to plus' }) },
    {
      name: 'diode-and-resistor',
      words: `diode and ${Number((3 * resistance).toPrecision(2))} Ω`,
      suppression: { kind: 'diode and resistor', drop: DIODE_DROP, resistance: 3 * resistance },
    },
    { name: 'zener', words: `zener of ${2 * nominal} V`, suppression: { kind: 'zener', volts: 2 * nominal } },
  ];
  return usual.map((one) => {
    const isFitted = one.name.replaceAll('-', ' ') === kind;
    if (!isFitted || typeof fitted === 'string') return { ...one, isFitted };
    const words =
      fitted.kind === 'zener'
        ? `zener of ${fitted.voltage}`
        : fitted.kind === 'diode and resistor'
          ? `diode and ${fitted.resistance}`
          : one.words;
    return { ...one, words, suppression: suppressionOf(fitted), isFitted };
  });
}

function releasesOf(rig: Rig, scene: Scene, ask: MotionAsk): ReleaseRun[] {
  const kinds = suppressions(rig);
  const followed = closely(
    kinds.map(
      ({ suppression }): Follow =>
        (one) =>
          letGo(rig, scene, LATEST, { ...one, suppression }),
    ),
    ask,
  );
  return kinds.flatMap(({ name, words, isFitted }, i) => {
    const found = followed[i];
    if (!found.known) return [];
    const { motion } = found;
    return [
      {
        ...courseOf(rig, name, words, LATEST, motion),
        isFitted,
        releaseTime_s: motion.releaseTime,
        returnTime_s: motion.returnTime,
        peakTerminal_V: motion.peakVolts.terminals,
        peakContact_V: motion.peakVolts.contact,
      },
    ];
  });
}

function holdTimeOf(rig: Rig, slowest: MotionFound): HoldTime | null {
  if (!rig.toStop) return null;
  const { survey, supply } = rig.job;
  const { runDown } = rig;
  const home = slowest.known ? slowest.motion.timeToHome : null;
  const holds = typeof supply.command === 'string' ? null : valueOf(supply.command.holds, 'time');
  const needed = home === null ? null : (home + runDown) * (1 + COMMAND_MARGIN);
  const isKnown = holds !== null && !Number.isNaN(holds);
  return {
    runDown_s: runDown,
    isRunDownDefault: survey.runDown === undefined,
    home_s: home,
    holds_s: isKnown ? holds : null,
    needed_s: needed,
    words:
      needed === null
        ? 'The plunger does not come home, so no command lasts long enough.'
        : `Keep the command on for ${timeWords(needed)} or until the engine stands still, whichever is later: let go before, the lever goes back to run and the engine may pick up again.`,
  };
}
