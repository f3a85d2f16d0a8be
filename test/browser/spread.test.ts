import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { field, ownJob, phone, setStage, type Stage } from './stage.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

async function openSpread(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Spread', exact: true }).click();
  await page.locator('[data-spread="live"]').waitFor({ state: 'attached', timeout: 60_000 });
}

const riskOfRun = (page: Page) => page.locator('.spread-list li', { hasText: 'Lever is free to reach run' }).first();

test('the tab shows chances, findings at risk and what matters, and follows a change of a ±', async () => {
  const { page } = await ownJob(stage);
  await openSpread(page);
  assert.match((await page.locator('.spread-panel').textContent()) ?? '', /1,024 draws\./);
  assert.match((await riskOfRun(page).textContent()) ?? '', /fails 1\d(\.\d)? %/);
  assert.ok((await page.locator('.spread-sheet svg').count()) >= 2, 'histograms and bars are drawn');
  const angle = await field(page, 'survey.lever.runAngle', 'Survey');
  await angle.fill('63.5° ± 0.1');
  await angle.press('Tab');
  await openSpread(page);
  await page.waitForFunction(
    () =>
      ![...document.querySelectorAll('.spread-list li')].some(
        (row) => row.textContent?.startsWith('Lever is free to reach run') && /fails [1-9]/.test(row.textContent),
      ),
    undefined,
    { timeout: 60_000 },
  );
  assert.deepEqual(stage.complaints(), []);
});

test('while the home pin is dragged the chances follow it, and what matters comes when it rests', async () => {
  const { page } = await ownJob(stage);
  await openSpread(page);
  const box = (await page.getByRole('button', { name: /^home pin/ }).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const seen = new Set<string | null>([await riskOfRun(page).textContent()]);
  for (let step = 1; step <= 3; step++) {
    // Towards the shaft it comes free: from about 16 % failing down to none.
    await page.mouse.move(x + step, y, { steps: 2 });
    await page.waitForFunction(
      (texts) => {
        const row = [...document.querySelectorAll('.spread-list li')].find((one) =>
          one.textContent?.startsWith('Lever is free to reach run'),
        );
        return !texts.includes(row?.textContent ?? null);
      },
      [...seen],
      { timeout: 60_000 },
    );
    seen.add((await riskOfRun(page).count()) === 0 ? null : await riskOfRun(page).textContent());
  }
  assert.equal(seen.size, 4, [...seen].join(' | '));
  await page.mouse.up();
  await page.locator('[data-spread="live"]').waitFor({ state: 'attached', timeout: 60_000 });
  assert.ok((await page.locator('.spread-sheet svg').count()) >= 2, 'what matters is drawn once it rests');
  assert.deepEqual(stage.complaints(), []);
});

test('a thorough study shows its progress, and stopped keeps what is known', async () => {
  const { page } = await ownJob(stage);
  await openSpread(page);
  await page.getByLabel('Draws', { exact: true }).selectOption('131072');
  await page.getByRole('button', { name: 'Study it thoroughly', exact: true }).click();
  await page.waitForFunction(
    () => (document.querySelector<HTMLProgressElement>('.spread-working progress')?.value ?? 0) > 0,
    undefined,
    { timeout: 60_000 },
  );
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.locator('[data-spread="stopped"]').waitFor({ state: 'attached' });
  assert.ok((await page.locator('.spread-sheet svg').count()) >= 2, 'what was known is still there');
  assert.deepEqual(stage.complaints(), []);
});

test('on a phone nothing runs off the side, and it can be read without seeing it', async () => {
  const { page } = await ownJob(stage, 'Inspection railcar', phone);
  await openSpread(page);
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth > innerWidth), false);
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(on: string): Promise<AxeResults> } }).axe.run('.spread-panel'),
  );
  assert.deepEqual(
    violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`),
    [],
  );
});
