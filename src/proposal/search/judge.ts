/**
 * How good a layout is: its smallest margin as a share of what is wanted, over the findings that a search can move.
 *
 * A finding that rests on no place, arm, link or spring is the same in every layout: it would hide what the layout does
 * when it is the worst. It counts where a conductor or resistor of the search betters it, or where one worsens it. What
 * is not known before is left out as long as it stays so; what becomes not known counts as no margin at all.
 */
import { assess } from '../../assessment/assess.ts';
import { relativeMargin, type Finding } from '../../assessment/finding.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';
import { apply } from '../../job/change.ts';
import { metricUnits } from '../../units/quantity.ts';
import { electricSettings } from './settings.ts';

export interface Judge {
  readonly before: readonly Finding[];
  /** Of a finding that counts; null of one that does not. */
  marginOf(finding: Finding): number | null;
  /** The least of those that count. */
  valueOf(findings: readonly Finding[]): number;
  /** The finding that decides. */
  decidingOf(findings: readonly Finding[]): Finding | null;
  /** The best that an electric setting allows, whatever the layout. */
  ceilingOf(job: SolenoidJob): number;
}

export function judgeOf(job: SolenoidJob): Judge {
  const before = assess(job, metricUnits, 'at rest').findings;
  const was = new Map(before.map((finding) => [finding.id, finding]));
  const bettered = new Set(
    electricSettings(job)
      .slice(1)
      .flatMap(({ changes }) => assess(apply(job, changes), metricUnits, 'at rest').findings)
      .filter((finding) => {
        const old = was.get(finding.id);
        return !hangsOnLayout(finding) && old !== undefined && relativeMargin(finding) > relativeMargin(old) + 1e-6;
      })
      .map(({ id }) => id),
  );
  const marginOf = (finding: Finding): number | null => {
    const old = was.get(finding.id);
    if (finding.verdict === 'not known') return old?.verdict === 'not known' ? null : -Infinity;
    const margin = relativeMargin(finding);
    if (hangsOnLayout(finding) || bettered.has(finding.id)) return margin;
    return old !== undefined && margin < relativeMargin(old) - 1e-6 ? margin : null;
  };
  const decidingOf = (findings: readonly Finding[]): Finding | null => {
    let least: Finding | null = null;
    let value = Infinity;
    for (const finding of findings) {
      const margin = marginOf(finding);
      if (margin !== null && margin < value) [least, value] = [finding, margin];
    }
    return least;
  };
  const valueOf = (findings: readonly Finding[]): number => {
    const deciding = decidingOf(findings);
    return deciding === null ? Infinity : marginOf(deciding)!;
  };
  return {
    before,
    marginOf,
    decidingOf,
    valueOf,
    ceilingOf: (changed) =>
      valueOf(assess(changed, metricUnits, 'at rest').findings.filter((finding) => !hangsOnLayout(finding))),
  };
}

/** Whether a finding rests on where the parts stand or how the springs are drawn. */
export function hangsOnLayout({ needs }: Pick<Finding, 'needs'>): boolean {
  return needs.some(
    (path) =>
      path.startsWith('layout.homePin')
      || path.startsWith('layout.pullDirection')
      || path.startsWith('layout.connection')
      || path.startsWith('return.springs'),
  );
}
