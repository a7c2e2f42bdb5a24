import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { expectAccessible, expectTouchable, inBrowser, look } from './browser.ts';

/** What the headline says, once the page has settled. */
async function costPerUnit(page: Page): Promise<number> {
  await settled(page);
  const text = (await page.locator('.blend-figure strong').first().textContent()) ?? '';
  return Number(text.replace(',', '.').replace(/[^\d.]/g, ''));
}

const settled = (page: Page) => page.locator('.blend-answer[aria-busy="false"]').waitFor();

async function choose(page: Page, product: string, size: string): Promise<void> {
  await page.getByLabel('Product').selectOption({ label: product });
  await page.getByLabel('Batch size', { exact: true }).fill(size);
  await settled(page);
}

inBrowser('the blend', (shop) => {
  it('stands there at once, and can be read in every size and language', async () => {
    for (const [size, language, shade] of [
      ['tablet', 'en', 'light'],
      ['desk', 'en', 'dark'],
      ['phone', 'es', 'light'],
    ] as const) {
      const { page, complaints, context } = await shop().open({ at: 'blend', size, language, look: shade });
      await page.locator('.blend-bar').waitFor();
      await page.locator('.blend-prices').waitFor();
      await page.locator('.blend-curve').waitFor();
      await look(page, `blend-${size}-${language}`);
      await expectTouchable(page);
      expect(complaints).toEqual([]);
      await context.close();
    }
  });

  it('follows a target, a price and a lot that is left out, and is no plan while figures are tried', async () => {
    const { page, complaints, context } = await shop().open({ at: 'blend' });
    await choose(page, 'Hamburger patties, third of a pound', '400');
    const cost = await costPerUnit(page);

    await page.getByRole('button', { name: 'Fat at most: less' }).click();
    await page.getByText('This is a trial').waitFor();
    const leaner = await costPerUnit(page);
    expect(leaner).toBeGreaterThan(cost);
    expect(await page.getByRole('button', { name: 'Plan this batch' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Back to the real figures' }).click();
    expect(await costPerUnit(page)).toBe(cost);

    // A tap on the picture tries the target there.
    await page.locator('.blend-curve').scrollIntoViewIfNeeded();
    const box = await page.locator('.blend-curve .ground').boundingBox();
    if (!box) throw new Error('the curve is not there');
    await page.mouse.click(box.x + box.width * 0.3, box.y + box.height / 2);
    await page.getByText('This is a trial').waitFor();
    expect(await costPerUnit(page)).toBeGreaterThan(leaner);
    await page.getByRole('button', { name: 'Back to the real figures' }).click();

    const bar = page.locator('.blend-bar');
    await settled(page);
    expect(await bar.textContent()).toContain('B65-1120');
    await page.getByRole('button', { name: 'Leave B65-1120 out' }).click();
    await page.getByText('Left out by you').waitFor();
    expect(await costPerUnit(page)).toBeGreaterThan(cost);
    expect(await bar.textContent()).not.toContain('B65-1120');
    await page.getByRole('button', { name: 'Take B65-1120 in again' }).click();
    expect(await costPerUnit(page)).toBe(cost);

    // A lot that is dear goes in once it costs less.
    await page.getByText('more lots could go in and do not').click();
    const unused = page.locator('.blend-unused li', { hasText: 'B73-1120' });
    await unused.getByRole('button').click();
    await page.getByRole('dialog').getByLabel('Price', { exact: true }).fill('1');
    await look(page, 'blend-price');
    await page.getByRole('button', { name: 'Try it' }).click();
    await page.locator('.blend-bar', { hasText: 'B73-1120' }).waitFor();
    expect(await costPerUnit(page)).toBeLessThan(cost);
    await page.getByRole('button', { name: 'Back to the real figures' }).click();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('says what a limit costs and who brings what it counts', async () => {
    const { page, context } = await shop().open({ at: 'blend' });
    await choose(page, 'Hamburger patties, third of a pound', '400');
    const fat = page.locator('.blend-room', { hasText: 'Target: fat of the finished product is at most' });
    await page.locator('.blend-prices').waitFor();
    await fat.locator('summary').click();
    await fat.getByText(/One point more would save \$0\.0\d\d\/lb/).waitFor();
    expect(await fat.locator('.blend-who').textContent()).toContain('B65-1120');
    await page.getByText('How good is it?').click();
    await page.getByText(/Proven within .* no blend of this weight/).waitFor();
    await page.getByRole('button', { name: 'Look for them' }).click();
    await page.locator('.blend-near li').first().waitFor();
    await page.locator('.blend-near').getByRole('button', { name: 'Use this one' }).first().click();
    await page.getByText('Left out by you').waitFor();
    await context.close();
  });

  it('shows the ways out when nothing fits, and takes one', async () => {
    const { page, complaints, context } = await shop().open({ at: 'blend', size: 'tablet' });
    await choose(page, 'Ground beef 90/10', '4000');
    await page.getByText('No blend is possible').waitFor();
    await look(page, 'blend-none');
    await expectAccessible(page);
    await expectTouchable(page);
    await page.getByRole('link', { name: /Buy 568.*Beef trim 95/ }).waitFor();
    await page.getByRole('button', { name: /^Make 2997/ }).click();
    await page.locator('.blend-bar').waitFor();
    expect(await page.getByLabel('Batch size', { exact: true }).inputValue()).toMatch(/^2997/);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('keeps what was typed over a lost connection and a reload', async () => {
    const { page, context } = await shop().open({ at: 'blend', expected: [/ERR_INTERNET_DISCONNECTED/] });
    await choose(page, 'Italian sausage', '250');
    await page.locator('.blend-bar').waitFor();
    await context.setOffline(true);
    await page.getByLabel('Batch size', { exact: true }).fill('275');
    await page.getByText('The service cannot be reached').first().waitFor();
    await context.setOffline(false);
    await page.getByText('No connection to the service').waitFor({ state: 'detached' });
    await page.locator('.blend-headline', { hasText: /27[45]\.\d\d lb/ }).waitFor();
    await page.reload();
    await page.locator('.blend-bar').waitFor();
    expect(await page.getByLabel('Batch size', { exact: true }).inputValue()).toBe('275');
    expect(await page.getByLabel('Product').inputValue()).toBe('italian-sausage');
    await context.close();
  });

  it('reads kilograms with a decimal comma and asks where a figure could mean two things', async () => {
    const { page, context } = await shop().open({ at: 'blend', size: 'phone', language: 'es' });
    await page.getByLabel('Tamaño de la tanda', { exact: true }).fill('120,5 kg');
    await page.locator('.blend-headline', { hasText: /265\.\d\d lb/ }).waitFor();
    await page.getByLabel('Tamaño de la tanda', { exact: true }).fill('1,250');
    await page.getByLabel('Tamaño de la tanda', { exact: true }).blur();
    await page.getByText('se puede leer de dos maneras: escriba 1250 o 1.250').waitFor();
    await context.close();
  });

  it('plans the batch that is seen, which can be taken back at once, and tells when the lots are gone', async () => {
    const { page, complaints, context } = await shop().open({ at: 'blend' });
    await choose(page, 'Ground beef 80/20', '300');
    // By keyboard alone.
    await page.getByRole('button', { name: 'Plan this batch' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText(/Batch \S+ is planned/).waitFor();
    expect(page.url()).toContain('#/batches/');
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.waitForURL(/#\/blend/);
    await page.locator('.blend-bar').waitFor();

    // Somebody else plans first, and the page has not heard of it: what was seen is not planned.
    await choose(page, 'Ground beef 90/10', '1500');
    const planned = await page.request.post(`${shop().service.address}/v1/batches`, {
      data: { product: 'ground-beef-90-10', batchSize: { total: { value: 1400, unit: 'lb' } } },
    });
    expect(planned.status()).toBe(201);
    await page.getByRole('button', { name: 'Plan this batch' }).click();
    await page.getByText('The lots on hand changed since you saw the blend').waitFor();
    await page.getByRole('button', { name: /Meanwhile the stock changed/ }).click();
    await settled(page);
    await page.getByRole('button', { name: 'Plan this batch' }).click();
    await page.waitForURL(/#\/batches\//);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('plans what to make of the trim that is left', async () => {
    const { page, complaints, context } = await shop().open({ at: 'blend/use-up' });
    await page.getByText('Tick at least one product').waitFor();
    await page.getByLabel('Bratwurst', { exact: true }).check();
    await page.getByLabel('Bratwurst sells for', { exact: true }).fill('3.40');
    await page.getByLabel('Ground beef 80/20', { exact: true }).check();
    await page.getByLabel('Ground beef 80/20 sells for', { exact: true }).fill('4.10');
    await page.getByLabel(/^Most of Ground beef 80.20.*empty\)$/).fill('500');
    const beef = page.getByRole('row', { name: /Ground beef 80\/20/ });
    await beef
      .getByText(/^(49\d|500)\.\d\d lb$/)
      .first()
      .waitFor();
    await look(page, 'use-up');
    await expectAccessible(page);
    await expectTouchable(page);
    await beef.getByRole('button', { name: 'Blend it' }).click();
    await page.locator('.blend-bar').waitFor();
    expect(await page.getByLabel('Product').inputValue()).toBe('ground-beef-80-20');
    expect(complaints).toEqual([]);
    await context.close();
  });
});
