/** "Proposals": search, progress, stop, try, undo, and what assistive tools find. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { ownJob, phone, setStage, type Stage } from './stage.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

/** One position on its hub: the quickest of the demonstrations to search. */
const QUICK = 'Drainage pump house';
const PATIENCE = { timeout: 120_000 };

async function openProposals(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Proposals', exact: true }).click();
  await page.getByRole('button', { name: 'Search for layouts', exact: true }).click();
}

test('a search ends with different answers as small drawings; one is tried with one tap, and undone', async () => {
  const { page } = await ownJob(stage, QUICK);
  await openProposals(page);
  await page.locator('[data-proposals="there"]').waitFor({ state: 'attached', ...PATIENCE });
  const cards = page.locator('.proposal-card');
  const count = await cards.count();
  assert.ok(count >= 2, `${count} proposals`);
  assert.equal(await page.locator('.proposal-sheet svg[role="img"]').count(), count);
  const named = await cards.locator('h4').allTextContents();
  assert.equal(new Set(named).size, count, named.join('; '));
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: { run: (on: string) => Promise<AxeResults> } }).axe.run('#side'),
  );
  assert.deepEqual(
    violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`),
    [],
  );
  const first = page.locator('[data-proposal="proposal-1"]');
  await first.getByRole('button', { name: 'Try it', exact: true }).click();
  await first.getByText('On the drawing now.').waitFor();
  // Another takes its place, as one step more.
  const second = page.locator('[data-proposal="proposal-2"]');
  await second.getByRole('button', { name: 'Try it', exact: true }).click();
  await second.getByText('On the drawing now.').waitFor();
  assert.equal(await first.getByText('On the drawing now.').count(), 0);
  await second.getByRole('button', { name: 'Undo', exact: true }).click();
  await second.getByRole('button', { name: 'Try it', exact: true }).waitFor();
});

test('a search shows how far it is and stops with the best so far; nothing overflows on a phone', async () => {
  const { page } = await ownJob(stage, 'Inspection railcar', phone);
  await openProposals(page);
  await page.getByText(/million combinations looked at/).waitFor(PATIENCE);
  await page.getByRole('button', { name: 'Stop with the best so far', exact: true }).click();
  await page.locator('[data-proposals="there"]').waitFor({ state: 'attached', ...PATIENCE });
  await page.getByText('Stopped before the end: this is the best so far.').waitFor();
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(over <= 0, `${over} px too wide`);
});
