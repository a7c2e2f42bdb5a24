import { expect, it } from 'vitest';
import { expectTouchable, inBrowser, look, SIZES } from './browser.ts';

inBrowser('rules', (shop) => {
  it('are found, read and asked for another market and day', async () => {
    const { page, complaints } = await shop().open({ at: 'rules', size: 'desk' });
    await page.getByRole('searchbox', { name: 'Search all limits' }).fill('nitrite comminuted');
    await page.getByText('Ingoing nitrite in chopped or ground cured meat is at most 156 ppm').waitFor();
    await look(page, 'rules-search-desk');
    await page.getByRole('searchbox').fill('unheard of');
    await page.getByText('No limit of this market says that.').waitFor();
    await page.getByRole('searchbox').fill('hamburger');
    await page.getByRole('link', { name: /^Hamburger/ }).click();
    await page.getByRole('heading', { level: 1, name: 'Hamburger' }).waitFor();
    await page.getByRole('link', { name: 'Hamburger patties, third of a pound' }).waitFor();
    await page.getByText('at most 30 %').first().waitFor();
    // Before the days from which the rules are known here.
    await page.getByLabel('As of').fill('1950-01-01');
    await page.getByText('from when on the rules', { exact: false }).waitFor();
    await page.getByLabel('As of').fill('2026-01-01');
    await page.getByText('at most 30 %').first().waitFor();
    await page.getByLabel('Market').selectOption('eu');
    await page.getByText('This is not the market of the plant.').waitFor();
    // What is searched for stays, to compare markets.
    await page.getByRole('searchbox').fill('');
    await page.getByRole('heading', { name: 'Product classes' }).waitFor();
    expect(complaints).toEqual([]);
  });

  it.each(Object.keys(SIZES) as (keyof typeof SIZES)[])('can be read and tapped on a %s', async (size) => {
    const { page, complaints } = await shop().open({
      at: 'rules',
      size,
      language: size === 'tablet' ? 'en' : 'es',
      look: size === 'desk' ? 'dark' : 'light',
    });
    for (const at of ['rules', 'rules/us/cooked-sausage']) {
      await page.goto(`${shop().service.address}/#/${at}`);
      await page
        .locator(at === 'rules' ? '.rules-classes' : '.rules-limits')
        .first()
        .waitFor();
      await expectTouchable(page);
      await look(page, `${at.replaceAll('/', '-')}-${size}`);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    }
    expect(complaints).toEqual([]);
  });
});
