/** The rows of one column, read from the assessment of the job with that means in it. */
import type { Job } from '../../job/schema.ts';
import { display, type DisplayUnits } from '../../units/quantity.ts';
import type { Assessment, Finding, Question } from '../finding.ts';
import { rowNames, type Cell, type RowName } from './comparison.ts';
import { goodsOf } from './parts.ts';
import type { MeansKind } from './variants.ts';

export function emptyCells(): Record<RowName, Cell> {
  return cells(() => ({ verdict: null, lines: [], finding: null }));
}

export function cellsOf(job: Job, assessment: Assessment, units: DisplayUnits): Record<RowName, Cell> {
  const { toMake, parts, upkeep } = goodsOf(job, units);
  const { kind } = job.means;
  const answered = (question: Question) => ofFinding(answering(assessment, question));
  const plain: Partial<Record<RowName, Cell>> = {
    stops: answered('stops'),
    'comes back': answered('runs'),
    'effort or power': { ...found(assessment, effortFinding[kind]), ...powerOf(job, assessment, units) },
    'time to stop': timeOf(job, assessment),
    'energy lost': energyLost(job, assessment),
    heat: heatOf(assessment, answered('burns')),
    parts: listed(parts),
    'to be made': listed(toMake),
    upkeep: listed(upkeep),
  };
  return cells((name) => plain[name]!);
}

function cells(of: (name: RowName) => Cell): Record<RowName, Cell> {
  return Object.fromEntries(rowNames.map((name) => [name, of(name)])) as Record<RowName, Cell>;
}

const effortFinding: Record<MeansKind, string> = {
  solenoid: 'pull-in-current',
  'hand cable': 'handle-pull',
  'air cylinder': 'stops-per-vessel',
};

const listed = (lines: readonly string[]): Cell => ({ verdict: null, lines, finding: null });

function ofFinding(finding: Finding | undefined): Cell {
  if (finding === undefined) return listed([]);
  return { verdict: finding.verdict, lines: [finding.because], finding: finding.id };
}

function found({ findings }: Assessment, id: string): Cell {
  return ofFinding(findings.find((finding) => finding.id === id));
}

function answering({ answers, findings }: Assessment, question: Question): Finding | undefined {
  const id = answers.find((answer) => answer.question === question)?.finding;
  return findings.find((finding) => finding.id === id);
}

/** What a coil takes, at the most: the strongest source and a cold coil. */
function powerOf({ means }: Job, { currents }: Assessment, units: DisplayUnits): Partial<Cell> {
  if (means.kind !== 'solenoid') return {};
  const lines = (['pull-in', 'hold'] as const).flatMap((stage) => {
    const most = currents.find((one) => one.stage === stage && one.supply === 'high' && one.coil === 'cold');
    if (most === undefined || most.current_A === null || most.coilPower_W === null) return [];
    const stays = stage === 'hold' ? ' while it holds' : ' to pull in';
    return [
      `${display(most.coilPower_W, 'power', units, 3)} (${display(most.current_A, 'current', units, 3)}) at most${stays}`,
    ];
  });
  return lines.length === 0 ? {} : { lines };
}

function timeOf({ means }: Job, assessment: Assessment): Cell {
  if (means.kind === 'solenoid')
    return found(assessment, means.works === 'energise to stop' ? 'home-in-time' : 'release-time');
  if (means.kind === 'air cylinder') return found(assessment, 'time-to-no-fuel');
  const travel = found(assessment, 'handle-travel');
  return { ...travel, lines: ['As fast as the hand: there is nothing to wait for.', ...travel.lines] };
}

/** What the lever does when current or air is gone: what brings it back then is among the findings. */
function energyLost({ means }: Job, assessment: Assessment): Cell {
  if (means.kind === 'hand cable')
    return {
      ...listed([
        'It needs none but the hand. A core that parts leaves the engine running: then it is stopped at the lever itself.',
      ]),
    };
  if (means.kind === 'air cylinder') return found(assessment, 'air-lost');
  if (means.works === 'energise to stop')
    return listed(['The engine runs on and cannot be stopped by this: the hand stop must work.']);
  const stops = found(assessment, 'returns-from-every-gap');
  return { ...stops, lines: ['The engine is stopped, wanted or not.', ...stops.lines] };
}

/** How warm it gets where nothing is wrong; else what is wrong. */
function heatOf(assessment: Assessment, burns: Cell): Cell {
  const { works } = assessment;
  if (burns.verdict === 'holds') {
    const warm = found(assessment, 'class-in-hold');
    return warm.lines.length > 0 ? warm : burns;
  }
  if (burns.lines.length > 0) return burns;
  return listed([
    works === 'by hand'
      ? 'None of its own; keep it away from the exhaust.'
      : 'None of its own; seals bear what their maker says.',
  ]);
}
