/**
 * Parts of the page that are loaded when they are first wanted, or in a quiet moment before: a page that has been open for
 * a while needs the server for keeping only.
 */
import { Component, lazy, type ReactNode } from 'react';

const loads = {
  survey: () => import('../survey/survey.tsx'),
  solenoid: () => import('../solenoid/page.tsx'),
  means: () => import('../means/panel.tsx'),
  route: () => import('../route/panel.tsx'),
  circuit: () => import('../circuit/panel.tsx'),
  time: () => import('../time/panel.tsx'),
  spread: () => import('../spread/panel.tsx'),
  springs: () => import('../springs/panel.tsx'),
  proposals: () => import('../proposals/panel.tsx'),
  versions: () => import('../versions/versions.tsx'),
  jobs: () => import('../jobs/job-list.tsx'),
  merge: () => import('../versions/merge.tsx'),
};

export const Survey = lazy(loads.survey);
export const SolenoidPage = lazy(loads.solenoid);
export const MeansPanel = lazy(loads.means);
export const RoutePanel = lazy(loads.route);
export const CircuitPanel = lazy(loads.circuit);
export const TimePanel = lazy(loads.time);
export const SpreadPanel = lazy(loads.spread);
export const SpringsPanel = lazy(loads.springs);
export const ProposalsPanel = lazy(loads.proposals);
export const Versions = lazy(loads.versions);
export const JobList = lazy(loads.jobs);
export const Merge = lazy(loads.merge);

/** Loads all of them. One that cannot be had now is asked for again when it is wanted. */
export async function loadTheRest(): Promise<void> {
  await Promise.allSettled([...Object.values(loads).map((load) => load()), import('../jobs/acts.ts')]);
}

interface Props {
  readonly children: ReactNode;
}

/** Says so where a part of the page fails, and leaves the rest of the page alone. */
export class Guarded extends Component<Props, { readonly trouble: string | null }> {
  override state: { readonly trouble: string | null } = { trouble: null };

  static getDerivedStateFromError(error: unknown): { trouble: string } {
    return { trouble: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.trouble === null) return this.props.children;
    return (
      <div className="trouble" role="alert">
        <p>
          <b>This part of the page could not be shown.</b> What you entered is safe. Check that Stopwright is running,
          then reload the page. <span className="quiet">({this.state.trouble})</span>
        </p>
      </div>
    );
  }
}
