/**
 * The window of a return spring: at every gap, how much it must give and how much it may give.
 *
 * One spring is taken out of the installation and a trial moment about the shaft (or a trial force on the plunger) put in.
 * The floor is the trial at which the return has just its wanted margin, in both ends of friction, from home also against
 * sticking and the first movement. The ceiling is the trial at which the weakest known pull has just its wanted margin, in
 * both ends of friction, at the start also for the first movement, at home also in hold.
 *
 * Signs: a moment or force that drives the plunger out counts as positive.
 */
import { apply, change } from '../../job/change.ts';
import { metricUnits } from '../../units/quantity.ts';
import { checksOf } from '../assess.ts';
import { findingsOf, type Context } from '../check.ts';
import { needsOf } from '../needs.ts';
import { rigOf, type SolenoidJob } from '../rig.ts';
import { electricCorners, sceneOf, scenesOf, type Scene } from '../scene.ts';
import { travelOf } from '../travel.ts';
import { ceilingAt, floorAt } from './edges.ts';
import {
  windowChecks,
  type SpringPlace,
  type SpringWindow,
  type Tightest,
  type WindowQuestion,
  type WindowScene,
  type WindowStation,
} from './kinds.ts';
import { wordsIn } from '../words.ts';

/** The spring asked about where nobody names one: the first on lever or shaft, else on the plunger, else a new one on the lever. */
export function usualQuestion(job: SolenoidJob): WindowQuestion {
  const { springs } = job.return;
  const on = (place: SpringPlace): WindowQuestion[] =>
    springs.flatMap((one, index) => (one.on === place ? [{ on: place, index }] : []));
  return [...on('lever'), ...on('shaft'), ...on('plunger')][0] ?? { on: 'lever', index: null };
}

/** The job with the spring in question taken out. */
export function without(job: SolenoidJob, { index }: WindowQuestion): SolenoidJob {
  return index === null ? job : apply(job, [change(job, `return.springs[${index}]`, undefined)]);
}

/** @param coarse only so many stations, as surveyed: for a search over many jobs */
export function windowOf(job: SolenoidJob, question: WindowQuestion, coarse: number | null = null): SpringWindow {
  const bare = without(job, question);
  const rig = rigOf(bare);
  const electric = electricCorners(rig);
  const scenes =
    coarse === null ? scenesOf(rig, electric) : [sceneOf(rig, electric, null, travelOf(rig, rig.linkage, coarse))];
  const context: Context = { rig, scenes, electric, needs: needsOf(bare), say: wordsIn(metricUnits) };
  const acts = question.on === 'plunger' ? 'force' : 'moment';
  const unknown = notKnown(context, bare);
  if (unknown !== null)
    return {
      question,
      acts,
      scenes: [],
      tightest: null,
      isOpen: false,
      missing: unknown.missing,
      unknown: unknown.because,
    };
  const found = scenes.map((scene) => windowIn(context, scene, acts));
  const tightest = tightestOf(found);
  return { question, acts, scenes: found, tightest, isOpen: tightest.width >= 0, missing: [], unknown: null };
}

function notKnown(context: Context, job: SolenoidJob): { missing: readonly string[]; because: string } | null {
  const asked: ReadonlySet<string> = new Set(windowChecks);
  const checks = checksOf(context).filter(({ id }) => asked.has(id));
  const findings = findingsOf(checks, job).filter(({ verdict }) => verdict === 'not known');
  if (findings.length === 0) return isPullKnown(context) ? null : unreadPull;
  return { missing: [...new Set(findings.flatMap((one) => one.missing))], because: findings[0].because };
}

const unreadPull = {
  missing: ['means.force'],
  because: 'The pulls that were read do not cover every gap at a current within a factor 1.5 of what flows there.',
};

/** A connection that is held fast fails whatever the pull: what a spring may give there is still not known without it. */
function isPullKnown({ scenes }: Context): boolean {
  return scenes.every(({ travel, pull }) => travel.stations.every((_, i) => pull.some((row) => !Number.isNaN(row[i]))));
}

export function tightestOf(scenes: readonly WindowScene[]): Tightest {
  let tightest: Tightest | null = null;
  for (const { moved, stations } of scenes)
    for (const station of stations) {
      const width = widthOf(station);
      if (tightest === null || width < tightest.width) tightest = { moved, station, width };
    }
  return tightest!;
}

/** Shut for good counts as minus infinity, also where the ceiling is infinite. */
function widthOf({ floor, ceiling }: WindowStation): number {
  return floor.value === Infinity || ceiling.value === -Infinity ? -Infinity : ceiling.value - floor.value;
}

function windowIn(context: Context, scene: Scene, acts: SpringWindow['acts']): WindowScene {
  const { stations } = scene.travel;
  return {
    moved: scene.moved,
    stations: stations.map((station, i) => ({
      gap: station.gap,
      shaftAngle: station.shaftAngle,
      floor: floorAt(context.rig, scene, station, i, acts),
      ceiling: ceilingAt(context, scene, station, i, acts),
    })),
  };
}
