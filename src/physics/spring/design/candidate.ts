/** One spring wound to a rate: its free length, and what it uses of every limit. */
import { coilMass, naturalFrequency, springRate, type HelicalSpring } from '../helical.ts';
import {
  compressionUse,
  growthWhenSolid,
  helicalOfWire,
  seatingCoefficient,
  shortestWorkingLength,
  solidLength,
  totalTurns,
  type CompressionSpring,
} from '../compression.ts';
import { enduranceUsed } from '../endurance.ts';
import {
  activeTurnsWithHooks,
  bodyLength,
  extensionFreeLength,
  extensionUse,
  hookReach,
  usualInitialTension,
  type ExtensionSpring,
} from '../extension.ts';
import { coilDiameterTolerance, loadTolerance, rateTolerance } from '../tolerance.ts';
import { wireCautions, wireDensity, wireStrength, type SpringWire } from '../wire.ts';
import type { ForceWindow, Limit, Offer, Specification, SpringQuestion, StatedLoad } from './question.ts';

export interface Coil {
  readonly wire: SpringWire;
  readonly wireDiameter: number;
  readonly meanCoilDiameter: number;
  /** Turns between the closed ends, or of the body between the hooks: whole and half ones. */
  readonly turns: number;
}

/** A hook may be drawn out to so many inside diameters: common practice, no source. */
const DRAWN_OUT_MOST = 3;

/** An extension spring whose coils part at the first length for certain: its initial tension over the force there, at most. */
const PARTED = 0.9;

/** Lengths are told to a spring-maker in tenths of a millimetre. */
const rounded = (length: number) => Math.round(length * 1e4) / 1e4;

const middle = ({ least, most }: ForceWindow) => (least + most) / 2;

/** Turns that give way, whatever ends the spring has. */
export function activeTurns(kind: SpringQuestion['kind'], turns: number, wire: SpringWire): number {
  return kind === 'extension' ? activeTurnsWithHooks(turns, wire) : turns;
}

export function offerOf(question: SpringQuestion, coil: Coil): Offer {
  return question.kind === 'compression' ? compressionOffer(question, coil) : extensionOffer(question, coil);
}

function compressionOffer(question: SpringQuestion, coil: Coil): Offer {
  const { first, second, seating, moving } = question;
  const { wire, wireDiameter: d, meanCoilDiameter: D, turns } = coil;
  const helical = helicalOfWire({ ...coil, activeTurns: turns });
  const rate = springRate(helical);
  // Ends of thin wire are not ground: common practice, no source.
  const ends = d >= 0.5e-3 ? 'closed and ground' : 'closed';
  const freeLength = rounded((first.length + middle(first) / rate + second.length + middle(second) / rate) / 2);
  const spring: CompressionSpring = { kind: 'compression', wire, wireDiameter: d, meanCoilDiameter: D, activeTurns: turns, freeLength, ends }; // prettier-ignore
  const isGuided = seating === 'guided along its length';
  const duty = moving === null ? 'static' : 'moving';
  const strut = isGuided ? 1 : seatingCoefficient[seating];
  const less = compressionUse(spring, first.length, strut, duty);
  const more = compressionUse(spring, second.length, strut, duty);
  return finished(question, coil, helical, [less, more], {
    used: {
      'static stress': more.stressUsed / (1 - question.reserve),
      'stress when solid': more.solidStressUsed,
      'travel before the coils touch': more.travelUsed,
      ...(isGuided ? {} : { buckling: more.bucklingUsed }),
    },
    growth: growthWhenSolid(helical, freeLength, ends),
    ends,
    hookLength: null,
    freeLength,
    totalTurns: totalTurns(turns),
    wireTurns: totalTurns(turns),
    solidLength: solidLength(turns, d, ends),
    shortestLength: shortestWorkingLength(helical, ends, duty),
    initialTension: 0,
  });
}

function extensionOffer(question: SpringQuestion, coil: Coil): Offer {
  const { first, second } = question;
  const { wire, wireDiameter: d, meanCoilDiameter: D, turns } = coil;
  const helical = helicalOfWire({ ...coil, activeTurns: activeTurns('extension', turns, wire) });
  const rate = springRate(helical);
  // The line that comes nearest the middle of both windows; the free length is where it meets the initial tension.
  const line = (length: number) =>
    (middle(first) + middle(second)) / 2 + rate * (length - (first.length + second.length) / 2);
  const [least, most] = usualInitialTension(helical);
  const wanted = line(extensionFreeLength(turns, d, D));
  const tension = Math.min(Math.max(wanted, least), Math.max(least, Math.min(most, PARTED * line(first.length))));
  const freeLength = rounded(first.length - (line(first.length) - tension) / rate);
  const initialTension = line(freeLength);
  const hookLength = (freeLength - bodyLength(turns, d)) / 2;
  const reach = hookLength / (D - d);
  const spring: ExtensionSpring = { kind: 'extension', wire, wireDiameter: d, meanCoilDiameter: D, activeTurns: helical.activeTurns, freeLength, initialTension }; // prettier-ignore
  const less = extensionUse(spring, first.length);
  const more = extensionUse(spring, second.length);
  return finished(question, coil, helical, [less, more], {
    used: {
      'static stress': more.stressUsed / (1 - question.reserve),
      'stress of the hooks': more.hookUsed / (1 - question.reserve),
      'initial tension': line(first.length) > 0 ? tension / (PARTED * line(first.length)) : Infinity,
      'length of the hooks': reach > 0 ? Math.max(hookReach.least / reach, reach / DRAWN_OUT_MOST) : Infinity,
    },
    growth: 0,
    ends: reach > hookReach.most ? 'full hooks drawn out' : 'full hooks',
    hookLength,
    freeLength,
    totalTurns: turns,
    // A full hook takes about a turn of wire, one drawn out as much more as it reaches.
    wireTurns: turns + 2 * Math.max(1, reach),
    solidLength: bodyLength(turns, d),
    shortestLength: null,
    initialTension,
  });
}

interface Wound extends Pick<
  Specification,
  'ends' | 'hookLength' | 'freeLength' | 'totalTurns' | 'solidLength' | 'shortestLength' | 'initialTension'
> {
  readonly used: Partial<Record<Limit, number>>;
  /** Of the outside diameter when pressed solid, m. */
  readonly growth: number;
  /** Turns of wire in it, hooks and closed ends too. */
  readonly wireTurns: number;
}

type Worked = { readonly force: number; readonly stress: number; readonly correctedStress: number };

function finished(
  question: SpringQuestion,
  { wire, wireDiameter: d, meanCoilDiameter: D }: Coil,
  helical: HelicalSpring,
  [less, more]: readonly [Worked, Worked],
  { used, growth, wireTurns, ...wound }: Wound,
): Offer {
  const { grade, space, moving, first, second } = question;
  const strength = wireStrength(wire, d);
  const load = (name: StatedLoad['name'], { length }: ForceWindow, worked: Worked): StatedLoad => ({
    name,
    length,
    force: worked.force,
    tolerance: loadTolerance(helical, worked.force, grade),
    stress: worked.stress,
    correctedStress: worked.correctedStress,
  });
  const loads = [load('F1', first, less), load('F2', second, more)] as const;
  const nominal = Math.max(windowUsed(first, less.force, 0), windowUsed(second, more.force, 0));
  const inGrade = Math.max(
    windowUsed(first, less.force, loads[0].tolerance),
    windowUsed(second, more.force, loads[1].tolerance),
  );
  const diameterTolerance = coilDiameterTolerance(D, D / d, grade);
  const all: Partial<Record<Limit, number>> = {
    forces: question.windowsHold === 'nominal' ? nominal : inGrade,
    ...used,
  };
  if (space.outsideMost !== null) all['outside diameter'] = (D + d + diameterTolerance + growth) / space.outsideMost;
  if (space.insideLeast !== null) {
    const inside = D - d - diameterTolerance;
    all['inside diameter'] = inside > 0 ? space.insideLeast / inside : Infinity;
  }
  if (space.freeLengthMost !== null) all['free length'] = wound.freeLength / space.freeLengthMost;
  if (moving !== null) all.endurance = enduranceUsed(helical, less.force, more.force, strength, moving);
  const density = wireDensity(wire);
  return {
    specification: {
      kind: question.kind,
      wire,
      wireDiameter: d,
      strength,
      outsideDiameter: D + d,
      diameterTolerance,
      meanCoilDiameter: D,
      insideDiameter: D - d,
      activeTurns: helical.activeTurns,
      direction: 'right-hand',
      loads,
      grade,
      rate: springRate(helical),
      rateTolerance_share: rateTolerance(helical, grade),
      mass: coilMass(d, D, wireTurns, density),
      naturalFrequency: naturalFrequency(helical, density),
      surface: surfaceOf(wire, moving),
      ...wound,
    },
    used: all,
    keepsWindowsInGrade: inGrade <= 1,
    cautions: wireCautions(wire, question.hottest, more.stress / strength),
  };
}

/** How much of a window a force and its ± use: 1 at the edge. */
function windowUsed({ least, most }: ForceWindow, force: number, tolerance: number): number {
  return (Math.abs(force - (least + most) / 2) + tolerance) / ((most - least) / 2);
}

function surfaceOf(wire: SpringWire, moving: SpringQuestion['moving']): string {
  const surface =
    wire === 'EN 10270-3 1.4310' ? 'bright, stainless' : 'phosphated wire, oiled; no protection from salt water';
  return moving === 'shot peened' ? `${surface}; shot peened` : surface;
}
