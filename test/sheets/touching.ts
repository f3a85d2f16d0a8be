/** Texts of a drawing that cover one another or leave the sheet, by the generous widths of `text-width.ts`. */
import { textBox, type Drawing, type TextElement } from '../../src/sheets/drawing.ts';
import { boxesOverlap, grown } from '../../src/sheets/plane.ts';

export function textsOf(drawing: Drawing): TextElement[] {
  return drawing.parts.flatMap(({ elements }) => elements.filter((element) => element.kind === 'text'));
}

export function touchingTexts(drawing: Drawing): string[] {
  const texts = textsOf(drawing).map((element) => ({ words: element.text, box: grown(textBox(element), -0.05) }));
  const found: string[] = [];
  texts.forEach((a, i) => {
    for (const b of texts.slice(i + 1)) if (boxesOverlap(a.box, b.box)) found.push(`"${a.words}" and "${b.words}"`);
    const { left, bottom, right, top } = a.box;
    if (left < 0 || bottom < 0 || right > drawing.width || top > drawing.height)
      found.push(`"${a.words}" off the sheet`);
  });
  return found;
}
