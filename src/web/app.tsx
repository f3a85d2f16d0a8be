/** The page: title strip, answers, drawings, and beside them findings, survey or versions. */
import { Suspense, useEffect } from 'react';
import { CAUTION } from '../assessment/finding.ts';
import { Answers } from './answers/answers.tsx';
import { put, useDesk, type Panel } from './desk/desk.ts';
import { openFirst } from './desk/come-and-go.ts';
import { Drawings } from './drawings/drawings.tsx';
import { followDesk } from './drawings/drawn.ts';
import { Findings } from './findings/findings.tsx';
import {
  CircuitPanel,
  Guarded,
  JobList,
  MeansPanel,
  Merge,
  ProposalsPanel,
  RoutePanel,
  SolenoidPage,
  SpringsPanel,
  Survey,
  SpreadPanel,
  TimePanel,
  Versions,
} from './page/later.tsx';
import { Notices } from './page/notices.tsx';
import { PrintedCautions } from './page/cautions.tsx';
import { cableOf } from './route/cable.ts';
import { TitleStrip } from './page/title-strip.tsx';
import { useIsSolenoidOpen } from './solenoid/place.ts';
import { TroubleWords } from './show/trouble.tsx';

followDesk();

export function App() {
  const isJobListOpen = useDesk((state) => state.isJobListOpen);
  const merging = useDesk((state) => state.merging);
  const isSolenoidOpen = useIsSolenoidOpen();
  const name = useDesk((state) => state.document?.name ?? null);
  useEffect(() => {
    document.title = name === null ? 'Stopwright' : `${name} – Stopwright`;
  }, [name]);
  return (
    <>
      <TitleStrip />
      <Notices />
      {isSolenoidOpen ? (
        <Guarded>
          <Suspense fallback={<p role="status">One moment…</p>}>
            <SolenoidPage />
          </Suspense>
        </Guarded>
      ) : (
        <Results />
      )}
      <Guarded>
        <Suspense fallback={null}>
          {isJobListOpen && <JobList />}
          {merging !== null && <Merge other={merging} />}
        </Suspense>
      </Guarded>
    </>
  );
}

function Results() {
  const isThere = useDesk((state) => state.document !== null);
  const assessment = useDesk((state) => state.assessment);
  const calculationTrouble = useDesk((state) => state.calculationTrouble);
  const openingTrouble = useDesk((state) => state.openingTrouble);
  const isWide = useDesk((state) => widePanels.has(state.panel));
  if (!isThere) {
    return (
      <main className="opening">
        {openingTrouble === null ? (
          <p role="status">Opening the job…</p>
        ) : (
          <>
            <TroubleWords trouble={openingTrouble} />
            <button type="button" className="strong" onClick={() => void openFirst()}>
              Try again
            </button>{' '}
            <button type="button" onClick={() => put({ isJobListOpen: true })}>
              List of jobs
            </button>
          </>
        )}
      </main>
    );
  }
  return (
    <main className={`results${isWide ? ' has-wide-side' : ''}`}>
      {openingTrouble !== null && <TroubleWords trouble={openingTrouble} />}
      {calculationTrouble !== null && (
        <div className="trouble" role="alert">
          <p>
            <b>This installation could not be calculated.</b> {calculationTrouble}. What you entered is kept. Undo the
            last change, or correct it in the survey.
          </p>
        </div>
      )}
      {assessment !== null && <Answers assessment={assessment} />}
      <p className="caution">{CAUTION}</p>
      <Drawings />
      <SidePanel />
      <PrintedCautions />
    </main>
  );
}

/** What stands side by side in them needs room. */
const widePanels: ReadonlySet<Panel> = new Set<Panel>(['means', 'route']);

const panels: readonly { readonly panel: Panel; readonly words: string }[] = [
  { panel: 'findings', words: 'Findings' },
  { panel: 'survey', words: 'Survey' },
  { panel: 'means', words: 'Means' },
  { panel: 'route', words: 'Route' },
  { panel: 'circuit', words: 'Circuit' },
  { panel: 'time', words: 'Time and heat' },
  { panel: 'spread', words: 'Spread' },
  { panel: 'springs', words: 'Springs' },
  { panel: 'proposals', words: 'Proposals' },
  { panel: 'versions', words: 'Versions' },
];

function SidePanel() {
  const panel = useDesk((state) => state.panel);
  const hasRoute = useDesk(({ document }) => document !== null && cableOf(document) !== null);
  const assessment = useDesk((state) => state.assessment);
  return (
    <aside
      className="side"
      id="side"
      aria-label="Findings, survey, means, route, circuit, time and heat, spread, springs, proposals, versions"
    >
      <div className="side-tabs" role="tablist" aria-label="What stands here">
        {panels
          .filter((one) => one.panel !== 'route' || hasRoute || panel === 'route')
          .map((one) => (
            <button
              key={one.panel}
              type="button"
              role="tab"
              id={`tab-${one.panel}`}
              aria-controls="side-panel"
              aria-selected={one.panel === panel}
              onClick={() => put({ panel: one.panel })}
            >
              {one.words}
            </button>
          ))}
      </div>
      <div className="side-panel" role="tabpanel" id="side-panel" aria-labelledby={`tab-${panel}`} tabIndex={0}>
        <Guarded key={panel}>
          <Suspense
            fallback={
              <p role="status" className="quiet">
                One moment…
              </p>
            }
          >
            {panel === 'means' && <MeansPanel />}
            {panel === 'findings' && assessment !== null && <Findings assessment={assessment} />}
            {panel === 'survey' && <Survey />}
            {panel === 'route' && <RoutePanel />}
            {panel === 'circuit' && <CircuitPanel />}
            {panel === 'time' && <TimePanel />}
            {panel === 'spread' && <SpreadPanel />}
            {panel === 'springs' && <SpringsPanel />}
            {panel === 'proposals' && <ProposalsPanel />}
            {panel === 'versions' && <Versions />}
          </Suspense>
        </Guarded>
      </div>
    </aside>
  );
}
