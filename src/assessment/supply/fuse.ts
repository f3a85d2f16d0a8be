/**
 * Does the fuse guard the conductors? Against overload, and in a short circuit at the far end of the run.
 *
 * [1] IEC 60949:1988 and IEC 60364-5-54: heating by a short circuit, without loss of heat
 * [2] ISO 8820-3:2015: latest opening of blade fuses
 */
import type { Job } from '../../job/schema.ts';
import { ampacity } from '../../physics/ampacity.ts';
import { shortCircuitCurrent, type Loop } from '../../physics/circuit.ts';
import { adiabaticTime, shortCircuitLimit } from '../../physics/conductor.ts';
import { fusesOf, opensNotAfter } from '../../physics/fuse.ts';
import type { Verdict } from '../finding.ts';
import type { Needs } from '../needs.ts';
import { valueOf } from '../readings.ts';
import { thinnestSection, type Rig } from '../rig.ts';
import { orNull } from '../sweep.ts';
import { coldShare } from './what-ends-it.ts';
import type { Words } from '../words.ts';

export interface Judged {
  readonly verdict: Verdict;
  /** Available over needed, minus one. */
  readonly margin: number | null;
  readonly because: string;
  /** Readings to take. */
  readonly missing: readonly string[];
}

const notKnown = (because: string, missing: readonly string[] = []): Judged => ({
  verdict: 'not known',
  margin: null,
  because,
  missing,
});

/** A fuse guards a conductor against overload where the conductor bears the rating of the fuse for good. */
export function overload({ job, insulation }: Rig, say: Words): Judged {
  const { fuse } = job.supply;
  if (fuse === 'none') return { verdict: 'fails', margin: -1, because: 'No fuse guards the conductor.', missing: [] };
  if (fuse === 'not measured') return notKnown('Whether there is a fuse is not known.', ['supply.fuse']);
  const rating = valueOf(fuse.rating, 'current');
  const section = thinnestSection(job);
  if (Number.isNaN(rating)) return notKnown('What stands on the fuse is not known.', ['supply.fuse.rating']);
  if (Number.isNaN(section)) return notKnown('The section of a conductor is not known.', unread(job));
  const bears = ampacity(section, insulation, true);
  if (bears === null) return notKnown('No table gives the lasting current of so thin a conductor.');
  const margin = bears.amperes / rating - 1;
  return {
    verdict: margin >= 0 ? 'holds' : 'fails',
    margin,
    because: `The fuse lets ${say.current(rating)} pass for good; the conductor may carry ${say.current(bears.amperes)} in an engine space (${bears.source}).`,
    missing: [],
  };
}

/** A short at the far end, the source low and the fuse cold: the fuse has to open before the insulation is lost [1][2]. */
export function shortCircuit(rig: Rig, loop: Loop, missing: ReadonlySet<string>, needs: Needs, say: Words): Judged {
  const { job, insulation } = rig;
  const { fuse } = job.supply;
  if (fuse === 'none') return { verdict: 'fails', margin: -1, because: 'No fuse ends a short circuit.', missing: [] };
  if (fuse === 'not measured') return notKnown('Whether there is a fuse is not known.', ['supply.fuse']);
  if (fuse.type === 'other') return notKnown('In what time this kind of fuse opens is not known here: ask its maker.');
  const rating = valueOf(fuse.rating, 'current');
  const untaken = [
    ...(Number.isNaN(rating) ? ['supply.fuse.rating'] : []),
    ...[...needs.stationLoops, ...needs.holdLow].filter((path) => path.startsWith('supply.') && missing.has(path)),
    ...['surroundings.hottest', 'surroundings.coldest'].filter((path) => missing.has(path)),
  ];
  if (untaken.length > 0) return notKnown('A reading that this rests on has not been taken.', [...new Set(untaken)]);
  if (!fusesOf(fuse.type).some((sold) => sold.rating === rating))
    return notKnown(`No ${fuse.type} fuse of ${say.current(rating)} is sold, so its time to open is not known.`);
  const current = shortCircuitCurrent(loop);
  const opens = opensNotAfter({ series: fuse.type, rating }, current, coldShare(rig)).seconds;
  const before = valueOf(job.surroundings.hottest, 'temperature');
  const limit = shortCircuitLimit(insulation);
  if (!(before < limit))
    return notKnown('The conductors lie so hot that what their insulation then bears is not known.');
  const stands = adiabaticTime(thinnestSection(job), current, before, limit);
  const margin = opens > 0 ? stands / opens - 1 : Infinity;
  return {
    verdict: margin >= 0 ? 'holds' : 'fails',
    margin: orNull(margin),
    because: `A short at the far end draws ${say.current(current)}: the fuse opens ${Number.isFinite(opens) ? `within ${say.time(opens)}` : 'perhaps never'}, the conductor stands it for ${say.time(stands)}.`,
    missing: [],
  };
}

function unread({ supply }: Job): string[] {
  return [
    ...(Number.isNaN(valueOf(supply.out.section, 'area')) ? ['supply.out.section'] : []),
    ...(supply.back.by === 'conductor' && Number.isNaN(valueOf(supply.back.section, 'area'))
      ? ['supply.back.section']
      : []),
  ];
}
