/**
 * Distributions of one quantity, each by its inverse: `distributionQuantile` turns evenly spread shares into draws, so
 * that quasi-random points keep their evenness. Shapes as in JCGM 101:2008, 6.4.
 */
import { normalCumulative, normalQuantile } from './distribution-normal.ts';

export type Distribution =
  | { readonly shape: 'normal'; readonly mean: number; readonly standardDeviation: number }
  | { readonly shape: 'rectangular'; readonly from: number; readonly to: number }
  | { readonly shape: 'triangular'; readonly from: number; readonly mode: number; readonly to: number }
  | {
      /**
       * A normal distribution that is known to lie within limits. `mean` and `standardDeviation` are those before the
       * cut.
       */
      readonly shape: 'truncated normal';
      readonly mean: number;
      readonly standardDeviation: number;
      readonly from: number;
      readonly to: number;
    };

/** What is wrong with a distribution, in words; null when it is sound. */
export function distributionProblem(distribution: Distribution): string | null {
  const { shape, ...numbers } = distribution;
  for (const [name, value] of Object.entries(numbers)) {
    if (!Number.isFinite(value)) return `${name} of a ${shape} distribution is not finite: ${value}`;
  }
  if ('standardDeviation' in distribution && !(distribution.standardDeviation > 0)) {
    return `the standard deviation of a ${shape} distribution is not above zero: ${distribution.standardDeviation}`;
  }
  if ('from' in distribution && !(distribution.from < distribution.to)) {
    return `a ${shape} distribution from ${distribution.from} to ${distribution.to} has no width`;
  }
  if (shape === 'triangular' && !(distribution.from <= distribution.mode && distribution.mode <= distribution.to)) {
    return `the mode ${distribution.mode} of a triangular distribution lies outside ${distribution.from} to ${distribution.to}`;
  }
  if (shape === 'truncated normal' && !(cutShares(distribution).share > 1e-290)) {
    return `nothing of the normal distribution lies between ${distribution.from} and ${distribution.to}`;
  }
  return null;
}

/**
 * The inverse of the distribution function: from the share that lies below, above 0 and below 1, to the value.
 *
 *     rectangular   a + (b - a) u
 *     triangular    a + √(u (b - a)(c - a)) up to the mode c, b - √((1 - u)(b - a)(b - c)) beyond it
 *     normal        μ + σ Φ⁻¹(u)
 *     truncated     μ + σ Φ⁻¹(Φ(α) + u (Φ(β) - Φ(α))), α and β the limits in standard deviations from the mean
 *
 * @throws RangeError when the distribution is not sound (`distributionProblem` says why)
 */
export function distributionQuantile(distribution: Distribution): (share: number) => number {
  const problem = distributionProblem(distribution);
  if (problem !== null) throw new RangeError(problem);
  switch (distribution.shape) {
    case 'normal': {
      const { mean, standardDeviation } = distribution;
      return (u) => mean + standardDeviation * normalQuantile(u);
    }
    case 'rectangular': {
      const { from: a, to: b } = distribution;
      return (u) => a + (b - a) * u;
    }
    case 'triangular': {
      const { from: a, mode: c, to: b } = distribution;
      const below = (c - a) / (b - a);
      return (u) => (u < below ? a + Math.sqrt(u * (b - a) * (c - a)) : b - Math.sqrt((1 - u) * (b - a) * (b - c)));
    }
    case 'truncated normal': {
      const { mean, standardDeviation, from, to } = distribution;
      const { mirrored, first, share } = cutShares(distribution);
      const sign = mirrored ? -1 : 1;
      return (u) => {
        const z = sign * normalQuantile(first + share * (mirrored ? 1 - u : u));
        return Math.min(to, Math.max(from, mean + standardDeviation * z));
      };
    }
  }
}

/**
 * Mean and standard deviation. Of a truncated normal distribution, with φ the density and Z = Φ(β) - Φ(α):
 * μ + σ (φ(α) - φ(β)) / Z and σ² (1 + (α φ(α) - β φ(β)) / Z - ((φ(α) - φ(β)) / Z)²); digits are lost where its width is
 * small beside σ, or where it holds a far tail only.
 *
 * @throws RangeError when the distribution is not sound
 */
export function distributionMoments(distribution: Distribution): {
  readonly mean: number;
  readonly standardDeviation: number;
} {
  const problem = distributionProblem(distribution);
  if (problem !== null) throw new RangeError(problem);
  switch (distribution.shape) {
    case 'normal':
      return { mean: distribution.mean, standardDeviation: distribution.standardDeviation };
    case 'rectangular': {
      const { from: a, to: b } = distribution;
      return { mean: (a + b) / 2, standardDeviation: (b - a) / Math.sqrt(12) };
    }
    case 'triangular': {
      const { from: a, mode: c, to: b } = distribution;
      const variance = ((b - a) ** 2 - (b - c) * (c - a)) / 18;
      return { mean: (a + b + c) / 3, standardDeviation: Math.sqrt(variance) };
    }
    case 'truncated normal': {
      const { mean: μ, standardDeviation: σ, from, to } = distribution;
      const { share: Z } = cutShares(distribution);
      const α = (from - μ) / σ;
      const β = (to - μ) / σ;
      const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
      const shift = (density(α) - density(β)) / Z;
      const variance = 1 + (α * density(α) - β * density(β)) / Z - shift * shift;
      return { mean: μ + σ * shift, standardDeviation: σ * Math.sqrt(Math.max(0, variance)) };
    }
  }
}

/**
 * Share of the normal distribution below the lower limit and between both, reckoned in the tail where shares are small.
 */
function cutShares({ mean, standardDeviation, from, to }: Distribution & { shape: 'truncated normal' }): {
  readonly mirrored: boolean;
  readonly first: number;
  readonly share: number;
} {
  const α = (from - mean) / standardDeviation;
  const β = (to - mean) / standardDeviation;
  const mirrored = α + β > 0;
  const first = normalCumulative(mirrored ? -β : α);
  return { mirrored, first, share: normalCumulative(mirrored ? -α : β) - first };
}
