import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { field, ownJob, setStage, untilWord, type Stage } from './stage.ts';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

const numbers = (page: Page) => page.locator('.cursor-numbers dd').allTextContents();

test('a first visitor sees the railcar solved: three answers, each with word, number, unit and place', async () => {
  const page = await stage.open('/');
  assert.equal(await page.locator('.job-button-name').textContent(), 'Inspection railcar');
  assert.deepEqual(await page.locator('.answer-question').allTextContents(), [
    'Will it stop?',
    'Will it start again?',
    'Will anything burn?',
  ]);
  for (const answer of await page.locator('.answer').all()) {
    assert.equal(await answer.locator('.answer-verdict').textContent(), 'Holds');
    assert.match((await answer.locator('.answer-number').textContent()) ?? '', /\d ?(N|A|°|mm)/);
    const place = (await answer.locator('.answer-place').textContent()) ?? '';
    // A fuse against its conductor is the same everywhere; all else is decided somewhere.
    assert.match(place, (await answer.textContent())?.includes('Fuse') ? /to spare/ : /to spare.*(home|supply)/);
  }
  assert.ok(await page.getByRole('button', { name: 'Start your own job', exact: true }).isVisible());
  assert.match((await page.locator('.caution').textContent()) ?? '', /hand stop/);
  assert.deepEqual(stage.complaints(), []);
  await page.context().close();
});

test('the travel control moves both drawings and every number: by keyboard, by dragging it, by dragging the chart', async () => {
  const page = await stage.open('/');
  const slider = page.getByRole('slider', { name: /Travel/ });
  const lever = () => page.locator('.sheet-drawing').first().locator('svg').innerHTML();
  const chart = () => page.locator('.sheet-drawing').nth(1).locator('svg').innerHTML();
  const changed = async (act: () => Promise<void>, what: string) => {
    const earlier = [await numbers(page), await lever(), await chart()];
    await act();
    await page.waitForFunction(
      (gap) => document.querySelector('.cursor-numbers dd')?.textContent !== gap,
      earlier[0]?.[0],
    );
    const later = [await numbers(page), await lever(), await chart()];
    assert.notDeepEqual(later[0], earlier[0], `${what}: numbers`);
    assert.notEqual(later[1], earlier[1], `${what}: mechanism`);
    assert.notEqual(later[2], earlier[2], `${what}: chart`);
  };
  await changed(async () => {
    await slider.focus();
    await page.keyboard.press('Home');
  }, 'keyboard');
  assert.equal((await numbers(page))[0], '0 mm');
  const box = (await slider.boundingBox())!;
  await changed(async () => {
    await page.mouse.move(box.x + 20, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2, { steps: 5 });
    await page.mouse.up();
  }, 'slider');
  const sheet = (await page.locator('.sheet-drag').boundingBox())!;
  await changed(async () => {
    await page.mouse.move(sheet.x + sheet.width / 3, sheet.y + sheet.height / 2);
    await page.mouse.down();
    await page.mouse.move(sheet.x + sheet.width / 4, sheet.y + sheet.height / 2, { steps: 4 });
    await page.mouse.up();
  }, 'chart');
  for (const text of await numbers(page)) assert.match(text, /^-?[\d.]+ ?(mm|N|°)$/);
  await page.context().close();
});

test('editing a reading changes the verdict at once, and one undo takes the whole edit back', async () => {
  const { page } = await ownJob(stage);
  const lowest = await field(page, 'supply.low', 'Supply');
  await lowest.click();
  await lowest.fill('');
  await lowest.pressSequentially('16 V');
  const stops = page.locator('[data-question="stops"]');
  await page.locator('[data-question="stops"][data-verdict="fails"]').waitFor();
  await page.locator('.finding, [data-keeping="kept"]').first().waitFor();
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.locator('[data-question="stops"][data-verdict="holds"]').waitFor();
  assert.equal(await lowest.inputValue(), '22 V');
  assert.equal(await stops.count(), 1);
  await page.getByRole('button', { name: /Redo/ }).click();
  await page.locator('[data-question="stops"][data-verdict="fails"]').waitFor();
  await page.getByRole('button', { name: /Undo/ }).click();
  await untilWord(page, 'kept');
  await page.context().close();
});

test('a wrong unit is said beside the field, stays as typed, and the last good reading still counts', async () => {
  const { page } = await ownJob(stage);
  const run = await field(page, 'survey.lever.runAngle', 'Survey');
  const answers = () => page.locator('.answer').allTextContents();
  const earlier = await answers();
  await run.fill('62 mm');
  const box = page.locator('[id="field-survey.lever.runAngle"]');
  const said = (await box.locator('.field-error').textContent()) ?? '';
  assert.match(said, /NOT kept.*62 mm.*is a length.*write an angle/);
  assert.match(said, /62° ± 0\.5 still counts/);
  assert.equal(await run.getAttribute('aria-invalid'), 'true');
  await page.locator('.step', { hasText: 'Means' }).click();
  await page.locator('.step', { hasText: '1 Survey' }).click();
  assert.equal(await run.inputValue(), '62 mm');
  assert.deepEqual(await answers(), earlier);
  await run.fill('62°');
  await box.locator('.field-error').waitFor({ state: 'detached' });
  assert.match((await box.locator('.field-note').textContent()) ?? '', /read as 62°/);
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.context().close();
});

test('a contradiction between fields is said beside the field that made it', async () => {
  const { page } = await ownJob(stage);
  const highest = await field(page, 'supply.charging', 'Supply');
  await highest.fill('20 V');
  const error = page.locator('[id="field-supply.charging"] .field-error');
  await error.waitFor();
  assert.match((await error.textContent()) ?? '', /cannot lie under/);
  await error.getByRole('button', { name: 'Discard', exact: true }).click();
  assert.equal(await highest.inputValue(), '28.4 V');
  await page.context().close();
});

test('"not measured" turns the answer to not known and leads back to the field', async () => {
  const { page } = await ownJob(stage);
  await field(page, 'survey.lever.noFuelAngle', 'Survey');
  await page.getByRole('button', { name: 'No-fuel angle: not measured', exact: true }).click();
  await page.locator('[data-verdict="not known"]').first().waitFor();
  await page.getByRole('tab', { name: 'Findings', exact: true }).click();
  const finding = page.locator('.finding.verdict-not-known').first();
  await finding.locator('.finding-head').click();
  await finding.locator('.finding-missing .link').first().click();
  await page.waitForFunction(
    () => (document.activeElement as HTMLElement | null)?.dataset['field'] === 'survey.lever.noFuelAngle',
  );
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.locator('[data-verdict="not known"]').first().waitFor({ state: 'detached' });
  await page.context().close();
});

test('units are a matter of display: nothing that is kept changes', async () => {
  const { page } = await ownJob(stage);
  const kept = async () =>
    (
      await page.request.get(`${stage.address()}/api${new URL(page.url()).pathname.replace('/job/', '/jobs/')}/export`)
    ).text();
  const earlier = await kept();
  await page.getByText('Units and view').click();
  for (const unit of ['in', 'lbf', '°F', 'AWG'])
    await page.locator('.show-menu-box').getByText(unit, { exact: true }).click();
  await page.waitForFunction(() => document.querySelector('.cursor-numbers dd')?.textContent.endsWith(' in') === true);
  await page.waitForFunction(() => /lbf/.test(document.querySelector('.answer-number')?.textContent ?? ''));
  await page.keyboard.press('Escape');
  assert.equal(await page.getByRole('button', { name: /Undo/ }).isDisabled(), true);
  assert.equal(await kept(), earlier);
  await page.reload();
  await page.waitForFunction(() => document.querySelector('.cursor-numbers dd')?.textContent.endsWith(' in') === true);
  await page.context().close();
});

test('a remedy is tried with one tap and taken back with one undo', async () => {
  const { page } = await ownJob(stage, 'Plunger stopped short by the hard stop');
  const failing = page.locator('.finding.verdict-fails').first();
  const id = await failing.getAttribute('data-finding');
  await failing.locator('.finding-head').click();
  await failing.locator('.remedy').first().waitFor();
  await failing.getByRole('button', { name: 'Try it', exact: true }).first().click();
  await page.locator(`[data-finding="${id}"].verdict-holds`).waitFor();
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.locator(`[data-finding="${id}"].verdict-fails`).waitFor();
  await page.context().close();
});
