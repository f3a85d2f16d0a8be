/** Samples as they come, in blocks, so that nothing is copied while they grow; neighbours are averaged when there are too many. */

const BLOCK = 1 << 16;

export interface KeptSamples {
  readonly time: Float64Array;
  readonly current: Float32Array;
}

export class Samples {
  #times: Float64Array[] = [];
  #currents: Float32Array[] = [];
  #kept = 0;
  readonly #most: number;
  /** Samples of the file in one kept sample: 1, then 2, 4, … */
  #each = 1;
  #pending = 0;
  #timeSum = 0;
  #currentSum = 0;

  constructor(most: number) {
    this.#most = Math.max(2 * BLOCK, most - (most % (2 * BLOCK)));
  }

  get averaged(): number {
    return this.#each;
  }

  add(time: number, current: number): void {
    if (this.#each === 1) return this.#keep(time, current);
    this.#timeSum += time;
    this.#currentSum += current;
    if (++this.#pending === this.#each) {
      this.#keep(this.#timeSum / this.#each, this.#currentSum / this.#each);
      this.#pending = this.#timeSum = this.#currentSum = 0;
    }
  }

  /** Everything kept, in two columns. The blocks are let go on the way. */
  take(): KeptSamples {
    const time = new Float64Array(this.#kept);
    for (let k = 0; k < this.#times.length; k++) {
      time.set(
        k * BLOCK + BLOCK <= this.#kept ? this.#times[k] : this.#times[k].subarray(0, this.#kept - k * BLOCK),
        k * BLOCK,
      );
    }
    this.#times = [];
    const current = new Float32Array(this.#kept);
    for (let k = 0; k < this.#currents.length; k++) {
      current.set(
        k * BLOCK + BLOCK <= this.#kept ? this.#currents[k] : this.#currents[k].subarray(0, this.#kept - k * BLOCK),
        k * BLOCK,
      );
    }
    this.#currents = [];
    return { time, current };
  }

  #keep(time: number, current: number): void {
    if (this.#kept === this.#most) this.#halve();
    const at = this.#kept & (BLOCK - 1);
    if (at === 0) {
      this.#times.push(new Float64Array(BLOCK));
      this.#currents.push(new Float32Array(BLOCK));
    }
    const block = this.#kept >>> 16;
    this.#times[block][at] = time;
    this.#currents[block][at] = current;
    this.#kept++;
  }

  /** Averages pairs in place. A whole number of pairs is kept, because `#most` is a multiple of two blocks. */
  #halve(): void {
    const half = this.#kept / 2;
    for (let k = 0; k < half; k++) {
      const [from, at] = [2 * k, (2 * k) & (BLOCK - 1)];
      const times = this.#times[from >>> 16];
      const currents = this.#currents[from >>> 16];
      this.#times[k >>> 16][k & (BLOCK - 1)] = (times[at] + times[at + 1]) / 2;
      this.#currents[k >>> 16][k & (BLOCK - 1)] = (currents[at] + currents[at + 1]) / 2;
    }
    this.#kept = half;
    this.#times.length = this.#currents.length = half / BLOCK;
    this.#each *= 2;
  }
}
