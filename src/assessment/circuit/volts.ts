/** What flows round the loop of a picture of the circuit, and the volts at every place on it. */
import {
  holdCurrents,
  nodesOf,
  pullInCurrents,
  shortCircuitCurrent,
  type CoilOhms,
  type LoopPart as Resistance,
} from '../../physics/circuit.ts';
import type { Flow } from './load.ts';
import type { LoopPart, SolenoidJob } from '../rig.ts';
import { orNull } from '../sweep.ts';

export const isBack = ({ path, kind }: LoopPart): boolean => path === 'supply.back' || kind === 'earth strap';

export const isSwitch = ({ kind }: LoopPart): boolean => kind === 'switch' || kind === 'relay';

export function resistanceOf(part: LoopPart, ohms: number, isSource: boolean): Resistance {
  return {
    name: part.path,
    kind: isSource ? 'source' : part.kind === 'conductor' ? 'conductor' : 'contact',
    side: isBack(part) ? 'back' : 'out',
    fresh: ohms,
    aged: ohms,
  };
}

/** Whether only the end switch ends the full current. */
export const endsBySwitch = ({ means }: SolenoidJob): boolean =>
  means.coil.stages === 'pull-in and hold windings' || means.coil.stages === 'series resistor';

export function flowIn(
  job: SolenoidJob,
  stage: Flow['stage'],
  source: number,
  resistances: readonly Resistance[],
  coil: CoilOhms,
): Flow {
  if (stage === 'off') return { stage, supply: 0, currents: null, isShort: false };
  const loop = { source, resistance: resistances.reduce((sum, { fresh }) => sum + fresh, 0) };
  const { suppression } = job.supply;
  if (typeof suppression === 'object' && suppression.kind === 'diode' && suppression.polarity === 'anode to plus') {
    const isKnown = source > 0 && loop.resistance > 0;
    return { stage, supply: isKnown ? shortCircuitCurrent(loop) : NaN, currents: null, isShort: true };
  }
  // Without an end switch nothing takes the heavy current off.
  const reduced = stage === 'hold' && !(endsBySwitch(job) && job.means.endSwitch === 'none');
  const currents = reduced ? holdCurrents(loop, coil) : pullInCurrents(loop, coil);
  return { stage: reduced ? 'hold' : 'pull-in', supply: currents.supply, currents, isShort: false };
}

export interface Span {
  readonly from: number | null;
  readonly to: number | null;
  readonly drop: number | null;
}

export interface Around {
  at(part: LoopPart): Span;
  /** At the terminals of the source, and at those of the solenoid. */
  readonly source: number | null;
  readonly plus: number | null;
  readonly minus: number | null;
}

export function voltsAround(
  source: number,
  inside: LoopPart,
  out: readonly LoopPart[],
  back: readonly LoopPart[],
  resistances: readonly Resistance[],
  flow: Flow,
): Around {
  const spans = new Map<string, Span>();
  const known = orNull(source);
  if (flow.stage === 'off') {
    // Up to the first open contact everything stands at the source's volts, beyond it at none.
    let volts = known;
    for (const part of [inside, ...out]) {
      const to = isSwitch(part) ? 0 : volts;
      spans.set(part.path, { from: volts, to, drop: 0 });
      volts = to;
    }
    for (const part of back) spans.set(part.path, { from: 0, to: 0, drop: 0 });
    return { at: ({ path }) => spans.get(path) ?? nothing, source: known, plus: 0, minus: 0 };
  }
  if (!Number.isFinite(flow.supply))
    return {
      at: (part) => (part === inside ? { ...nothing, from: known } : nothing),
      source: null,
      plus: null,
      minus: null,
    };
  const nodes = nodesOf({ source, parts: resistances, age: 'fresh' }, flow.supply);
  nodes.forEach(({ part, volts, drop }, i) => {
    if (part !== null) spans.set(part, { from: nodes[i - 1].volts, to: volts, drop });
  });
  const terminal = (place: 'terminal in' | 'terminal out') => nodes.find((node) => node.place === place)?.volts ?? null;
  return {
    at: ({ path }) => spans.get(path) ?? nothing,
    source: spans.get(inside.path)?.to ?? null,
    plus: terminal('terminal in'),
    minus: terminal('terminal out'),
  };
}

const nothing: Span = { from: null, to: null, drop: null };
