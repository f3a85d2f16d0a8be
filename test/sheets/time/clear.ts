/** Words that lie on a curve, or on the curve of another part that is named. */
import { textBox, type Drawing } from '../../../src/sheets/drawing.ts';
import { crosses, grown } from '../../../src/sheets/plane.ts';

export function wordsOnCurves(drawing: Drawing, isCurve: (name: string) => boolean): string[] {
  const lines = drawing.parts.flatMap(({ name, elements }) =>
    isCurve(name)
      ? elements.flatMap((element) => (element.kind === 'polyline' ? [{ name, points: element.points }] : []))
      : [],
  );
  return drawing.parts.flatMap(({ name, elements }) =>
    !name.startsWith('note-')
      ? []
      : elements.flatMap((element) => {
          if (element.kind !== 'text') return [];
          const box = grown(textBox(element), -0.2);
          return lines
            .filter(({ points }) => points.some((p, i) => i > 0 && crosses(points[i - 1] ?? p, p, box)))
            .map((curve) => `"${element.text}" on ${curve.name}`);
        }),
  );
}
