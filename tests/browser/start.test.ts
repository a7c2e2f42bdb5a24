import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { PASSWORD, QUICK, realPlantFolder } from '../api/access/people.ts';
import { expectAccessible, expectTouchable, inBrowser, look, SIZES } from './browser.ts';

const SIZE_NAMES = Object.keys(SIZES) as (keyof typeof SIZES)[];

const at = (page: Page) => page.evaluate(() => location.hash);
const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first().click();
const title = (page: Page, name: string) => page.getByRole('heading', { level: 1, name }).waitFor();

/** Nothing of a password stays in the browser. */
const storedText = (page: Page) =>
  page.evaluate(() => JSON.stringify({ ...localStorage, ...sessionStorage }));

inBrowser(
  'the first run',
  (shop) => {
    it.each(SIZE_NAMES)('is offered once on a %s', async (size) => {
      const language = size === 'desk' ? 'es' : 'en';
      const { page, complaints } = await shop().open({
        size,
        language,
        look: size === 'phone' ? 'dark' : 'light',
      });
      await title(page, language === 'es' ? 'Bienvenido a meatblock' : 'Welcome to meatblock');
      await expectTouchable(page);
      await look(page, `start-welcome-${size}`);
      await press(page, language === 'es' ? 'Probar la planta de demostración' : 'Try the demo plant');
      await expect.poll(() => at(page)).toBe('#/blend');
      await page.goto(shop().service.address);
      await page.getByRole('link', { name: language === 'es' ? 'Mezcla' : 'Blend' }).waitFor();
      expect(await page.getByText(/Welcome|Bienvenido/).count()).toBe(0);
      expect(complaints).toEqual([]);
    });

    it.each([
      ['phone', 'es'],
      ['desk', 'en'],
    ] as const)('asks little, on a %s in %s', async (size, language) => {
      const { page } = await shop().open({
        at: 'start/plant',
        size,
        language,
        look: size === 'desk' ? 'dark' : 'light',
      });
      for (const step of ['plant', 'scales', 'people', 'with']) {
        await page.goto(`${shop().service.address}/#/start/${step}`);
        await page.locator('.start-step h1').waitFor();
        if (step === 'with') await page.locator('.start-recipes').waitFor();
        await expectTouchable(page);
        await look(page, `start-${step}-${size}`);
      }
    });

    it('goes from the plant to its first blend', async () => {
      const { page, complaints } = await shop().open({ size: 'tablet', language: 'en' });
      await press(page, 'Set up my plant');
      await title(page, 'Your plant');
      await page.getByLabel('Name of the plant').fill('Own Plant');
      await page.getByLabel('Establishment number').fill('00000');
      await page.getByLabel('Market').selectOption('ca');
      expect(await page.getByLabel('Currency').inputValue()).toBe('CAD');
      await page.getByLabel('Market').selectOption('us');
      expect(await page.getByLabel('Currency').inputValue()).toBe('USD');
      await page.getByLabel('Time zone').selectOption('America/Denver');
      await look(page, 'start-plant-tablet');
      await press(page, 'Next');

      await title(page, 'How you weigh');
      await page.getByRole('group', { name: 'Bench scale' }).getByLabel('Division').fill('40');
      await look(page, 'start-scales-tablet');
      await press(page, 'Next');

      await title(page, 'Who you are');
      await press(page, 'Next');
      await page.getByText('Write your name and a password.').waitFor();
      await page.getByLabel('Your name').fill('Ana');
      await page.getByLabel('Password').fill('short');
      await press(page, 'Next');
      await title(page, 'What to begin with');

      // What was typed survives a reload, and the browser's way back; the password does not.
      await page.reload();
      await title(page, 'What to begin with');
      await page.getByLabel('Fresh pork sausage').check();
      await press(page, 'Begin my plant');
      await page.getByText('Type the password once more').waitFor();
      expect(await page.getByLabel('Your name').inputValue()).toBe('Ana');
      await page.getByLabel('Password').fill('short');
      await press(page, 'Next');
      await press(page, 'Begin my plant');

      // Every fault is shown beside its field, in the step that has it.
      await title(page, 'How you weigh');
      await page.getByText('is not below the capacity 30').waitFor();
      await look(page, 'start-fault-tablet');
      await page.getByRole('group', { name: 'Bench scale' }).getByLabel('Division').fill('0.01');
      await press(page, 'Next');
      await press(page, 'Next');
      await press(page, 'Begin my plant');
      await title(page, 'Who you are');
      await page
        .getByText(/at least 10/i)
        .first()
        .waitFor();
      await page.getByLabel('Password').fill(PASSWORD);
      expect(await storedText(page)).not.toContain(PASSWORD);
      await press(page, 'Next');
      await look(page, 'start-with-tablet');
      await press(page, 'Begin my plant');

      await title(page, 'Your first lots of trim');
      await page.getByText('Own Plant').waitFor();
      expect(await page.getByText('Demo: nobody logs in').count()).toBe(0);
      expect(await page.getByText('Log in again').count()).toBe(0);
      await expectAccessible(page);
      await expectTouchable(page);
      await press(page, 'Receive and go to the first blend');
      await page.getByText('Write at least one weight').waitFor();
      const lot = (number: number) => page.getByRole('group', { name: `Lot ${number}` });
      await lot(1).getByLabel('Weight', { exact: true }).fill('300');
      await lot(1).getByLabel('Price', { exact: true }).fill('1.30');
      await lot(2).getByLabel('Weight', { exact: true }).fill('400');
      await lot(2).getByLabel('Price', { exact: true }).fill('nothing');
      await look(page, 'start-lots-tablet');
      await press(page, 'Receive and go to the first blend');
      await page.getByText('Received as lot').waitFor();
      await page.getByRole('alert').or(page.locator('.error')).first().waitFor();
      await look(page, 'start-lots-fault-tablet');
      await lot(2).getByLabel('Price', { exact: true }).fill('3,60');
      await press(page, 'Receive and go to the first blend');
      await expect.poll(() => at(page)).toBe('#/blend');

      const blend = await page.evaluate(async () => {
        const answer = await fetch('/v1/blends', {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify({
            product: 'fresh-pork-sausage',
            batchSize: { total: { value: 200, unit: 'lb' } },
          }),
        });
        return { status: answer.status, body: await answer.json() };
      });
      expect(blend.status).toBe(200);
      expect(blend.body.outcome ?? 'blend').toBe('blend');
      await look(page, 'start-first-blend-tablet');
      expect(await storedText(page)).not.toContain(PASSWORD);
      expect(complaints).toEqual([]);
    });

    it('is not begun over work that is booked, and says the way', async () => {
      const { page } = await shop().open({ at: 'start/plant' });
      await page.getByLabel('Name').fill('Ana');
      await page.getByLabel('Password').fill(PASSWORD);
      await press(page, 'Log in');
      await title(page, 'Work is booked already');
      expect(await page.getByLabel('Command').inputValue()).toBe('STORE=my-plant.sqlite npm start');
      await look(page, 'start-late-tablet');
    });
  },
  QUICK,
);

inBrowser(
  'the entrance',
  (shop) => {
    it('makes the first admin with the code of the terminal, and lets people in', async () => {
      const { page, complaints } = await shop().open({ size: 'phone', language: 'es' });
      await title(page, 'El primer administrador');
      await expectAccessible(page);
      await expectTouchable(page);
      await look(page, 'entrance-set-up-phone');
      await press(page, 'English');
      await page.getByLabel('Set-up code').fill('AAAA-BBBB-CCCC');
      await page.getByLabel('Your name').fill('Ana');
      await page.getByLabel('Password').fill(PASSWORD);
      await press(page, 'Make the account');
      await page.getByText('This is not the set-up code').waitFor();
      expect(await page.getByLabel('Your name').inputValue()).toBe('Ana');
      await page.getByLabel('Set-up code').fill(shop().service.access.setUp.code() ?? '');
      await press(page, 'Make the account');
      await page.getByRole('link', { name: 'Stock' }).waitFor();
      await press(page, 'Log out');
      await title(page, 'Log in');
      await look(page, 'entrance-login-phone');

      await page.getByLabel('Name').fill('Ana');
      await page.getByLabel('Password').fill('not her password');
      await press(page, 'Log in');
      await page.getByText('The name or the password is wrong').waitFor();
      await look(page, 'entrance-wrong-phone');
      await page.getByLabel('Password').fill(PASSWORD);
      await press(page, 'Log in');
      await page.getByRole('link', { name: 'Stock' }).waitFor();
      expect(await storedText(page)).not.toContain(PASSWORD);
      expect(complaints).toEqual([]);
    });

    it('opens again over what one was doing when a session ends', async () => {
      const { page, context } = await shop().open({ at: 'plant', size: 'tablet', look: 'dark' });
      await look(page, 'entrance-login-tablet-dark');
      await page.getByLabel('Name').fill('Ana');
      await page.getByLabel('Password').fill(PASSWORD);
      await press(page, 'Log in');
      await page.getByLabel('Name of the plant').fill('Typed before the end');
      await context.clearCookies();
      await press(page, 'Save the settings');
      const dialog = page.getByRole('dialog', { name: 'Log in' });
      await dialog.waitFor();
      await expectAccessible(page);
      await look(page, 'entrance-again-tablet-dark');
      expect(await dialog.getByLabel('Name').inputValue()).toBe('Ana');
      await dialog.getByLabel('Password').fill(PASSWORD);
      await dialog.getByRole('button', { name: 'Log in' }).click();
      await dialog.waitFor({ state: 'detached' });
      expect(await page.getByLabel('Name of the plant').inputValue()).toBe('Typed before the end');
      await press(page, 'Save the settings');
      await page.getByText('The settings are saved.').waitFor();
      expect((await shop().service.books.plant()).plant.name).toBe('Typed before the end');
    });
  },
  { ...QUICK, plantFolder: realPlantFolder() },
);
