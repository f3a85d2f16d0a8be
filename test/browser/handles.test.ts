import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { ownJob, setStage, tablet, untilWord, type Stage } from './stage.ts';

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

interface Doc {
  readonly layout: { readonly homePin: { readonly x: string; readonly y: string } };
  readonly return: { readonly springs: readonly [{ readonly anchor: { readonly x: string; readonly y: string } }] };
}

async function kept(page: Page, id: string): Promise<Doc> {
  await untilWord(page, 'kept');
  return (await (await page.request.get(`${stage.address()}/api/jobs/${id}/export`)).json()) as Doc;
}

const anchor = (page: Page) => page.getByRole('button', { name: /^anchor of/ });
const undoName = (page: Page) => page.getByRole('button', { name: /Undo/ }).getAttribute('title');

async function drag(page: Page, dx: number, dy: number, let_go: boolean): Promise<void> {
  const box = (await anchor(page).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx, y + dy, { steps: 12 });
  if (let_go) await page.mouse.up();
}

test('dragging an anchor changes the reading and the numbers, and is one undo step with a name', async () => {
  const { page, id, context } = await ownJob(stage);
  const earlier = (await kept(page, id)).return.springs[0].anchor;
  const number = () => page.locator('.cursor-numbers dd').last().textContent();
  const force = await number();
  await drag(page, 30, -12, false);
  await page.waitForFunction(
    (text) => document.querySelector('.cursor-numbers > div:last-child dd')?.textContent !== text,
    force,
  );
  await page.mouse.up();
  const later = (await kept(page, id)).return.springs[0].anchor;
  assert.ok(Number.parseFloat(later.x) > Number.parseFloat(earlier.x) + 2, `${earlier.x} → ${later.x}`);
  assert.ok(Number.parseFloat(later.y) > Number.parseFloat(earlier.y) + 1, `${earlier.y} → ${later.y}`);
  assert.match((await undoName(page)) ?? '', /Undo: Moved: anchor of/);
  await page.getByRole('button', { name: /Undo/ }).click();
  await page.waitForFunction(
    (text) => document.querySelector('.cursor-numbers > div:last-child dd')?.textContent === text,
    force,
  );
  assert.deepEqual((await kept(page, id)).return.springs[0].anchor, earlier);
  assert.ok(await page.getByRole('button', { name: /Undo/ }).isDisabled(), 'it was one step');
  await context.close();
});

test('Escape in the middle of a drag leaves everything as it was, with nothing to undo or to do again', async () => {
  const { page, id, context } = await ownJob(stage);
  const earlier = await kept(page, id);
  await drag(page, 40, 20, false);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await page.locator('.notice', { hasText: 'left where it was' }).waitFor();
  assert.deepEqual(await kept(page, id), earlier);
  assert.ok(await page.getByRole('button', { name: /Undo/ }).isDisabled());
  assert.ok(await page.getByRole('button', { name: /Redo/ }).isDisabled());
  await context.close();
});

test('arrow keys move a handle by 1 mm, with shift 10, with alt 0.1', async () => {
  const { page, id, context } = await ownJob(stage);
  const x = async () => Number.parseFloat((await kept(page, id)).layout.homePin.x);
  const start = await x();
  const pin = page.getByRole('button', { name: /^home pin/ });
  let expected = start;
  for (const [key, by] of [
    ['ArrowRight', 1],
    ['Shift+ArrowLeft', -10],
    ['Alt+ArrowRight', 0.1],
  ] as const) {
    await pin.focus();
    await page.keyboard.press(key);
    expected += by;
    assert.ok(Math.abs((await x()) - expected) < 1e-6, `${key}: ${expected} expected, ${await x()} there`);
  }
  for (let i = 0; i < 3; i += 1) await page.getByRole('button', { name: /Undo/ }).click();
  assert.equal(await x(), start);
  assert.ok(await page.getByRole('button', { name: /Undo/ }).isDisabled());
  await context.close();
});

test('the value behind a handle can be typed', async () => {
  const { page, context } = await ownJob(stage);
  await page.getByRole('button', { name: /^home pin/ }).focus();
  await page.locator('.handle-words').getByRole('button', { name: 'Type it', exact: true }).click();
  await page.waitForFunction(
    () => (document.activeElement as HTMLElement | null)?.dataset['field'] === 'layout.homePin.x',
  );
  await context.close();
});

test('by touch: one finger drags the handle, a second finger takes it back as if nothing had been', async () => {
  const { page, id, context } = await ownJob(stage, 'Inspection railcar', tablet);
  const session = await context.newCDPSession(page);
  const touch = (
    type: 'touchStart' | 'touchMove' | 'touchEnd',
    ...touchPoints: { x: number; y: number; id: number }[]
  ) => session.send('Input.dispatchTouchEvent', { type, touchPoints });
  const earlier = (await kept(page, id)).return.springs[0].anchor;
  const middle = async () => {
    const box = await anchor(page).boundingBox();
    return { x: (box?.x ?? 0) + 22, y: (box?.y ?? 0) + 22 };
  };
  const from = await middle();
  await touch('touchStart', { ...from, id: 0 });
  for (let i = 1; i <= 8; i += 1) await touch('touchMove', { x: from.x + 4 * i, y: from.y - i, id: 0 });
  await touch('touchEnd');
  await page.waitForFunction(
    () => document.querySelector<HTMLButtonElement>('.step-buttons button')?.disabled === false,
  );
  const later = (await kept(page, id)).return.springs[0].anchor;
  assert.ok(Number.parseFloat(later.x) > Number.parseFloat(earlier.x) + 2, `${earlier.x} → ${later.x}`);
  await page.getByRole('button', { name: /Undo/ }).click();
  assert.deepEqual((await kept(page, id)).return.springs[0].anchor, earlier);

  const again = await middle();
  await touch('touchStart', { ...again, id: 0 });
  for (let i = 1; i <= 8; i += 1) await touch('touchMove', { x: again.x + 4 * i, y: again.y - i, id: 0 });
  await touch('touchStart', { x: again.x + 32, y: again.y - 8, id: 0 }, { x: 200, y: 200, id: 1 });
  await touch('touchEnd');
  await page.locator('.notice', { hasText: 'left where it was' }).waitFor();
  assert.deepEqual((await kept(page, id)).return.springs[0].anchor, earlier);
  assert.ok(await page.getByRole('button', { name: /Undo/ }).isDisabled());
  await context.close();
});
