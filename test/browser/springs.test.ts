/** The tab of springs in a real browser: the window, a drawer file, a spring tried and taken back, one to order. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { field, laptop, ownJob, phone, ready, setStage, untilWord, type Stage } from './stage.ts';
import { seriousIn } from './usable.ts';

const example = fileURLToPath(new URL('../../examples/drawer.json', import.meta.url));

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

async function openSprings(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Springs', exact: true }).click();
  await page.locator('[data-springs="there"]').waitFor();
}

async function openDrawer(page: Page): Promise<void> {
  await page.locator('.springs-file input[type="file"]').setInputFiles(example);
  await page.locator('[data-fitting="there"]').waitFor({ state: 'attached' });
}

const sheet = (page: Page) => page.locator('.springs-sheet svg');

test('the window is drawn and told, and follows a change of the job', async () => {
  const { page } = await ownJob(stage);
  await openSprings(page);
  await sheet(page).locator('[data-part="present"] path, [data-part="present"] polyline').first().waitFor();
  await page.getByText('The window is open. It is narrowest').waitFor();
  const low = await field(page, 'supply.low', 'Supply');
  await low.fill('19 V');
  await low.press('Tab');
  await openSprings(page);
  await page.getByText('The window is shut 32 mm from home').waitFor();
  const opening = page.locator('.springs-opening button').first();
  await opening.click();
  await page.getByText('The window is open. It is narrowest').waitFor();
});

test('solenoids and cables of the drawer are tried; one tap puts one in with its bracket, and undo takes it out', async () => {
  const { page } = await ownJob(stage);
  await openSprings(page);
  await openDrawer(page);
  await page.getByRole('button', { name: 'Try each in this job', exact: true }).click();
  await page.locator('[data-items="there"]').waitFor({ state: 'attached', timeout: 60_000 });
  const solenoids = page.locator('[data-items-of="solenoid"]');
  assert.match(
    (await solenoids.locator('.springs-fits > li').first().textContent()) ?? '',
    /Two windings, 28 mm stroke/,
  );
  await solenoids.getByText('its pulls stand in a solenoid document').waitFor({ state: 'attached' });
  await page.getByText('The 3 hand cables of this drawer are of no use to it', { exact: false }).waitFor();
  await page
    .getByRole('button', { name: 'Try it: Fit the solenoid “Two windings, 28 mm stroke”', exact: true })
    .click();
  await untilWord(page, 'kept');
  const stroke = await field(page, 'means.plunger.stroke', 'Means');
  assert.equal(await stroke.inputValue(), '28 mm ± 0.2');
  await page.getByRole('button', { name: /^Undo/ }).first().click();
  await page.locator('[data-field="means.plunger.stroke"][value="32 mm ± 0.2"]').waitFor();
});

test('a job by hand cable has the hand cables of its drawer tried', async () => {
  const { page } = await ownJob(stage, 'Chain ferry auxiliary', phone);
  await openSprings(page);
  await page.locator('.springs-file input[type="file"]').setInputFiles(example);
  await page.getByRole('button', { name: 'Try each in this job', exact: true }).click();
  await page.locator('[data-items="there"]').waitFor({ state: 'attached', timeout: 60_000 });
  await page.locator('[data-items-of="hand cable"]').getByText('Thin, lined, new').waitFor();
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(over <= 0, `${over} px too wide`);
});

test('a drawer file is held against it, one tap fits a spring and undo takes it out; the file is kept beside the job', async () => {
  const { page } = await ownJob(stage);
  await openSprings(page);
  await openDrawer(page);
  assert.equal(await page.locator('.springs-fits > li').count(), 5);
  await page.getByText('Gate spring, stiff').waitFor({ state: 'attached' });
  await sheet(page).locator('[data-part="other-0"]').waitFor({ state: 'attached' });
  await page.getByRole('button', { name: 'Try it: Fit the spring “Old carburettor spring”', exact: true }).click();
  await page.getByRole('heading', { name: 'The window of “Old carburettor spring”' }).waitFor();
  await untilWord(page, 'kept');
  await page.keyboard.press('Control+z');
  await page.getByRole('heading', { name: 'The window of “Return spring”' }).waitFor();
  await page.reload();
  await ready(page);
  await openSprings(page);
  await page.locator('.springs-fits > li').first().waitFor();
  await page.getByRole('button', { name: 'Put it away', exact: true }).click();
  await page.locator('.springs-fits').waitFor({ state: 'detached' });
});

test('a drawer of very many springs is tried to its end, or as far as somebody lets it', async () => {
  const { page } = await ownJob(stage);
  await openSprings(page);
  const drawer = JSON.parse(readFileSync(example, 'utf8'));
  drawer.springs = Array.from({ length: 20_000 }, (_, i) => ({ ...drawer.springs[i % 5], name: `Spring ${i}` }));
  await page
    .locator('.springs-file input[type="file"]')
    .setInputFiles({ name: 'many.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(drawer)) });
  await page.locator('.springs-fits li').first().waitFor({ timeout: 60_000 });
  assert.match((await page.locator('.springs-panel, #side-panel').first().innerText()) ?? '', /20000 springs/);
});

test('what is no drawer is refused with the place of its fault', async () => {
  const { page } = await ownJob(stage);
  await openSprings(page);
  const bad = readFileSync(example, 'utf8').replace('"1.2 mm"', '"1.2"');
  await page
    .locator('.springs-file input[type="file"]')
    .setInputFiles({ name: 'drawer.json', mimeType: 'application/json', buffer: Buffer.from(bad) });
  await page.getByText('springs[0].spring.wireDiameter').waitFor();
});

test('a spring to order comes with its specification and can be tried', async () => {
  const { page } = await ownJob(stage);
  await openSprings(page);
  await page.getByRole('button', { name: 'Reckon a spring to order', exact: true }).click();
  await page.getByRole('rowheader', { name: 'Outside diameter' }).first().waitFor();
  await page.getByRole('button', { name: 'Try it: Fit the spring to order', exact: true }).first().click();
  await page.getByRole('heading', { name: 'The window of “Spring to order”' }).waitFor();
  await page.getByText('The present spring lies inside').waitFor();
});

test('a job without a solenoid says so; nothing runs out of the panel and axe finds nothing serious', async () => {
  const { page: cable } = await ownJob(stage, 'Chain ferry auxiliary');
  await openSprings(cable);
  await cable.getByText('This job has no solenoid').waitFor();
  for (const [options, colorScheme] of [
    [laptop, 'light'],
    [phone, 'dark'],
  ] as const) {
    const { page, context } = await ownJob(stage, undefined, { ...options, colorScheme });
    await openSprings(page);
    await openDrawer(page);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(wide <= 0, `${options.viewport.width}: ${wide} px too wide`);
    const small = await page
      .locator('.springs-panel button, .springs-panel .button')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 43.5).map((one) => one.outerHTML));
    assert.deepEqual(small, []);
    assert.deepEqual(await seriousIn(page, '.side'), []);
    await context.close();
  }
  assert.deepEqual(stage.complaints(), []);
});
