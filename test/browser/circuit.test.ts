import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { field, laptop, ownJob, phone, setStage, tablet, untilWord, type Stage } from './stage.ts';
import { assertUsable } from './usable.ts';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

async function openCircuit(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Circuit', exact: true }).click();
  await page.locator('[data-circuit="there"] svg').waitFor();
  await page.locator('[data-study="there"]').waitFor();
}

const words = (page: Page): Promise<string[]> => page.locator('.circuit-sheet svg text').allTextContents();

/** The drawing once its title says so. */
async function untilTitle(page: Page, title: string): Promise<string[]> {
  await page.locator('.circuit-sheet svg > title', { hasText: title }).waitFor({ state: 'attached' });
  return words(page);
}

test('the circuit is drawn with volts and amps, and follows the choice of source, stage and coil', async () => {
  const { page, context } = await ownJob(stage);
  await openCircuit(page);
  const pullIn = await untilTitle(page, 'Circuit: pull-in, low battery, hot coil');
  assert.ok(pullIn.includes('22.00 V open'), pullIn.join(' | '));
  assert.ok(pullIn.includes('16.7 A'), pullIn.join(' | '));
  await page.getByRole('radio', { name: 'Hold', exact: true }).check();
  const hold = await untilTitle(page, 'Circuit: hold, low battery, hot coil');
  assert.ok(!hold.includes('16.7 A'), 'the pull-in current is gone in hold');
  await page.getByRole('radio', { name: 'Charging', exact: true }).check();
  await page.getByRole('radio', { name: 'Cold', exact: true }).check();
  const charging = await untilTitle(page, 'Circuit: hold, charging, cold coil');
  assert.ok(charging.includes('28.40 V open'), charging.join(' | '));
  await page.getByRole('radio', { name: 'Off', exact: true }).check();
  const off = await untilTitle(page, 'Circuit: off, charging, cold coil');
  assert.ok(off.includes('0 A'), off.join(' | '));
  await context.close();
});

test('by keyboard alone: arrows choose, tab reaches a part, enter goes to its field', async () => {
  const { page, context } = await ownJob(stage);
  await openCircuit(page);
  await page.getByRole('radio', { name: 'Pull-in', exact: true }).focus();
  await page.keyboard.press('ArrowRight');
  await untilTitle(page, 'Circuit: hold, low battery, hot coil');
  await page.getByRole('button', { name: 'Conductor out: go to its field', exact: true }).focus();
  await page.keyboard.press('Enter');
  const section = page.locator('[data-field="supply.out.section"]');
  await section.waitFor();
  assert.equal(await section.inputValue(), '6 mm²');
  await context.close();
});

test('every part leads to a field that is on the screen', async () => {
  const { page, context } = await ownJob(stage);
  await openCircuit(page);
  const names = await page
    .locator('[data-target]')
    .evaluateAll((all) => all.map((one) => one.getAttribute('data-target')));
  assert.ok(names.length >= 10, names.join(', '));
  for (const name of names) {
    await page.getByRole('tab', { name: 'Circuit', exact: true }).click();
    await page.locator(`[data-target="${name}"]`).click();
    await page
      .locator('.side-panel .step[aria-current], .side-panel [aria-expanded="true"], .side-panel .field')
      .first()
      .waitFor();
    await page.waitForFunction(() => {
      const { activeElement } = document;
      return (
        activeElement !== null
        && activeElement !== document.body
        && document.querySelector('.side-panel')?.contains(activeElement)
      );
    });
  }
  assert.deepEqual(stage.complaints(), []);
  await context.close();
});

test('one tap tries a conductor as a named change, the verdicts follow, and undo takes it back', async () => {
  const { page, context } = await ownJob(stage);
  await openCircuit(page);
  const laid = page.locator('.circuit-table .is-laid');
  assert.match((await laid.textContent()) ?? '', /6 mm².*20\.58 V.*Holds/);
  assert.match((await page.locator('.circuit-smallest').first().textContent()) ?? '', /6 mm² in every state/);
  await page.getByRole('button', { name: 'Try 1.5 mm²', exact: true }).click();
  await laid.filter({ hasText: '1.5 mm²' }).waitFor();
  assert.match((await laid.textContent()) ?? '', /19\.19 V.*Fails/);
  // Drawing and table are made by two workers: either may be first.
  await page
    .locator('.circuit-sheet svg text', { hasText: /^1\.5 mm²/ })
    .first()
    .waitFor();
  const drawn = await untilTitle(page, 'pull-in');
  assert.ok(
    drawn.some((text) => text.startsWith('1.5 mm²')),
    drawn.join(' | '),
  );
  await untilWord(page, 'kept');
  const undo = page.locator('.step-buttons button').first();
  assert.equal(await undo.getAttribute('title'), 'Undo: Conductors of 1.5 mm², out and back');
  await undo.click();
  await laid.filter({ hasText: '6 mm²' }).waitFor();
  await context.close();
});

test('wire gauges are listed for whoever has chosen them', async () => {
  const { page, context } = await ownJob(stage);
  await openCircuit(page);
  await page.getByText('Units and view').click();
  await page.getByRole('radio', { name: 'AWG', exact: true }).check();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Try 8 AWG', exact: true }).click();
  await page.locator('.circuit-table .is-laid', { hasText: '8 AWG' }).waitFor();
  await context.close();
});

test('a reading that was not taken is named and leads to its field', async () => {
  const { page, context } = await ownJob(stage);
  const length = await field(page, 'supply.out.length', 'Supply');
  await length.waitFor();
  await page.getByRole('button', { name: 'Length: not measured', exact: true }).first().click();
  await openCircuit(page);
  const drawn = await untilTitle(page, 'pull-in');
  assert.ok(drawn.includes('? V') && drawn.includes('? A'), drawn.join(' | '));
  await page.getByRole('region', { name: 'Readings to take', exact: true }).getByRole('button').first().click();
  await page.locator('[data-field="supply.out.length"]').waitFor();
  await context.close();
});

test('a hand cable says that it has no circuit', async () => {
  const { page, context } = await ownJob(stage, 'Chain ferry auxiliary');
  await page.getByRole('tab', { name: 'Circuit', exact: true }).click();
  await page.getByText('This job has no solenoid, and so no circuit.').waitFor();
  await context.close();
});

for (const [name, size] of Object.entries({ laptop, tablet, phone }))
  for (const colorScheme of ['light', 'dark'] as const)
    test(`on a ${name}, ${colorScheme}: nothing wider than the screen, targets of 44 pixels, no serious hindrance`, async () => {
      const { page, context } = await ownJob(stage, 'Drainage pump house', { ...size, colorScheme });
      await openCircuit(page);
      await assertUsable(page, '.circuit-panel button, .circuit-panel .option');
      const folder = process.env['CIRCUIT_PICTURES'];
      if (folder !== undefined)
        await page.locator('.side').screenshot({ path: `${folder}/${name}-${colorScheme}.png` });
      await context.close();
    });
