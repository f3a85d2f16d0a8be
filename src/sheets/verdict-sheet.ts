/**
 * The assessment on A4 sheets: three answers, both pictures, every finding worst first, the caution in full, title block.
 * As many sheets as the findings need.
 */
import type { Assessment, Finding } from '../assessment/finding.ts';
import { line, part, text, type Drawing, type Element, type Part } from './drawing.ts';
import { point } from './plane.ts';
import { fitted, linesOf } from './text-width.ts';
import { moved, sheetBorder, titleBlock, type TitleFields } from './title-block.ts';
import { verdictMark, verdictRole } from './verdict-mark.ts';

/** A4 upright, ISO 216. */
export const VERDICT_SHEET = { width: 210, height: 297 } as const;

/** Sizes at which both pictures are to be drawn for this sheet, mm. */
export const VERDICT_PICTURES = {
  mechanism: { width: 178, height: 78 },
  load: { width: 178, height: 82 },
} as const;

const ROW = 4.8;
const CAUTION_STEP = 3.6;

export interface VerdictSheetContent {
  readonly assessment: Assessment;
  readonly mechanism: Drawing;
  readonly load: Drawing;
  readonly fields: Omit<TitleFields, 'sheet' | 'sheets' | 'part'>;
}

export function drawVerdictSheets({ assessment, mechanism, load, fields }: VerdictSheetContent): Drawing[] {
  const { width, height } = VERDICT_SHEET;
  const { inside } = sheetBorder(width, height);
  const caution = linesOf(assessment.caution, inside.right - inside.left - 6, 2.5);
  const floor = inside.bottom + caution.length * CAUTION_STEP + 5;
  const first: Part[] = [];
  let y = inside.top - 8;
  first.push(
    part('heading', 'words', [
      text(point(inside.left + 3, y), fitted(assessment.job, 120, 5, true), { height: 5, bold: true }),
    ]),
  );
  first.push(
    part('works', 'quiet', [text(point(inside.right - 3, y), assessment.works, { height: 3.5, align: 'end' })]),
  );
  y -= 5;
  assessment.answers.forEach((answer, i) => {
    y -= 9.6;
    const decides = assessment.findings.find(({ id }) => id === answer.finding);
    const words: Element[] = [
      ...verdictMark(answer.verdict, point(inside.left + 6, y), 6),
      text(point(inside.left + 12, y), `${answer.words} ${answer.verdict}`, { height: 3.5, bold: true }),
    ];
    first.push(part(`answer-${i + 1}`, verdictRole(answer.verdict), words));
    if (decides) {
      const reason = fitted(`${decides.title}: ${valueWords(decides)}`, inside.right - inside.left - 16, 2.5);
      first.push(part(`decides-${i + 1}`, 'words', [text(point(inside.left + 12, y - 4.2), reason)]));
    }
  });
  y -= 6;
  for (const [prefix, drawing] of [
    ['mechanism-', mechanism],
    ['load-', load],
  ] as const) {
    y -= drawing.height;
    first.push(...moved(drawing, point(inside.left + 1, y), prefix));
  }
  const pages: Part[][] = [first];
  let rest = [...assessment.findings];
  const onFirst = Math.max(0, Math.floor((y - floor - ROW * 1.5) / ROW));
  if (onFirst > 0) first.push(...table(rest.slice(0, onFirst), inside.left + 3, inside.right - 3, y - 2));
  rest = rest.slice(onFirst);
  const perPage = Math.floor((inside.top - 6 - floor - ROW) / ROW);
  while (rest.length > 0) {
    pages.push(table(rest.slice(0, perPage), inside.left + 3, inside.right - 3, inside.top - 4));
    rest = rest.slice(perPage);
  }
  return pages.map((parts, i) => {
    const border = sheetBorder(width, height);
    const title: TitleFields = { ...fields, part: 'Assessment', sheet: i + 1, sheets: pages.length };
    const cautionPart = part(
      'caution',
      'words',
      caution.map((words, row) =>
        text(point(inside.left + 3, inside.bottom + 2 + (caution.length - 1 - row) * CAUTION_STEP), words),
      ),
    );
    return {
      title: `${assessment.job}: assessment, sheet ${i + 1} of ${pages.length}`,
      width,
      height,
      parts: [...parts, cautionPart, titleBlock(title, border.titleAt), border.part],
      sentences: [
        ...assessment.answers.map((answer) => `${answer.words} ${answer.verdict}.`),
        ...assessment.findings.map((finding) => `${finding.title}: ${finding.verdict}. ${finding.because}`),
        ...mechanism.sentences,
        ...load.sentences,
        assessment.caution,
      ],
    };
  });
}

/** Rows of findings from `top` downwards. */
function table(findings: readonly Finding[], left: number, right: number, top: number): Part[] {
  const columns = { word: left + 6, title: left + 29, value: right - 62, margin: right };
  const head: Element[] = [
    text(point(columns.word, top - ROW + 1.4), 'Verdict', { height: 1.8 }),
    text(point(columns.title, top - ROW + 1.4), 'Finding', { height: 1.8 }),
    text(point(columns.value, top - ROW + 1.4), 'Value, at which gap', { height: 1.8 }),
    text(point(columns.margin, top - ROW + 1.4), 'Margin', { height: 1.8, align: 'end' }),
    line('thin', point(left, top - ROW), point(right, top - ROW)),
  ];
  return [
    part('findings', 'words', head),
    ...findings.flatMap((finding, i): Part[] => {
      const y = top - (i + 2) * ROW + 1.4;
      const { verdict } = finding;
      return [
        part(`verdict-${finding.id}`, verdictRole(verdict), [
          ...verdictMark(verdict, point(left + 2, y + 1.2), 3.2),
          text(point(columns.word, y), verdict, { bold: true }),
        ]),
        part(`finding-${finding.id}`, 'words', [
          text(point(columns.title, y), fitted(finding.title, columns.value - columns.title - 2, 2.5)),
          text(point(columns.value, y), fitted(valueWords(finding), columns.margin - columns.value - 20, 2.5)),
          text(point(columns.margin, y), marginWords(finding), { align: 'end' }),
        ]),
      ];
    }),
  ];
}

function valueWords({ value, unit, at, verdict }: Finding): string {
  if (value === null) return verdict === 'not known' ? 'reading missing' : '';
  const place = at?.gap_mm === null || at === null ? '' : ` at ${Number(at.gap_mm.toFixed(1))} mm`;
  return `${withUnit(value, unit)}${place}`;
}

function marginWords({ margin, marginUnit }: Finding): string {
  if (margin === null || !Number.isFinite(margin)) return '–';
  if (marginUnit === 'share') return `${Math.round(margin * 100)} %`;
  if (marginUnit === 'ratio') return `${(margin + 1).toFixed(2)} times`;
  return withUnit(margin, marginUnit);
}

function withUnit(value: number, unit: string): string {
  const shown = String(Number(value.toPrecision(3)));
  return unit === '' ? shown : unit.startsWith('°') ? `${shown}${unit}` : `${shown} ${unit}`;
}
