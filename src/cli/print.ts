/** Text for a terminal: 80 columns, colour only where there is a terminal that wants it, nothing that a terminal obeys. */
export interface Paint {
  readonly strong: (text: string) => string;
  readonly good: (text: string) => string;
  readonly warn: (text: string) => string;
  readonly bad: (text: string) => string;
  readonly quiet: (text: string) => string;
}

/** Colours when standard output is a terminal and NO_COLOR is not set (no-color.org). */
export function paintFor(isTerminal: boolean, noColour: string | undefined): Paint {
  const wants = isTerminal && (noColour === undefined || noColour === '');
  const wrap = (code: string) => (text: string) => (wants ? `\u001b[${code}m${text}\u001b[0m` : text);
  return { strong: wrap('1'), good: wrap('32'), warn: wrap('33'), bad: wrap('1;31'), quiet: wrap('2') };
}

/** User text with control characters (terminal escapes, line breaks, direction marks) shown as a visible mark. */
export function plain(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, '\u00b7');
}

/** Wraps to `width` columns, every line after the first indented. */
export function wrapped(text: string, width: number, first: string, rest: string): string {
  const lines: string[] = [];
  let line = first;
  let isEmpty = true;
  for (const word of text.split(' ')) {
    if (!isEmpty && columns(line) + 1 + columns(word) > width) {
      lines.push(line);
      line = rest;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return [...lines, line].join('\n');
}

/** Columns that a text takes, a code point each: enough for the words and names that are printed here. */
function columns(text: string): number {
  return Array.from(text).length;
}
