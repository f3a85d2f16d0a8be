/** Sheets on which nothing can be drawn yet. */
import { part, text, type Drawing } from './drawing.ts';
import { point } from './plane.ts';
import { linesOf } from './text-width.ts';

/** A sheet of its usual size that says so. */
export function notKnownYet(title: string, width: number, height: number): Drawing {
  const words = 'Not known yet: readings are missing.';
  const notice = text(point(width / 2, height / 2), words, { align: 'middle' });
  return { title, width, height, parts: [part('notice', 'notice', [notice])], sentences: [words] };
}

/** A sheet as high as its lines, which names the readings that are missing. */
export function notKnownFor(title: string, width: number, missing: readonly string[]): Drawing {
  const words = ['Not known yet.', ...missing];
  const lines = words.flatMap((said) => linesOf(said, width - 12, 2.5));
  const height = 12 + lines.length * 4.6;
  const texts = lines.map((said, i) => text(point(6, height - 8 - i * 4.6), said));
  return { title, width, height, parts: [part('notice', 'notice', texts)], sentences: words };
}
