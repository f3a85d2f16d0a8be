/**
 * The quantities that are drawn, each with its distribution.
 *
 * Rule of shapes (JCGM 101:2008, 6.4): a ± that a person wrote in units of the quantity is two standard deviations of a
 * normal distribution. A ± in percent is a limit, as data sheets and classes of instruments give it, and so is what an
 * instrument may be off: rectangular. Where a draw would leave what the field allows (a length below zero) the
 * distribution is cut there, which is counted; more than one in twenty cut is refused.
 */
import { distributionProblem, type Distribution } from '../../numerics/distribution.ts';
import { normalCumulative } from '../../numerics/distribution-normal.ts';
import type { FieldRule } from '../../job/fields.ts';
import type { Job } from '../../job/schema.ts';
import { formatQuantity, metricUnits, type Dimension, type Quantity } from '../../units/quantity.ts';
import { instrumentOf, type InstrumentName } from './instruments.ts';
import { quantityFields, type QuantityField } from './quantity-fields.ts';
import type { SpreadProblem, SpreadRequest } from './request.ts';

export interface SpreadInput {
  readonly path: string;
  /** Where the same draw stands too: pulls read at full stroke move with the stroke. */
  readonly alsoAt: readonly string[];
  readonly dimension: Dimension;
  /** Unit as written. */
  readonly unit: string;
  readonly nominal_SI: number;
  /** As written, or the limit of the instrument. */
  readonly plusMinus_SI: number;
  readonly shape: 'normal' | 'rectangular';
  readonly from: 'written' | 'instrument';
  readonly instrument: InstrumentName | null;
  /** A reading can be measured better; what is made or set has to be held tighter. */
  readonly remedy: 'measure' | 'hold';
  /** Share of the distribution that was cut off, from 0 to 0.05. */
  readonly cut: number;
  readonly distribution: Distribution;
}

export interface SpreadInputs {
  readonly inputs: readonly SpreadInput[];
  /** Paths of quantities with a ± that every assessment takes at both of its ends already. */
  readonly atBothEnds: readonly string[];
  /** How many quantities were taken as exact. */
  readonly exact: number;
  readonly problems: readonly SpreadProblem[];
}

const MOST_CUT = 0.05;

export function spreadInputs(job: Job, { unwritten }: Pick<SpreadRequest, 'unwritten'>): SpreadInputs {
  const fields = quantityFields(job);
  const inputs: SpreadInput[] = [];
  const problems: SpreadProblem[] = [];
  const atBothEnds: string[] = [];
  const atStroke = gapsAtStroke(fields);
  let exact = 0;
  for (const field of fields) {
    const { path, quantity } = field;
    if (path.startsWith('layout.friction.')) {
      if (quantity.plusMinus !== null && quantity.plusMinus > 0) atBothEnds.push(path);
      else exact += 1;
      continue;
    }
    if (atStroke.includes(path)) continue;
    const half = halfWidth(field, job, unwritten);
    if (half === null) {
      exact += 1;
      continue;
    }
    const input = inputOf(field, half, path === STROKE ? atStroke : []);
    if ('problem' in input) problems.push(input);
    else inputs.push(input);
  }
  return { inputs, atBothEnds, exact, problems };
}

const STROKE = 'means.plunger.stroke';

/** A pull that was read at full stroke was read with the plunger on its stop, wherever that is. */
function gapsAtStroke(fields: readonly QuantityField[]): readonly string[] {
  const stroke = fields.find(({ path }) => path === STROKE)?.quantity.value ?? NaN;
  return fields
    .filter(({ path, quantity }) => isGap(path) && quantity.plusMinus === null && isSame(quantity.value, stroke))
    .map(({ path }) => path);
}

const isGap = (path: string) => /^means\.force\[\d+\]\.rows\[\d+\]\.gap$/.test(path);
const isSame = (a: number, b: number) => Math.abs(a - b) < 1e-9;

interface HalfWidth {
  readonly half: number;
  readonly from: 'written' | 'instrument';
  readonly instrument: InstrumentName | null;
}

function halfWidth(field: QuantityField, job: Job, unwritten: SpreadRequest['unwritten']): HalfWidth | null {
  const { path, rule, quantity } = field;
  const instrument = instrumentFor(path, job);
  const name = (instrument?.name ?? null) as InstrumentName | null;
  if (quantity.plusMinus !== null)
    return quantity.plusMinus > 0 ? { half: quantity.plusMinus, from: 'written', instrument: name } : null;
  if (unwritten === 'exact' || instrument === null) return null;
  // A usual limit must not make nonsense of a small reading: at most half of what cannot be below zero.
  const most = rule.above === 0 || rule.least === 0 ? Math.abs(quantity.value) / 2 : Infinity;
  const half = Math.min(most, instrument.limit(quantity.value));
  return half > 0 ? { half, from: 'instrument', instrument: name } : null;
}

/** Pulls that no balance read come from a catalogue or a field solve. */
function instrumentFor(path: string, job: Job) {
  const row = /^means\.force\[(\d+)\]\.(.*)$/.exec(path);
  const source = row !== null && job.means.kind === 'solenoid' ? job.means.force[Number(row[1])]?.source : undefined;
  if (row === null || source === undefined || source === 'read on a balance') return instrumentOf(path);
  return /^rows\[\d+\]\.force$/.test(row[2] ?? '') ? instrumentOf('return.springs[0].spring.rate') : null;
}

function inputOf(
  { path, rule, quantity }: QuantityField,
  { half, from, instrument }: HalfWidth,
  alsoAt: readonly string[],
): SpreadInput | SpreadProblem {
  const shape = from === 'instrument' || isPercent(quantity, rule) ? 'rectangular' : 'normal';
  const { distribution, cut, below } = within(shape, quantity.value, half, rule);
  if (cut > MOST_CUT || distributionProblem(distribution) !== null) {
    const bound = below ? (rule.least ?? rule.above ?? 0) : (rule.most ?? 0);
    return {
      path,
      problem: `its ± is so wide that ${(100 * cut).toFixed(0)} % of what may be true lies ${below ? 'below' : 'above'} ${formatted(bound, rule.dimension)}, which cannot be: write a smaller ±`,
    };
  }
  return {
    path,
    alsoAt,
    dimension: rule.dimension,
    unit: quantity.unit,
    nominal_SI: quantity.value,
    plusMinus_SI: half,
    shape,
    from,
    instrument,
    remedy: path.startsWith('layout.') ? 'hold' : 'measure',
    cut,
    distribution,
  };
}

const isPercent = ({ text }: Quantity, { dimension }: FieldRule) => dimension !== 'ratio' && text.includes('%');

const formatted = (value_SI: number, dimension: Dimension) =>
  formatQuantity(value_SI, dimension, metricUnits[dimension], { significantDigits: 3 });

function within(
  shape: 'normal' | 'rectangular',
  value: number,
  half: number,
  rule: FieldRule,
): { readonly distribution: Distribution; readonly cut: number; readonly below: boolean } {
  const lower = rule.above ?? rule.least ?? -Infinity;
  const upper = rule.most ?? Infinity;
  if (shape === 'rectangular') {
    const [from, to] = [Math.max(lower, value - half), Math.min(upper, value + half)];
    const cutBelow = (from - (value - half)) / (2 * half);
    const cutAbove = (value + half - to) / (2 * half);
    return { distribution: { shape, from, to }, cut: cutBelow + cutAbove, below: cutBelow >= cutAbove };
  }
  const standardDeviation = half / 2;
  const cutBelow = lower === -Infinity ? 0 : normalCumulative((lower - value) / standardDeviation);
  const cutAbove = upper === Infinity ? 0 : normalCumulative((value - upper) / standardDeviation);
  const cut = cutBelow + cutAbove;
  // One in a billion draws needs no cut, and an uncut distribution keeps its nominal value in the middle.
  if (cut < 1e-9)
    return { distribution: { shape, mean: value, standardDeviation }, cut: 0, below: cutBelow >= cutAbove };
  const far = 12 * standardDeviation;
  const distribution: Distribution = {
    shape: 'truncated normal',
    mean: value,
    standardDeviation,
    from: Math.max(lower, value - far),
    to: Math.min(upper, value + far),
  };
  return { distribution, cut, below: cutBelow >= cutAbove };
}
