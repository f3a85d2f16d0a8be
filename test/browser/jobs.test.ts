import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { field, ownJob, ready, setStage, untilWord, type Stage } from './stage.ts';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

test('one button starts a job of one’s own, in which every reading is marked as missing', async () => {
  const page = await stage.open('/');
  await page.getByRole('button', { name: 'Start your own job', exact: true }).click();
  await page.locator('.job-button-name', { hasText: 'New installation' }).waitFor();
  await page.locator('[data-verdict="not known"]').nth(2).waitFor();
  await page.locator('.step-mark.is-open').first().waitFor();
  assert.deepEqual(
    await page.locator('.answer').evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset['verdict'])),
    ['not known', 'not known', 'not known'],
  );
  await (await field(page, 'survey.lever.runAngle', '1 Survey')).fill('60°');
  await untilWord(page, 'kept');
  await page.reload();
  await ready(page);
  assert.equal(await (await field(page, 'survey.lever.runAngle', '1 Survey')).inputValue(), '60°');
  assert.deepEqual(stage.complaints(), []);
  await page.context().close();
});

test('jobs are renamed, copied, deleted, brought back', async () => {
  const { page, context } = await ownJob(stage);
  await page.locator('.job-button').click();
  const open = page.locator('.job.is-open');
  await open.getByRole('button', { name: /^Rename/ }).click();
  await page.getByRole('textbox', { name: /New name/ }).fill('Car 7, "north" end');
  await page.keyboard.press('Enter');
  await page.locator('.job-name', { hasText: 'Car 7, "north" end' }).waitFor();
  await open.getByRole('button', { name: /^Copy/ }).click();
  await page.locator('.job-name', { hasText: 'Car 7, "north" end (copy)' }).waitFor();
  await page.getByRole('button', { name: 'Delete Car 7, "north" end (copy)', exact: true }).click();
  await page.locator('.job-name', { hasText: '(copy)' }).waitFor({ state: 'detached' });
  await page.getByText(/^Deleted \(/).click();
  await page.getByRole('button', { name: 'Bring back Car 7, "north" end (copy)', exact: true }).click();
  await page.locator('.job-name', { hasText: '(copy)' }).waitFor();
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  assert.equal(await page.locator('.job-button-name').textContent(), 'Car 7, "north" end');
  await context.close();
});

test('a job goes out as a file and comes back the same', async () => {
  const { page, context } = await ownJob(stage);
  await page.locator('.job-button').click();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page
      .locator('.job.is-open')
      .getByRole('link', { name: /^Export/ })
      .click(),
  ]);
  const text = readFileSync(await download.path(), 'utf8');
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.locator('dialog.jobs').waitFor({ state: 'detached' });
  await ready(page);
  const id = new URL(page.url()).pathname.slice('/job/'.length);
  assert.equal(await (await page.request.get(`${stage.address()}/api/jobs/${id}/export`)).text(), text);
  await context.close();
});

test('a file that is no job is refused with every problem in words, and nothing else happens', async () => {
  const { page, context } = await ownJob(stage);
  const text = readFileSync(new URL('../../src/job/demos/railcar.json', import.meta.url), 'utf8')
    .replace('"22 V"', '"22 mm"')
    .replace('"30 mΩ"', '"much"');
  await page.locator('.job-button').click();
  await page.locator('.job').first().waitFor();
  const before = await page.locator('.job').count();
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  const trouble = page.locator('dialog .trouble');
  await trouble.waitFor();
  assert.match((await trouble.textContent()) ?? '', /2 problems.*Volts, low:.*22 mm.*Internal resistance:.*much/s);
  assert.equal(await page.locator('.job').count(), before);
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from('{"a":') });
  await page.locator('dialog .trouble', { hasText: 'JSON' }).waitFor();
  stage.complaints();
  await context.close();
});

test('text with markup stays text, wherever it is shown', async () => {
  const { page, context } = await ownJob(stage);
  const nasty = '<img src=x onerror="window.caught=1"><script>window.caught=1</script>&amp;"\'';
  const name = await field(page, 'name', 'Margins, notes');
  await name.fill(nasty);
  await (await field(page, 'notes', 'Margins, notes')).fill(nasty);
  await (await field(page, 'return.springs[0].name', 'Return spring')).fill(nasty);
  await untilWord(page, 'kept');
  await page.waitForFunction(() => document.querySelector('.sheet-drawing svg')?.textContent.includes('<img') === true);
  await page.getByRole('tab', { name: 'Versions', exact: true }).click();
  await page.locator('.version', { hasText: '<img' }).first().waitFor();
  await page.locator('.job-button').click();
  await page.locator('.job-name', { hasText: '<img' }).waitFor();
  await page.reload();
  await ready(page);
  assert.equal(await page.locator('.job-button-name').textContent(), nasty);
  assert.equal(await page.evaluate(() => 'caught' in window), false);
  assert.equal(await page.locator('.results img, .results script, header img, dialog img').count(), 0);
  assert.deepEqual(stage.complaints(), []);
  await context.close();
});

test('rows are added and taken away, kinds switched, each one undo step', async () => {
  const { page, context } = await ownJob(stage);
  await field(page, 'survey.effort.readings[0].pull', '1 Survey');
  const rows = page.locator('[id="field-survey.effort.readings"] > .row');
  const before = await rows.count();
  await page.getByRole('button', { name: `Add reading ${before + 1}`, exact: true }).click();
  await page.waitForFunction(
    (n) => document.querySelectorAll('[id="field-survey.effort.readings"] > .row').length === n,
    before + 1,
  );
  await page.getByRole('button', { name: /^Remove reading 2 of/ }).click();
  await page.waitForFunction(
    (n) => document.querySelectorAll('[id="field-survey.effort.readings"] > .row').length === n,
    before,
  );
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.waitForFunction(
    () => document.querySelector<HTMLButtonElement>('.step-buttons button')?.disabled === true,
  );
  assert.equal(await rows.count(), before);
  await page.locator('.step', { hasText: 'Layout' }).click();
  await page.getByText('Pinned link', { exact: true }).click();
  await page.locator('[data-field="layout.connection.length"]').waitFor();
  assert.equal(await page.locator('[data-field="layout.connection.pinDiameter"]').inputValue(), '8 mm');
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.locator('[data-field="layout.connection.slotFrom"]').waitFor();
  await context.close();
});

test('what is chosen among words and kinds keeps what was entered; what is unknown is marked; defaults follow the volts', async () => {
  const { page, context } = await ownJob(stage);
  const cranking = await field(page, 'supply.cranking', 'Supply');
  assert.equal(await cranking.getAttribute('placeholder'), '15 V');
  const box = (path: string) => page.locator(`[id="field-${path}"]`);
  const choose = (path: string, words: string) => box(path).getByText(words, { exact: true }).click();
  await choose('supply.suppression', 'Diode and resistor');
  await page.locator('[data-field="supply.suppression.resistance"]').fill('47 Ω');
  await choose('supply.suppression', 'Zener');
  await page.locator('[data-field="supply.suppression.voltage"]').waitFor();
  await choose('supply.suppression', 'Not measured');
  await box('supply.suppression.there').getByText('Not measured yet').waitFor();
  const mark = page.locator('.step', { hasText: 'Supply' }).locator('.step-mark');
  assert.match((await mark.textContent()) ?? '', /missing/);
  await choose('supply.suppression', 'Diode and resistor');
  const resistance = page.locator('[data-field="supply.suppression.resistance"]');
  await resistance.waitFor();
  assert.equal(await resistance.inputValue(), '47 Ω');
  assert.ok(await box('supply.suppression.polarity').getByLabel('Cathode to plus').isChecked());
  await choose('supply.fuse', 'None');
  await page.locator('[data-field="supply.fuse.rating"]').waitFor({ state: 'detached' });
  await choose('supply.fuse', 'Fitted');
  assert.equal(await page.locator('[data-field="supply.fuse.rating"]').inputValue(), '30 A');
  await page.getByRole('button', { name: 'Add station 1', exact: true }).click();
  await page.locator('[data-field="supply.stations[0].out.section"]').waitFor();
  await page.getByRole('button', { name: 'Remove station 1 of Further places of control', exact: true }).click();
  await page.locator('[data-field="supply.stations[0].out.section"]').waitFor({ state: 'detached' });
  await page.getByText('12 V', { exact: true }).click();
  await page.locator('[data-field="supply.cranking"][placeholder="9.5 V"]').waitFor();
  assert.match((await box('supply.cranking').textContent()) ?? '', /Default 9\.5 V, ISO 16750-2/);
  await untilWord(page, 'kept');
  await context.close();
});
