/**
 * From text to a solenoid document: every problem is collected with its path, none is repaired, nothing is guessed.
 */
import { NOT_MEASURED } from '../quantity-text.ts';
import { pathText, valueAt } from '../path.ts';
import { MOST_CHARACTERS, type Problem } from '../read.ts';
import { contradictions } from './contradictions.ts';
import { SOLENOID_FORMAT, SOLENOID_VERSION, solenoidSchema, type SolenoidDocument } from './schema.ts';

export type SolenoidReading =
  | { readonly ok: true; readonly solenoid: SolenoidDocument }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads the text of a solenoid file. */
export function readSolenoid(text: string): SolenoidReading {
  if (text.length > MOST_CHARACTERS)
    return refuse('', `${text.length} characters`, `a solenoid document has at most ${MOST_CHARACTERS} characters`);
  let value: unknown;
  try {
    value = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return refuse('', text.slice(0, 60), `this is not JSON, the form that solenoid documents have: ${why}`);
  }
  return readSolenoidDocument(value);
}

/** Reads a value that came from JSON. */
export function readSolenoidDocument(value: unknown): SolenoidReading {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return refuse('', shown(value), 'a solenoid document is a JSON object with "format", "version", "name" and so on');
  const { format, version } = value as Record<string, unknown>;
  if (format !== SOLENOID_FORMAT)
    return refuse('format', shown(format), `a solenoid document says "format": "${SOLENOID_FORMAT}"`);
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuse('version', shown(version), `the version must be a whole number from 1 to ${SOLENOID_VERSION}`);
  if (version > SOLENOID_VERSION)
    return refuse(
      'version',
      String(version),
      `this document was written by a newer program; this one reads versions up to ${SOLENOID_VERSION}`,
    );
  const parsed = solenoidSchema.safeParse(value);
  if (!parsed.success) return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, value)) };
  const problems = contradictions(parsed.data);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, solenoid: parsed.data };
}

/** The text that a document is kept and exported as. */
export function writeSolenoid(solenoid: SolenoidDocument): string {
  return `${JSON.stringify(solenoid, null, 2)}\n`;
}

/** Paths of the readings that were not taken, in the order of the document. */
export function unmeasured(solenoid: SolenoidDocument): string[] {
  const paths: string[] = [];
  const walk = (value: unknown, steps: readonly PropertyKey[]): void => {
    if (value === NOT_MEASURED) paths.push(pathText(steps));
    else if (Array.isArray(value)) value.forEach((item, i) => walk(item, [...steps, i]));
    else if (typeof value === 'object' && value !== null)
      for (const [key, item] of Object.entries(value)) walk(item, [...steps, key]);
  };
  walk(solenoid, []);
  return paths;
}

function refuse(path: string, read: string, problem: string): SolenoidReading {
  return { ok: false, problems: [{ path, read, problem }] };
}

function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

interface Issue {
  readonly code?: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
}

function problemsOf(issue: Issue, document: unknown): Problem[] {
  if (issue.code === 'unrecognized_keys')
    return (issue.keys ?? []).map((key) => {
      const path = pathText([...issue.path, key]);
      return {
        path,
        read: shown(valueAt(document, path)),
        problem: 'no field of that name belongs here; it would be lost, so the document is refused',
      };
    });
  const path = pathText(issue.path);
  const value = path === '' ? document : valueAt(document, path);
  const problem =
    value === undefined
      ? `this field is missing; write "${NOT_MEASURED}" where a reading was not taken`
      : issue.message;
  return [{ path, read: shown(value), problem }];
}
