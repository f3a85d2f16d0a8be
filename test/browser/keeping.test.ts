import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import type { JobAnswer, RevisionsAnswer } from '../../src/job/exchange.ts';
import { field, ownJob, ready, setStage, untilWord, type Stage } from './stage.ts';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

const opened = async (page: Page, id: string) =>
  (await (await page.request.get(`${stage.address()}/api/jobs/${id}`)).json()) as JobAnswer;
const notes = async (page: Page, id: string) =>
  (JSON.parse((await opened(page, id)).head.text) as { notes: string }).notes;
/** The server has these notes, at the latest when saving is due. */
async function untilKept(page: Page, id: string, wanted: string): Promise<void> {
  for (let tries = 0; tries < 40 && (await notes(page, id)) !== wanted; tries += 1) await page.waitForTimeout(50);
  assert.equal(await notes(page, id), wanted);
}

const undoButton = (page: Page) => page.getByRole('button', { name: /Undo/ });

test('what was typed is there after a reload, and so are undo and redo', async () => {
  const { context, page } = await ownJob(stage);
  const lash = await field(page, 'survey.lever.lash', 'Survey');
  await lash.fill('1.1°');
  await lash.blur();
  await lash.fill('1.3°');
  await lash.blur();
  await untilWord(page, 'kept');
  await undoButton(page).click();
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('[data-field="survey.lever.lash"]')?.value === '1.1°',
  );
  await untilWord(page, 'kept');
  await page.reload();
  await ready(page);
  const again = await field(page, 'survey.lever.lash', 'Survey');
  assert.equal(await again.inputValue(), '1.1°');
  await page.getByRole('button', { name: /Redo/ }).click();
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('[data-field="survey.lever.lash"]')?.value === '1.3°',
  );
  await undoButton(page).click();
  await undoButton(page).click();
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('[data-field="survey.lever.lash"]')?.value === '0.8° ± 0.2',
  );
  assert.ok(await undoButton(page).isDisabled());
  await context.close();
});

for (const how of ['closing the tab', 'reloading', 'going elsewhere'] as const) {
  test(`${how} within the wait before saving loses nothing`, async () => {
    const { context, page, path, id } = await ownJob(stage);
    const box = await field(page, 'notes', 'Margins, notes');
    await box.fill(`last words before ${how}`);
    if (how === 'closing the tab') {
      const closed = page.waitForEvent('close');
      await page.close({ runBeforeUnload: true });
      await closed;
    } else await (how === 'reloading' ? page.reload() : page.goto('about:blank'));
    const next = how === 'reloading' ? page : await context.newPage();
    if (how !== 'reloading') await next.goto(stage.address() + path);
    await ready(next);
    const again = await field(next, 'notes', 'Margins, notes');
    await untilWord(next, 'kept');
    assert.equal(await again.inputValue(), `last words before ${how}`);
    await undoButton(next).waitFor();
    await untilKept(next, id, `last words before ${how}`);
    await undoButton(next).click();
    await next.waitForFunction(
      () =>
        document.querySelector<HTMLTextAreaElement>('[data-field="notes"]')?.value.startsWith('Lever seen') === true,
    );
    await context.close();
  });
}

test('what a closing tab leaves is taken up even while that tab is still at its last breath', async () => {
  const { context, page, path, id } = await ownJob(stage);
  const { head } = await opened(page, id);
  await page.goto(`${stage.address()}/api/token`);
  await page.evaluate(
    ({ key, left }) => {
      void navigator.locks.request('stopwright tab dying', () => new Promise((resolve) => setTimeout(resolve, 900)));
      localStorage.setItem(key, JSON.stringify(left));
    },
    {
      key: `stopwright unfinished ${id} dying`,
      left: {
        at: head.id,
        steps: JSON.stringify({ at: head.id, done: 0, list: [] }),
        proposals: [{ name: 'Notes', changes: [{ path: 'notes', from: '', to: 'typed at the last moment' }] }],
        drafts: {},
      },
    },
  );
  const next = await context.newPage();
  await next.goto(stage.address() + path);
  await ready(next);
  await untilKept(next, id, 'typed at the last moment');
  await context.close();
});

test('what a tab could not send before it died is sent by the next one', async () => {
  const { context, page, path, id } = await ownJob(stage);
  await context.route('**/api/jobs/*/revisions', (route) =>
    route.request().method() === 'POST' ? route.abort() : route.continue(),
  );
  const box = await field(page, 'notes', 'Margins, notes');
  await box.fill('only in the outbox');
  await untilWord(page, 'NOT kept');
  await page.close();
  await context.unroute('**/api/jobs/*/revisions');
  const next = await context.newPage();
  await next.goto(stage.address() + path);
  await ready(next);
  assert.equal(await notes(next, id), 'only in the outbox');
  assert.equal(await (await field(next, 'notes', 'Margins, notes')).inputValue(), 'only in the outbox');
  await context.close();
});

test('a save that fails is said with what to do; the app stays usable, and recovers by itself', async () => {
  const { context, page, id } = await ownJob(stage);
  const box = await field(page, 'notes', 'Margins, notes');
  await stage.stopServer();
  await box.fill('while the server is away');
  await untilWord(page, 'NOT kept');
  const said = (await page.locator('[data-keeping]').textContent()) ?? '';
  assert.match(said, /does not answer.*safe.*(running|open)/i);
  const lowest = await field(page, 'supply.low', 'Supply');
  await lowest.fill('16 V');
  await page.locator('[data-question="stops"][data-verdict="fails"]').waitFor();
  assert.equal(await page.locator('[data-keeping]').getAttribute('data-keeping'), 'NOT kept');
  await stage.startServer();
  await untilWord(page, 'kept');
  const { head, branches } = await opened(page, id);
  assert.match(head.text, /while the server is away/);
  assert.match(head.text, /"low": "16 V"/);
  assert.deepEqual(branches, []);
  stage.complaints();
  await context.close();
});

test('a page that has been open for a while does not need the server to show the survey, versions and jobs', async () => {
  const { context, page } = await ownJob(stage);
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(300);
  await stage.stopServer();
  await (await field(page, 'supply.low', 'Supply')).fill('16 V');
  await page.locator('[data-question="stops"][data-verdict="fails"]').waitFor();
  await page.getByRole('tab', { name: 'Versions', exact: true }).click();
  await page.locator('.versions .trouble', { hasText: 'does not answer' }).waitFor();
  await page.locator('.job-button').click();
  await page.locator('dialog.jobs .trouble', { hasText: 'does not answer' }).waitFor();
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await stage.startServer();
  await untilWord(page, 'kept');
  stage.complaints();
  await context.close();
});

test('a full disk is said in words, and kept again when there is room', async () => {
  const { context, page } = await ownJob(stage);
  const refusal = {
    reason: 'disk-full',
    what: 'The disk is full.',
    safe: 'What was kept before is safe.',
    next: 'Make room on the disk.',
  };
  await context.route('**/api/jobs/*/revisions', (route) =>
    route.request().method() === 'POST' ? route.fulfill({ status: 507, json: refusal }) : route.continue(),
  );
  await (await field(page, 'notes', 'Margins, notes')).fill('no room');
  await untilWord(page, 'NOT kept');
  assert.match(
    (await page.locator('[data-keeping]').textContent()) ?? '',
    /The disk is full\. What was kept before is safe\. Make room on the disk\./,
  );
  await context.unroute('**/api/jobs/*/revisions');
  await page.getByRole('button', { name: 'Try now', exact: true }).click();
  await untilWord(page, 'kept');
  stage.complaints();
  await context.close();
});

test('an older version can be looked at and gone back to, and that can be undone', async () => {
  const { context, page, id } = await ownJob(stage);
  const lowest = await field(page, 'supply.low', 'Supply');
  await lowest.fill('16 V');
  await lowest.blur();
  await untilWord(page, 'kept');
  await page.getByRole('tab', { name: 'Versions', exact: true }).click();
  const first = page.locator('.version').last();
  await first.getByRole('button', { name: 'Look at it', exact: true }).click();
  assert.match((await first.locator('.differences').textContent()) ?? '', /Volts, low16 V22 V/);
  assert.match((await first.locator('.version-answers').textContent()) ?? '', /Will it stop\? Holds/);
  await page.locator('[data-question="stops"][data-verdict="fails"]').waitFor();
  await first.getByRole('button', { name: 'Go back to this version', exact: true }).click();
  await page.locator('[data-question="stops"][data-verdict="holds"]').waitFor();
  await untilWord(page, 'kept');
  assert.match((await opened(page, id)).head.text, /"low": "22 V"/);
  await undoButton(page).click();
  await page.locator('[data-question="stops"][data-verdict="fails"]').waitFor();
  await untilWord(page, 'kept');
  const { revisions } = (await (
    await page.request.get(`${stage.address()}/api/jobs/${id}/revisions`)
  ).json()) as RevisionsAnswer;
  assert.equal(revisions.length, 4, 'first, edit, going back, undoing that: all are kept');
  await context.close();
});

test('two tabs on one job: neither overwrites the other, both are shown, and a person makes them one', async () => {
  const { context, page: one, path, id } = await ownJob(stage);
  const two = await context.newPage();
  await two.goto(stage.address() + path);
  await ready(two);
  await (await field(one, 'notes', 'Margins, notes')).fill('notes of the first tab');
  await untilWord(one, 'kept');
  await two.locator('.notice', { hasText: 'Another window has kept a newer version' }).waitFor();
  // The second tab goes on all the same, from what is on its screen.
  await (await field(two, 'surroundings.spray', 'Surroundings')).fill('spray of the second tab');
  const both = two.locator('.notice', { hasText: '2 versions of this job side by side' });
  await both.waitFor();
  const { head, branches } = await opened(two, id);
  assert.match(head.text, /notes of the first tab/);
  assert.equal(branches.length, 1);
  await both.getByRole('button', { name: 'Look at both', exact: true }).click();
  const merge = two.locator('dialog.merge');
  await merge.locator('.merge-choice').first().waitFor();
  assert.match((await merge.textContent()) ?? '', /spray of the second tab/);
  assert.match((await merge.textContent()) ?? '', /notes of the first tab/);
  await merge.getByRole('button', { name: 'Make them one', exact: true }).click();
  await merge.waitFor({ state: 'detached' });
  await untilWord(two, 'kept');
  const merged = await opened(two, id);
  assert.match(merged.head.text, /notes of the first tab/);
  assert.match(merged.head.text, /spray of the second tab/);
  assert.deepEqual(merged.branches, []);
  assert.equal(merged.head.parents.length, 2);
  await one.locator('.notice', { hasText: 'Another window has kept a newer version' }).getByRole('button').click();
  await one.waitForFunction(() => document.querySelectorAll('.notice').length === 0);
  assert.equal(await (await field(one, 'surroundings.spray', 'Surroundings')).inputValue(), 'spray of the second tab');
  await context.close();
});

test('where both tabs changed one field, nothing is chosen until a person does', async () => {
  const { context, page: one, path, id } = await ownJob(stage);
  const two = await context.newPage();
  await two.goto(stage.address() + path);
  await ready(two);
  await Promise.all([
    field(one, 'notes', 'Margins, notes').then((box) => box.fill('one says this')),
    field(two, 'notes', 'Margins, notes').then((box) => box.fill('two says that')),
  ]);
  const page = await Promise.race(
    [one, two].map(async (tab) => {
      await tab.locator('.notice', { hasText: 'side by side' }).waitFor();
      return tab;
    }),
  );
  await page.locator('.notice', { hasText: 'side by side' }).getByRole('button').click();
  const join = page.getByRole('button', { name: 'Make them one', exact: true });
  await page.locator('.merge-choice').waitFor();
  assert.ok(await join.isDisabled());
  await page.locator('.merge-option', { hasText: 'one says this' }).click();
  await join.click();
  await page.locator('dialog.merge').waitFor({ state: 'detached' });
  assert.equal(await notes(page, id), 'one says this');
  await context.close();
});
