import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { field, laptop, ownJob, phone, setStage, tablet, type Stage } from './stage.ts';
import { seriousIn } from './usable.ts';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

/** Its pulls are known at every current that flows, so that it can be followed in time. */
const FOLLOWED = 'Drainage pump house';

async function openTime(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Time and heat', exact: true }).click();
  await page.locator('[data-times="there"]').waitFor({ state: 'attached' });
}

const sheet = (page: Page, name: string) => page.locator(`.time-sheet-${name} svg`);

/** Words of a sheet, in the order of its parts. */
const wordsOf = (page: Page, name: string): Promise<string[]> => sheet(page, name).locator('text').allTextContents();

test('the tab shows both corners with what becomes of them, and one of them alone on demand', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  await openTime(page);
  await sheet(page, 'pull-in').waitFor();
  const outcomes = await page.locator('.time-outcomes li').allTextContents();
  assert.equal(outcomes.length, 2);
  for (const said of outcomes) assert.match(said, /comes home after [\d.]+ ms/);
  const both = await sheet(page, 'pull-in').locator('[data-part^="gap-"] path').count();
  await page.getByRole('radio', { name: 'Weakest', exact: true }).check();
  await sheet(page, 'pull-in').locator('[data-part="gap-strongest"]').waitFor({ state: 'detached' });
  assert.equal(await sheet(page, 'pull-in').locator('[data-part="gap-weakest"]').count(), 1);
  assert.ok(both > 1, 'both were drawn before');
});

test('letting go stands side by side for each kind of suppression, in a table and in curves; the fitted one says so', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  await openTime(page);
  const rows = page.locator('.time-table tbody tr');
  await rows.first().waitFor();
  const cells = await rows.evaluateAll((all) =>
    all.map((row) => [...row.querySelectorAll('th, td')].map((cell) => cell.textContent ?? '')),
  );
  const named = (start: string): string[] => cells.find(([name]) => name?.startsWith(start)) ?? [];
  const ms = (cell: string | undefined): number => Number(/^([\d.]+) ms$/.exec(cell ?? '')?.[1]);
  assert.match(named('Diode')[0] ?? '', /fitted$/);
  // A diode lets the current run on, so it comes back last and with the least volts; nothing at all is the other extreme.
  assert.ok(ms(named('Diode')[2]) > ms(named('Zener')[2]), JSON.stringify(cells));
  assert.ok(ms(named('Zener')[2]) > ms(named('Nothing')[2]), JSON.stringify(cells));
  const volts = (row: readonly string[]): number => Number(/^([\d.]+) V$/.exec(row[4] ?? '')?.[1]);
  assert.ok(volts(named('Nothing')) > volts(named('Zener')) && volts(named('Zener')) > volts(named('Diode')));
  for (const start of ['Nothing', 'Diode', 'Zener'])
    assert.ok(
      (await wordsOf(page, 'release')).some((said) => said.startsWith(start.toLowerCase())),
      start,
    );
});

test('the heat picture and the traces follow a change of the job', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  await openTime(page);
  await sheet(page, 'heat').waitFor();
  const before = await wordsOf(page, 'heat');
  assert.ok(before.includes('time (logarithmic)'), before.join(' | '));
  const wire = await field(page, 'means.body.wireDiameter', 'Means');
  await wire.fill('0.9 mm');
  await wire.press('Tab');
  await openTime(page);
  await page.waitForFunction(
    (old) =>
      [...document.querySelectorAll('.time-sheet-heat svg text')].map((text) => text.textContent).join('|') !== old,
    before.join('|'),
  );
});

test('temperatures stand in the degrees of the reader', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  await openTime(page);
  await sheet(page, 'heat').waitFor();
  await page.locator('.show-menu summary').click();
  await page.getByRole('radio', { name: '°F', exact: true }).check();
  await sheet(page, 'heat').getByText('Temperature, °F').waitFor();
});

test('a run is saved as a table with units in its heading', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  await openTime(page);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save “weakest” as a table (CSV)', exact: true }).click(),
  ]);
  assert.equal(download.suggestedFilename(), 'drainage-pump-house-weakest.csv');
  const rows = readFileSync(await download.path(), 'utf8')
    .replace(/^\u{FEFF}/u, '')
    .trimEnd()
    .split('\r\n');
  assert.equal(rows[0], 'time (s),supply current (A),gap (mm),terminal volts (V),coil temperature (°C)');
  assert.ok(rows.length > 100, `${rows.length} rows`);
  assert.match(rows[1] ?? '', /^0,0,/);
});

test('what is missing is named with the way to it; a job without solenoid says that', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  const wire = await field(page, 'means.body.wireDiameter', 'Means');
  await wire.fill('not measured');
  await wire.press('Tab');
  await openTime(page);
  const link = page.locator('.time-missing .link', { hasText: 'wire' });
  await link.click();
  assert.equal(await page.getByRole('tab', { name: 'Survey', exact: true }).getAttribute('aria-selected'), 'true');
  const { page: cable } = await ownJob(stage, 'Chain ferry auxiliary');
  await openTime(cable);
  await cable.getByText('This job has no solenoid').waitFor();
});

test('at every width, light and dark, nothing runs out of the panel and nothing serious is found by axe', async () => {
  for (const [options, colorScheme] of [
    [laptop, 'light'],
    [tablet, 'dark'],
    [phone, 'dark'],
  ] as const) {
    const { page, context } = await ownJob(stage, FOLLOWED, { ...options, colorScheme });
    await openTime(page);
    await sheet(page, 'heat').waitFor();
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(wide <= 0, `${options.viewport.width}: ${wide} px too wide`);
    const small = await page
      .locator('.time-panel button, .time-panel .button, .time-panel .option')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 43.5).map((one) => one.outerHTML));
    assert.deepEqual(small, []);
    // The handles of the drawings are looked at by the test of the page.
    assert.deepEqual(await seriousIn(page, '.side', '.title-strip'), []);
    await context.close();
  }
});

/** A rise, a dip at 42 ms, the fall to hold at 45 ms; 10 kHz, switched on 20 ms after the start. Shape by formula, no solver. */
function recorded(heading: string, unit = 1): string {
  const rows = Array.from({ length: 3000 }, (_, i) => {
    const t = i / 10_000 - 0.02;
    const risen = 22 * (1 - Math.exp(-t / 0.012));
    const dip = (at: number): number => 0.4 * ((Math.min(at, 0.042) - 0.02) / 0.022) ** 2;
    const moving = t < 0.02 ? 1 : t < 0.042 ? 1 - dip(t) : 1 - dip(t) * Math.exp(-(t - 0.042) / 0.006);
    const amps = t < 0 ? 0 : t > 0.045 ? 1.1 + 13 * Math.exp(-(t - 0.045) / 0.0004) : risen * moving;
    // Noise of a clamp: the same each time, from the digits of the golden ratio.
    const noise = 0.15 * (((i * 0.618034) % 1) - 0.5);
    return `${(i / 10_000).toFixed(4)},${((amps + noise) * unit).toFixed(4)}`;
  });
  return [heading, ...rows].join('\n');
}

const choose = (page: Page, name: string, text: string): Promise<void> =>
  page.locator('.time-measured input[type="file"]').setInputFiles({
    name,
    mimeType: 'text/csv',
    buffer: Buffer.from(text),
  });

test('a recorded current is laid over the reckoned one with its words and how far they can be believed', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  await openTime(page);
  await choose(page, 'stop-coil.csv', recorded('time (s),current (A)'));
  await page.locator('[data-measured="there"]').waitFor();
  const said = (await page.locator('.time-measured b').textContent()) ?? '';
  const [home, works] = [...said.matchAll(/([\d.]+) ms/g)].map((match) => Number(match[1]));
  assert.match(said, /^Came home at .*; the current fell to .* as an end switch makes it/);
  assert.ok(Math.abs((home ?? 0) - 42) < 1.5 && Math.abs((works ?? 0) - 45) < 1.5, said);
  assert.match((await page.locator('.time-events li').first().textContent()) ?? '', /\(\d+ %\)$/);
  await sheet(page, 'pull-in').locator('[data-part="current-measured"] path').waitFor();
  assert.ok((await wordsOf(page, 'pull-in')).includes('stop-coil.csv'));
  await page.getByRole('button', { name: 'Take it away', exact: true }).click();
  await sheet(page, 'pull-in').locator('[data-part="current-measured"]').waitFor({ state: 'detached' });
});

test('a file in volts asks what a volt means, one that is no table says why it cannot be read', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  await openTime(page);
  await choose(page, 'clamp.csv', recorded('time (s),clamp (V)', 0.01));
  await page.locator('[data-measured="failed"]').waitFor();
  await page.getByLabel('One volt of the clamp means').fill('100');
  await page.getByRole('button', { name: 'Read again', exact: true }).click();
  await page.locator('[data-measured="there"]').waitFor();
  await choose(page, 'letter.txt', 'Dear sir,\nthe engine does not stop.\n');
  await page.locator('[data-measured="failed"]').waitFor();
  assert.match((await page.locator('.time-measured .field-error').textContent()) ?? '', /letter.txt could not be read/);
  await page.getByRole('button', { name: 'Take it away', exact: true }).click();
  await page.locator('[data-measured="none"]').waitFor();
});

test('what takes long shows that, can be stopped, and is begun again on demand', async () => {
  const { page } = await ownJob(stage, FOLLOWED);
  let letThrough = (): void => undefined;
  const gate = new Promise<void>((resolve) => (letThrough = resolve));
  // Its worker does not arrive: as long as the slowest machine.
  await page.route('**/assets/worker-*.js', async (route) => {
    await gate;
    await route.continue().catch(() => undefined);
  });
  await page.getByRole('tab', { name: 'Time and heat', exact: true }).click();
  await page.locator('[data-times="slow"] progress').waitFor();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.locator('[data-times="stopped"]').waitFor();
  letThrough();
  await page.getByRole('button', { name: 'Reckon now', exact: true }).click();
  await sheet(page, 'pull-in').waitFor();
  assert.equal(await page.locator('.time-outcomes li').count(), 2);
});

test('pages complained about nothing', () => assert.deepEqual(stage.complaints(), []));
