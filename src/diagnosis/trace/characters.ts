/** Bytes to text and back for the few encodings in which loggers write, without the help of a platform. */

/** UTF-8; a byte that is none is taken as Latin-1, in which older loggers write "µs". */
export function textOf(bytes: Uint8Array, from = 0, to = bytes.length): string {
  let text = '';
  for (let k = from; k < to;) {
    const byte = bytes[k];
    const length = byte < 0x80 ? 1 : byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : byte >= 0xc2 ? 2 : 1;
    let code = length === 1 ? byte : byte & (0x7f >> length);
    let whole = k + length <= to;
    for (let n = 1; n < length && whole; n++) {
      whole = (bytes[k + n] & 0xc0) === 0x80;
      code = (code << 6) | (bytes[k + n] & 0x3f);
    }
    const isCharacter = whole && code <= 0x10ffff;
    text += String.fromCodePoint(isCharacter ? code : byte);
    k += isCharacter ? length : 1;
  }
  return text;
}

/** UTF-8 of `text`. Half characters become a question mark. */
export function bytesOf(text: string): Uint8Array {
  let bytes = new Uint8Array(text.length);
  let length = 0;
  for (let k = 0; k < text.length; k++) {
    const unit = text.charCodeAt(k);
    if (unit < 0x80) {
      if (length === bytes.length) bytes = grown(bytes);
      bytes[length++] = unit;
      continue;
    }
    const full = text.codePointAt(k) ?? 0;
    if (full > 0xffff) k++;
    const code = full >= 0xd800 && full <= 0xdfff ? 0x3f : full;
    while (length + 4 > bytes.length) bytes = grown(bytes);
    if (code < 0x80) bytes[length++] = code;
    else if (code < 0x800) bytes[length++] = 0xc0 | (code >> 6);
    else if (code < 0x10000) bytes[length++] = 0xe0 | (code >> 12);
    else bytes[length++] = 0xf0 | (code >> 18);
    if (code >= 0x10000) bytes[length++] = 0x80 | ((code >> 12) & 0x3f);
    if (code >= 0x800) bytes[length++] = 0x80 | ((code >> 6) & 0x3f);
    if (code >= 0x80) bytes[length++] = 0x80 | (code & 0x3f);
  }
  return bytes.subarray(0, length);
}

export function grown(bytes: Uint8Array, least = 0): Uint8Array<ArrayBuffer> {
  const larger = new Uint8Array(Math.max(2 * bytes.length, least, 64));
  larger.set(bytes);
  return larger;
}

/** Turns UTF-16 with a byte order mark into UTF-8 chunk by chunk, and drops the mark of UTF-8; anything else passes. */
export class EncodingDoor {
  #kind: 'unknown' | 'plain' | 'little' | 'big' = 'unknown';
  #held: number[] = [];

  pass(chunk: Uint8Array): Uint8Array {
    if (this.#kind === 'plain') return chunk;
    let bytes = chunk;
    if (this.#held.length > 0) {
      bytes = new Uint8Array(this.#held.length + chunk.length);
      bytes.set(this.#held);
      bytes.set(chunk, this.#held.length);
      this.#held = [];
    }
    if (this.#kind === 'unknown') {
      if (bytes.length < 3) return this.#hold(bytes, 0);
      const [a, b, c] = bytes;
      this.#kind = a === 0xff && b === 0xfe ? 'little' : a === 0xfe && b === 0xff ? 'big' : 'plain';
      if (this.#kind !== 'plain') bytes = bytes.subarray(2);
      else if (a === 0xef && b === 0xbb && c === 0xbf) bytes = bytes.subarray(3);
    }
    return this.#kind === 'plain' ? bytes : this.#fromSixteen(bytes);
  }

  /** What a chunk too short to be judged still held. */
  rest(): Uint8Array {
    const rest = this.#kind === 'unknown' ? Uint8Array.from(this.#held) : new Uint8Array();
    this.#held = [];
    return rest;
  }

  #fromSixteen(bytes: Uint8Array): Uint8Array {
    const whole = bytes.length & ~1;
    const [high, low] = this.#kind === 'big' ? [0, 1] : [1, 0];
    let text = '';
    for (let k = 0; k < whole; k += 2) text += String.fromCharCode((bytes[k + high] << 8) | bytes[k + low]);
    this.#hold(bytes, whole);
    return bytesOf(text);
  }

  #hold(bytes: Uint8Array, from: number): Uint8Array {
    this.#held = [...bytes.subarray(from)];
    return new Uint8Array();
  }
}
