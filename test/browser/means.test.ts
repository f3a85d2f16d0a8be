import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { laptop, ownJob, phone, setStage, tablet, untilWord, type Stage } from './stage.ts';
import { assertUsable } from './usable.ts';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

async function openMeans(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Means', exact: true }).click();
  await page.locator('[data-means="there"]').waitFor({ state: 'attached' });
}

const means = (page: Page, name: string) => page.locator('.means-list > li', { hasText: name });

test('the means stand side by side with a recommendation; one is taken with one tap, and undo goes back', async () => {
  const { page, context } = await ownJob(stage, 'Chain ferry auxiliary');
  await openMeans(page);
  await page.getByText('Take the air cylinder from the vessel.', { exact: true }).waitFor();
  await page.getByRole('region', { name: 'Will it stop?', exact: true }).getByText('Solenoid under the deck').waitFor();
  await means(page, 'Air cylinder').getByRole('button', { name: 'Take this means', exact: true }).click();
  await page.getByText('Keep the air cylinder.', { exact: true }).waitFor();
  await untilWord(page, 'kept');
  assert.equal(await means(page, 'Hand cable').getByRole('button', { name: 'Take this means' }).count(), 1);
  await page.getByRole('button', { name: /Undo/ }).first().click();
  await page.getByText('Take the air cylinder from the vessel.', { exact: true }).waitFor();
  await context.close();
});

test('a means that is not described says what it would have to give, and is described in the survey', async () => {
  const { page, context } = await ownJob(stage, 'Inspection railcar');
  await openMeans(page);
  await means(page, 'Air cylinder').getByText('There is no compressed air here.').waitFor();
  await means(page, 'Hand cable').getByRole('button', { name: 'Describe a hand cable', exact: true }).click();
  await page.locator('[data-field="considered[0].name"]').waitFor();
  assert.equal(await page.locator('[data-field="considered[0].name"]').inputValue(), 'Hand cable');
  await context.close();
});

for (const [name, size] of Object.entries({ laptop, tablet, phone }))
  test(`on a ${name}: nothing wider than the screen, targets of 44 pixels, no serious hindrance`, async () => {
    const { page, context } = await ownJob(stage, 'Chain ferry auxiliary', size);
    await openMeans(page);
    await page.getByText('Take the air cylinder from the vessel.', { exact: true }).waitFor();
    await assertUsable(page, '.means-panel button');
    await context.close();
  });
