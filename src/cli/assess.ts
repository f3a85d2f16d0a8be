/** `stopwright assess`: the three answers and the findings, worst first. */
import { LARGEST_MARGIN } from '../assessment/check.ts';
import { assess } from '../assessment/assess.ts';
import { placeWords, type Assessment, type Finding } from '../assessment/finding.ts';
import { withRemedies } from '../proposal/remedy.ts';
import { display, toSI, type DisplayUnits } from '../units/quantity.ts';
import { UNREADABLE, verdictCode } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';
import { verdictWord } from './verdict-word.ts';

export interface AssessOptions {
  readonly json?: boolean;
  readonly remedies: boolean;
  readonly units: UnitSystem;
}

const WIDTH = 80;

export async function assessCommand(path: string, options: AssessOptions): Promise<number> {
  const file = jobFrom(path);
  if (!file.ok) {
    process.stderr.write(`${file.reason}\n`);
    return UNREADABLE;
  }
  const units = unitSystems[options.units];
  const first = assess(file.job, units);
  const assessment = options.remedies ? withRemedies(file.job, first, units) : first;
  const paint = paintFor(process.stdout.isTTY, process.env['NO_COLOR']);
  const text = options.json === true ? `${JSON.stringify(assessment, null, 2)}\n` : inWords(assessment, paint, units);
  await new Promise<void>((resolve, reject) =>
    process.stdout.write(text, (error) => (error ? reject(error) : resolve())),
  );
  return verdictCode[assessment.verdict];
}

function inWords(assessment: Assessment, paint: Paint, units: DisplayUnits): string {
  const { findings } = assessment;
  const lines = [paint.strong(plain(assessment.job).slice(0, WIDTH)), paint.quiet(assessment.works), ''];
  const column = Math.max(...assessment.answers.map(({ words }) => words.length)) + 2;
  for (const answer of assessment.answers) {
    lines.push(`${answer.words.padEnd(column)}${verdictWord(answer.verdict, paint)}`);
    const deciding = findings.find(({ id }) => id === answer.finding);
    if (deciding !== undefined)
      lines.push(wrapped(plain(`${deciding.title}: ${deciding.because}`), WIDTH, '    ', '    '));
  }
  lines.push('', paint.strong('Findings, worst first'));
  for (const finding of findings) lines.push(...findingLines(finding, paint, units));
  if (assessment.remarks.length > 0) {
    lines.push(
      '',
      paint.strong('Remarks'),
      ...assessment.remarks.map((remark) => wrapped(plain(remark), WIDTH, '  ', '  ')),
    );
  }
  if (assessment.assumed.length > 0) {
    lines.push('', paint.strong('Taken as default, not read'));
    lines.push(
      ...assessment.assumed.map(({ path, text, source }) =>
        wrapped(plain(`${path} = ${text} (${source})`), WIDTH, '  ', '      '),
      ),
    );
  }
  lines.push('', wrapped(assessment.caution, WIDTH, '', ''), '');
  return lines.map((line) => line.trimEnd()).join('\n');
}

function findingLines(finding: Finding, paint: Paint, units: DisplayUnits): string[] {
  const lines = ['', `${verdictWord(finding.verdict, paint)} ${plain(finding.title).slice(0, WIDTH - 12)}`];
  const place = finding.at === null ? '' : placeWords(finding.at, (mm) => display(toSI(mm, 'mm'), 'length', units, 3));
  const margin = marginWords(finding);
  if (margin !== '')
    lines.push(wrapped([margin, place].filter((part) => part !== '').join('; '), WIDTH, '    ', '    '));
  lines.push(wrapped(plain(finding.because), WIDTH, '    ', '    '));
  if (finding.missing.length > 0)
    lines.push(wrapped(`Take this reading: ${finding.missing.join(', ')}`, WIDTH, '    ', '      '));
  for (const { words, worsens } of finding.remedies) {
    const worse = worsens
      .filter(({ to }) => to.verdict !== 'holds')
      .map(({ title, to }) => `"${plain(title)}" then ${to.verdict}`);
    lines.push(
      wrapped(
        `Would mend it: ${plain(words)}.${worse.length > 0 ? ` But ${worse.join(', ')}.` : ''}`,
        WIDTH,
        '    ',
        '      ',
      ),
    );
  }
  return lines;
}

/** "margin 31 %, wanted 25 %" or "margin 2.1°, wanted 1.5°". */
export function marginWords({ margin, wanted, marginUnit }: Pick<Finding, 'margin' | 'wanted' | 'marginUnit'>): string {
  if (margin === null) return '';
  const say = (value: number) => {
    if (marginUnit === 'share') return `${Math.round(value * 100)} %`;
    if (marginUnit === 'ratio') return `${(value + 1).toFixed(2)} times`;
    const unit = marginUnit.startsWith('°') ? marginUnit : ` ${marginUnit}`;
    return `${Number(value.toPrecision(3))}${unit}`;
  };
  // A share of more than ten times is easier to grasp as what there is over what is needed.
  if (marginUnit === 'share' && margin > 9.995 && margin < LARGEST_MARGIN)
    return `${Math.round(margin + 1)} times what is needed, wanted margin ${say(wanted)}`;
  return `${marginUnit === 'ratio' ? '' : 'margin '}${margin >= LARGEST_MARGIN ? 'ample' : margin <= -LARGEST_MARGIN ? 'none at all' : say(margin)}, wanted ${say(wanted)}`;
}
