/** The sheet where nothing can be drawn yet: which readings are missing. */
import { part, text, type Drawing } from '../drawing.ts';
import { point } from '../plane.ts';
import { linesOf } from '../text-width.ts';

export function nothing(title: string, width: number, missing: readonly string[]): Drawing {
  const words = ['Not known yet.', ...missing];
  const lines = words.flatMap((said) => linesOf(said, width - 12, 2.5));
  const height = 12 + lines.length * 4.6;
  const texts = lines.map((said, i) => text(point(6, height - 8 - i * 4.6), said));
  return { title, width, height, parts: [part('notice', 'notice', texts)], sentences: words };
}
