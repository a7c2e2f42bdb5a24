import { expect, it } from 'vitest';
import { expectTouchable, inBrowser, look, SIZES } from './browser.ts';

inBrowser('the frame of the page', (shop) => {
  it('speaks both languages and remembers which', async () => {
    const { page, complaints } = await shop().open();
    await page.getByRole('button', { name: 'Español' }).click();
    await page.getByRole('link', { name: 'Existencias' }).waitFor();
    await page.reload();
    await page.getByRole('link', { name: 'Existencias' }).waitFor();
    expect(await page.evaluate(() => document.documentElement.lang)).toBe('es');
    expect(complaints).toEqual([]);
  });

  it('says when the service cannot be reached and when it is back', async () => {
    const { page, context } = await shop().open({ expected: [/ERR_INTERNET_DISCONNECTED/] });
    await page.getByRole('link', { name: 'Stock' }).waitFor();
    await context.setOffline(true);
    await page.getByText('No connection to the service').waitFor();
    await context.setOffline(false);
    await page.getByText('No connection to the service').waitFor({ state: 'detached' });
  });

  it.each(Object.keys(SIZES) as (keyof typeof SIZES)[])('can be read and tapped on a %s', async (size) => {
    const { page, complaints } = await shop().open({ size });
    await page.getByRole('link', { name: 'Plant' }).waitFor();
    await expectTouchable(page);
    await look(page, `frame-${size}`);
    expect(complaints).toEqual([]);
  });

  it('runs no script and no style that stands in the page itself', async () => {
    const { page } = await shop().open();
    const answer = await page.request.get(shop().service.address);
    expect(answer.headers()['content-security-policy']).not.toContain('unsafe');
    expect(await answer.text()).not.toMatch(/<script(?![^>]*src=)|<style|style=|\son\w+=/);
  });
});
