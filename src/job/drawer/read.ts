/** From text to a drawer document: every problem is collected with its path, none is repaired, nothing is guessed. */
import { jsonOf, problemsOf, versionOf, type DocumentKind, type Problem } from '../opening.ts';
import { quantityIn } from '../quantity-text.ts';
import { linearContradictions, torsionContradictions } from '../spring-contradictions.ts';
import { DRAWER_FORMAT, DRAWER_VERSION, drawerSchema, type Drawer, type LinearInHand } from './schema.ts';

export type DrawerReading =
  | { readonly ok: true; readonly drawer: Drawer }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Twenty thousand springs, each with its place and note. */
export const MOST_DRAWER_CHARACTERS = 20_000_000;

const kind: DocumentKind = {
  called: 'drawer',
  format: DRAWER_FORMAT,
  version: DRAWER_VERSION,
  mostCharacters: MOST_DRAWER_CHARACTERS,
};

/** Reads the text of a drawer file. */
export function readDrawer(text: string): DrawerReading {
  const json = jsonOf(text, kind);
  return json.ok ? readDrawerDocument(json.value) : json;
}

/** Reads a value that came from JSON. */
export function readDrawerDocument(value: unknown): DrawerReading {
  const known = versionOf(value, kind);
  if (!known.ok) return known;
  const parsed = drawerSchema.safeParse(value);
  if (!parsed.success) return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, value)) };
  const problems = contradictions(parsed.data);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, drawer: parsed.data };
}

/** The text that a drawer is kept and exported as. */
export function writeDrawer(drawer: Drawer): string {
  return `${JSON.stringify(drawer, null, 2)}\n`;
}

function contradictions({ springs, solenoids }: Drawer): Problem[] {
  return [
    ...springs.flatMap((one, i) => {
      const path = `springs[${i}].spring`;
      if (one.kind === 'torsion') return torsionContradictions(one.spring, path);
      return [...linearContradictions(one, path), ...wrongEnds(one, path), ...wrongLimit(one, path)];
    }),
    ...solenoids.flatMap(({ pulls, readings }, i) => [
      ...(pulls.by === 'table' ? twiceRead(pulls.rows, `solenoids[${i}].pulls`) : []),
      ...(readings?.force ?? []).flatMap(({ rows }, t) => twiceRead(rows, `solenoids[${i}].readings.force[${t}]`)),
    ]),
  ];
}

function wrongEnds({ kind: drawn, spring }: LinearInHand, path: string): Problem[] {
  if (spring.by !== 'dimensions' || (drawn === 'extension') === (spring.ends === 'hooks')) return [];
  const problem =
    drawn === 'extension'
      ? 'an extension spring has "hooks"'
      : 'a compression spring has ends that are "closed" or "closed and ground"';
  return [{ path: `${path}.ends`, read: spring.ends, problem }];
}

function wrongLimit({ kind: drawn, spring }: LinearInHand, path: string): Problem[] {
  if (spring.by === 'dimensions' || spring.freeLength === undefined) return [];
  const free = quantityIn(spring.freeLength, 'length')?.value ?? NaN;
  const limit = quantityIn(spring.limitLength, 'length')?.value ?? NaN;
  const isWrong = drawn === 'extension' ? limit <= free : limit >= free;
  if (!isWrong) return [];
  return [
    {
      path: `${path}.limitLength`,
      read: spring.limitLength,
      problem:
        drawn === 'extension'
          ? `the longest that it may be stretched lies beyond its free length (${spring.freeLength})`
          : `the shortest that it may be pressed lies below its free length (${spring.freeLength})`,
    },
  ];
}

function twiceRead(rows: readonly { readonly gap: string }[], path: string): Problem[] {
  const seen = new Set<string>();
  return rows.flatMap(({ gap }, r) => {
    const key = quantityIn(gap, 'length')?.value.toFixed(7);
    if (key === undefined) return [];
    const isTwice = seen.has(key);
    seen.add(key);
    return isTwice
      ? [
          {
            path: `${path}.rows[${r}].gap`,
            read: gap,
            problem: 'another row of this table already stands at this gap; keep one of them',
          },
        ]
      : [];
  });
}
