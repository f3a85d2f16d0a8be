import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { field as surveyField, laptop, ownJob, phone, ready, setStage, tablet, type Stage } from './stage.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

/** Fields of the solenoid that starts on the page. */
const LENGTH = 'can.length';
const WINDING = 'coil.outsideDiameter';

/** A solve takes seconds, and tests share the machine. */
const PATIENCE = { timeout: 90_000 };

async function openSolenoid(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Solenoid', exact: true }).click();
  await page.locator('.solenoid-page').waitFor();
  await page.locator('.solenoid-sheet-cutaway svg').waitFor();
}

const solved = (page: Page) => page.locator('[data-solving="solved"]').waitFor(PATIENCE);
const field = (page: Page, path: string) => page.locator(`.solenoid-page [data-field="${path}"]`);
const status = (page: Page) => page.locator('.solenoid-status-words').textContent();
const part = (page: Page, sheet: string, name: string) =>
  page.locator(`.solenoid-sheet-${sheet} [data-part="${name}"]`);

async function serious(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const { violations } = await page.evaluate<AxeResults>(
    `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] })`,
  );
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}

test('a dimension is typed: the cutaway follows, a coarse curve is there at once, a fine one follows by itself', async () => {
  const { page } = await ownJob(stage);
  await openSolenoid(page);
  await solved(page);
  const dimension = part(page, 'cutaway', 'dimension-can-length').locator('text');
  assert.equal(await dimension.textContent(), '70 mm');
  await field(page, LENGTH).fill('72 mm');
  await page.waitForFunction(
    () =>
      document.querySelector('.solenoid-sheet-cutaway [data-part="dimension-can-length"] text')?.textContent
      === '72 mm',
  );
  await part(page, 'chart', 'coarse').waitFor();
  await page.locator('[data-solving="solving"] progress').waitFor(PATIENCE);
  await solved(page);
  assert.match((await status(page)) ?? '', /^Solved in /);
  assert.equal(await part(page, 'chart', 'coarse').count(), 0);
});

test('what cannot be built is drawn and marked with the reason, and not kept; it counts as soon as the rest fits', async () => {
  const { page } = await ownJob(stage);
  await openSolenoid(page);
  await field(page, WINDING).fill('60 mm');
  const misfit = part(page, 'cutaway', 'misfit');
  await misfit.waitFor();
  assert.match((await misfit.textContent()) ?? '', /^Does not fit: coil outer radius \(30 mm\).*\(22.5 mm\)/);
  assert.match((await part(page, 'cutaway', 'name-coil').textContent()) ?? '', /does not fit/);
  await page.locator('.field-error', { hasText: '43 mm still counts' }).waitFor();
  await field(page, WINDING).press('Escape');
  await misfit.waitFor({ state: 'detached' });
  await field(page, WINDING).fill('60 mm');
  await misfit.waitFor();
  await field(page, 'can.outsideDiameter').fill('70 mm');
  await misfit.waitFor({ state: 'detached' });
  await page.waitForFunction(
    (path) =>
      document.querySelector<HTMLInputElement>(`.solenoid-page [data-field="${path}"]`)?.dataset['draft'] === 'no',
    WINDING,
  );
  assert.equal(await field(page, WINDING).inputValue(), '60 mm');
  assert.equal(await page.locator('.field-error').count(), 0);
  await field(page, WINDING).focus();
  await page.keyboard.press('Control+z');
  await page.waitForFunction(
    (path) => document.querySelector<HTMLInputElement>(`.solenoid-page [data-field="${path}"]`)?.value === '43 mm',
    WINDING,
  );
});

test('on another job nothing is measured yet: the page says what is missing, and the example fills it in one step', async () => {
  const { page } = await ownJob(stage, 'Drainage pump house');
  await page.getByRole('link', { name: 'Solenoid', exact: true }).click();
  await page.locator('[data-solving="failed"]').waitFor(PATIENCE);
  assert.match((await status(page)) ?? '', /No curve. Not measured yet: Can, length/);
  await page.getByRole('button', { name: 'Example', exact: true }).click();
  await part(page, 'cutaway', 'dimension-can-length').waitFor();
  await page.locator('.solenoid-steps').getByRole('button', { name: 'Undo' }).click();
  await part(page, 'cutaway', 'dimension-can-length').waitFor({ state: 'detached' });
});

test('what does not read stays in its field with the reason, and the curve stands', async () => {
  const { page } = await ownJob(stage);
  await openSolenoid(page);
  await field(page, LENGTH).fill('52 kg');
  await page.locator('.field-error', { hasText: 'NOT kept' }).waitFor();
  assert.equal(await part(page, 'cutaway', 'dimension-can-length').locator('text').textContent(), '70 mm');
});

test('a solve can be stopped and begun again; solved once, it comes out of the cache, also after a reload', async () => {
  const { page } = await ownJob(stage);
  await openSolenoid(page);
  await field(page, LENGTH).fill('71 mm');
  await page.getByRole('button', { name: 'Stop', exact: true }).click(PATIENCE);
  await page.locator('[data-solving="stopped"]').waitFor();
  await page.waitForTimeout(1500);
  assert.equal(await page.locator('[data-solving="stopped"]').count(), 1, 'it stays stopped');
  await page.getByRole('button', { name: 'Solve', exact: true }).click();
  await solved(page);
  assert.match((await status(page)) ?? '', /^Solved in /);
  await page.locator('[data-solenoid-kept="kept"]').waitFor();
  await page.reload();
  await page.locator('.solenoid-page').waitFor();
  await solved(page);
  assert.match((await status(page)) ?? '', /^Solved before/);
  assert.equal(await field(page, LENGTH).inputValue(), '71 mm');
});

test('two windows: the one that comes second is told, nothing is overwritten, and a person chooses', async () => {
  const { page, context, path, id } = await ownJob(stage);
  await openSolenoid(page);
  const other = await context.newPage();
  await other.goto(`${stage.address()}${path}#solenoid`);
  await other.locator('.solenoid-sheet-cutaway svg').waitFor();
  await field(page, 'can.wall').fill('3.6 mm');
  await page.locator('[data-solenoid-kept="kept"]').waitFor();
  await field(other, 'plates.top').fill('6.4 mm');
  await other.locator('[data-solenoid-kept="NOT kept"]', { hasText: 'Another window' }).waitFor();
  await other.getByRole('button', { name: 'Take that one', exact: true }).click();
  await other.waitForFunction(
    () => document.querySelector<HTMLInputElement>('.solenoid-page [data-field="can.wall"]')?.value === '3.6 mm',
  );
  assert.equal(await field(other, 'plates.top').inputValue(), '6.5 mm');
  await field(other, 'can.wall').fill('3.7 mm');
  // The word was "kept" before, too: the server itself is asked.
  const isThere = async () =>
    (await (await other.request.get(`${stage.address()}/api/jobs/${id}/session/solenoid`)).text()).includes('3.7 mm');
  for (let tries = 0; tries < 100 && !(await isThere()); tries += 1) await other.waitForTimeout(50);
  await other.locator('[data-solenoid-kept="kept"]').waitFor();
  await page.reload();
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('.solenoid-page [data-field="can.wall"]')?.value === '3.7 mm',
  );
  await context.close();
});

test('what was typed while Stopwright did not answer waits in the browser and is kept later', async () => {
  const { page, context } = await ownJob(stage);
  await openSolenoid(page);
  await page.route('**/session/solenoid', (route) => route.abort());
  await field(page, 'can.wall').fill('3.6 mm');
  await page.locator('[data-solenoid-kept="NOT kept"]', { hasText: 'waits in this browser' }).waitFor();
  stage.complaints(); // the browser itself complains of the requests that were cut
  await page.unroute('**/session/solenoid');
  await page.reload();
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('.solenoid-page [data-field="can.wall"]')?.value === '3.6 mm',
  );
  await page.locator('[data-solenoid-kept="kept"]').waitFor();
  await context.close();
});

test('the picture of the field has lines, bands and a legend in tesla, and follows the travel control', async () => {
  const { page } = await ownJob(stage);
  await openSolenoid(page);
  await part(page, 'flux', 'flux-lines').waitFor(PATIENCE);
  const legend = (await part(page, 'flux', 'legend-words').textContent()) ?? '';
  assert.match(legend, /Flux density.* T and above.*saturated.*Wb per line.*gap 2 mm/);
  const size = await page.locator('.solenoid-sheet-flux svg').evaluate((svg) => svg.outerHTML.length);
  assert.ok(size < 300_000, `${size}`);
  const typed = page.locator('.solenoid-cutaway').getByLabel('Go to this gap, in mm');
  await typed.fill('5');
  await typed.press('Enter');
  await part(page, 'flux', 'legend-words').getByText('gap 5 mm').waitFor(PATIENCE);
  await part(page, 'cutaway', 'dimension-gap').getByText('gap 5 mm').waitFor();
});

test('the curve goes into the job as one step, marked as solved, and undo takes it out', async () => {
  const { page } = await ownJob(stage);
  const tables = page.getByRole('group', { name: /^Table \d+$/ });
  await openSolenoid(page);
  await solved(page);
  await page.getByRole('button', { name: 'Use in the job', exact: true }).click();
  await page.locator('.solenoid-into [role="status"]').waitFor();
  await page.locator('.solenoid-into').getByRole('button', { name: 'Back to the job', exact: true }).click();
  await ready(page);
  await page.getByRole('tab', { name: 'Survey', exact: true }).click();
  await page.locator('.step', { hasText: 'Means' }).click();
  const solvedSource = page.getByRole('radio', { name: 'Field solve', exact: true });
  await solvedSource.first().waitFor();
  const checked = await solvedSource.evaluateAll(
    (all) => all.filter((one) => (one as HTMLInputElement).checked).length,
  );
  assert.ok(checked >= 1);
  const count = await tables.count();
  await page.getByRole('button', { name: 'Undo' }).first().click();
  await page.waitForFunction(
    (before) => document.querySelectorAll('[role="group"][aria-label^="Table "]').length < before,
    count,
  );
});

test('the co-energy map goes into a job with one winding, with the dimensions that it lacks; one undo takes all of it out', async () => {
  const { page } = await ownJob(stage, 'Drainage pump house');
  await surveyField(page, 'means.body.diameter', 'Means');
  await page.getByRole('button', { name: 'Diameter of the can: not measured', exact: true }).click();
  await page.locator('[data-field="means.body.diameter"][placeholder="not measured"]').waitFor();
  await page.getByRole('link', { name: 'Solenoid', exact: true }).click();
  await page.locator('[data-solving="failed"]').waitFor(PATIENCE);
  await page.getByRole('button', { name: 'Example', exact: true }).click();
  await solved(page);
  const into = page.locator('.solenoid-into');
  await into.getByText('Can diameter 52.0 mm').waitFor();
  await page.getByRole('button', { name: 'Use in the job', exact: true }).click();
  await into.locator('progress').waitFor();
  await into.getByRole('button', { name: 'Stop', exact: true }).click();
  await into.getByText('Stopped: nothing was put into the job.').waitFor();
  await page.getByRole('button', { name: 'Use in the job', exact: true }).click();
  await into.locator('[data-into="done"]').waitFor(PATIENCE);
  await into.getByRole('button', { name: 'Back to the job', exact: true }).click();
  await ready(page);
  const map = page.locator('[id="field-means.map"]');
  await surveyField(page, 'means.body.diameter', 'Means');
  await map.getByText(/^Co-energy map from a field solve: 12 gaps, [0-9]+ to [0-9]+ levels[.]$/).waitFor();
  assert.equal(await map.locator('input').count(), 0, 'no field for any of its numbers');
  const diameter = page.locator('[data-field="means.body.diameter"]');
  assert.equal(await diameter.inputValue(), '52.0 mm');
  await page.getByRole('tab', { name: 'Versions', exact: true }).click();
  await page.locator('.version').last().getByRole('button').click();
  const row = page.locator('.differences tr', { hasText: 'Co-energy map' });
  await row.waitFor();
  assert.equal(await row.count(), 1);
  await surveyField(page, 'means.body.diameter', 'Means');
  await page.getByRole('button', { name: 'Take away: co-energy map', exact: true }).click();
  await page.locator('[data-computed="none"]').waitFor();
  const undo = page.getByRole('button', { name: 'Undo' }).first();
  await undo.click();
  await page.locator('[data-computed="there"]').waitFor();
  await undo.click();
  await page.locator('[data-computed="none"]').waitFor();
  assert.equal(await diameter.inputValue(), '');
});

test('a coil with two windings gets its map when the turns of both are given', async () => {
  const { page } = await ownJob(stage);
  await openSolenoid(page);
  await solved(page);
  const into = page.locator('.solenoid-into');
  assert.match((await into.textContent()) ?? '', /has two windings, and one was solved.*the map says nothing/s);
  await into.getByLabel('Turns of the pull-in winding').fill('165');
  await into.getByLabel('Turns of the hold winding').fill('1100');
  await page.getByRole('button', { name: 'Use in the job', exact: true }).click();
  await into.locator('[data-into="done"]', { hasText: 'co-energy map' }).waitFor(PATIENCE);
  const kept = async () =>
    JSON.parse(
      await (
        await page.request.get(
          `${stage.address()}/api${new URL(page.url()).pathname.replace('/job/', '/jobs/')}/export`,
        )
      ).text(),
    ) as { means: { map?: { turns: number[] } } };
  await page.waitForFunction(() => document.querySelector('[data-keeping="kept"]') !== null);
  assert.deepEqual((await kept()).means.map?.turns, [165, 1100]);
});

test('no serious violation of WCAG 2.2 A and AA, at three sizes, light and dark', async () => {
  for (const view of [laptop, tablet, phone])
    for (const colorScheme of ['light', 'dark'] as const) {
      const page = await stage.open('/', { ...view, colorScheme });
      await openSolenoid(page);
      await part(page, 'flux', 'legend-words').waitFor(PATIENCE);
      assert.deepEqual(await serious(page), [], `${view.viewport.width} ${colorScheme}`);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(overflow <= 0, `${overflow} px too wide at ${view.viewport.width}`);
      await page.context().close();
    }
});

test('nothing was complained of', () => {
  assert.deepEqual(stage.complaints(), []);
});
