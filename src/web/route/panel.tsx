/** "Route": the run of a hand cable in plan and elevation, its corners as handles, and what each bend costs at the handle. */
import { useEffect, useRef } from 'react';
import { goToField, useDesk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { PIXELS_PER_MM } from '../drawings/scale.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { verdictWords } from '../show/words.ts';
import { cableOf } from './cable.ts';
import { Corners } from './corners.tsx';
import { CornerHandles } from './handles.tsx';
import { distanceOf, firstRun, keepFriction } from './moves.ts';
import './route.css';
import { choose, followDesk, setSheetSizes, showSheetIn, useRoute } from './route.ts';
import { useFitting } from '../panels/fitting.ts';
import { Sheet } from '../panels/sheet.tsx';

export default function RoutePanel() {
  const hasCable = useDesk(({ document }) => document !== null && cableOf(document) !== null);
  const isEmpty = useDesk(({ document }) => document !== null && cableOf(document)?.cable.route.length === 0);
  if (!hasCable) return <p>This job has no hand cable, and so no route.</p>;
  return (
    <div className="route-panel">
      <Outcome />
      <ReadingsHere />
      {isEmpty ? <FirstRun /> : <Drawn />}
    </div>
  );
}

/** What the route decides: the effort at the handle, and room for the bends. */
const decided = /(handle-pull|bends-fit|bend-radius)$/;

function Outcome() {
  const findings = useDesk(({ assessment }) => assessment?.findings ?? none).filter(({ id }) => decided.test(id));
  // Room and radius are worth a line only where they do not hold.
  const shown = findings.filter(({ id, verdict }) => id.endsWith('handle-pull') || verdict !== 'holds');
  return (
    <ul className="route-outcome" aria-label="What the route decides">
      {shown.map(({ id, verdict, title, because }) => (
        <li key={id}>
          <span className="route-verdict">
            <VerdictMark verdict={verdict} size={26} /> {verdictWords[verdict]}
          </span>
          <span>
            <b>{title}.</b> {because}
          </span>
        </li>
      ))}
    </ul>
  );
}

const none: readonly never[] = [];

/** While readings at the handle count, the friction follows from them for every route that is drawn. */
function ReadingsHere() {
  const isRead = useDesk(({ document }) => document !== null && cableOf(document)?.cable.readings !== undefined);
  const calibrated = useRoute((state) => state.drawn?.study.calibrated ?? null);
  if (!isRead || calibrated === null) return null;
  const keep = () =>
    propose({ name: 'Keep the friction of the readings', changes: (document) => keepFriction(document, calibrated) });
  return (
    <div className="route-first">
      <p>
        The friction comes from two readings at the handle, taken on the run as it is: moving a bend reads them anew,
        and the effort hardly follows. To try another run, keep the friction that they gave and put them away.
      </p>
      <button type="button" onClick={() => void keep()}>
        Keep the friction, put the readings away
      </button>
    </div>
  );
}

/** Nothing drawn yet: the two ends, as far apart as the survey says. */
function FirstRun() {
  const distance = useDesk(({ document }) => (document === null ? null : distanceOf(document)));
  const drawRun = async () => {
    await propose({ name: 'Draw the run', changes: firstRun });
    choose(0);
  };
  return (
    <div className="route-first">
      <p>
        The run is not drawn yet: length and bends of the survey count. Drawn, it says which bend costs most and what
        moving it would save.
      </p>
      {distance === null ? (
        <button type="button" onClick={() => goToField('survey.run.distance')}>
          Read the distance of the run first
        </button>
      ) : (
        <button type="button" className="strong" onClick={() => void drawRun()}>
          Draw the run
        </button>
      )}
    </div>
  );
}

function fit(element: Element): void {
  const [route, effort] = [...element.querySelectorAll('.sheet')].map((sheet) => sheet.getBoundingClientRect());
  if (route === undefined || effort === undefined || route.width === 0) return;
  const millimetres = (pixels: number) => Math.max(60, Math.round(pixels / PIXELS_PER_MM));
  setSheetSizes({
    width: millimetres(route.width),
    routeHeight: millimetres(route.height),
    effortHeight: millimetres(effort.height),
  });
}

function Drawn() {
  const trouble = useRoute((state) => state.trouble);
  const box = useRef<HTMLDivElement>(null);
  useEffect(followDesk, []);
  useFitting(box, fit);
  return (
    <>
      {trouble !== null && <p className="field-error">The route could not be drawn: {trouble}</p>}
      <div className="route-sheets" ref={box}>
        <figure>
          <figcaption>The run, to scale: drag a corner, or move it with the arrow keys</figcaption>
          <Sheet which="route" showIn={showSheetIn} className="route-sheet-route">
            <CornerHandles />
          </Sheet>
        </figure>
        <figure>
          <figcaption>How the effort builds up from the lever to the handle</figcaption>
          <Sheet which="effort" showIn={showSheetIn} className="route-sheet-effort" />
        </figure>
      </div>
      <Corners />
    </>
  );
}
