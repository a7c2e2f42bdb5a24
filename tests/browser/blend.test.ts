import { expect, it } from 'vitest';
import { expectAccessible, expectTouchable, inBrowser, look } from './browser.ts';

inBrowser('the blend', (shop) => {
  it('stands there at once, and can be read in every size and language', async () => {
    for (const [size, language, shade] of [
      ['tablet', 'en', 'light'],
      ['desk', 'en', 'dark'],
      ['phone', 'es', 'light'],
    ] as const) {
      const { page, complaints, context } = await shop().open({ size, language, look: shade });
      await page.locator('.blend-bar').waitFor();
      await page.locator('.blend-prices').waitFor();
      await page.locator('.blend-curve').waitFor();
      await look(page, `blend-${size}-${language}`);
      await expectAccessible(page);
      await expectTouchable(page);
      expect(complaints).toEqual([]);
      await context.close();
    }
  });
});
