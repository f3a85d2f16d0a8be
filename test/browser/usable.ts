/** What every page must be: no wider than the screen, its targets large enough for a thumb, without serious hindrance. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Serious and critical breaches of WCAG 2.0 to 2.2, levels A and AA, in what the selectors name, as axe-core finds them. */
export async function seriousIn(page: Page, ...selectors: readonly string[]): Promise<string[]> {
  await page.evaluate(axe);
  const within = JSON.stringify({ include: selectors.map((one) => [one]) });
  const { violations } = await page.evaluate<AxeResults>(
    `axe.run(${within}, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] })`,
  );
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`));
}

/** @param targets selector of what is tapped or typed into; links within text are left out */
export async function assertUsable(page: Page, targets: string): Promise<void> {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0);
  const small = await page.evaluate(
    (selector) =>
      [...document.querySelectorAll<HTMLElement>(selector)]
        .filter((one) => one.checkVisibility() && !one.classList.contains('link'))
        .map((one) => [one.getBoundingClientRect(), one.textContent || one.getAttribute('aria-label')] as const)
        .filter(([{ height, width }]) => height < 43.5 || width < 43.5)
        .map(([{ width, height }, said]) => `${said}: ${Math.round(width)} × ${Math.round(height)}`),
    targets,
  );
  assert.deepEqual(small, []);
  assert.deepEqual(await seriousIn(page, '.side'), []);
}
