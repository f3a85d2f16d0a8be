/** The course of a motion, to be drawn: columns of equal length, time rising; a jump is two points at one time. */
export interface MotionTrace {
  /** s after on. */
  readonly time: Float64Array;
  /** A, drawn from the source. */
  readonly supplyCurrent: Float64Array;
  /** A: the only winding; or the pull-in winding, then the hold winding. */
  readonly windingCurrents: readonly Float64Array[];
  /** m */
  readonly gap: Float64Array;
  /** m/s towards home. */
  readonly speed: Float64Array;
  /** At the terminals of the solenoid, V. */
  readonly terminalVolts: Float64Array;
  /** Magnetic, towards home, N. */
  readonly force: Float64Array;
  /** Of the main (pull-in) winding, Wb. */
  readonly fluxLinkage: Float64Array;
}

/** Order of the numbers in a sample. */
export const SAMPLE = {
  time: 0,
  supply: 1,
  main: 2,
  hold: 3,
  gap: 4,
  speed: 5,
  volts: 6,
  force: 7,
  flux: 8,
} as const;
export const SAMPLE_NUMBERS = 9;

/** Longest trace, and what there is room for at first. */
export const MOST_SAMPLES = 2000;
const FIRST_ROOM = 64;

/** Collects samples; when full, every second of those that no event marks is dropped and the spacing doubles. */
export class TraceRecorder {
  /** Time between two samples that are no event's, s. */
  spacing: number;
  private rows = new Float64Array(SAMPLE_NUMBERS * FIRST_ROOM);
  private marked = new Uint8Array(FIRST_ROOM);
  private count = 0;
  private last = -Infinity;

  constructor(spacing: number) {
    this.spacing = spacing;
  }

  /** Is the last sample far enough back for another one that no event marks? */
  isDue(time: number): boolean {
    return time - this.last >= this.spacing * (1 - 1e-9);
  }

  add(sample: Float64Array, isMarked: boolean): void {
    if (!isMarked && !this.isDue(sample[SAMPLE.time])) return;
    if (this.count === this.marked.length) this.makeRoom();
    const at = SAMPLE_NUMBERS * this.count;
    for (let i = 0; i < SAMPLE_NUMBERS; i++) this.rows[at + i] = sample[i];
    this.marked[this.count] = isMarked ? 1 : 0;
    this.count++;
    this.last = sample[SAMPLE.time];
  }

  private makeRoom(): void {
    const room = Math.min(MOST_SAMPLES, 2 * this.count);
    if (room === this.count) return this.thin();
    const { rows, marked } = this;
    this.rows = new Float64Array(SAMPLE_NUMBERS * room);
    this.rows.set(rows);
    this.marked = new Uint8Array(room);
    this.marked.set(marked);
  }

  private thin(): void {
    const unmarked = this.marked.reduce((sum, mark) => sum + 1 - mark, 0);
    // With little but events left, they thin out too: a plunger that hunts makes hundreds.
    const dropsMarked = unmarked < MOST_SAMPLES / 4;
    let kept = 0;
    let isOdd = false;
    for (let i = 0; i < this.count; i++) {
      const mayDrop = i > 0 && (dropsMarked || this.marked[i] === 0);
      if (mayDrop) isOdd = !isOdd;
      if (mayDrop && isOdd) continue;
      this.rows.copyWithin(SAMPLE_NUMBERS * kept, SAMPLE_NUMBERS * i, SAMPLE_NUMBERS * (i + 1));
      this.marked[kept] = this.marked[i];
      kept++;
    }
    this.count = kept;
    this.spacing *= 2;
  }

  finish(windings: number): MotionTrace {
    const column = (c: number): Float64Array => {
      const numbers = new Float64Array(this.count);
      for (let i = 0; i < numbers.length; i++) numbers[i] = this.rows[SAMPLE_NUMBERS * i + c];
      return numbers;
    };
    return {
      time: column(SAMPLE.time),
      supplyCurrent: column(SAMPLE.supply),
      windingCurrents: [SAMPLE.main, SAMPLE.hold].slice(0, windings).map(column),
      gap: column(SAMPLE.gap),
      speed: column(SAMPLE.speed),
      terminalVolts: column(SAMPLE.volts),
      force: column(SAMPLE.force),
      fluxLinkage: column(SAMPLE.flux),
    };
  }
}
