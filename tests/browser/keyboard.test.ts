import type { Locator, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { mixerAt } from '../api/batches/mixer.ts';
import { inBrowser } from './browser.ts';

/** The page without a mouse: windows give the focus back, nothing loses it, and wherever it is can be seen. */

inBrowser('the keyboard', (shop) => {
  it('opens a window, stays within it, and comes back to what opened it', async () => {
    const { page, context } = await shop().open({ at: 'stock/B73-1120' });
    const act = page
      .getByRole('button', { name: 'Count' })
      .or(page.getByRole('link', { name: 'Count' }))
      .first();
    await enter(page, act);
    await page.getByRole('dialog').waitFor();
    for (let steps = 0; steps < 12; steps += 1) {
      expect(await isBehind(page), 'behind the window').toBe(false);
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await expectFocusOn(page, act);

    await page.goto(`${shop().service.address}/#/blend`);
    const price = page.getByRole('button', { name: /What if .* cost/ }).first();
    await enter(page, price);
    await page.getByRole('dialog').waitFor();
    expect(await isWithin(page, 'dialog')).toBe(true);
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await expectFocusOn(page, price);
    await context.close();
  });

  it('goes on from the neighbor of what has gone', async () => {
    const { page, context } = await shop().open({ at: 'products' });
    await enter(page, page.getByRole('button', { name: 'Withdraw Bratwurst' }));
    const sure = page.getByRole('dialog').getByRole('button', { name: 'Withdraw', exact: true });
    await sure.waitFor();
    for (let steps = 0; steps < 5 && !(await isFocused(sure)); steps += 1) await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'Bratwurst', exact: true }).waitFor({ state: 'detached' });
    await expectFocusKept(page);

    await page.goto(`${shop().service.address}/#/blend`);
    await page.getByLabel('Product').selectOption('hamburger-patties');
    await enter(page, page.getByRole('button', { name: 'Leave B65-1120 out' }));
    await page.getByText('Left out by you').waitFor();
    await page.getByRole('button', { name: 'Leave B65-1120 out' }).waitFor({ state: 'detached' });
    await expect.poll(() => isWithin(page, '.blend')).toBe(true);
    await enter(page, page.getByRole('button', { name: /^Take .* in again$/ }));
    await page.getByText('Left out by you').waitFor({ state: 'detached' });
    await expectFocusKept(page);

    await page.goto(`${shop().service.address}/#/records/logs/cleanings`);
    await enter(page, page.getByRole('button', { name: 'Write a cleaning down' }));
    await page.getByLabel('Equipment').focus();
    await page.keyboard.type('mixer');
    await enter(page, page.getByRole('button', { name: 'Seal the cleaning' }));
    await page.getByRole('row', { name: /mixer/ }).waitFor();
    await expectFocusKept(page);
    await context.close();
  });

  it('weighs a batch and moves between places', async () => {
    const { plan } = mixerAt(shop().service.address);
    const batch = await plan('hamburger-patties', 100);
    const { page, context } = await shop().open({ at: 'batches' });
    await enter(page, page.getByRole('link', { name: new RegExp(batch.id) }).first());
    await page.getByRole('heading', { level: 1, name: batch.id }).waitFor();
    await expectFocusKept(page);
    await enter(page, page.getByRole('main').getByRole('link', { name: 'Weigh' }).last());
    const figure = page.getByLabel('Weight on the scale');
    await figure.waitFor();
    await expectFocusKept(page);
    for (const { perLoad } of batch.lines) {
      await page.getByRole('button', { name: `${perLoad.value} ${perLoad.unit} is in` }).waitFor();
      await figure.focus();
      // What comes at once counts as the second of a double tap.
      await page.waitForTimeout(700);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('heading', { name: 'All is in' }).waitFor();
    await expectFocusKept(page);
    const end = page.getByRole('button', { name: 'All is in' }).last();
    // Not before the last weighing is sent, and the page has read what the books hold now.
    await expect.poll(() => end.isEnabled()).toBe(true);
    await page.waitForLoadState('networkidle');
    await enter(page, end);
    await page.getByRole('link', { name: 'Enter what came out' }).waitFor();
    await expectFocusKept(page);
    await enter(page, page.getByRole('link', { name: 'Stock', exact: true }));
    await page.getByRole('heading', { level: 1, name: 'On hand' }).waitFor();
    await expectFocusKept(page);
    await context.close();
  });

  it.each(['light', 'dark'] as const)('can be seen wherever it is, %s', async (look) => {
    const { page, context } = await shop().open({ at: 'blend', look });
    for (const at of ['blend', 'stock', 'products/house', 'records/tests', 'plant/device', 'rules']) {
      await page.goto(`${shop().service.address}/#/${at}`);
      await page.locator('main h1').first().waitFor();
      await page.locator('.waiting').waitFor({ state: 'detached' });
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
      for (let steps = 0; steps < 30; steps += 1) {
        await page.keyboard.press('Tab');
        expect(await unseenFocus(page), at).toBeUndefined();
      }
    }
    await context.close();
  });
});

async function enter(page: Page, on: Locator): Promise<void> {
  await on.waitFor();
  await on.focus();
  await page.keyboard.press('Enter');
}

const isWithin = (page: Page, selector: string) =>
  page.evaluate((of) => document.activeElement?.closest(of) != null, selector);

/** From a window the browser's own bar can be gone to, which shows as nothing on the page; never what is behind it. */
const isBehind = (page: Page) =>
  page.evaluate(() => {
    const at = document.activeElement;
    return at !== null && at !== document.body && at.closest('dialog') === null;
  });

const isFocused = (of: Locator) => of.evaluate((element) => element === document.activeElement);

const expectFocusOn = (page: Page, of: Locator) =>
  expect.poll(() => isFocused(of), { message: `${of}; it is on ${page.url()}` }).toBe(true);

/** It is somewhere in what is shown, not back at the start of the page. */
const expectFocusKept = (page: Page) => expect.poll(() => isWithin(page, 'main')).toBe(true);

/** The element that has the focus and does not show it; what scrolls by itself is outlined by the browser. */
const unseenFocus = (page: Page) =>
  page.evaluate(() => {
    const element = document.activeElement;
    if (!element || element === document.body) return undefined;
    const { outlineStyle, outlineWidth } = getComputedStyle(element);
    const isShown = outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
    return isShown ? undefined : element.outerHTML.slice(0, 120);
  });
