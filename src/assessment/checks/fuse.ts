/** Does the fuse outlast the pull, and still open before coil or conductor is lost? */
import { ampacity } from '../../physics/ampacity.ts';
import { shortCircuitLimit } from '../../physics/conductor.ts';
import { chooseFuse, type FuseChoice, type FuseDemand, type FuseVerdict } from '../../physics/fuse-choice.ts';
import { unique, type Check, type Context } from '../check.ts';
import { coilInHeat, heatReadings, hotStallCurrent, timeToClass } from '../heat-of.ts';
import { DefaultReader, valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';
import type { End } from '../scene.ts';
import { endsOf, fittedFuse } from '../what-ends-it.ts';
import type { Words } from '../words.ts';
import { motionNeeds, slowestHome, type Motions } from './time.ts';

export function fuseFits(context: Context, motions: Motions): Check {
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
      ...motionNeeds(context),
      ...heatReadings,
      ...needs.holdHigh,
      'supply.fuse',
      ...(typeof fuse === 'string' ? [] : ['supply.fuse.rating']),
      'supply.cutOut',
      ...(typeof rig.job.supply.cutOut === 'string' ? [] : ['supply.cutOut.after']),
    ]),
    unread: {
      because:
        typeof fuse !== 'string' && fuse.type === 'other'
          ? 'When this kind of fuse opens is not known here: compare its curve by hand.'
          : 'How long the pull takes, or how long the coil lasts, is not known.',
      readings: [],
    },
    judge() {
      const nothing = { value: NaN, limit: null, at: null };
      if (fuse === 'none')
        return {
          ...nothing,
          margin: -1,
          because: `No fuse is fitted. ${adviceWords(choiceFor(context, motions), say)}`,
        };
      const fitted = fittedFuse(rig);
      const choice = choiceFor(context, motions);
      if (fitted === null || choice === null) return { ...nothing, margin: NaN, because: '' };
      const own = choice.verdicts.find(
        (one) => one.fuse.series === fitted.series && one.fuse.rating === fitted.rating,
      )!;
      const closest = leastDemand(own);
      return {
        value: fitted.rating,
        limit: choice.best?.fuse.rating ?? null,
        margin: own.margin,
        at: null,
        because: `The ${fitted.rating} A ${fitted.series} fuse: ${demandWords(closest, own, say)}.${own.margin < 0 ? ` ${adviceWords(choice, say)}` : ''}`,
      };
    },
  };
}

/** Both ends of the supply, and of each demand the worse; null where a time is not known. */
export function choiceFor(context: Context, motions: Motions): FuseChoice | null {
  const { rig } = context;
  const slowest = slowestHome(motions);
  const coil = coilInHeat(rig);
  if (Number.isNaN(slowest) || coil === null) return null;
  const { supply, surroundings, means } = rig.job;
  const bySwitch = means.coil.stages === 'pull-in and hold windings' || means.coil.stages === 'series resistor';
  const cut = endsOf(rig, EVERY_FUSE_OPENS).find(({ by }) => by !== 'fuse')?.seconds ?? Infinity;
  // Without an end switch or a timer the pull-in current never ends.
  const pullTime = bySwitch ? Math.min(slowest, cut) : cut;
  const greatest = context.electric.find(({ supply: end, coil: warmth }) => end === 'high' && warmth === 'cold')!;
  const section = Math.min(
    valueOf(supply.out.section, 'area'),
    supply.back.by === 'conductor' ? valueOf(supply.back.section, 'area') : Infinity,
  );
  const insulation = new DefaultReader().value('supply.insulation', supply.insulation, 'temperature');
  const hottest = valueOf(surroundings.hottest, 'temperature');
  const stuck = (end: End) => {
    const current = hotStallCurrent(rig, coil, end);
    const lasts = timeToClass(rig, coil, end);
    return { current, lasts: cut < lasts ? Infinity : lasts };
  };
  const ends = [stuck('low'), stuck('high')] as const;
  const shared = {
    pullInCurrent: greatest.pullIn.supply,
    pullTime,
    holdCurrent: greatest.hold.supply,
    shortCircuitCurrent: shortAtFarEnd(rig),
    section_m2: section,
    conductorBefore: hottest,
    conductorLimit: shortCircuitLimit(insulation),
    hottest,
    coldest: valueOf(surroundings.coldest, 'temperature'),
    ...ampacityOf(section, insulation),
  };
  const [low, high] = ends.map(({ current, lasts }) =>
    chooseFuse({ ...shared, hotStallCurrent: current, coilLimitTime: lasts }),
  );
  // What a rating is worth is its worse end; where none fits both, the end that fewer ratings fit says why.
  const worst = low.verdicts.map((verdict, i) =>
    verdict.margin <= high.verdicts[i].margin ? verdict : high.verdicts[i],
  );
  const fitting = worst.filter(({ margin }) => margin >= 0);
  const closed = low.fitting.length <= high.fitting.length ? low : high;
  return {
    ...closed,
    verdicts: worst,
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
  return source / resistance;
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
export function adviceWords(choice: FuseChoice | null, say: Words): string {
  if (choice === null) return '';
  if (choice.best !== null) {
    const { rating, series } = choice.best.fuse;
    return `A ${rating} A ${series} fuse does it all.`;
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
