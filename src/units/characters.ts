/**
 * The many characters for one meaning, brought to one. Nothing is dropped: what is not known here stays, and is
 * then refused as part of an unknown unit. (NFKC would do most of this, but turns 5² into 52 and 1½ into 11/2.)
 */
const oneFor: Readonly<Record<string, string>> = {
  // signs
  '−': '-', '–': '-', '—': '-', '‐': '-', '‑': '-', '﹣': '-', '₋': '-', '⁻': '-', '﹢': '+', '⁺': '+',
  '⁄': '/', '∕': '/',
  // quotes: feet and inches, or minutes and seconds of arc
  '’': "'", '‘': "'", '′': "'", 'ʹ': "'", '´': "'", '”': '"', '“': '"', '″': '"', '‟': '"', '„': '"', 'ʺ': '"',
  // letters that look alike: the micro sign, the ohm sign, the kelvin sign, the ordinal and ring for a degree
  '\u00b5': '\u03bc', '\u2126': '\u03a9', '\u212a': 'K', 'º': '°', '˚': '°', '℃': '°C', '℉': '°F',
  // products and squares
  '⋅': '·', '∙': '·', '•': '·', '×': '·', '*': '·', '㎜': 'mm', '㎟': 'mm²', '㎝': 'cm',
  // fractions, kept apart from the digits around them
  '½': ' 1/2 ', '¼': ' 1/4 ', '¾': ' 3/4 ', '⅛': ' 1/8 ', '⅜': ' 3/8 ', '⅝': ' 5/8 ', '⅞': ' 7/8 ', '⅓': ' 1/3 ', '⅔': ' 2/3 ',
}; // prettier-ignore

const anySpace = /[\s\u00a0\u2000-\u200b\u202f\u205f\u2060\u3000\ufeff]+/g;

/** `text` in the few characters that the reader knows, single spaces, none at the ends. */
export function plainCharacters(text: string): string {
  let plain = '';
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    if (code < 0x80 && character !== '*') plain += character;
    else if (code >= 0xff01 && code <= 0xff5e) plain += String.fromCharCode(code - 0xfee0); // full-width ASCII
    else plain += oneFor[character] ?? character;
  }
  return plain.replace(anySpace, ' ').replaceAll("''", '"').trim();
}

/** `text` as quoted in a message. */
export function quoted(text: string): string {
  return `"${shortened(text, 40)}"`;
}

/** `text` on one line, without control or direction characters, at most `most` UTF-16 units and no half character. */
export function shortened(text: string, most: number): string {
  const line = text
    .slice(0, 200)
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\s]+/gu, ' ')
    .trim();
  return line.length > most ? `${line.slice(0, most).replace(/[\ud800-\udbff]$/, '')}…` : line;
}
