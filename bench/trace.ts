/**
 * Reading five million samples of a recorded current from pieces of text, and finding its events, beside the plain
 * alternative: the whole text split into lines and each cell turned into a Number.
 */
import { performance } from 'node:perf_hooks';
import { reportOf } from '../src/diagnosis/trace/report.ts';
import { TraceReader } from '../src/diagnosis/trace/trace-reader.ts';

const SAMPLES = 5_000_000;
const GOAL_S = 3;
const PIECE = 1 << 20;

export async function bench(print: (line: string) => void): Promise<void> {
  const pieces = piecesOfText();
  const bytes = pieces.reduce((sum, { length }) => sum + length, 0);
  const before = memory();
  let peak = before;
  const began = performance.now();
  const reader = new TraceReader();
  for (const [k, piece] of pieces.entries()) {
    reader.push(piece);
    if (k % 20 === 0) peak = Math.max(peak, memory());
  }
  const read = reader.end();
  peak = Math.max(peak, memory());
  const readTime = (performance.now() - began) / 1000;
  if (!read.ok) throw new Error(read.problems[0]?.problem);
  const { found } = reportOf(read.trace, null);
  const whole = (performance.now() - began) / 1000;
  if (found === null || found.landing === null) throw new Error('the landing was not found');
  print(
    `${SAMPLES / 1e6} million samples, ${(bytes / 1e6).toFixed(0)} MB of text: read in ${readTime.toFixed(2)} s, with events ${whole.toFixed(2)} s (goal under ${GOAL_S}), ${peak - before} MB above what the text itself takes`,
  );
  const start = performance.now();
  const kept = plainly(pieces);
  const plain = (performance.now() - start) / 1000;
  print(
    `split into lines, each cell a Number: ${plain.toFixed(2)} s for ${kept / 1e6} million; reading here takes ${(readTime / plain).toFixed(2)} of that`,
  );
}

/** A pull-in within 5 s at 1 MHz, in pieces as a file would come. */
function piecesOfText(): Uint8Array[] {
  const encoder = new TextEncoder();
  const pieces: Uint8Array[] = [];
  let text = 'Time (s),Current (A)\n';
  let state = 1;
  for (let k = 0; k < SAMPLES; k++) {
    const t = k / 1e6 - 0.5;
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    let i = t < 0 || t > 4 ? 0 : 20 * (1 - Math.exp(-t / 0.01));
    if (t > 0.02 && t <= 0.04) i *= 1 - 0.5 * ((t - 0.02) / 0.02) ** 2;
    else if (t > 0.04 && t <= 4) i *= 1 - 0.5 * Math.exp(-(t - 0.04) / 0.01);
    text += `${(k / 1e6).toFixed(6)},${(i + (state / 2 ** 32 - 0.5) * 0.4).toFixed(4)}\n`;
    if (text.length > PIECE || k === SAMPLES - 1) {
      pieces.push(encoder.encode(text));
      text = '';
    }
  }
  return pieces;
}

function plainly(pieces: readonly Uint8Array[]): number {
  const text = pieces.map((piece) => Buffer.from(piece).toString('utf8')).join('');
  const rows = text
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number));
  return rows.length - 1;
}

function memory(): number {
  const { heapUsed, external } = process.memoryUsage();
  return Math.round((heapUsed + external) / 1e6);
}
