/**
 * Which conductor the stop circuit needs: every section that is sold, in every state of the source, judged by the same
 * checks as the installation itself, with nothing changed but the section of the conductors out and back.
 *
 * Volts and amps are those of the weakest case (hot coil, hot wiring, contacts as they become), as for the pull that must be
 * enough. Stations further off keep their own conductors. Base SI, units in the names; a null stands where a reading is
 * missing.
 */
import { apply, change, type Change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { holdCurrents, pullInCurrents, type Loop, type StageCurrents } from '../../physics/circuit.ts';
import { standardSections, type StandardSection } from '../../physics/conductor.ts';
import { metricUnits, type DisplayUnits } from '../../units/quantity.ts';
import { isSolenoid } from '../assess.ts';
import { findingOf, type Check, type Context } from '../check.ts';
import { voltsAtCoil } from '../checks/current.ts';
import { holdsAtHome } from '../checks/hold.ts';
import { pullsInEverywhere, pullsInFromFullStroke } from '../checks/pull.ts';
import { conductorsCarry } from '../checks/wiring.ts';
import { CAUTION, relativeMargin, worstVerdict, type Assumption, type Finding, type Verdict } from '../finding.ts';
import { missingReadings, needsOf, type Needs } from '../needs.ts';
import { DefaultReader, valueOf } from '../readings.ts';
import { loopParts, loopResistance, rigOf, sourceVolts, type Rig, type SolenoidJob, type SourceState } from '../rig.ts';
import { electricCorners, pullAt, scenesOf, type ElectricCorner, type Scene } from '../scene.ts';
import { overload, shortCircuit, type Judged } from './fuse.ts';
import { remarksOn } from './remarks.ts';
import { smallestOf, stateWords, type Demand, type SmallestSection } from './smallest.ts';
import { orNull } from '../sweep.ts';
import { wordsIn, type Words } from '../words.ts';

export const sourceStates: readonly SourceState[] = ['resting', 'charging', 'low', 'cranking'];

/** Steady state of one stage at a section. */
export interface StageAt {
  readonly amps_A: number | null;
  readonly terminalVolts_V: number | null;
  /** Lost in conductors and contacts, the inside of the source left out. */
  readonly drop_V: number | null;
  /** Of the nominal volts. */
  readonly dropShare: number | null;
}

export interface SectionInState {
  readonly state: SourceState;
  readonly pullIn: StageAt;
  readonly hold: StageAt;
  readonly demands: Readonly<Record<Extract<Demand, 'pull' | 'hold' | 'drop'>, Judged>>;
  /** Of these and of what does not hang on the state. */
  readonly verdict: Verdict;
}

export interface SectionRow {
  /** "6 mm²"; the conductor as laid has its own words. */
  readonly label: string;
  readonly system: StandardSection['system'] | 'as laid';
  readonly section_m2: number | null;
  /** What makes it so. */
  readonly changes: readonly Change[];
  readonly states: readonly SectionInState[];
  readonly demands: Readonly<Record<Exclude<Demand, 'pull' | 'hold' | 'drop'>, Judged>>;
  /** Over every state in which it must work. */
  readonly verdict: Verdict;
}

export interface SupplyStudy {
  /** Version of this form of output. */
  readonly version: 1;
  readonly job: string;
  readonly works: 'energise to stop' | 'energise to run';
  readonly nominal_V: number;
  readonly states: readonly {
    readonly state: SourceState;
    readonly volts_V: number | null;
    /** Whether it must work in this state. */
    readonly isAsked: boolean;
  }[];
  readonly asLaid: SectionRow;
  readonly rows: readonly SectionRow[];
  readonly smallest: readonly SmallestSection[];
  /** Verdict on the conductor as laid. */
  readonly verdict: Verdict;
  /** Readings to take before all of it is known. */
  readonly missing: readonly string[];
  readonly assumed: readonly Assumption[];
  /** What looks like a slip of the pen, and what the table leaves out. */
  readonly remarks: readonly string[];
  readonly caution: string;
}

/** Null where the job has no solenoid, and so no circuit. Some 0.1 s of work. */
export function supplyStudy(job: Job, units: DisplayUnits = metricUnits): SupplyStudy | null {
  return isSolenoid(job) ? studyOf(job, wordsIn(units)) : null;
}

function studyOf(job: SolenoidJob, say: Words): SupplyStudy {
  const reader = new DefaultReader();
  const toRun = job.means.works === 'energise to run';
  const states = sourceStates.map((state) => ({
    state,
    volts_V: orNull(sourceVolts(job, state, reader)),
    // A stop is asked for with the engine running or standing, a start while the starter turns.
    isAsked: toRun || state !== 'cranking',
  }));
  const study = new Study(job, states, say);
  const asLaid = study.row('as laid', asLaidWords(job), orNull(valueOf(job.supply.out.section, 'area')), []);
  const rows = standardSections.map(({ system, label, section_m2 }) =>
    study.row(system, label, section_m2, sectionChanges(job, label)),
  );
  const asked = states.filter(({ isAsked }) => isAsked).map(({ state }) => state);
  const smallest = (['metric', 'gauge'] as const).flatMap((system) => {
    const own = rows.filter((row) => row.system === system);
    const hasFuse = job.supply.fuse !== 'none';
    return [
      ...sourceStates.map((state) => smallestOf(own, state, [state], hasFuse)),
      smallestOf(own, null, asked, hasFuse),
    ];
  });
  loopParts(job, reader);
  return {
    version: 1,
    job: job.name,
    works: job.means.works,
    nominal_V: job.supply.nominal,
    states,
    asLaid,
    rows,
    smallest,
    verdict: asLaid.verdict,
    missing: [...new Set(judgedIn(asLaid, asked).flatMap(({ missing }) => missing))],
    assumed: reader.assumed,
    remarks: remarksOn(job, say, states),
    caution: CAUTION,
  };
}

/** Conductors out and back of another section, as one change. */
export function sectionChanges(job: Job, label: string): readonly Change[] {
  const paths = ['supply.out.section', ...(job.supply.back.by === 'conductor' ? ['supply.back.section'] : [])];
  return paths.map((path) => change(job, path, label));
}

function asLaidWords({ supply }: Job): string {
  const { out, back } = supply;
  if (back.by === 'earth') return `${out.section} out, earth back`;
  return out.section === back.section ? out.section : `${out.section} out, ${back.section} back`;
}

class Study {
  readonly #job: SolenoidJob;
  readonly #states: SupplyStudy['states'];
  readonly #say: Words;
  readonly #needs: Needs;
  /** Travel and loads: no section changes them. */
  readonly #scenes: readonly Scene[];

  constructor(job: SolenoidJob, states: SupplyStudy['states'], say: Words) {
    this.#job = job;
    this.#states = states;
    this.#say = say;
    this.#needs = needsOf(job);
    this.#scenes = scenesOf(rigOf(job), []);
  }

  row(system: SectionRow['system'], label: string, section_m2: number | null, changes: readonly Change[]): SectionRow {
    const job = apply(this.#job, changes);
    const missing = missingReadings(job);
    const rig = rigOf(job);
    const { hottest } = job.surroundings;
    const resistance = loopResistance(loopParts(job, new DefaultReader()), valueOf(hottest, 'temperature'), 'old');
    const own = {
      carries: this.#judge(conductorsCarry(this.#context(rig, electricCorners(rig))), missing),
      overload: overload(rig, this.#say),
      short: shortCircuit(rig, { source: rig.loopAt.hold.low.source, resistance }, missing, this.#needs, this.#say),
    };
    const loops = this.#states.map(({ volts_V }): Loop => ({ source: volts_V ?? NaN, resistance }));
    const judged = this.#states.map(({ state }, i) => this.#inState(rig, state, loops[i], missing));
    const states = judged.map((one, i) => {
      const pull = pullInSpiteOfReach(judged, loops, i);
      const all = { ...one.demands, pull };
      return { ...one, demands: all, verdict: worstVerdict([...Object.values(all), ...Object.values(own)]) };
    });
    const asked = states.filter((_, i) => this.#states[i].isAsked);
    return { label, system, section_m2, changes, states, demands: own, verdict: worstVerdict(asked) };
  }

  #context(rig: Rig, electric: readonly ElectricCorner[]): Context {
    const scenes = this.#scenes.map((scene) => ({
      moved: scene.moved,
      travel: scene.travel,
      needed: scene.needed,
      out: scene.out,
      weakest: null,
      pull: electric.map((corner) => scene.travel.stations.map(({ gap }) => pullAt(rig, gap, corner, 'least'))),
    }));
    return { rig, scenes, electric, needs: this.#needs, say: this.#say };
  }

  /** The installation with the source in one state and everything else at its weakest. */
  #inState(base: Rig, state: SourceState, loop: Loop, missing: ReadonlySet<string>): Omit<SectionInState, 'verdict'> {
    const both = { low: loop, high: loop };
    const rig: Rig = { ...base, loopAt: { 'pull-in': both, hold: both } };
    const coil = rig.coilAt.hot;
    const pullIn = pullInCurrents(loop, coil);
    const hold = holdCurrents(loop, coil);
    const context = this.#context(rig, [{ supply: 'low', coil: 'hot', pullIn, hold }]);
    const pulls = [pullsInFromFullStroke(context), pullsInEverywhere(context)].map((check) =>
      findingOf(check, missing),
    );
    const stage = (currents: StageCurrents): StageAt => {
      const drop = loop.source - currents.supply * rig.sourceResistance - currents.volts;
      return {
        amps_A: orNull(currents.supply),
        terminalVolts_V: orNull(currents.volts),
        drop_V: orNull(drop),
        dropShare: orNull(drop / base.job.supply.nominal),
      };
    };
    return {
      state,
      pullIn: stage(pullIn),
      hold: stage(hold),
      demands: {
        pull: judgedOf(pulls.reduce(worse)),
        hold: this.#judge(holdsAtHome(context), missing),
        drop: this.#judge(voltsAtCoil(context), missing),
      },
    };
  }

  #judge(check: Check, missing: ReadonlySet<string>): Judged {
    return judgedOf(findingOf(check, missing));
  }
}

function worse(a: Finding, b: Finding): Finding {
  if (a.verdict === 'not known' || b.verdict === 'not known') return a.verdict === 'not known' ? a : b;
  return relativeMargin(a) <= relativeMargin(b) ? a : b;
}

function judgedOf({ verdict, margin, because, missing }: Finding): Judged {
  return { verdict, margin, because, missing };
}

/**
 * The pulls that were read may not reach the current of a fuller source. More current never pulls less, so what holds at
 * fewer volts holds there too.
 */
function pullInSpiteOfReach(
  judged: readonly Omit<SectionInState, 'verdict'>[],
  loops: readonly Loop[],
  at: number,
): Judged {
  const { pull } = judged[at].demands;
  if (pull.verdict !== 'not known' || pull.missing.some((path) => path !== 'means.force')) return pull;
  const weaker = judged
    .map((one, i) => ({ pull: one.demands.pull, volts: loops[i].source, state: one.state }))
    .filter((one) => one.volts <= loops[at].source && one.pull.verdict !== 'not known')
    .sort((a, b) => b.volts - a.volts)[0];
  if (weaker === undefined || weaker.pull.verdict === 'fails') return pull;
  return {
    ...weaker.pull,
    because: `No pull was read at so much current; it is no less than ${stateWords[weaker.state]}: ${weaker.pull.because}`,
  };
}

function judgedIn(row: SectionRow, states: readonly SourceState[]): Judged[] {
  const inStates = row.states.filter(({ state }) => states.includes(state));
  return [...inStates.flatMap((one) => Object.values(one.demands)), ...Object.values(row.demands)];
}
