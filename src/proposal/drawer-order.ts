/**
 * A spring to order into the window: the line that keeps furthest from both edges, a spring wound to it, and the change that
 * puts it in. What is offered has been assessed with the whole installation.
 */
import { assess } from '../assessment/assess.ts';
import type { SolenoidJob } from '../assessment/rig.ts';
import { valueOf } from '../assessment/readings.ts';
import { usualQuestion } from '../assessment/window/window.ts';
import type { WindowQuestion } from '../assessment/window/kinds.ts';
import type { Drawer, DrawerSpring } from '../job/drawer/schema.ts';
import { designSpring } from '../physics/spring/design/design.ts';
import type { Closed, ForceWindow, Offer, SpringQuestion } from '../physics/spring/design/question.ts';
import { formatQuantity, metricUnits, type Dimension, type DisplayUnits } from '../units/quantity.ts';
import { assessedFit, type AssessedFit } from './drawer.ts';
import type { Mount, Target } from './drawer-mount.ts';
import { fitted, targetsOf } from './drawer-mounts.ts';
import { greatest } from './drawer-greatest.ts';
import { legsByRoom, torsionDesigns, type TorsionAsked, type TorsionOffer } from './drawer-order-torsion.ts';

/** A spring that can be wound, with what a spring-maker must be told. */
export type WoundOffer = Offer | TorsionOffer;

export interface SpringToOrder {
  readonly offer: WoundOffer;
  readonly spring: DrawerSpring;
  readonly mount: Mount;
  readonly fit: AssessedFit;
}

type Asked = Pick<SpringQuestion, 'first' | 'second' | 'kind'> | TorsionAsked;

export interface OrderAnswer {
  readonly question: WindowQuestion;
  /** The best first. */
  readonly offers: readonly SpringToOrder[];
  /** Forces asked for at both lengths, in the mount of the first offer or, without one, in the present mount. */
  readonly asked: Asked | null;
  /** Why none is offered; null where one is. */
  readonly closed: 'window shut' | 'not known' | 'no torsion spring' | 'no place' | 'comes out short' | Closed | null;
}

/** A drawer with nothing in it: for places alone. */
export const emptyDrawer: Drawer = {
  format: 'stopwright drawer',
  version: 1,
  name: 'nothing',
  notes: '',
  springs: [],
  solenoids: [],
  cables: [],
};

const MOST_MOUNTS = 17;
const MOST_OFFERS = 3;

export function springToOrder(
  job: SolenoidJob,
  places: Drawer['places'] | null = null,
  asked: WindowQuestion | null = null,
  units: DisplayUnits = metricUnits,
): OrderAnswer {
  const question = asked ?? usualQuestion(job);
  const none = (closed: OrderAnswer['closed']): OrderAnswer => ({ question, offers: [], asked: null, closed });
  const [target] = targetsOf(job, { ...emptyDrawer, places: places ?? undefined }, question);
  if (target === undefined) return none('no place');
  if (target.window.tightest === null) return none('not known');
  if (!target.window.isOpen) return none('window shut');
  const before = assess(job, units);
  let closest: Pick<OrderAnswer, 'asked' | 'closed'> | null = null;
  for (const m of nearestMounts(target)) {
    const found = designsFor(job, target, m, (wanted, closed) => {
      closest ??= { asked: wanted, closed: closed ?? 'comes out short' };
    })
      .flatMap(({ wanted, offer }) => {
        const one = assessed(job, target, m, offer, before, 'at rest', units);
        return one === null || one.fit.least < 1 - 1e-6 ? [] : [{ one, wanted }];
      })
      .sort((x, y) => y.one.fit.least - x.one.fit.least);
    const offers = unlike(found.map(({ one }) => one))
      .slice(0, MOST_OFFERS)
      .flatMap(({ offer }) => assessed(job, target, m, offer, before, 'in time', units) ?? []);
    if (offers.length > 0) return { question, offers, asked: found[0].wanted, closed: null };
  }
  return { question, offers: [], ...(closest ?? { asked: null, closed: 'comes out short' as const }) };
}

/** Springs wound into the window of one mount, of every softness, the best of each; not yet assessed. */
export function designsFor(
  job: SolenoidJob,
  target: Target,
  m: number,
  tell: (wanted: Asked, closed: OrderAnswer['closed']) => void = () => {},
): { readonly wanted: Asked; readonly offer: WoundOffer }[] {
  if (target.question.on === 'shaft') {
    const { wanted, offers } = torsionDesigns(target, m, WIRES);
    if (wanted === null) return [];
    tell(wanted, offers.length === 0 ? 'no torsion spring' : null);
    return offers.map((offer) => ({ wanted, offer }));
  }
  return SOFTNESS.flatMap((share) => {
    const wanted = askedFor(job, target, m, share);
    if (wanted === null) return [];
    const answer = designSpring(wanted);
    tell(wanted, answer.closed);
    return answer.offers.slice(0, 4).map((offer) => ({ wanted, offer }));
  });
}

/** Force where it is drawn or pressed less over force where more: from a soft, long spring to a stiff, short one. */
const SOFTNESS = [0.85, 0.75, 0.65, 0.55, 0.45, 0.35, 0.25, 0.15] as const;

/** The best of each wire diameter. */
function unlike(offers: readonly SpringToOrder[]): SpringToOrder[] {
  const seen = new Set<number>();
  return offers.filter(({ offer }) => {
    const { wireDiameter } = offer.specification;
    const isNew = !seen.has(wireDiameter);
    seen.add(wireDiameter);
    return isNew;
  });
}

/** The present place first, then those nearest to it, not every one: a spring-maker winds to the place. */
export function nearestMounts(target: Target): number[] {
  const { mounts } = target;
  if (target.question.on === 'shaft') return legsByRoom(target);
  const away = (mount: Mount) =>
    mount.on === 'lever' ? Math.abs(mount.moved ?? 0) : mount.on === 'plunger' ? mount.packing : 0;
  const order = mounts.map((_, m) => m).sort((a, b) => away(mounts[a]) - away(mounts[b]) || a - b);
  const every = Math.max(1, Math.ceil(order.length / MOST_MOUNTS));
  return order.filter((_, i) => i % every === 0);
}

/** Kinds of wire that spring-makers stock. */
const WIRES = ['EN 10270-1 SM', 'EN 10270-1 SH', 'EN 10270-3 1.4310'] as const;

/** A share of the wire's strength is kept back, as the findings want it: allowed over actual 1.1. */
const RESERVE = 0.1;

function askedFor(job: SolenoidJob, target: Target, m: number, share: number): SpringQuestion | null {
  const present = target.question.index === null ? undefined : job.return.springs[target.question.index];
  const kind =
    target.question.on === 'plunger' || present === undefined || present.on === 'shaft' ? 'compression' : present.kind;
  const line = middleLine(target, m, kind, share);
  if (line === null) return null;
  const [less, more] = kind === 'extension' ? [line.shorter, line.longer] : [line.longer, line.shorter];
  if (!(more.least + more.most > less.least + less.most)) return null;
  const isPlunger = target.question.on === 'plunger';
  return {
    kind,
    first: less,
    second: more,
    wires: WIRES,
    space: {
      outsideMost: target.outsideMost,
      // Clear of the plunger by half a millimetre all round: common practice, no source.
      insideLeast: isPlunger && target.insideLeast !== null ? target.insideLeast + 1e-3 : null,
      freeLengthMost: null,
    },
    grade: 2,
    windowsHold: 'nominal',
    seating: isPlunger ? 'guided along its length' : 'both ends pivoted',
    moving: null,
    reserve: RESERVE,
    hottest: valueOf(job.surroundings.hottest, 'temperature'),
  };
}

/**
 * The line of force over length, of one softness, that keeps furthest from floor and ceiling at every gap, and by how much:
 * both ends may be off by that and every line between still lies inside.
 *
 * @param share force where the spring is drawn or pressed less, over force where it is so more
 */
function middleLine(
  { window, lengths, arms }: Target,
  m: number,
  kind: SpringQuestion['kind'],
  share: number,
): { readonly shorter: ForceWindow; readonly longer: ForceWindow } | null {
  const way = kind === 'extension' ? 1 : -1;
  const stations = window.scenes.flatMap((scene) => scene.stations);
  const rows = stations.map(({ floor, ceiling }, j) => {
    const arm = way * arms[m][j];
    return {
      length: lengths[m][j],
      low: Math.max(0, floor.value / arm),
      high: Math.min(FORCE_MOST, ceiling.value / arm),
      arm,
    };
  });
  if (rows.some(({ arm }) => !(arm > 0))) return null;
  const from = Math.min(...rows.map(({ length }) => length));
  const to = Math.max(...rows.map(({ length }) => length));
  if (!(to - from > 1e-4)) return null;
  const [atFrom, atTo] = kind === 'extension' ? [share, 1] : [1, share];
  const at = rows.map(({ length, low, high }) => ({
    part: atFrom + ((atTo - atFrom) * (length - from)) / (to - from),
    low,
    high,
  }));
  const spare = (force: number) =>
    at.reduce((least, { part, low, high }) => Math.min(least, force * part - low, high - force * part), Infinity);
  // Concave in the force.
  const best = greatest(spare, 0, Math.max(...at.map(({ high }) => high)) / share);
  if (!(best.value > 0)) return null;
  // Where the window is very wide, a fifth either way is as free as a spring-maker needs.
  const half = Math.min(best.value, 0.2 * best.at * share);
  const around = (length: number, force: number): ForceWindow => ({ length, least: force - half, most: force + half });
  return { shorter: around(from, best.at * atFrom), longer: around(to, best.at * atTo) };
}

/** Where no ceiling is known this stands for it, N. */
const FORCE_MOST = 1e4;

function assessed(
  job: SolenoidJob,
  target: Target,
  m: number,
  offer: WoundOffer,
  before: ReturnType<typeof assess>,
  reach: 'at rest' | 'in time',
  units: DisplayUnits,
): SpringToOrder | null {
  const mount = target.mounts[m];
  const spring = drawn(offer);
  const one = fitted(job, spring, mount);
  if (one === null) return null;
  const fit = assessedFit(job, [one], mount.index ?? job.return.springs.length, before, reach, units);
  return fit === null ? null : { offer, spring, mount, fit };
}

/** The spring of a specification as a document describes it. */
export function drawn({ specification: made }: WoundOffer): DrawerSpring {
  const text = (value: number, dimension: Dimension, unit: string) =>
    formatQuantity(value, dimension, unit, { significantDigits: 5 });
  if (made.kind === 'torsion')
    return {
      name: 'Spring to order',
      kind: 'torsion',
      spring: {
        by: 'dimensions',
        wire: made.wire,
        wireDiameter: text(made.wireDiameter, 'length', 'mm'),
        outsideDiameter: text(made.outsideDiameter, 'length', 'mm'),
        activeTurns: String(Number(made.activeTurns.toPrecision(6))),
      },
    };
  return {
    name: 'Spring to order',
    kind: made.kind,
    spring: {
      by: 'dimensions',
      wire: made.wire,
      wireDiameter: text(made.wireDiameter, 'length', 'mm'),
      outsideDiameter: text(made.outsideDiameter, 'length', 'mm'),
      activeTurns: String(Number(made.activeTurns.toPrecision(6))),
      freeLength: text(made.freeLength, 'length', 'mm'),
      ...(made.kind === 'extension' ? { initialTension: text(made.initialTension, 'force', 'N') } : {}),
      ends: made.kind === 'extension' ? 'hooks' : made.ends === 'closed' ? 'closed' : 'closed and ground',
    },
  };
}
