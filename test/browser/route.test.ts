import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { laptop, ownJob, phone, setStage, tablet, untilWord, type Stage } from './stage.ts';
import { assertUsable } from './usable.ts';

const FERRY = 'Chain ferry auxiliary';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

interface Corner {
  readonly x: string;
  readonly y: string;
  readonly z: string;
}

async function openRoute(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Route', exact: true }).click();
  await page.locator('.route-sheet-route .handle').first().waitFor();
  await page.locator('.route-corner', { hasText: 'costs' }).first().waitFor();
}

async function routeOf(page: Page, id: string): Promise<readonly Corner[]> {
  await untilWord(page, 'kept');
  const job = (await (await page.request.get(`${stage.address()}/api/jobs/${id}/export`)).json()) as {
    means: { route: Corner[] };
  };
  return job.means.route;
}

const effort = (page: Page) => page.locator('.route-outcome > li').first().textContent();
const untilEffort = (page: Page, is: 'changed' | 'same', words: string | null) =>
  page.waitForFunction(
    ([said, wanted]) => (document.querySelector('.route-outcome > li')?.textContent === said) === (wanted === 'same'),
    [words, is] as const,
  );
const casing = (page: Page) => page.getByRole('button', { name: /^corner 3, Round the casing, in plan/ });

/** The pull in the hand, worn and cold, N: of the whole sentence the one number that a change of the route is made for. */
async function pull(page: Page): Promise<number> {
  const said = (await effort(page)) ?? '';
  const read = /([\d.]+) N at the handle when worn and cold/.exec(said)?.[1];
  assert.ok(read !== undefined, said);
  return Number(read);
}

/** Readings at the handle settle the friction anew for every route, so that the pull stays as read; without them it follows. */
async function withoutReadings(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Survey', exact: true }).click();
  await page.locator('.step', { hasText: /\d Means/ }).click();
  const out = page.getByRole('button', { name: /^Leave out: .*handle/i });
  await out.click();
  await out.waitFor({ state: 'detached' });
}

const undo = (page: Page) => page.getByRole('button', { name: /Undo/ }).first();

async function drag(page: Page, dx: number, dy: number): Promise<void> {
  await casing(page).scrollIntoViewIfNeeded();
  const box = (await casing(page).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx, y + dy, { steps: 12 });
}

test('a corner that is dragged changes the effort at the handle under the finger, and is one undo step', async () => {
  const { page, id, context } = await ownJob(stage, FERRY);
  await withoutReadings(page);
  await openRoute(page);
  const asked = await pull(page);
  const [words, before] = [await effort(page), await routeOf(page, id)];
  await drag(page, 0, -25);
  await untilEffort(page, 'changed', words);
  await page.mouse.up();
  // Nearer to two right angles it turns through more, and friction takes its share of each degree.
  await page.waitForFunction(
    (least) =>
      Number(/([\d.]+) N at/.exec(document.querySelector('.route-outcome > li')?.textContent ?? '')?.[1]) > least,
    asked,
  );
  const later = await routeOf(page, id);
  assert.ok(Number.parseFloat(later[3].y) > Number.parseFloat(before[3].y) + 50, `${before[3].y} → ${later[3].y}`);
  assert.equal(later[3].z, before[3].z, 'the plan does not move a height');
  assert.match((await undo(page).getAttribute('title')) ?? '', /Moved: corner 3, Round the casing, in plan/);
  await undo(page).click();
  await untilEffort(page, 'same', words);
  assert.equal(await pull(page), asked);
  assert.deepEqual(await routeOf(page, id), before);
  assert.match((await undo(page).getAttribute('title')) ?? '', /readings at the handle/i, 'it was one step');
  await context.close();
});

test('Escape in the middle of a drag leaves the route as it was', async () => {
  const { page, id, context } = await ownJob(stage, FERRY);
  await openRoute(page);
  const [words, before] = [await effort(page), await routeOf(page, id)];
  await drag(page, 10, -25);
  await untilEffort(page, 'changed', words);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await page.locator('.notice', { hasText: 'left where it was' }).waitFor();
  assert.deepEqual(await routeOf(page, id), before);
  assert.ok(await undo(page).isDisabled());
  await context.close();
});

test('arrow keys move a corner by 1 mm, with shift 10, with alt 0.1; coordinates can be typed', async () => {
  const { page, id, context } = await ownJob(stage, FERRY);
  await openRoute(page);
  const x = async () => Number.parseFloat((await routeOf(page, id))[3].x);
  let expected = await x();
  for (const [key, by] of [
    ['ArrowRight', 1],
    ['Shift+ArrowRight', 10],
    ['Alt+ArrowLeft', -0.1],
  ] as const) {
    await casing(page).focus();
    await page.keyboard.press(key);
    expected += by;
    assert.ok(Math.abs((await x()) - expected) < 1e-6, `${key}: ${expected} expected, ${await x()} there`);
  }
  const words = await effort(page);
  const typed = page.locator('[data-field="means.route[3].y"]');
  await typed.fill('1300 mm');
  await typed.press('Enter');
  await untilEffort(page, 'changed', words);
  assert.equal((await routeOf(page, id))[3].y, '1300 mm');
  await context.close();
});

test('a corner is added and taken away; the bend that costs most says so', async () => {
  const { page, id, context } = await ownJob(stage, FERRY);
  await openRoute(page);
  const dearest = page.locator('.route-corner', { has: page.locator('.route-dearest') });
  assert.match((await dearest.textContent()) ?? '', /Under the deck.*costs/s);
  const before = await routeOf(page, id);
  await page.locator('.route-corner', { hasText: 'Under the deck' }).click();
  await page.getByRole('button', { name: 'Add a corner after it', exact: true }).click();
  await page.locator('.route-corner').nth(7).waitFor();
  const added = await routeOf(page, id);
  assert.deepEqual(added[2], { x: '950 mm', y: '0 mm', z: '900 mm', radius: '250 mm' });
  await page.getByRole('button', { name: 'Take this corner away', exact: true }).click();
  await page.locator('.route-corner').nth(7).waitFor({ state: 'detached' });
  assert.deepEqual(await routeOf(page, id), before);
  await context.close();
});

test('a job without a cable has no such tab; an empty route begins with handle and lever as far apart as surveyed', async () => {
  const railcar = await ownJob(stage, 'Inspection railcar');
  assert.equal(await railcar.page.getByRole('tab', { name: 'Route', exact: true }).count(), 0);
  await railcar.context.close();
  const { page, id, context } = await ownJob(stage, FERRY);
  await openRoute(page);
  for (let left = 5; left > 0; left -= 1) {
    await page.locator('.route-corner').nth(1).click();
    await page.getByRole('button', { name: 'Take this corner away', exact: true }).click();
    await page
      .locator('.route-corner')
      .nth(left + 1)
      .waitFor({ state: 'detached' });
  }
  await page.getByRole('tab', { name: 'Survey', exact: true }).click();
  await page.locator('.step', { hasText: /\d Means/ }).click();
  for (let left = 2; left > 0; left -= 1) {
    const remove = page.getByRole('button', { name: /^Remove .* of Route from handle to lever$/ });
    await remove.last().click();
    await remove.nth(left - 1).waitFor({ state: 'detached' });
  }
  await page.getByRole('tab', { name: 'Route', exact: true }).click();
  await page.getByRole('button', { name: 'Draw the run', exact: true }).click();
  await page.locator('.route-sheet-route .handle').first().waitFor();
  const ends = await routeOf(page, id);
  assert.deepEqual(
    ends.map(({ x, y, z }) => [x, y, z]),
    [
      ['0 m', '0 m', '0 m'],
      ['6.5 m', '0 m', '0 m'],
    ],
  );
  await context.close();
});

for (const [name, size] of Object.entries({ laptop, tablet, phone }))
  test(`on a ${name}: nothing wider than the screen, targets of 44 pixels, a text twin, no serious hindrance`, async () => {
    const { page, context } = await ownJob(stage, FERRY, size);
    await openRoute(page);
    await assertUsable(page, '.route-panel button, .route-panel input');
    for (const drawing of await page.locator('.route-panel .sheet-drawing svg').all()) {
      const ids = ((await drawing.getAttribute('aria-labelledby')) ?? '').split(' ');
      const words = await Promise.all(ids.map((one) => page.locator(`[id="${one}"]`).textContent()));
      assert.ok(words.join(' ').length > 80, words.join(' '));
    }
    await context.close();
  });
