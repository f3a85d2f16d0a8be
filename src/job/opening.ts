/**
 * What every kind of document goes through at the door: its length, JSON, its format and version, and the problems that
 * its schema finds, each with its path.
 */
import { pathText } from './path.ts';
import { NOT_MEASURED } from './quantity-text.ts';

export interface Problem {
  /** `survey.lever.runAngle`; empty for the document as a whole. */
  readonly path: string;
  /** What stands there, cut to a readable length. */
  readonly read: string;
  /** One sentence: what is wrong and what would be right. */
  readonly problem: string;
}

export interface Refused {
  readonly ok: false;
  readonly problems: readonly Problem[];
}

/** A kind of document: what it is called, and how it names itself. */
export interface DocumentKind {
  readonly called: string;
  readonly format: string;
  readonly version: number;
  /** Characters that it may have where that is more than a job has. */
  readonly mostCharacters?: number;
}

/** A document longer than this is refused unread: a real one has some 6,000 characters. */
export const MOST_CHARACTERS = 2_000_000;

/** The value that the text of a file holds. */
export function jsonOf(
  text: string,
  { called, mostCharacters = MOST_CHARACTERS }: DocumentKind,
): { readonly ok: true; readonly value: unknown } | Refused {
  if (text.length > mostCharacters) {
    return refuse(
      '',
      `${text.length} characters`,
      `this is no ${called} document: one has at most ${mostCharacters} characters`,
    );
  }
  try {
    return { ok: true, value: JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text) };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return refuse('', text.slice(0, 60), `this is not JSON, the form that ${called} documents have: ${why}`);
  }
}

/** The version of a value that says it is such a document. */
export function versionOf(
  value: unknown,
  kind: DocumentKind,
): { readonly ok: true; readonly version: number } | Refused {
  const { called } = kind;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refuse('', shown(value), `a ${called} document is a JSON object with "format", "version", "name" and so on`);
  }
  const { format, version } = value as Record<string, unknown>;
  if (format !== kind.format)
    return refuse('format', shown(format), `a ${called} document says "format": "${kind.format}"`);
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return refuse('version', shown(version), `the version must be a whole number from 1 to ${kind.version}`);
  }
  if (version > kind.version) {
    const newer = `this document was written by a newer program; this one reads versions up to ${kind.version}`;
    return refuse('version', String(version), newer);
  }
  return { ok: true, version };
}

export function refuse(path: string, read: string, problem: string): Refused {
  return { ok: false, problems: [{ path, read, problem }] };
}

/** What stands there, short; a list or a part is named and not spelled out, however deep it goes. */
function shown(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return `a part with ${Object.keys(value).length} fields`;
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

interface Issue {
  readonly code?: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
}

/** One or more problems of a schema's issue: what stands at its path in the document as it was read. */
export function problemsOf(issue: Issue, document: unknown): Problem[] {
  const at = (steps: readonly PropertyKey[]) =>
    steps.reduce<unknown>(
      (value, step) => (value as Record<PropertyKey, unknown> | null | undefined)?.[step],
      document,
    );
  if (issue.code === 'unrecognized_keys') {
    return (issue.keys ?? []).map((key) => ({
      path: pathText([...issue.path, key]),
      read: shown(at([...issue.path, key])),
      problem: 'no field of that name belongs here; it would be lost, so the document is refused',
    }));
  }
  const value = at(issue.path);
  const problem =
    value === undefined
      ? `this field is missing; write "${NOT_MEASURED}" where a reading was not taken`
      : issue.message;
  return [{ path: pathText(issue.path), read: shown(value), problem }];
}
