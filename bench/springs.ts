/** The window of a spring, a drawer of ten thousand springs, and one solenoid of a drawer laid out in a job. */
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import type { SolenoidJob } from '../src/assessment/rig.ts';
import { usualQuestion, windowOf } from '../src/assessment/window/window.ts';
import { demoJobs } from '../src/job/demos.ts';
import { readDrawer } from '../src/job/drawer/read.ts';
import type { Drawer } from '../src/job/drawer/schema.ts';
import { readDocument } from '../src/job/read.ts';
import { fitting } from '../src/proposal/drawer.ts';
import { tryItem } from '../src/proposal/drawer-others.ts';

const SPRINGS = 10_000;
const RUNS = 11;

function drawer(): Drawer {
  return {
    format: 'stopwright drawer',
    version: 1,
    name: 'Ten thousand',
    notes: '',
    springs: Array.from({ length: SPRINGS }, (_, i) => ({
      name: `Spring ${i}`,
      kind: 'extension' as const,
      spring: {
        by: 'rate' as const,
        rate: `${(0.1 + (i % 100) * 0.02).toFixed(2)} N/mm`,
        freeLength: `${(30 + Math.floor(i / 100) * 0.4).toFixed(1)} mm`,
        initialTension: `${i % 7} N`,
        limitLength: '140 mm',
      },
    })),
    solenoids: [],
    cables: [],
  };
}

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

function timed(run: () => unknown): number {
  const began = performance.now();
  run();
  return performance.now() - began;
}

export async function bench(say: (line: string) => void): Promise<void> {
  const read = readDocument(demoJobs[0].document);
  if (!read.ok) throw new Error('the demonstration does not read');
  const job = read.job as SolenoidJob;
  const question = usualQuestion(job);
  const windows = Array.from({ length: RUNS }, () => timed(() => windowOf(job, question)));
  say(`window at every gap: median ${median(windows).toFixed(1)} ms`);
  const many = drawer();
  const searches = Array.from({ length: 3 }, () => timed(() => fitting(job, many)));
  const whole = fitting(job, many);
  say(
    `${SPRINGS} springs, ${whole.targets[0].mounts} mounts each: median ${(median(searches) / 1000).toFixed(2)} s, ${whole.fits.length + whole.furtherFits} fit`,
  );
  const drawerText = readFileSync(new URL('../examples/drawer.json', import.meta.url), 'utf8');
  const example = readDrawer(drawerText);
  if (!example.ok) throw new Error('the example does not read');
  const item = example.drawer.solenoids.findIndex(({ readings }) => readings !== undefined);
  const tries = Array.from({ length: 3 }, () => timed(() => tryItem(job, example.drawer, { kind: 'solenoid', item })));
  say(`one solenoid of a drawer laid out in the railcar and assessed: median ${(median(tries) / 1000).toFixed(2)} s`);
}
