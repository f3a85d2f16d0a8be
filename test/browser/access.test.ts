import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { field, laptop, ownJob, phone, setStage, tablet, type Stage } from './stage.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let stage: Stage;
before(async () => {
  stage = await setStage();
});
after(() => stage.close());

/** Rules of WCAG 2.0 to 2.2, levels A and AA, as axe-core checks them. */
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const { violations: found } = await page.evaluate<AxeResults>(
    `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] })`,
  );
  return found
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${String(target)} ${failureSummary ?? ''}`),
    );
}

for (const [name, size] of Object.entries({ laptop, tablet, phone })) {
  for (const colorScheme of ['light', 'dark'] as const) {
    test(`no serious hindrance on a ${name}, ${colorScheme}`, async () => {
      const { page } = await ownJob(stage, 'Plunger stopped short by the hard stop', { ...size, colorScheme });
      const look = async (what: string) => assert.deepEqual(await violations(page), [], what);
      await page.locator('.finding-head').first().click();
      await page.locator('.remedy').first().waitFor();
      await look('results with a finding open');
      const angle = await field(page, 'survey.lever.runAngle', 'Survey');
      await angle.fill('62 mm');
      await page.getByRole('button', { name: 'Lash: not measured', exact: true }).click();
      await look('survey with an error and a missing reading');
      for (const step of ['Means', 'Layout', 'Return spring', 'Supply', 'Surroundings', 'Margins, notes']) {
        await page.locator('.step', { hasText: step }).click();
        await look(`survey, ${step}`);
      }
      await page.getByRole('tab', { name: 'Versions', exact: true }).click();
      await page.locator('.version').last().getByRole('button').click();
      await page.locator('.differences').waitFor();
      await look('versions');
      await page.getByText('Units and view').click();
      await look('units and view');
      await page.keyboard.press('Escape');
      await page.locator('.job-button').click();
      await page.locator('.job').first().waitFor();
      await look('list of jobs');
      await page.context().close();
    });
  }
}

for (const [name, size] of Object.entries({ laptop, tablet, phone })) {
  test(`on a ${name} nothing is wider than the screen, and what can be pressed is at least 44 pixels`, async () => {
    const { page } = await ownJob(stage, 'Inspection railcar', size);
    const wide = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.equal(await wide(), 0);
    for (const tab of ['Survey', 'Versions', 'Findings']) {
      await page.getByRole('tab', { name: tab, exact: true }).click();
      await page.locator('.side-panel li, .side-panel .field').first().waitFor();
      assert.equal(await wide(), 0, tab);
      const small = await page.evaluate(() =>
        [
          ...document.querySelectorAll<HTMLElement>(
            'button, summary, .option, input[type="range"], input[type="text"], textarea, a.button',
          ),
        ]
          .filter((one) => one.checkVisibility() && !one.classList.contains('link'))
          .map((one) => [one.getBoundingClientRect(), one.textContent || one.getAttribute('aria-label')] as const)
          .filter(([{ height, width }]) => height < 43.5 || width < 43.5)
          .map(([{ width, height }, words]) => `${words}: ${Math.round(width)} × ${Math.round(height)}`),
      );
      assert.deepEqual(small, [], tab);
    }
    await page.context().close();
  });
}

test('reduced motion: nothing moves by itself', async () => {
  const { page } = await ownJob(stage, 'Inspection railcar', { ...laptop, reducedMotion: 'reduce' });
  assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), 'auto');
  assert.equal(await page.evaluate(() => document.getAnimations().length), 0);
  await page.context().close();
});

test('everything in the first view is reached with the tab key, with a visible mark of where one is', async () => {
  const { page } = await ownJob(stage);
  const seen = new Set<string>();
  for (let i = 0; i < 60; i += 1) {
    await page.keyboard.press('Tab');
    const { name, outline } = await page.evaluate(() => {
      const one = document.activeElement as HTMLElement;
      const style = getComputedStyle(one);
      return {
        name: one.getAttribute('aria-label') ?? one.id ?? one.textContent,
        outline: style.outlineStyle === 'none' ? 0 : Number.parseFloat(style.outlineWidth),
      };
    });
    if (name !== '') assert.ok(outline >= 2, `${name} shows that it has the focus`);
    seen.add(name);
  }
  for (const wanted of ['travel', /^home pin/, /^plunger pin/, /^anchor of/, 'tab-findings']) {
    assert.ok(
      [...seen].some((name) => (typeof wanted === 'string' ? name === wanted : wanted.test(name))),
      String(wanted),
    );
  }
  await page.context().close();
});

test('the drawings have a text twin', async () => {
  const { page } = await ownJob(stage);
  for (const drawing of await page.locator('.sheet-drawing svg').all()) {
    const ids = ((await drawing.getAttribute('aria-labelledby')) ?? '').split(' ');
    const words = await Promise.all(ids.map((id) => page.locator(`[id="${id}"]`).textContent()));
    assert.ok(words.join(' ').length > 80, words.join(' '));
  }
  await page.context().close();
});
