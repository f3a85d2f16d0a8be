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

/** What can be done with a means. */
const means = (page: Page, name: string) => page.locator('.means-choice td', { hasText: name });

test('the means stand side by side with a recommendation; one is taken with one tap, and undo goes back', async () => {
  const { page, context } = await ownJob(stage, 'Chain ferry auxiliary');
  await openMeans(page);
  await page.getByText('Take the air cylinder from the vessel.', { exact: true }).waitFor();
  await page.getByRole('columnheader', { name: /^Solenoid under the deck/ }).waitFor();
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

test('the table says a verdict for every row of every means, and names rows, columns, the chosen and the recommended', async () => {
  for (const size of [laptop, tablet, phone]) {
    const { page, context } = await ownJob(stage, 'Chain ferry auxiliary', size);
    await openMeans(page);
    const table = page.getByRole('table', { name: /^What each means comes to/ });
    const heads = await table.getByRole('columnheader').allInnerTexts();
    assert.deepEqual(
      heads.map((text) => text.split(/\s*\n\s*/)),
      [
        ['Hand cable', 'Thin', 'Chosen'],
        ['Solenoid under the deck', 'Thin', 'Described'],
        ['Air cylinder from the vessel', 'Holds', 'Described, recommended'],
      ],
    );
    const row = table.getByRole('row').filter({ has: page.getByRole('rowheader', { name: 'Will it stop?' }) });
    const cells = row.getByRole('cell');
    assert.equal(await cells.count(), 3);
    for (const [i, verdict] of ['Thin', 'Thin', 'Holds'].entries())
      await cells.nth(i).getByText(verdict, { exact: true }).waitFor();
    const tops = await cells.evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().top)));
    assert.equal(
      new Set(tops).size,
      size === phone ? 3 : 1,
      `${tops.join(', ')}: beside each other where there is room`,
    );
    const name = cells.nth(1).getByText('Solenoid under the deck', { exact: true });
    assert.equal(await name.isVisible(), size === phone);
    const edges = await cells.evaluateAll((all) => all.map((one) => getComputedStyle(one).borderLeftWidth));
    assert.ok(parseFloat(edges[0]) > parseFloat(edges[2]), edges.join(', '));
    await context.close();
  }
});

for (const size of [tablet, phone, { viewport: { width: 720, height: 1024 }, hasTouch: true }])
  test(`at ${size.viewport.width} pixels means and route are under the thumb, the route where there is a hand cable`, async () => {
    const { page, context } = await ownJob(stage, 'Chain ferry auxiliary', size);
    const bar = page.getByRole('navigation', { name: 'Go to', exact: true });
    const said = ['Findings', 'Survey', 'Means', 'Route', 'Circuit', 'Time', 'Versions'];
    assert.deepEqual(await bar.getByRole('button').allInnerTexts(), said);
    await assertUsable(page, '.thumb-bar button');
    const cut = await page
      .locator('.thumb-bar button')
      .evaluateAll((all) => all.filter((one) => one.scrollWidth > one.clientWidth).map((one) => one.textContent));
    assert.deepEqual(cut, []);
    for (const [name, tab] of [
      ['Means', 'means'],
      ['Route', 'route'],
    ]) {
      await bar.getByRole('button', { name, exact: true }).tap();
      await page.locator(`#tab-${tab}[aria-selected="true"]`).waitFor();
    }
    await context.close();
    const other = await ownJob(stage, 'Inspection railcar', size);
    const without = other.page.getByRole('navigation', { name: 'Go to', exact: true }).getByRole('button');
    assert.deepEqual(
      await without.allInnerTexts(),
      said.filter((one) => one !== 'Route'),
    );
    await other.context.close();
  });

for (const [name, size] of Object.entries({ laptop, tablet, phone }))
  test(`on a ${name}: nothing wider than the screen, targets of 44 pixels, no serious hindrance`, async () => {
    const { page, context } = await ownJob(stage, 'Chain ferry auxiliary', size);
    await openMeans(page);
    await page.getByText('Take the air cylinder from the vessel.', { exact: true }).waitFor();
    await assertUsable(page, '.means-panel button, .means-panel summary, .thumb-bar button');
    await context.close();
  });
