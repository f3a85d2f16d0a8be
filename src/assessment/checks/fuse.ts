/** Does the fuse outlast the pull, and still open before coil or conductor is lost? */
import { ampacity } from '../../physics/ampacity.ts';
import { shortCircuitLimit } from '../../physics/conductor.ts';
import {
  chooseFuse,
  judgeFuse,
  type FuseChoice,
  type FuseDemand,
  type FuseQuestion,
  type FuseVerdict,
} from '../../physics/fuse-choice.ts';
import { unique, type Check, type Context } from '../check.ts';
import { heatReadings, hotStallCurrent } from '../time/heat-of.ts';
import { valueOf } from '../readings.ts';
import { thinnestSection, type Rig } from '../rig.ts';
import { endsOf, fittedFuse, fuseName, soldFuse } from '../supply/what-ends-it.ts';
import type { Words } from '../words.ts';
import { unreadHeat, type CoilHeat } from './heat.ts';
import { slowestHome, type Motions } from './time.ts';

export function fuseFits(context: Context, motions: Motions, heat: CoilHeat): Check {
  const { rig, needs, say } = context;
  const { fuse } = rig.job.supply;
  return {
    id: 'fuse',
    title: 'Fuse outlasts the pull and opens before anything is lost',
    question: 'burns',
    unit: 'A',
    marginUnit: 'share',
    wanted: 0,
    how: 'The least of what is asked of it, available over needed minus one: its fastest curve (ISO 8820-3) outlasts the slowest pull and it carries the hold current; its slowest curve opens before the stuck coil passes its class (unless a cut-out is quicker) and before the conductor is lost in a short circuit at the far end (IEC 60949); its rating is within the ampacity of the conductor. Hot and cold places of the fuse, low and high supply.',
    needs: unique([
      ...needs.motion,
      ...heatReadings,
      ...needs.holdHigh,
      'supply.fuse',
      ...(typeof fuse === 'string' ? [] : ['supply.fuse.rating']),
      'supply.cutOut',
      ...(typeof rig.job.supply.cutOut === 'string' ? [] : ['supply.cutOut.after']),
    ]),
    unread: unreadFuse(context, motions, heat),
    judge() {
      const nothing = { value: NaN, limit: null, at: null };
      if (fuse !== 'none' && fittedFuse(rig) === null) return { ...nothing, margin: NaN, because: '' };
      const questions = questionsFor(context, motions, heat);
      const fitted = fittedFuse(rig);
      if (questions === null) return { ...nothing, margin: fuse === 'none' ? -1 : NaN, because: 'No fuse is fitted.' };
      const choice = chosenFor(questions);
      if (fitted === null) return { ...nothing, margin: -1, because: `No fuse is fitted. ${adviceWords(choice, say)}` };
      const own = worseOf(questions.map((question) => judgeFuse(question, fitted)));
      const name = fuseName(fitted);
      const isSold = soldFuse(fitted.series, fitted.rating) !== null;
      const called = isSold ? `The ${name}` : `No ${name} is sold: look at it again. As it is written`;
      return {
        value: fitted.rating,
        limit: null,
        margin: own.margin,
        at: null,
        because: `${called}: ${demandWords(leastDemand(own), own, say)}.${own.margin < 0 ? ` ${adviceWords(choice, say)}` : ''}`,
      };
    },
  };
}

function unreadFuse(context: Context, motions: Motions, heat: CoilHeat): NonNullable<Check['unread']> {
  const { rig, say } = context;
  const { fuse } = rig.job.supply;
  const why = (): NonNullable<Check['unread']> => {
    if (typeof fuse !== 'string' && fuse.type === 'other')
      return {
        because: 'When this kind of fuse opens is not known here: compare its curve by hand.',
        readings: ['supply.fuse.type'],
      };
    if (typeof fuse !== 'string' && fittedFuse(rig) === null)
      return {
        because: `No ${fuse.type} fuse is made for as much as ${fuse.rating}: look at it again.`,
        readings: ['supply.fuse.rating'],
      };
    if (heat.coil() === null) return unreadHeat(context);
    const slowest = motions.slowest();
    if (!slowest.known && !slowest.isHeldFast) return slowest;
    return {
      because: `The conductors lie as hot as ${say.temperature(valueOf(rig.job.surroundings.hottest, 'temperature'))}: what their insulation then bears is not known.`,
      readings: ['surroundings.hottest'],
    };
  };
  return {
    get because() {
      return why().because;
    },
    get readings() {
      return why().readings;
    },
  };
}

/** What is asked of a fuse at the low and at the high end of the supply; null where a time is not known. */
function questionsFor(context: Context, motions: Motions, heat: CoilHeat): readonly FuseQuestion[] | null {
  const { rig } = context;
  const slowest = slowestHome(motions);
  const coil = heat.coil();
  if (Number.isNaN(slowest) || coil === null) return null;
  const { surroundings, means } = rig.job;
  const bySwitch = means.coil.stages === 'pull-in and hold windings' || means.coil.stages === 'series resistor';
  const cut = endsOf(rig, EVERY_FUSE_OPENS).find(({ by }) => by !== 'fuse')?.seconds ?? Infinity;
  // Without an end switch or a timer the pull-in current never ends.
  const pullTime = bySwitch ? Math.min(slowest, cut) : cut;
  const greatest = context.electric.find(({ supply: end, coil: warmth }) => end === 'high' && warmth === 'cold')!;
  const section = thinnestSection(rig.job);
  const hottest = valueOf(surroundings.hottest, 'temperature');
  const conductorLimit = shortCircuitLimit(rig.insulation);
  if (!(hottest < conductorLimit)) return null;
  return (['low', 'high'] as const).map((end): FuseQuestion => {
    const lasts = Math.max(heat.lasts[end](), AT_ONCE);
    return {
      pullInCurrent: greatest.pullIn.supply,
      pullTime,
      holdCurrent: greatest.hold.supply,
      hotStallCurrent: hotStallCurrent(rig, coil, end),
      coilLimitTime: cut < lasts ? Infinity : lasts,
      shortCircuitCurrent: shortAtFarEnd(rig),
      section_m2: section,
      conductorBefore: hottest,
      conductorLimit,
      hottest,
      coldest: valueOf(surroundings.coldest, 'temperature'),
      ...ampacityOf(section, rig.insulation),
    };
  });
}

/** A time of nothing, s: a coil that is past its class before any current flows. */
const AT_ONCE = 1e-3;

/** One fuse at both ends of the supply: it is worth its worse end. */
function worseOf(verdicts: readonly FuseVerdict[]): FuseVerdict {
  return verdicts.reduce((worst, one) => (one.margin < worst.margin ? one : worst));
}

/** Of each rating the worse end; where none fits both, the end that fewer ratings fit says why. */
function chosenFor(questions: readonly FuseQuestion[]): FuseChoice {
  const choices = questions.map((question) => chooseFuse(question));
  const [low] = choices;
  const verdicts = low.verdicts.map((_, i) => worseOf(choices.map((choice) => choice.verdicts[i])));
  const fitting = verdicts.filter(({ margin }) => margin >= 0);
  const closed = choices.reduce((fewest, one) => (one.fitting.length < fewest.fitting.length ? one : fewest));
  return {
    ...closed,
    verdicts,
    fitting,
    best: fitting.reduce<FuseVerdict | null>(
      (most, one) => (most === null || one.margin > most.margin ? one : most),
      null,
    ),
  };
}

/** So great that every fuse has opened: what else ends the current is asked. */
const EVERY_FUSE_OPENS = 1e6;

function ampacityOf(section: number, insulation: number): { ampacity?: number } {
  const found = ampacity(section, insulation, true);
  return found === null ? {} : { ampacity: found.amperes };
}

/** Least current of a dead short at the coil: low source, hot conductors, old contacts. */
function shortAtFarEnd(rig: Rig): number {
  const { source, resistance } = rig.loopAt.hold.low;
  return Math.min(source / resistance, EVERY_FUSE_OPENS);
}

function leastDemand({ demands }: FuseVerdict): FuseDemand {
  const asked = Object.entries(demands) as [FuseDemand, FuseVerdict['demands'][FuseDemand]][];
  return asked.reduce((least, one) => ((one[1]?.margin ?? Infinity) < (least[1]?.margin ?? Infinity) ? one : least))[0];
}

function demandWords(demand: FuseDemand, { demands }: FuseVerdict, say: Words): string {
  const judged = demands[demand];
  if (judged === null) return 'nothing is asked of it';
  const { available, needed } = judged;
  switch (demand) {
    case 'outlasts the pull':
      return needed > 1e5 || available > 1e5 || needed > 3600
        ? `it carries ${say.current(available)} for good, and ${say.current(needed)} is pulled`
        : `it may open after ${say.time(available)}, and the pull takes up to ${say.time(needed)}`;
    case 'carries the hold current':
      return `it carries ${say.current(available)} for good, and hold takes ${say.current(needed)}`;
    case 'spares the coil':
      return `a stuck coil lasts ${say.time(available)}, and the fuse ${opensWords(needed, say)}`;
    case 'spares the conductor':
      return `a short at the far end is borne for ${say.time(available)}, and the fuse ${opensWords(needed, say)}`;
    case 'within the ampacity':
      return `the conductor may carry ${say.current(available)}, and the fuse lets ${say.current(needed)} pass`;
    case 'breaks the short circuit':
      return `it breaks ${say.current(available)}, and ${say.current(needed)} may flow`;
  }
}

const opensWords = (seconds: number, say: Words): string =>
  seconds === Infinity ? 'may never open' : `opens after ${say.time(seconds)} at the latest`;

/** What to fit, or what to do where no rating does it all. */
function adviceWords(choice: FuseChoice, say: Words): string {
  if (choice.best !== null) {
    const { rating, series } = choice.best.fuse;
    return `A ${rating} A ${series} fuse would do it all.`;
  }
  const [remedy] = choice.remedies;
  if (remedy === undefined) return 'No rating does it all.';
  switch (remedy.code) {
    case 'timer or thermal cut-out':
      return `No rating does it all: fit a timer or thermal cut-out that ends the pull-in current after more than ${say.time(remedy.longerThan)} and less than ${say.time(remedy.shorterThan)}.`;
    case 'coil lost within its pull':
      return 'No rating does it all: the coil does not survive its own slowest pull.';
    case 'thicker conductor':
      return 'No rating does it all: a thicker conductor is needed.';
    case 'cooler place for the fuse':
      return 'No rating does it all where the fuse sits: put it in a cooler place.';
    case 'another kind of fuse':
      return 'No rating of these kinds does it all: another kind of fuse is needed.';
  }
}
