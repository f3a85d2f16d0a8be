/**
 * How wide a text comes out, mm, reckoned on the generous side so that labels which do not touch here touch nowhere.
 *
 * Advance widths of DejaVu Sans, one of the widest of the common sans-serif faces, in hundredths of its size, read with a
 * browser. What is not in the table counts as a full square.
 */
const firstCode = 32;
const hundredths = [
  32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84,
  84, 84, 53, 100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79, 60, 79, 69, 63, 61, 73, 68, 99, 69, 61,
  69, 39, 34, 39, 84, 50, 50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61, 63, 63, 41, 52, 39, 63, 59,
  82, 59, 59, 52, 64, 34, 64, 84,
];
const others: Readonly<Record<string, number>> = { '°': 50, '±': 84, '·': 32, '²': 40, '–': 50, '…': 100, Ω: 76 };

/** Height of a capital over size of the face: what a face is scaled by to reach an ISO 3098 height. */
export const CAPITAL_SHARE = 0.72;

export function textWidth(text: string, height: number, bold = false): number {
  let sum = 0;
  for (const letter of text) sum += hundredths[(letter.codePointAt(0) ?? 0) - firstCode] ?? others[letter] ?? 100;
  return (sum / 100) * (height / CAPITAL_SHARE) * (bold ? 1.15 : 1);
}

/** Broken into lines no wider than `width` mm; a word that is wider by itself stays whole. */
export function linesOf(text: string, width: number, height: number, bold = false): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, height, bold) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, line];
}

/** As much of a text as fits, with "…" where it was cut. */
export function fitted(text: string, width: number, height: number, bold = false): string {
  if (textWidth(text, height, bold) <= width) return text;
  const letters = Array.from(text);
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, height, bold) > width) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}
