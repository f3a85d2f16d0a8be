/** What `stopwright springs` prints: in words for 80 columns, and as data. */
import type { SolenoidJob } from '../assessment/rig.ts';
import type { SpringWindow, WindowQuestion } from '../assessment/window/kinds.ts';
import { stretches, type LineInWindow } from '../assessment/window/line.ts';
import { lineSentences, stretchSentences, windowSentences } from '../assessment/window/words.ts';
import { CAUTION } from '../assessment/finding.ts';
import { windowData } from '../assessment/window/data.ts';
import type { Drawer } from '../job/drawer/schema.ts';
import { type Fit, type Fitting } from '../proposal/drawer.ts';
import { type Opening } from '../proposal/drawer-opens.ts';
import { type OrderAnswer } from '../proposal/drawer-order.ts';
import { closedWords, closingWords, mountWords, specificationRows } from '../proposal/drawer-words.ts';
import type { DisplayUnits } from '../units/quantity.ts';
import { plain, wrapped, type Paint } from './print.ts';
import { unitSystems } from './unit-systems.ts';
import { verdictWord } from './verdict-word.ts';

const WIDTH = 80;
const MOST_FITS = 10;
const MOST_MISFITS = 10;

export interface Said {
  readonly job: SolenoidJob;
  readonly window: SpringWindow;
  readonly line: LineInWindow | null;
  readonly opened: readonly Opening[];
  readonly drawer: Drawer | null;
  readonly fitting: Fitting | null;
  readonly order: OrderAnswer | null;
}

export function asData({ job, window, line, opened, drawer, fitting, order }: Said) {
  return {
    format: 'stopwright springs',
    version: 1,
    job: job.name,
    window: windowData(window, line),
    openedBy: opened,
    drawer: drawer === null ? null : drawer.name,
    fitting:
      fitting === null
        ? null
        : {
            springs: fitting.springs,
            screened: fitting.screened,
            isComplete: fitting.isComplete,
            places: fitting.targets.map(({ question, mounts }) => ({ ...question, mounts })),
            fits: fitting.fits.map((fit) => ({ ...fit, mount: mountData(fit.mount) })),
            furtherFits: fitting.furtherFits,
            misfits: fitting.misfits.map(({ spring, name, mount, short, closing }) => ({
              spring,
              name,
              short,
              mount: mount === null ? null : mountData(mount),
              closedBy: closing.by,
              because: closingWords(closing, mount?.on === 'plunger' ? 'force' : window.acts, unitSystems.metric),
            })),
          },
    order:
      order === null
        ? null
        : {
            asked: order.asked,
            offers: order.offers.map(({ offer, mount, fit }) => ({ ...offer, mount: mountData(mount), ...fit })),
            closed: closedWords(order.closed),
          },
    caution: CAUTION,
  };
}

function mountData(mount: Fit['mount']) {
  if (mount.on === 'shaft')
    return { on: mount.on, index: mount.index, freeAngle_rad: mount.freeAngle, woundAtRest_rad: mount.woundAtRest };
  return mount.on === 'plunger'
    ? { on: mount.on, index: mount.index, lengthAtHome_m: mount.lengthAtHome, packing_m: mount.packing }
    : {
        on: mount.on,
        index: mount.index,
        hole: mount.hole,
        moved_m: mount.moved,
        x_m: mount.x,
        y_m: mount.y,
        lengthAtRest_m: mount.lengthAtRest,
      };
}

export function inWords(said: Said, paint: Paint, units: DisplayUnits): string {
  const { job, window, line, opened, fitting, order } = said;
  const sentence = (words: string, indent = '  ') => wrapped(plain(words), WIDTH, indent, `${indent}  `);
  const lines = [
    paint.strong(plain(job.name).slice(0, WIDTH)),
    '',
    paint.strong(`The window of ${springName(job, window.question)}`),
    ...[...windowSentences(window, units), ...lineSentences(line, window, units)].map((one) => sentence(one)),
    ...window.missing.map((path) => sentence(`Take this reading: ${path}`)),
    ...opened.map(({ words }) => sentence(`Would open it: ${words}.`)),
  ];
  if (window.scenes.length > 0)
    lines.push(
      '  What moves its floor:',
      ...stretchSentences(stretches(window, 'floor'), units).map((one) => sentence(one, '    ')),
      '  What moves its ceiling:',
      ...stretchSentences(stretches(window, 'ceiling'), units).map((one) => sentence(one, '    ')),
    );
  if (fitting !== null && said.drawer !== null)
    lines.push('', ...drawerLines(said.drawer, fitting, window, paint, units));
  if (order !== null) lines.push('', ...orderLines(order, paint, units));
  lines.push('', wrapped(CAUTION, WIDTH, '', ''), '');
  return lines.map((one) => one.trimEnd()).join('\n');
}

function springName(job: SolenoidJob, { index, on }: WindowQuestion): string {
  if (index === null) return `a spring on the ${on}`;
  return `"${plain(job.return.springs[index].name || `spring ${index + 1}`)}"`;
}

function drawerLines(
  drawer: Drawer,
  fitting: Fitting,
  window: SpringWindow,
  paint: Paint,
  units: DisplayUnits,
): string[] {
  const { fits, misfits, furtherFits, screened, springs, isComplete } = fitting;
  const lines = [paint.strong(`${plain(drawer.name)}: ${springs} springs`)];
  if (!isComplete) lines.push(`  Stopped: ${screened} of ${springs} were looked at.`);
  if (fitting.targets.length === 0) lines.push('  There is no place where one could be fitted.');
  if (fits.length === 0) lines.push('  None fits.');
  for (const fit of fits.slice(0, MOST_FITS)) {
    const place = drawer.springs[fit.spring].place;
    lines.push(
      `  ${verdictWord(fit.verdict, paint)} ${plain(fit.name).slice(0, 50)}${place ? paint.quiet(` (${plain(place)})`) : ''}`,
      wrapped(
        `${mountWords(fit.mount, units)}. Least margin ${fit.least.toFixed(2)} times what is wanted: ${titleOf(fit)}.`,
        WIDTH,
        '      ',
        '      ',
      ),
      ...fit.worsens.map(({ title, from, to }) =>
        wrapped(plain(`Worse: ${title}, from ${from} to ${to}.`), WIDTH, '      ', '        '),
      ),
    );
  }
  const more = Math.max(0, fits.length - MOST_FITS) + furtherFits;
  if (more > 0) lines.push(`  and ${more} more that fit`);
  if (misfits.length > 0) lines.push(`  Kept out, the nearest first:`);
  for (const { name, closing, mount } of misfits.slice(0, MOST_MISFITS))
    lines.push(
      wrapped(
        plain(`${name}: ${closingWords(closing, mount?.on === 'plunger' ? 'force' : window.acts, units)}.`),
        WIDTH,
        '    ',
        '      ',
      ),
    );
  if (misfits.length > MOST_MISFITS) lines.push(`    and ${misfits.length - MOST_MISFITS} more`);
  return lines;
}

function titleOf({ margins, decidedBy }: Pick<Fit, 'margins' | 'decidedBy'>): string {
  return margins.find(({ id }) => id === decidedBy)?.title ?? decidedBy;
}

function orderLines({ offers, closed }: OrderAnswer, paint: Paint, units: DisplayUnits): string[] {
  const lines = [paint.strong('A spring to order')];
  const why = closedWords(closed);
  if (why !== null) lines.push(wrapped(why, WIDTH, '  ', '  '));
  const [best] = offers;
  if (best === undefined) return lines;
  lines.push(
    `  ${verdictWord(best.fit.verdict, paint)}`,
    wrapped(`Least margin ${best.fit.least.toFixed(2)} times what is wanted: ${titleOf(best.fit)}.`, WIDTH, '  ', '  '),
    wrapped(`${mountWords(best.mount, units)}.`, WIDTH, '  ', '  '),
    ...specificationRows(best.offer.specification, units).map(([name, words]) =>
      wrapped(words, WIDTH, `  ${name.padEnd(18)}`, ' '.repeat(20)),
    ),
    ...best.fit.worsens.map(({ title, from, to }) =>
      wrapped(plain(`Worse: ${title}, from ${from} to ${to}.`), WIDTH, '  ', '    '),
    ),
  );
  return lines;
}
