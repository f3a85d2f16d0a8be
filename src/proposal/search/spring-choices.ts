/**
 * Return springs that a search may fit in place of the present one: from the drawer, or wound to order.
 *
 * The lever swings between run and stop in every layout, so what a spring gives about the shaft hardly hangs on where the
 * bracket stands; what it may give does. So the search is offered a few springs that differ in what they give, and for the
 * layouts that come out best every spring of the drawer, and springs wound into the window of that very layout.
 */
import { leftAt } from '../../assessment/spring-limits.ts';
import { springForce } from '../../physics/spring/working.ts';
import { WANTED_OF_SPRINGS } from '../../assessment/checks/spring.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';
import type { Drawer, DrawerSpring } from '../../job/drawer/schema.ts';
import { display, metricUnits } from '../../units/quantity.ts';
import { designsFor, drawn, emptyDrawer, nearestMounts, type WoundOffer } from '../drawer-order.ts';
import type { Mount, Target } from '../drawer-mount.ts';
import { mayServe } from '../drawer.ts';
import { fitted, springIn, targetsOf } from '../drawer-mounts.ts';
import { rowsOf, screen } from '../drawer-screen.ts';
import { mountWords } from '../drawer-words.ts';
import type { Setting } from '../knobs/knob.ts';

/** A spring in its mount; with what a spring-maker must be told where it is to be ordered. */
export interface SpringSetting extends Setting {
  readonly order?: WoundOffer['specification'];
}

/** What springs may be fitted. */
export interface SpringStock {
  readonly drawer: Drawer | null;
  readonly isToOrder: boolean;
}

export const noStock: SpringStock = { drawer: null, isToOrder: false };

/** Of the drawer, and to order, for the choices of every layout. */
const MOST_OF_DRAWER = 6;
const MOST_TO_ORDER = 4;
/** Of a larger drawer so many are held against every layout that comes out well. */
const MOST_HELD = 400;

export interface SpringChoices {
  readonly settings: readonly SpringSetting[];
  /** The stock without springs that could serve in no layout. */
  readonly stock: SpringStock;
}

interface Level {
  readonly spring: DrawerSpring;
  readonly target: number;
  readonly mount: Mount;
  /** Mean of what it gives with the plunger home and out, N m or N. */
  readonly gives: number;
}

/** Springs that differ in what they give, for a job as it is. */
export function springChoices(job: SolenoidJob, { drawer, isToOrder }: SpringStock): SpringChoices {
  const targets = targetsOf(job, drawer ?? emptyDrawer, null);
  const levels = (drawer?.springs ?? []).flatMap((spring) => levelsOf(targets, spring));
  const serving = new Set(levels.map(({ spring }) => spring));
  const all = [...serving];
  const held = spreadOut(all, MOST_HELD);
  const chosen = spreadOut(
    [...levels].sort((a, b) => a.target - b.target || a.gives - b.gives),
    MOST_OF_DRAWER,
  );
  return {
    settings: [
      ...chosen.flatMap(({ spring, mount }) => ofDrawer(job, spring, mount) ?? []),
      ...(isToOrder ? ordersByFloor(job, targets) : []),
    ],
    stock: { drawer: drawer === null ? null : { ...drawer, springs: held }, isToOrder },
  };
}

/** What a spring gives in every fourth mount in which it keeps its own limits. */
function levelsOf(targets: readonly Target[], spring: DrawerSpring): Level[] {
  return targets.flatMap((target, t) => {
    const known = springIn(spring, target.question.on);
    if (known === null) return [];
    const { working, limits } = known;
    const way = working.kind === 'extension' ? 1 : -1;
    const floor = meanFloor(target);
    return target.mounts.flatMap((mount, m): Level[] => {
      if (m % 4 !== 0 && !(mount.on === 'lever' && mount.moved === 0)) return [];
      const lengths = target.lengths[m].subarray(0, target.surveyed);
      const extreme = way === 1 ? Math.max(...lengths) : Math.min(...lengths);
      if (!(leftAt(limits, working, extreme).margin >= WANTED_OF_SPRINGS)) return [];
      const at = (j: number) => way * target.arms[m][j] * Math.abs(springForce(working, lengths[j]));
      const gives = (at(0) + at(lengths.length - 1)) / 2;
      return gives > 0.6 * floor && gives > 0 ? [{ spring, target: t, mount, gives }] : [];
    });
  });
}

/** What a return asks at least, over the travel as it is; nought where it cannot be said. */
function meanFloor({ window }: Target): number {
  const stations = window.scenes[0]?.stations ?? [];
  const values = stations.map(({ floor }) => floor.value).filter(Number.isFinite);
  return values.length === 0 ? 0 : values.reduce((sum, one) => sum + one, 0) / values.length;
}

/** So many of a list, evenly over it, both ends among them. */
function spreadOut<T>(list: readonly T[], most: number): T[] {
  if (list.length <= most) return [...list];
  return Array.from({ length: most }, (_, i) => list[Math.round((i * (list.length - 1)) / (most - 1))]);
}

function ofDrawer(job: SolenoidJob, spring: DrawerSpring, mount: Mount): SpringSetting | null {
  const change = fitted(job, spring, mount);
  const place = spring.place === undefined || spring.place === '' ? '' : ` (${spring.place})`;
  const words = `Take "${spring.name}" from the drawer${place}. ${mountWords(mount, metricUnits)}`;
  return change === null ? null : { words, changes: [change] };
}

function toOrder(job: SolenoidJob, offer: WoundOffer, mount: Mount): SpringSetting | null {
  const { specification: made } = offer;
  const change = fitted(job, drawn(offer), mount);
  const length = (value: number) => display(value, 'length', metricUnits, 4);
  const words = `Have a spring wound: ${made.kind}, ${made.wire}, wire ${length(made.wireDiameter)}, ${length(made.outsideDiameter)} outside, ${made.activeTurns.toFixed(made.kind === 'torsion' ? 2 : 1)} active turns${made.kind === 'torsion' ? '' : `, ${length(made.freeLength)} free`}. ${mountWords(mount, metricUnits)}`;
  return change === null ? null : { words, changes: [change], order: made };
}

/** How far above the floor springs to order are wound, where no ceiling is known yet, and how soft they are. */
const ABOVE_FLOOR = [1.6, 2.5] as const;
const SOFT = [1, 4] as const;

/** Springs wound a little and much stronger than the return asks at least. */
function ordersByFloor(job: SolenoidJob, targets: readonly Target[]): SpringSetting[] {
  const [target] = targets;
  if (target === undefined) return [];
  const stations = target.window.scenes.flatMap((scene) => scene.stations);
  const floor = Math.max(0, ...stations.map((one) => one.floor.value));
  if (!(floor > 0 && Number.isFinite(floor))) return [];
  return ABOVE_FLOOR.flatMap((factor) => {
    const ceiling = factor * floor;
    const scenes = target.window.scenes.map((scene) => ({
      ...scene,
      stations: scene.stations.map((one) => ({ ...one, ceiling: { ...one.ceiling, value: ceiling } })),
    }));
    const open = { ...target, window: { ...target.window, scenes } };
    const [m] = nearestMounts(open);
    if (m === undefined) return [];
    const designs = designsFor(job, open, m);
    return SOFT.flatMap((i) => designs.slice(4 * i, 4 * i + 1)).map(({ offer }) => ({
      offer,
      mount: target.mounts[m],
    }));
  })
    .slice(0, MOST_TO_ORDER)
    .flatMap(({ offer, mount }) => toOrder(job, offer, mount) ?? []);
}

/** Of one layout, so many springs of the drawer and springs to order are assessed. */
const MOST_ASSESSED = 6;

/** The springs that fit a layout best, by the window of that layout: of the drawer, then to order. */
export function springsFor(job: SolenoidJob, { drawer, isToOrder }: SpringStock): SpringSetting[] {
  const targets = targetsOf(job, drawer ?? emptyDrawer, null);
  const found = targets.flatMap((target) => {
    const rows = rowsOf(target);
    const { on } = target.question;
    const serving = (drawer?.springs ?? []).filter((spring) => mayServe(spring, on));
    return serving.flatMap((spring) => {
      const { mount, score } = screen(target, rows, springIn(spring, on));
      return mount >= 0 && Number.isFinite(score) ? [{ spring, mount: target.mounts[mount], score }] : [];
    });
  });
  found.sort((a, b) => b.score - a.score);
  const ofStock = found.slice(0, MOST_ASSESSED).flatMap(({ spring, mount }) => ofDrawer(job, spring, mount) ?? []);
  const [target] = targets;
  if (!isToOrder || target === undefined || target.window.tightest === null || !target.window.isOpen) return ofStock;
  const [m] = nearestMounts(target);
  if (m === undefined) return ofStock;
  const designs = designsFor(job, target, m).filter((_, i) => target.question.on === 'shaft' || i % 4 === 0);
  return [...ofStock, ...designs.flatMap(({ offer }) => toOrder(job, offer, target.mounts[m]) ?? [])];
}
