/**
 * A number reached a formula that has no meaning there.
 *
 * It is a mistake upstream (the reader of job documents should have caught it), never a verdict on an installation and
 * never an input problem. Codes are listed in docs/errors.md.
 */
export class DomainError extends Error {
  readonly code: string;

  constructor(code: string, message: string) {
    super(`${code} ${message}`);
    this.name = 'DomainError';
    this.code = code;
  }
}

/** Throws unless `value` is finite and above zero; the sentence carries the value. */
export function requireAboveZero(code: string, name: string, value: number): void {
  if (!(value > 0) || value === Infinity)
    throw new DomainError(code, `${name} must be finite and above zero, not ${value}`);
}
