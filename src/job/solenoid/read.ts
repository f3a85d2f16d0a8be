/**
 * From text to a solenoid document: every problem is collected with its path, none is repaired, nothing is guessed.
 */
import { NOT_MEASURED } from '../quantity-text.ts';
import { pathText } from '../path.ts';
import { jsonOf, problemsOf, versionOf, type DocumentKind, type Problem } from '../opening.ts';
import { contradictions } from './contradictions.ts';
import { SOLENOID_FORMAT, SOLENOID_VERSION, solenoidSchema, type SolenoidDocument } from './schema.ts';

export type SolenoidReading =
  | { readonly ok: true; readonly solenoid: SolenoidDocument }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const kind: DocumentKind = { called: 'solenoid', format: SOLENOID_FORMAT, version: SOLENOID_VERSION };

/** Reads the text of a solenoid file. */
export function readSolenoid(text: string): SolenoidReading {
  const json = jsonOf(text, kind);
  return json.ok ? readSolenoidDocument(json.value) : json;
}

/** Reads a value that came from JSON. */
export function readSolenoidDocument(value: unknown): SolenoidReading {
  const known = versionOf(value, kind);
  if (!known.ok) return known;
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
