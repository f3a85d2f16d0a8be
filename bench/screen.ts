/**
 * What moving the travel control and typing cost the page, in Chromium, per movement or key: all work of the page's main
 * thread (script, style, layout, paint), as Chromium's own counters have it; and how many bytes of script the first view
 * and the whole app need. The goal is 8 ms at the 95th percentile.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import type { CDPSession, Page } from 'playwright-core';
import { field, ownJob, setStage } from '../test/browser/stage.ts';

const MOVES = 200;

export async function bench(print: (line: string) => void): Promise<void> {
  scriptBytes(print);
  const stage = await setStage();
  try {
    const { page, context } = await ownJob(stage);
    const session = await context.newCDPSession(page);
    // Time that the thread worked, not time that passed: other programs on the machine do not count.
    await session.send('Performance.enable', { timeDomain: 'threadTicks' });
    await page.waitForTimeout(1_000);

    say(print, 'nothing done, for comparison', await costs(page, session, async () => {}));

    const slider = (await page.locator('#travel').boundingBox())!;
    const y = slider.y + slider.height / 2;
    await page.mouse.move(slider.x + 30, y);
    await page.mouse.down();
    const moves = await costs(page, session, (i) =>
      page.mouse.move(slider.x + 30 + ((slider.width - 60) * ((i * 37) % MOVES)) / MOVES, y),
    );
    await page.mouse.up();
    say(print, 'one movement of the travel control', moves);

    const lowest = await field(page, 'supply.low', 'Supply');
    await lowest.click();
    await page.keyboard.press('End');
    await page.waitForTimeout(500);
    const keys = await costs(page, session, (i) => page.keyboard.press(i % 2 === 0 ? 'Backspace' : 'V'));
    say(print, 'one key in a field of the survey', keys);

    const handle = (await page.getByRole('button', { name: /^anchor of/ }).boundingBox())!;
    const [hx, hy] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
    await page.mouse.move(hx, hy);
    await page.mouse.down();
    const drags = await costs(page, session, (i) => page.mouse.move(hx + (i % 20), hy - (i % 7)));
    await page.keyboard.press('Escape');
    await page.mouse.up();
    say(print, 'one movement of a dragged handle, with the verdict', drags);
    await context.close();
  } finally {
    await stage.close();
  }
}

interface Cost {
  /** All tasks of the main thread, ms. */
  readonly all: number;
  readonly script: number;
  readonly layout: number;
}

/** What each act costs until the screen has come to rest. */
async function costs(page: Page, session: CDPSession, act: (i: number) => Promise<unknown>): Promise<Cost[]> {
  const found: Cost[] = [];
  for (let i = 0; i < MOVES; i += 1) {
    const before = await counters(session);
    await act(i);
    await page.waitForTimeout(40);
    const after = await counters(session);
    const idle = await counters(session); // what asking costs by itself
    const of = (counted: Record<string, number>, name: string) => counted[name] ?? 0;
    const difference = (name: string) => (2 * of(after, name) - of(before, name) - of(idle, name)) * 1000;
    found.push({
      all: difference('TaskDuration'),
      script: difference('ScriptDuration'),
      layout: difference('LayoutDuration') + difference('RecalcStyleDuration'),
    });
  }
  return found;
}

async function counters(session: CDPSession): Promise<Record<string, number>> {
  const { metrics } = await session.send('Performance.getMetrics');
  return Object.fromEntries(metrics.map(({ name, value }) => [name, value]));
}

function say(print: (line: string) => void, what: string, found: readonly Cost[]): void {
  const at = (part: keyof Cost, share: number) => {
    const sorted = found.map((cost) => cost[part]).sort((a, b) => a - b);
    return (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0).toFixed(1);
  };
  print(
    `${what}: median ${at('all', 0.5)} ms, 95th percentile ${at('all', 0.95)} ms (goal 8 ms); of it script ${at('script', 0.95)}, style and layout ${at('layout', 0.95)}`,
  );
}

/** Scripts of the built app: those that the page of the first view loads, and all, workers included (goals 120 and 350 kB). */
function scriptBytes(print: (line: string) => void): void {
  const folder = new URL('../dist/web/', import.meta.url);
  const read = (name: string) => readFileSync(new URL(name, folder));
  const all = readdirSync(new URL('assets/', folder))
    .filter((name) => name.endsWith('.js'))
    .map((name) => `assets/${name}`);
  const page = read('index.html').toString();
  const named = all.filter((name) => page.includes(name));
  const size = (names: readonly string[], by: (bytes: Buffer) => Buffer) =>
    (names.reduce((sum, name) => sum + by(read(name)).length, 0) / 1000).toFixed(0);
  for (const [what, names] of [
    ['page of the first view', named],
    ['all scripts', all],
  ] as const) {
    print(
      `${what}: ${size(names, (bytes) => gzipSync(bytes, { level: 9 }))} kB gzip, ${size(names, brotliCompressSync)} kB brotli`,
    );
  }
}
