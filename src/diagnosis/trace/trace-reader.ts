/**
 * Reads a recorded current from text that comes in pieces: `push` bytes or text, then `end`.
 *
 * The first 64 KiB decide how the file is laid out (`layout.ts`); from then on each row is read once, straight from its
 * bytes, and forgotten. Memory is bounded: beyond 8.4 million samples neighbours are averaged in pairs. A row that
 * cannot be read is named; three of them, or one in a thousand, are left out with a word, more refuse the file. Times
 * that run backwards refuse it always.
 *
 * Longer than 300 lines: it is the way of one row from byte to sample, with every way to leave it.
 */
import { shortened } from '../../units/characters.ts';
import { isComment, NO_READING, readCell, splitRow } from './cell.ts';
import { bytesOf, EncodingDoor, grown, textOf } from './characters.ts';
import { unitMeant } from './columns.ts';
import { finishTrace } from './finish.ts';
import { readLayout, type Layout } from './layout.ts';
import { Samples } from './samples.ts';
import type { TraceOptions, TraceProblem, TraceReading } from './trace.ts';

const HEAD = 1 << 16;
const LONGEST_ROW = 1 << 20;
const MOST_SAMPLES = 1 << 23;
const MOST_NAMED = 20;
/** Rows that cannot be read after which reading on is pointless. */
const HOPELESS = 1000;
const HALF_A_DAY = 43_200;

const LF = 10;
const CR = 13;
const QUOTE = 34;
const SPACE = 32;
const TAB = 9;

const powersOfTen = Float64Array.from({ length: 23 }, (_, k) => 10 ** k);

export class TraceReader {
  readonly #options: TraceOptions;
  readonly #samples: Samples;
  readonly #door = new EncodingDoor();
  readonly #bad: TraceProblem[] = [];
  #badRows = 0;
  #missing = 0;
  #firstMissing = 0;
  #head: Uint8Array = new Uint8Array(1 << 12);
  #headLength = 0;
  #layout: Layout | null = null;
  #refusal: TraceReading | null = null;
  /** The begun line at the end of the last piece. */
  #carry: Uint8Array = new Uint8Array(256);
  #carryLength = 0;
  #lineEnd = LF;
  #row = 0;
  #rowsRead = 0;
  #last = -Infinity;
  #dayShift = 0;
  #clockStart: number | null = null;
  #backwards: TraceProblem | null = null;
  /** Where the number that was read last ended. */
  #at = 0;

  constructor(options: TraceOptions = {}, mostSamples = MOST_SAMPLES) {
    this.#options = options;
    this.#samples = new Samples(mostSamples);
  }

  /** Whether there is any use in pushing more. */
  get isRefused(): boolean {
    return this.#refusal !== null || this.#badRows > HOPELESS + this.#rowsRead / 1000 || this.#backwards !== null;
  }

  push(chunk: Uint8Array | string): void {
    if (this.isRefused) return;
    const bytes = this.#door.pass(typeof chunk === 'string' ? bytesOf(chunk) : chunk);
    if (this.#layout !== null) return this.#rows(bytes);
    const wanted = this.#headLength + bytes.length;
    if (wanted > this.#head.length) this.#head = grown(this.#head, wanted);
    this.#head.set(bytes, this.#headLength);
    this.#headLength = wanted;
    if (wanted >= HEAD) this.#begin(false);
  }

  end(): TraceReading {
    if (!this.isRefused) this.push(this.#door.rest());
    if (this.#layout === null && this.#refusal === null) this.#begin(true);
    if (this.#refusal !== null) return this.#refusal;
    const layout = this.#layout!;
    if (this.#carryLength > 0 && !this.isRefused) {
      this.#line(this.#carry, 0, this.#carryLength, true);
      this.#carryLength = 0;
    }
    if (this.#backwards !== null) return { ok: false, problems: [this.#backwards], channels: [] };
    if (this.#badRows > 3 && this.#badRows > this.#rowsRead / 1000) {
      const more = this.#badRows - this.#bad.length;
      const rest: TraceProblem[] = more > 0 ? [{ row: null, read: '', problem: `and ${more} more rows` }] : [];
      return { ok: false, problems: [...this.#bad, ...rest], channels: [] };
    }
    return finishTrace(layout, this.#samples, {
      samplesRead: this.#rowsRead,
      leftOut: this.#bad,
      missing: this.#missing,
      firstMissing: this.#firstMissing,
    });
  }

  #begin(isWhole: boolean): void {
    const head = this.#head.subarray(0, this.#headLength);
    if (head.subarray(0, HEAD).includes(0)) {
      this.#refusal = refusal('This is no text file: it holds bytes that no text has.');
      return;
    }
    this.#lineEnd = head.includes(LF) ? LF : CR;
    const lines = textOf(head, 0, Math.min(HEAD, head.length)).split(this.#lineEnd === LF ? /\r?\n/ : /\r/);
    // The last line may be cut off by the limit.
    if (!isWhole && lines.length > 1) lines.pop();
    const read = readLayout(lines, this.#options);
    if (!read.ok) {
      this.#refusal = read;
      return;
    }
    this.#layout = read.layout;
    let from = 0;
    for (let k = 0; k < read.layout.headerLines; k++) from = head.indexOf(this.#lineEnd, from) + 1;
    this.#row = read.layout.headerLines;
    this.#head = new Uint8Array();
    this.#rows(head.subarray(from));
  }

  #rows(bytes: Uint8Array): void {
    let from = 0;
    if (this.#carryLength > 0) {
      const end = bytes.indexOf(this.#lineEnd);
      this.#hold(bytes, 0, end < 0 ? bytes.length : end);
      if (end < 0) return;
      this.#line(this.#carry, 0, this.#carryLength, false);
      this.#carryLength = 0;
      from = end + 1;
    }
    while (from < bytes.length) {
      const end = bytes.indexOf(this.#lineEnd, from);
      if (end < 0) {
        this.#hold(bytes, from, bytes.length);
        return;
      }
      this.#line(bytes, from, end, false);
      from = end + 1;
    }
  }

  #hold(bytes: Uint8Array, from: number, to: number): void {
    const length = this.#carryLength + to - from;
    if (length > LONGEST_ROW) {
      this.#refusal = refusal(`Row ${this.#row + 1} is longer than a million characters: this is no table of samples.`);
      this.#carryLength = 0;
      return;
    }
    if (length > this.#carry.length) this.#carry = grown(this.#carry, length);
    this.#carry.set(bytes.subarray(from, to), this.#carryLength);
    this.#carryLength = length;
  }

  /** One row, without its line end. Rows as nearly all are, are read from their bytes; others the long way. */
  #line(bytes: Uint8Array, from: number, lineEnd: number, isLast: boolean): void {
    this.#row++;
    const { timeCell, currentCell, timeFactor, currentFactor, separator, interval_s } = this.#layout!;
    let end = lineEnd;
    while (end > from && bytes[end - 1] <= SPACE && bytes[end - 1] !== TAB) end--;
    if (end === from) return;
    let time = timeCell < 0 ? 0 : NaN;
    let current = NaN;
    if (separator !== ' ') {
      const code = separator.charCodeAt(0);
      const last = Math.max(timeCell, currentCell);
      let at = from;
      for (let cell = 0; cell <= last; cell++) {
        if (cell === timeCell || cell === currentCell) {
          const value = this.#number(bytes, at, end, code);
          if (cell === timeCell) time = value;
          else current = value;
          if (Number.isNaN(value)) break;
          at = this.#at + 1;
        } else {
          while (at < end && bytes[at] !== code && bytes[at] !== QUOTE) at++;
          if (at >= end || bytes[at] === QUOTE) break;
          at++;
        }
      }
    }
    if (Number.isNaN(time) || Number.isNaN(current)) {
      this.#slowly(bytes, from, end, isLast);
      return;
    }
    this.#take(timeCell < 0 ? this.#rowsRead * interval_s! : time * timeFactor, current * currentFactor);
  }

  /**
   * The number that fills the cell from `at`, or NaN where the cell holds anything else. Up to 15 digits and a power of
   * ten up to 22 are both exact as doubles, so one multiplication or division rounds as the language itself would.
   */
  #number(bytes: Uint8Array, start: number, end: number, separator: number): number {
    const point = this.#layout!.decimal === '.' ? 46 : 44;
    let at = start;
    while (bytes[at] === SPACE && at < end) at++;
    const isQuoted = bytes[at] === QUOTE && at < end;
    if (isQuoted) at++;
    let sign = 1;
    if (bytes[at] === 45 || bytes[at] === 43) sign = bytes[at++] === 45 ? -1 : 1;
    let mantissa = 0;
    let digits = 0;
    let shift = 0;
    let isPast = false;
    let any = false;
    for (; at < end; at++) {
      const digit = bytes[at] - 48;
      if (digit >= 0 && digit <= 9) {
        any = true;
        mantissa = mantissa * 10 + digit;
        if (mantissa > 0) digits++;
        if (isPast) shift--;
      } else if (bytes[at] === point && !isPast) isPast = true;
      else break;
    }
    if (!any || digits > 15) return NaN;
    if (at < end && (bytes[at] | 32) === 101) {
      let k = at + 1;
      let direction = 1;
      if (bytes[k] === 45 || bytes[k] === 43) direction = bytes[k++] === 45 ? -1 : 1;
      let exponent = 0;
      const first = k;
      for (; k < end && bytes[k] >= 48 && bytes[k] <= 57 && k - first < 4; k++)
        exponent = exponent * 10 + bytes[k] - 48;
      if (k === first) return NaN;
      shift += direction * exponent;
      at = k;
    }
    if (isQuoted) {
      if (bytes[at] !== QUOTE || at >= end) return NaN;
      at++;
    }
    while (bytes[at] === SPACE && at < end) at++;
    if (at < end && bytes[at] !== separator) return NaN;
    this.#at = at;
    if (shift === 0 || mantissa === 0) return sign * mantissa;
    if (shift > 22 || shift < -22) return NaN;
    return sign * (shift > 0 ? mantissa * powersOfTen[shift] : mantissa / powersOfTen[-shift]);
  }

  #slowly(bytes: Uint8Array, from: number, end: number, isLast: boolean): void {
    const {
      separator,
      decimal,
      timeCell,
      currentCell,
      timeFactor,
      currentFactor,
      interval_s,
      cells: wanted,
    } = this.#layout!;
    const line = textOf(bytes, from, end);
    if (isComment(line)) return;
    const cells = splitRow(line, separator);
    if (cells.length <= Math.max(timeCell, currentCell)) {
      if (isLast) return this.#leaveOut(line, 'the last row is cut off');
      return this.#leaveOut(
        line,
        `${cells.length === 1 ? 'one cell' : `${cells.length} cells`} where ${wanted} belong`,
      );
    }
    const currentRead = readCell(cells[currentCell], decimal);
    const timeRead = timeCell < 0 ? null : readCell(cells[timeCell], decimal);
    if (currentRead.kind === 'text' || currentRead.kind === 'clock')
      return this.#leaveOut(cells[currentCell], 'a number for the current belongs here');
    if (timeRead !== null && timeRead.kind === 'text')
      return this.#leaveOut(cells[timeCell], 'a number for the time belongs here');
    if (currentRead.kind === 'missing' || timeRead?.kind === 'missing') {
      if (this.#missing++ === 0) this.#firstMissing = this.#row;
      // Where the interval makes the times, a missing sample still takes its place.
      if (timeRead === null) this.#rowsRead++;
      return;
    }
    let time = this.#rowsRead * (interval_s ?? 0);
    if (timeRead?.kind === 'number') time = timeRead.value * timeFactor * besideFactor(timeRead.unit);
    else if (timeRead?.kind === 'clock') {
      // Counted from the first sample, so that no digits are lost to the years.
      this.#clockStart ??= timeRead.seconds;
      time = timeRead.seconds - this.#clockStart + this.#dayShift;
      if (!timeRead.hasDate && time < this.#last - HALF_A_DAY) {
        this.#dayShift += 2 * HALF_A_DAY;
        time += 2 * HALF_A_DAY;
      }
    }
    this.#take(time, currentRead.value * currentFactor * besideFactor(currentRead.unit));
  }

  #take(time: number, current: number): void {
    if (!(Math.abs(current) < NO_READING)) {
      if (this.#missing++ === 0) this.#firstMissing = this.#row;
      return;
    }
    if (time < this.#last) {
      const [before, now] = [this.#last, time].map((value) => Number(value.toPrecision(9)));
      this.#backwards ??= {
        row: this.#row,
        read: `${now} s`,
        problem: `time runs backwards: the row before stands at ${before} s. Is this the column of times, and one recording?`,
      };
      return;
    }
    this.#last = time;
    this.#rowsRead++;
    this.#samples.add(time, current);
  }

  #leaveOut(read: string, problem: string): void {
    this.#badRows++;
    if (this.#bad.length < MOST_NAMED) this.#bad.push({ row: this.#row, read: shortened(read, 40), problem });
  }
}

function besideFactor(unit: string): number {
  return unit === '' ? 1 : (unitMeant(unit)?.factor ?? (unit === 'A' ? 1 : NaN));
}

function refusal(problem: string): TraceReading {
  return { ok: false, problems: [{ row: null, read: '', problem }], channels: [] };
}

/** A whole text at once. */
export function readTrace(text: string | Uint8Array, options: TraceOptions = {}): TraceReading {
  const reader = new TraceReader(options);
  reader.push(text);
  return reader.end();
}
