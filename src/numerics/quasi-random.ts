/**
 * Quasi-random points in the unit cube: the Sobol sequence in Gray code order [1] with the direction numbers of [2],
 * plain or with Owen's nested uniform scrambling [3].
 *
 * The first 2ᵏ points fill the cube evenly: in each dimension one point lies in each of 2ᵏ equal slices, and in the
 * first two dimensions one in each rectangle of area 2⁻ᵏ whose sides are powers of two. A mean over N = 2ᵏ points of a
 * smooth function errs like 1/N, or less, where random points err like 1/√N. Other N than powers of two lose part of
 * that.
 *
 * Scrambling flips each binary digit by a coin that depends on the digits before it. Every point is then uniform, so a
 * mean is unbiased; the evenness stays; and several scrambles, independent by their seeds, tell the error of their
 * common mean. The coins are taken from a hash of 32 bits [4] whose seeds come from a random generator: what it leaves
 * out is that coins of one dimension are not quite independent of each other. Nothing of that is seen in the spread of
 * means (docs/spread-numerics.md).
 *
 * Points are multiples of 2⁻³², scrambled ones in the middle between two: never 0, never 1.
 *
 * [1] I. A. Antonov, V. M. Saleev, An economic method of computing LPτ-sequences, USSR Comput. Math. Math. Phys. 19
 *     (1979) 252-256
 * [2] S. Joe, F. Y. Kuo, Constructing Sobol sequences with better two-dimensional projections, SIAM J. Sci. Comput. 30
 *     (2008) 2635-2654
 * [3] A. B. Owen, Scrambled net variance for integrals of smooth functions, Ann. Statist. 25 (1997) 1541-1562
 * [4] B. Burley, Practical hash-based Owen scrambling, J. Comput. Graph. Tech. 9 (2020) no. 4
 */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { joeKuoRows } from './quasi-random-directions.ts';

const BITS = 32;
const rows = joeKuoRows.trim().split('\n');

/** Most dimensions that the table of direction numbers holds. */
export const mostDimensions = rows.length + 1;

/** Points that a sequence holds. */
export const mostPoints = 2 ** BITS;

export interface SobolSequence {
  readonly dimensions: number;
  /** Whole number that fixes the scrambling; null for the plain sequence. */
  readonly seed: number | null;
  /** Direction numbers with their bits reversed, bit by bit, each with all dimensions: 32 × dimensions. */
  readonly directions: Int32Array;
  /** One seed of the hash for each dimension; empty for the plain sequence. */
  readonly hashSeeds: Int32Array;
}

/**
 * A sequence in `dimensions` dimensions, scrambled by `seed` (any whole number of 32 bits), or plain with null.
 *
 * @throws RangeError when there is no such number of dimensions or no such seed
 */
export function sobolSequence(dimensions: number, seed: number | null): SobolSequence {
  if (!Number.isInteger(dimensions) || dimensions < 1 || dimensions > mostDimensions) {
    throw new RangeError(`quasi-random points have 1 to ${mostDimensions} dimensions, not ${dimensions}`);
  }
  if (seed !== null && !(Number.isInteger(seed) && Math.abs(seed) < mostPoints)) {
    throw new RangeError(`a seed is a whole number of 32 bits, not ${seed}`);
  }
  const directions = new Int32Array(BITS * dimensions);
  for (let d = 0; d < dimensions; d++) {
    directionNumbers(d).forEach((number, bit) => (directions[bit * dimensions + d] = reversedBits(number)));
  }
  return { dimensions, seed, directions, hashSeeds: seed === null ? new Int32Array(0) : seeds(seed, dimensions) };
}

/**
 * Points number `first` to `first + count - 1`, one after the other in a flat array of count × dimensions. Any block
 * can be had without the ones before it, so workers may share a sequence.
 *
 * @throws RangeError when the block is not within the sequence
 */
export function sobolPoints(sequence: SobolSequence, first: number, count: number): Float64Array {
  if (
    !(Number.isInteger(first) && Number.isInteger(count) && first >= 0 && count >= 0 && first + count <= mostPoints)
  ) {
    throw new RangeError(`a sequence has points 0 to ${mostPoints - 1}, not ${count} from ${first} on`);
  }
  const { dimensions, directions, hashSeeds } = sequence;
  const scrambled = hashSeeds.length > 0;
  const points = new Float64Array(count * dimensions);
  const state = stateAt(sequence, first);
  for (let i = 0, at = 0; i < count; i++) {
    for (let d = 0; d < dimensions; d++) {
      points[at++] = scrambled
        ? ((reversedBits(nestedHash(state[d], hashSeeds[d])) >>> 0) + 0.5) / mostPoints
        : (reversedBits(state[d]) >>> 0) / mostPoints;
    }
    // The next Gray code differs in one bit: as many as the next number has zeros at its end.
    const next = first + i + 1;
    const row = (BITS - 1 - Math.clz32(next & -next)) * dimensions;
    if (next < mostPoints) for (let d = 0; d < dimensions; d++) state[d] ^= directions[row + d];
  }
  return points;
}

function stateAt({ dimensions, directions }: SobolSequence, index: number): Int32Array {
  const state = new Int32Array(dimensions);
  const gray = index ^ (index >>> 1);
  for (let bit = 0; bit < BITS; bit++) {
    if (((gray >>> bit) & 1) === 0) continue;
    for (let d = 0; d < dimensions; d++) state[d] ^= directions[bit * dimensions + d];
  }
  return state;
}

/** v₁ … v₃₂ of dimension `d` (from 0): m_k 2⁻ᵏ as whole numbers of 32 bits, by the recurrence of [2]. */
function directionNumbers(d: number): Int32Array {
  const v = new Int32Array(BITS);
  if (d === 0) return v.map((_, k) => 1 << (BITS - 1 - k));
  const [, s, a, ...m] = rows[d - 1].split(' ').map(Number);
  for (let k = 0; k < BITS; k++) {
    if (k < s) {
      v[k] = m[k] << (BITS - 1 - k);
      continue;
    }
    v[k] = v[k - s] ^ (v[k - s] >>> s);
    for (let j = 1; j < s; j++) if (((a >>> (s - 1 - j)) & 1) === 1) v[k] ^= v[k - j];
  }
  return v;
}

/** A hash in which no bit depends on a higher one [4]: of reversed digits, each depends on those before it. */
function nestedHash(bits: number, seed: number): number {
  let x = bits;
  x ^= Math.imul(x, 0x3d20adea);
  x = (x + seed) | 0;
  x = Math.imul(x, (seed >>> 16) | 1);
  x ^= Math.imul(x, 0x05526c56);
  x ^= Math.imul(x, 0x53a22864);
  return x;
}

function seeds(seed: number, dimensions: number): Int32Array {
  // Neighbouring seeds give the generator neighbouring states, so they are stirred first and the first draws are left
  // out.
  let stirred = seed | 0;
  stirred = Math.imul(stirred ^ (stirred >>> 16), 0x85ebca6b);
  stirred = Math.imul(stirred ^ (stirred >>> 13), 0xc2b2ae35);
  const random = xoroshiro128plus(stirred ^ (stirred >>> 16));
  for (let i = 0; i < 16; i++) random.next();
  return Int32Array.from({ length: dimensions }, () => random.next());
}

function reversedBits(bits: number): number {
  let x = bits;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return (x >>> 16) | (x << 16);
}
