import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { passwordOf, QUICK } from '../api/access/people.ts';
import { type Json, send } from '../api/running.ts';
import { expectAccessible, inBrowser, look } from './browser.ts';

/** Weighings where something goes wrong in between: each is booked once, under the right name, or still in sight. */

const BROKEN = [/ERR_FAILED/, /ERR_INTERNET_DISCONNECTED/];

inBrowser(
  'a weighing',
  (shop) => {
    const as = async (page: Asker, method: string, path: string, data?: unknown): Promise<Json> => {
      const { address } = shop().service;
      const headers = { origin: address, 'content-type': 'application/json' };
      const answer = await page.request.fetch(`${address}/v1${path}`, {
        method,
        headers,
        ...(data !== undefined && { data: JSON.stringify(data) }),
      });
      expect(answer.ok(), await answer.text()).toBe(true);
      return answer.json();
    };
    const post = async (path: string, body: unknown): Promise<Json> => {
      const { status, text } = await send(shop().service.address, { path: `/v1${path}`, body });
      expect(status, text).toBeLessThan(300);
      return JSON.parse(text);
    };
    const plan = () =>
      post('/batches', { product: 'ground-beef-80-20', batchSize: { total: { value: 100, unit: 'lb' } } });
    const booked = async (page: Page, { id }: Json): Promise<Json[]> =>
      (await as(page, 'GET', `/batches/${id}`)).lines.flatMap(({ loads }: Json) => loads[0].weighings);

    it('is booked once by a double tap, after a lost answer and a reload, and where nothing is kept', async () => {
      const batch = await plan();
      const [first, second] = batch.lines;
      const at = `batches/${batch.id}/weigh`;
      const { page, context, complaints } = await shop().open({ at, expected: BROKEN });
      // The second tap falls on the next line, as soon as that is there.
      await goesIn(page, first).click({ trial: true });
      await page.evaluate(async () => {
        const button = () => document.querySelector<HTMLElement>('.weigh-do');
        const before = button()?.textContent;
        button()?.click();
        while (button()?.textContent === before) await new Promise((resolve) => setTimeout(resolve, 10));
        button()?.click();
      });
      await goesIn(page, second).waitFor();
      await page.waitForTimeout(800);
      expect(await booked(page, batch)).toHaveLength(1);

      // Booked, but the answer never comes; the page is loaded anew; only then is there an answer.
      await loseAnswers(page);
      await figure(page).fill('10');
      await page.getByRole('button', { name: '10 lb goes in' }).click();
      await expect.poll(async () => (await booked(page, batch)).length).toBe(2);
      await page.reload();
      const rest = (Number(second.perLoad.value) - 10).toFixed(1);
      await page.getByText(`${rest} lb is in`).waitFor();
      await page.unroute('**/weighings');
      await page.getByText('waits to be sent').waitFor({ state: 'detached' });
      await page.getByText(`${rest} lb is in`).waitFor();
      expect(await booked(page, batch)).toHaveLength(2);

      // A browser that keeps nothing still sends what is in the mixer.
      await page.evaluate(() => {
        Storage.prototype.setItem = () => {
          throw new DOMException('full', 'QuotaExceededError');
        };
      });
      await context.setOffline(true);
      await page.getByText(`${rest} lb is in`).click();
      await page.getByText('do not close or reload the page').waitFor();
      await context.setOffline(false);
      await expect.poll(async () => (await booked(page, batch)).length, { timeout: 15_000 }).toBe(3);
      expect(complaints).toEqual([]);
      await context.close();
    });

    it('does not wait for a network that swallows everything', async () => {
      const batch = await plan();
      const { page, context } = await shop().open({ at: `batches/${batch.id}/weigh` });
      await goesIn(page, batch.lines[0]).waitFor();
      await page.route('**/v1/**', () => undefined);
      await figure(page).fill('9');
      await page.getByRole('button', { name: '9 lb goes in' }).click();
      // Corrected while the limits are still waited for: what was tapped is not what is typed now.
      await figure(page).fill('8');
      await page.getByText('the limits cannot be checked').waitFor();
      expect(await page.getByText('not sent yet').count()).toBe(0);
      await page.getByRole('button', { name: '8 lb goes in' }).click();
      await page.getByText('not sent yet').waitFor();
      await page.unrouteAll();
      await expect.poll(async () => (await booked(page, batch)).length, { timeout: 20_000 }).toBe(1);
      expect((await booked(page, batch))[0].weight.value).toBe('8');
      await context.close();
    });

    // The last: from here on people log in.
    it('goes out under the name of whoever weighed it', async () => {
      const [batch, cancelled] = [await plan(), await plan()];
      await post('/people', { name: 'Ada', role: 'admin', password: passwordOf('Ada') });
      const { page, context, complaints } = await shop().open({ expected: BROKEN });
      const enter = async (name: string) => {
        await page.getByLabel('Name').fill(name);
        await page.getByLabel('Password', { exact: true }).fill(passwordOf(name));
        await page.getByRole('button', { name: 'Log in' }).click();
      };
      await enter('Ada');
      await page.getByRole('navigation', { name: 'Parts of the page' }).waitFor();
      for (const name of ['Ana', 'Ben']) {
        await as(page, 'POST', '/people', { name, role: 'floor', password: passwordOf(name) });
      }
      await page.getByRole('button', { name: 'Log out' }).click();
      await enter('Ana');
      await page.goto(`${shop().service.address}/#/batches/${batch.id}/weigh`);
      const [first] = batch.lines;
      // It arrives, the answer does not; then the session of Ana is over, and Ben takes the tablet.
      await loseAnswers(page);
      await goesIn(page, first).click();
      await expect.poll(async () => (await booked(page, batch)).length).toBe(1);
      await figure(page).fill('5');
      await page.getByRole('button', { name: '5 lb goes in' }).click();
      await page.getByText('2 weighings wait to be sent').waitFor();
      await page.getByRole('button', { name: 'Log out' }).click();
      await page.getByText('2 weighings of yours are not sent yet').waitFor();
      await page.getByRole('dialog').getByRole('button', { name: 'Log out' }).click();
      await page.unroute('**/weighings');
      await enter('Ben');
      await page.getByText('sent once Ana logs in on this device').first().waitFor();
      await page.getByText('5 lb: not sent yet, weighed by Ana').waitFor();
      expect(await page.getByText('weighed by Ana').count()).toBe(1);
      await look(page, 'weighed-by-another');
      await expectAccessible(page);
      expect((await booked(page, batch)).map(({ by }) => by)).toEqual(['Ana']);
      await page.getByRole('button', { name: 'Log out' }).click();
      await enter('Ana');
      await expect.poll(async () => (await booked(page, batch)).length, { timeout: 15_000 }).toBe(2);
      expect((await booked(page, batch)).map(({ by }) => by)).toEqual(['Ana', 'Ana']);

      // A refused one stays in sight though the batch is not weighed any more.
      await page.goto(`${shop().service.address}/#/batches/${cancelled.id}/weigh`);
      await page.route('**/weighings', (route) => route.abort());
      await goesIn(page, cancelled.lines[0]).click();
      await page.getByText('not sent yet').waitFor();
      const desk = await shop().browser.newContext();
      await as(desk, 'POST', '/session', { name: 'Ada', password: passwordOf('Ada') });
      await as(desk, 'POST', `/batches/${cancelled.id}/cancellation`, { reason: 'order withdrawn' });
      await desk.close();
      await page.unroute('**/weighings');
      await page.goto(`${shop().service.address}/#/stock`);
      await page.getByRole('link', { name: '1 weighing was refused: see why' }).click();
      await page.getByText('NOT booked').waitFor();
      await page.getByText('Nothing is to be weighed now').waitFor();
      await look(page, 'refused-of-cancelled');
      await expectAccessible(page);
      await page.getByRole('button', { name: 'Take it off this device' }).click();
      await page.getByText('NOT booked').waitFor({ state: 'detached' });
      expect(complaints).toEqual([]);
      await context.close();
    });
  },
  QUICK,
);

/** Has the cookie of a person. */
type Asker = Pick<Page, 'request'>;

const figure = (page: Page) => page.getByLabel('Weight on the scale');

/** What is weighed arrives and is booked; the answer never comes. */
async function loseAnswers(page: Page): Promise<void> {
  await page.route('**/weighings', async (route) => {
    // One that is under way when answers come again is taken care of already.
    await route
      .fetch()
      .then(
        () => route.abort(),
        () => undefined,
      )
      .catch(() => undefined);
  });
}

const goesIn = (page: Page, { perLoad }: Json) =>
  page.getByRole('button', { name: `${perLoad.value} ${perLoad.unit} is in` });
