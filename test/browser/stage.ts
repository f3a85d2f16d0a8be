/** The real server on a folder of its own, and a real browser before it, for one test file. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { readDemos } from '../../src/server/demos.ts';
import { readJob } from '../../src/job/read.ts';
import { startServer, type RunningServer } from '../../src/server/serve.ts';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface Stage {
  readonly browser: Browser;
  readonly address: () => string;
  /** A fresh visitor: nothing of the browser is shared with another. */
  visitor(options?: Parameters<Browser['newContext']>[0]): Promise<BrowserContext>;
  /** A page of a fresh visitor, with the job on the screen. */
  open(path?: string, options?: Parameters<Browser['newContext']>[0]): Promise<Page>;
  stopServer(): Promise<void>;
  /** On the same folder and port. */
  startServer(): Promise<void>;
  /** What pages have complained about since it was last asked. */
  complaints(): string[];
  close(): Promise<void>;
}

export const laptop = { viewport: { width: 1280, height: 800 } } as const;
export const tablet = { viewport: { width: 1024, height: 768 }, hasTouch: true } as const;
export const phone = { viewport: { width: 390, height: 844 }, hasTouch: true } as const;

export async function setStage(): Promise<Stage> {
  const folder = mkdtempSync(join(tmpdir(), 'stopwright-'));
  const start = (port: number): Promise<RunningServer> =>
    startServer({
      folder,
      webFolder: fileURLToPath(new URL('../../dist/web', import.meta.url)),
      port,
      demos: readDemos(),
      readJob,
      report: (error) => console.error(error),
    });
  let server: RunningServer | null = await start(0);
  const { port } = server;
  const browser = await chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: FLAGS,
  });
  const heard: string[] = [];
  const listen = (page: Page) => {
    page.on('pageerror', (error) => heard.push(`error: ${error.message}`));
    page.on('console', (message) => {
      if (message.type() === 'error') heard.push(`console: ${message.text()}`);
    });
  };
  const stage: Stage = {
    browser,
    address: () => `http://127.0.0.1:${port}`,
    async visitor(options = laptop) {
      const context = await browser.newContext(options);
      context.setDefaultTimeout(15_000);
      context.on('page', listen);
      return context;
    },
    async open(path = '/', options = laptop) {
      const page = await (await stage.visitor(options)).newPage();
      await page.goto(stage.address() + path);
      await ready(page);
      return page;
    },
    async stopServer() {
      await server?.close();
      server = null;
    },
    async startServer() {
      server ??= await start(port);
    },
    complaints: () => heard.splice(0),
    async close() {
      await browser.close();
      await server?.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
  return stage;
}

/** The job is on the screen, drawn, and kept. */
export async function ready(page: Page): Promise<void> {
  await page.locator('.answer').nth(1).waitFor();
  await page.locator('.sheet-drawing svg').nth(1).waitFor();
}

/** A page of a fresh visitor with a copy of a demo of its own, so that tests leave each other alone. */
export async function ownJob(
  stage: Stage,
  demo = 'Inspection railcar',
  options?: Parameters<Stage['open']>[1],
): Promise<{ page: Page; context: BrowserContext; path: string; id: string }> {
  const page = await stage.open('/', options);
  const before = page.url();
  await page.locator('.job-button').click();
  await page.getByRole('button', { name: `Open a copy of the demo ${demo}`, exact: true }).click();
  await page.waitForURL((url) => url.href !== before);
  await page.locator('dialog.jobs').waitFor({ state: 'detached' });
  await ready(page);
  const path = new URL(page.url()).pathname;
  return { page, context: page.context(), path, id: path.slice('/job/'.length) };
}

/** Waits until the word for keeping is this one. */
export async function untilWord(page: Page, wanted: 'kept' | 'keeping' | 'NOT kept'): Promise<void> {
  await page.locator(`[data-keeping="${wanted}"]`).waitFor();
}

/** The input of the field at this path of the document, in the survey. */
export async function field(page: Page, path: string, step: string) {
  await page.getByRole('tab', { name: 'Survey', exact: true }).click();
  await page.locator('.step', { hasText: step }).click();
  return page.locator(`[data-field="${path}"]`);
}
