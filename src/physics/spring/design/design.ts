/**
 * A spring to order: every stocked wire, spring index 4 to 16, whole and half turns; those inside all limits, the best first.
 *
 * [1] EN 13906-1:2013, EN 13906-2:2013: index 4 to 20, two active turns and more (extension: three)
 * [2] DIN 2076, diameters of stocked wire
 */
import { DomainError } from '../../domain-error.ts';
import { shearModulus, stockedDiameters, type SpringWire } from '../wire.ts';
import { activeTurns, offerOf, type Coil } from './candidate.ts';
import type { Closed, ForceWindow, Limit, Offer, SpringAnswer, SpringQuestion } from './question.ts';

const INDEX_LEAST = 4;
const INDEX_MOST = 16;
const INDEX_STEP = 0.5;
const TURNS_MOST = 200;

/**
 * Springs that give the forces asked for within the space and the wire's strength, best first.
 *
 * For every wire and index the turns that give the rate between the two windows are taken to the half turns beside it, the
 * coil wound to the rate again and rounded to a tenth of a millimetre. Ranked by static stress in tenths of what is allowed
 * (below a half all count alike), then buckling in tenths, then mass.
 *
 * Where none fits, `closed` says which limit stops the nearest one.
 *
 * @throws DomainError SW-D003 a window without width, forces below zero, lengths or forces in the wrong order, no wire
 */
export function designSpring(question: SpringQuestion, most = 20): SpringAnswer {
  requireQuestion(question);
  const all = [...coilsOf(question)].map((coil) => offerOf(question, coil)).filter(isKnown);
  const fitting = all.filter(({ used }) => worstOf(used)[1] <= 1 + 1e-9).sort(byRank);
  return {
    offers: fitting.slice(0, most),
    considered: all.length,
    closed: fitting.length > 0 ? null : all.length === 0 ? closedByRate(question) : closedBy(all),
  };
}

/** Rate through the middles of both windows, N/m. */
export function wantedRate({ first, second }: Pick<SpringQuestion, 'first' | 'second'>): number {
  const middle = ({ least, most: greatest }: ForceWindow) => (least + greatest) / 2;
  return Math.abs((middle(second) - middle(first)) / (second.length - first.length));
}

const leastTurnsOf = ({ kind }: SpringQuestion) => (kind === 'extension' ? 3 : 2);

/** Active turns of a wire that give a rate, by spring index: n = G d / (8 w³ R). */
const turnsFor = (wire: SpringWire, wireDiameter: number, w: number, rate: number) =>
  (shearModulus(wire) * wireDiameter) / (8 * w ** 3 * rate);

function* coilsOf(question: SpringQuestion): Generator<Coil> {
  const rate = wantedRate(question);
  const leastTurns = leastTurnsOf(question);
  for (const wire of question.wires) {
    for (const d of stockedDiameters(wire)) {
      const seen = new Set<number>();
      for (let w = INDEX_LEAST; w <= INDEX_MOST; w += INDEX_STEP) {
        const turns = turnsFor(wire, d, w, rate);
        for (const half of [Math.floor(2 * turns) / 2, Math.ceil(2 * turns) / 2]) {
          if (half < leastTurns || half > TURNS_MOST || seen.has(half)) continue;
          seen.add(half);
          const coil = woundTo(question.kind, wire, d, half, rate);
          if (coil !== null) yield coil;
        }
      }
    }
  }
}

/** The coil of so many turns that has the rate, to a tenth of a millimetre outside; null where its index is out of range. */
function woundTo(
  kind: SpringQuestion['kind'],
  wire: SpringWire,
  wireDiameter: number,
  turns: number,
  rate: number,
): Coil | null {
  const n = activeTurns(kind, turns, wire);
  const exact = Math.cbrt((shearModulus(wire) * wireDiameter ** 4) / (8 * n * rate));
  // Told in tenths of a millimetre outside; the rest only clears what subtraction leaves behind.
  const outside = Math.round((exact + wireDiameter) * 1e4) / 1e4;
  const meanCoilDiameter = Math.round((outside - wireDiameter) * 1e8) / 1e8;
  const w = meanCoilDiameter / wireDiameter;
  return w < INDEX_LEAST - 1e-9 || w > INDEX_MOST + 1e-9 ? null : { wire, wireDiameter, meanCoilDiameter, turns };
}

/** Springs beyond a table (of strength or tolerance) are not offered. */
function isKnown({ used, specification }: Offer): boolean {
  return !Number.isNaN(specification.strength) && Object.values(used).every((one) => !Number.isNaN(one));
}

function worstOf(used: Offer['used']): readonly [Limit, number] {
  return entriesOf(used).reduce((worst, one) => (one[1] > worst[1] ? one : worst), ['forces', 0] as [Limit, number]);
}

function entriesOf(used: Offer['used']): [Limit, number][] {
  return Object.entries(used) as [Limit, number][];
}

function byRank(a: Offer, b: Offer): number {
  const stress = ({ used }: Offer) =>
    Math.max(5, Math.ceil(10 * Math.max(used['static stress'] ?? 0, used['stress of the hooks'] ?? 0) - 1e-9));
  const buckling = ({ used }: Offer) => Math.ceil(10 * (used.buckling ?? 0) - 1e-9);
  return (
    stress(a) - stress(b)
    || buckling(a) - buckling(b)
    || a.specification.mass - b.specification.mass
    || a.specification.wireDiameter - b.specification.wireDiameter
  );
}

/** No coil has the rate: too soft, or too stiff, by how much. */
function closedByRate(question: SpringQuestion): Closed {
  const rate = wantedRate(question);
  let used = Infinity;
  for (const wire of question.wires) {
    for (const d of stockedDiameters(wire)) {
      const [fewest, greatest] = [INDEX_MOST, INDEX_LEAST].map((w) => turnsFor(wire, d, w, rate));
      used = Math.min(used, Math.max(fewest / TURNS_MOST, leastTurnsOf(question) / greatest));
    }
  }
  return { limit: 'rate', limits: ['rate'], used, nearest: null, aloneStops: {} };
}

function closedBy(all: readonly Offer[]): Closed {
  const aloneStops: Partial<Record<Limit, number>> = {};
  let [nearest] = all;
  for (const offer of all) {
    const stopping = entriesOf(offer.used).filter(([, used]) => used > 1);
    if (stopping.length === 1) aloneStops[stopping[0][0]] = (aloneStops[stopping[0][0]] ?? 0) + 1;
    if (worstOf(offer.used)[1] < worstOf(nearest.used)[1]) nearest = offer;
  }
  const [limit, used] = worstOf(nearest.used);
  const limits = entriesOf(nearest.used)
    .filter(([, one]) => one > 1)
    .sort(([, a], [, b]) => b - a)
    .map(([name]) => name);
  return { limit, limits, used, nearest, aloneStops };
}

function requireQuestion({ kind, first, second, reserve, wires }: SpringQuestion): void {
  const wrong = (what: string) => new DomainError('SW-D003', what);
  for (const { length, least, most } of [first, second]) {
    if (!(length > 0 && least >= 0 && most > least && Number.isFinite(length + most)))
      throw wrong(`a force window from ${least} N to ${most} N at ${length} m`);
  }
  const isWorked = kind === 'extension' ? second.length > first.length : second.length < first.length;
  if (!isWorked) throw wrong(`a spring in ${kind} that is worked more at ${second.length} m than at ${first.length} m`);
  if (!(second.least + second.most > first.least + first.most))
    throw wrong(
      `${second.least} to ${second.most} N where it is worked more than at ${first.least} to ${first.most} N`,
    );
  if (wires.length === 0) throw wrong('a spring of no wire');
  if (!(reserve >= 0 && reserve < 1)) throw wrong(`a reserve of ${reserve}`);
}
