/** `stopwright motion`: the first second and the next hour, in words, as JSON, or as a trace. */
import { isSolenoid } from '../assessment/assess.ts';
import { CAUTION } from '../assessment/finding.ts';
import { heatPicture } from '../assessment/time/heat-study.ts';
import { traceCsv } from '../assessment/time/csv.ts';
import type { HeatPicture, ReleaseRun, TimePicture, TimeRun } from '../assessment/time/picture.ts';
import { timePicture } from '../assessment/time/study.ts';
import { timeWords } from '../assessment/words.ts';
import { display, type DisplayUnits } from '../units/quantity.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';
import { UNREADABLE, WRONG_USAGE } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';

export interface MotionOptions {
  readonly json?: boolean;
  /** Name of the run whose trace is wanted; true for the weakest. */
  readonly csv?: string | true;
  readonly units: UnitSystem;
}

const WIDTH = 80;
/** Exit codes: everything comes home, something does not, something is not known. */
const HOME = 0;
const NOT_HOME = 2;
const NOT_KNOWN = 3;

export async function motionCommand(path: string, options: MotionOptions): Promise<number> {
  const file = jobFrom(path);
  if (!file.ok) {
    process.stderr.write(`${file.reason}\n`);
    return UNREADABLE;
  }
  const { job } = file;
  if (!isSolenoid(job)) {
    process.stderr.write(`${plain(job.name)} has no solenoid: a hand cable or a cylinder is not followed in time.\n`);
    return NOT_KNOWN;
  }
  const time = timePicture(job);
  if (options.csv !== undefined) return csvOf(time, options.csv);
  const heat = heatPicture(job);
  const paint = paintFor(process.stdout.isTTY, process.env['NO_COLOR']);
  const text =
    options.json === true
      ? `${JSON.stringify({ format: 'stopwright motion', version: 1, job: job.name, time, heat }, null, 2)}\n`
      : inWords(job.name, time, heat, unitSystems[options.units], paint);
  await written(text);
  return codeOf(time);
}

async function csvOf(time: TimePicture, wanted: string | true): Promise<number> {
  const all: readonly TimeRun[] = [...time.runs, ...time.releases];
  const run = wanted === true ? time.runs[0] : all.find(({ name }) => name === wanted);
  if (run !== undefined) {
    await written(traceCsv(run));
    return codeOf(time);
  }
  if (all.length === 0) {
    process.stderr.write(`${missingWords(time.missing)}\n`);
    return NOT_KNOWN;
  }
  process.stderr.write(
    `There is no run called "${plain(String(wanted))}". Choose one of: ${all.map(({ name }) => name).join(', ')}.\n`,
  );
  return WRONG_USAGE;
}

function codeOf({ runs }: TimePicture): number {
  if (runs.length === 0) return NOT_KNOWN;
  return runs.every(({ outcome }) => outcome === 'comes home') ? HOME : NOT_HOME;
}

function written(text: string): Promise<void> {
  return new Promise((resolve, reject) => process.stdout.write(text, (error) => (error ? reject(error) : resolve())));
}

const missingWords = (missing: readonly string[]): string =>
  `Not known. Take this reading: ${missing.map(plain).join(', ')}`;

function inWords(name: string, time: TimePicture, heat: HeatPicture, units: DisplayUnits, paint: Paint): string {
  const block = (text: string, indent = '  ') => wrapped(plain(text), WIDTH, indent, `${indent}  `);
  const lines = [paint.strong(plain(name).slice(0, WIDTH)), ''];
  lines.push(paint.strong('Switched on'));
  if (time.missing.length > 0) lines.push(block(missingWords(time.missing)));
  for (const run of time.runs) lines.push(...runLines(run, units, block));
  if (time.releases.length > 0) {
    lines.push('', paint.strong('Switched off, held at home before'));
    lines.push(...time.releases.map((run) => block(releaseWords(run, units))));
  }
  if (time.holdTime !== null)
    lines.push('', paint.strong('How long the command must last'), block(time.holdTime.words));
  lines.push('', paint.strong('Heat of the coil'));
  if (heat.missing.length > 0) lines.push(block(missingWords(heat.missing)));
  lines.push(...heatLines(heat, units).map((line) => block(line)));
  const cautions = [...new Set([...time.runs.flatMap((run) => run.cautions), ...heat.cautions])];
  if (cautions.length > 0)
    lines.push('', paint.strong('To be known when reading this'), ...cautions.map((one) => block(one)));
  lines.push('', wrapped(CAUTION, WIDTH, '', ''), '');
  return lines.map((line) => line.trimEnd()).join('\n');
}

function runLines(run: TimeRun, units: DisplayUnits, block: (text: string, indent?: string) => string): string[] {
  const amps = (value: number | null) => (value === null ? '' : `, ${display(value, 'current', units, 3)}`);
  const gap = (value: number | null) => (value === null ? '' : `, ${display(value, 'length', units, 3)} from home`);
  // After the first landing and its bounce nothing new is said.
  const first = run.events.filter((event, i, all) => all.findIndex(({ kind }) => kind === event.kind) === i);
  return [
    block(`${run.words} (${run.conditions}): ${run.outcome}`),
    ...first.map((event) =>
      block(
        `${timeWords(event.time_s).padStart(8)}  ${event.kind}${gap(event.gap_m)}${amps(event.supplyCurrent_A)}`,
        '    ',
      ),
    ),
  ];
}

function releaseWords(run: ReleaseRun, units: DisplayUnits): string {
  const time = (seconds: number | null) => (seconds === null ? 'never' : timeWords(seconds));
  const volts = (value: number | null) => (value === null ? 'not known' : display(value, 'voltage', units, 3));
  return `${run.words}${run.isFitted ? ' (fitted)' : ''}: leaves home after ${time(run.releaseTime_s)}, back after ${time(run.returnTime_s)}; ${volts(run.peakContact_V)} across the contact`;
}

function heatLines(heat: HeatPicture, units: DisplayUnits): string[] {
  const degrees = (kelvins: number) => display(kelvins, 'temperature', units, 3);
  const own = heat.limits.find(({ isOwn }) => isOwn);
  return heat.courses.map(({ name, words, conditions, winding_K, case_K }) => {
    const crossing = heat.crossings.find(({ course, limit }) => course === name && limit === own?.name);
    const most = (course: readonly (number | null)[]) => Math.max(...course.map((value) => value ?? 0));
    const passes =
      own === undefined
        ? ''
        : crossing === undefined
          ? ` stays within ${own.words},`
          : ` passes ${own.words} after ${timeWords(crossing.time_s)},`;
    return `${words} (${conditions}):${passes} winding up to ${degrees(most(winding_K))}, can up to ${degrees(most(case_K))}`;
  });
}
