import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { login, PASSWORD, passwordOf, plain, QUICK } from '../api/access/people.ts';
import { expectAccessible, expectTouchable, inBrowser, look, type Shop, SIZES } from './browser.ts';

const press = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: true }).first().click();

async function enter(page: Page, name: string, password = passwordOf(name)): Promise<void> {
  await page.getByLabel(/^(Name|Nombre)$/).fill(name);
  await page.getByLabel(/^(Password|Contraseña)$/).fill(password);
  await page.getByRole('button', { name: /^(Log in|Iniciar sesión)$/ }).click();
  await page.getByRole('heading', { level: 1, name: /^(Plant|Planta)$/ }).waitFor();
}

const settingsOf = async ({ service }: Shop) => (await service.books.plant()).plant;

inBrowser(
  'the plant, open to everyone on the machine',
  (shop) => {
    it.each(Object.keys(SIZES) as (keyof typeof SIZES)[])('can be read and tapped on a %s', async (size) => {
      const { page, complaints } = await shop().open({
        at: 'plant',
        size,
        language: size === 'phone' ? 'es' : 'en',
        look: size === 'desk' ? 'dark' : 'light',
      });
      for (const place of ['plant', 'plant/people', 'plant/device', 'plant/books']) {
        await page.goto(`${shop().service.address}/#/${place}`);
        await page.locator('.plant-section .card').first().waitFor();
        await expect.poll(() => page.getByText(/One moment|Un momento/).count()).toBe(0);
        await expectTouchable(page);
        await look(page, `${place.replace('/', '-')}-${size}`);
      }
      expect(complaints).toEqual([]);
    });

    it('shows figures as the device is told, at once and after a reload', async () => {
      const { page } = await shop().open({ at: 'plant/device' });
      const figures = page.locator('.plant-example');
      await figures.getByText('312.4 lb').waitFor();
      await page.getByLabel('kg, g').check();
      await page.getByLabel('Comma: 1,5').check();
      await figures.getByText('141,7 kg').waitFor();
      await page.getByLabel('Dark').check();
      await page.getByLabel('Español').check();
      await page.reload();
      await page.getByText('Cómo se ven ahora las cifras').waitFor();
      await figures.getByText('141,7 kg').waitFor();
      expect(await page.evaluate(() => document.documentElement.dataset.look)).toBe('dark');
    });

    it('keeps what is typed over a lost connection, and shows each fault beside its field', async () => {
      const { page, context, complaints } = await shop().open({
        at: 'plant',
        size: 'desk',
        expected: [/ERR_INTERNET_DISCONNECTED/],
      });
      await page.getByLabel('Establishment number').fill('');
      await page.getByLabel('The mixer holds').first().fill('many');
      await page.getByRole('group', { name: 'Gram scale' }).getByLabel('Carries at most').fill('0');
      await press(page, 'Add a scale');
      await page.getByRole('group', { name: 'Scale 6' }).getByLabel('Name').fill('Dock scale');
      await page.getByRole('group', { name: 'Dock scale' }).getByLabel('Division').fill('0,5');
      await page.getByRole('group', { name: 'Dock scale' }).getByLabel('Carries at most').fill('2000');
      await context.setOffline(true);
      await press(page, 'Save the settings');
      await page.getByText('The service cannot be reached. What you typed').waitFor();
      await context.setOffline(false);
      await page.reload();
      await page.getByText('Not saved yet').waitFor();
      await press(page, 'Save the settings');
      const errors = page.locator('.error');
      await expect.poll(() => errors.count()).toBe(4);
      await look(page, 'plant-faults-desk');
      await page.getByLabel('Establishment number').fill('00001');
      await page.getByLabel('The mixer holds').first().fill('150 kg');
      await page.getByRole('group', { name: 'Gram scale' }).getByLabel('Carries at most').fill('5000');
      await press(page, 'Save the settings');
      await page.getByText('The settings are saved.').waitFor();
      const saved = await settingsOf(shop());
      expect(saved).toMatchObject({ establishment: '00001', mixerCapacityKg: 150, demoDate: '2026-11-25' });
      expect(saved.scales.at(-1)).toEqual({
        id: 'dock-scale',
        name: 'Dock scale',
        unit: 'g',
        division: '0.5',
        capacity: 2000,
      });
      expect(complaints).toEqual([]);
    });

    it('lets the first admin in as soon as they are added, and then the others', async () => {
      const { page, complaints } = await shop().open({ at: 'plant/people' });
      await press(page, 'Add the first admin');
      const dialog = page.getByRole('dialog');
      await dialog.getByLabel('Name').fill('Ana');
      await dialog.getByLabel('Password').fill('short');
      await dialog.getByRole('button', { name: 'Add the first admin' }).click();
      await dialog
        .getByText(/at least 10/i)
        .last()
        .waitFor();
      await dialog.getByLabel('Password').fill(passwordOf('Ana'));
      await look(page, 'plant-add-first-tablet');
      await dialog.getByRole('button', { name: 'Add the first admin' }).click();
      await dialog.waitFor({ state: 'detached' });
      await page.getByText('(you)').waitFor();

      for (const [name, role] of [
        ['Tomas', 'floor'],
        ['Ilse', 'inspector'],
        ['Vera', 'admin'],
      ] as const) {
        await press(page, 'Add a person');
        await dialog.getByLabel('Name').fill(name);
        await dialog.getByLabel('Role').selectOption(role);
        await dialog.getByLabel('Password').fill(passwordOf(name));
        await dialog.getByRole('button', { name: 'Add a person' }).click();
        await dialog.waitFor({ state: 'detached' });
      }
      await press(page, 'Change Ilse');
      await dialog.getByLabel('Name').fill('Tomas');
      await dialog.getByRole('button', { name: 'Save' }).click();
      await dialog.getByText('choose another').waitFor();
      await dialog.getByLabel('Name').fill('Ilse M.');
      await dialog.getByRole('button', { name: 'Save' }).click();
      await page.getByText('Ilse M. is changed.').waitFor();

      await press(page, 'Let in no more: Tomas');
      await expectAccessible(page);
      await look(page, 'plant-let-out-tablet');
      await dialog.getByRole('button', { name: 'Let in no more' }).click();
      await page.getByText('✕ May log in no more').waitFor();
      await press(page, 'Let in again: Tomas');
      await page.getByText('✕ May log in no more').waitFor({ state: 'detached' });

      await press(page, 'Make a key');
      await dialog.getByLabel('What it is for').fill('cooler scale');
      await dialog.getByRole('button', { name: 'Make a key' }).click();
      const key = await dialog.getByLabel('Key').inputValue();
      await look(page, 'plant-key-tablet');
      const asked = () =>
        plain(shop().service, { path: '/v1/lots', headers: { authorization: `Bearer ${key}` } });
      expect((await asked()).status).toBe(200);
      await dialog.getByRole('button', { name: 'I have copied it' }).click();
      expect(await page.content()).not.toContain(key);
      await press(page, 'Revoke: cooler scale');
      await dialog.getByRole('button', { name: 'Revoke' }).click();
      await page.getByText('The key of cooler scale is revoked.').waitFor();
      expect((await asked()).status).toBe(401);

      await page.getByLabel('The password you have now').fill('not hers at all');
      await page.getByLabel('The new password').fill(`${PASSWORD} anew`);
      await press(page, 'Change my password');
      await page.getByText('is not your password').waitFor();
      await page.getByLabel('The password you have now').fill(passwordOf('Ana'));
      await press(page, 'Change my password');
      await page.getByText('Your password is changed.').waitFor();
      await look(page, 'plant-people-full-tablet');
      expect(await page.evaluate(() => JSON.stringify({ ...localStorage }))).not.toContain(PASSWORD);
      expect(complaints).toEqual([]);
    });

    it('is told to whoever changes what someone else has changed meanwhile', async () => {
      const { page } = await shop().open({ at: 'plant', size: 'desk' });
      await enter(page, 'Vera');
      await page.getByLabel('Name of the plant').fill('Plant of Vera');
      const vera = await login(shop().service, 'Vera');
      const { json, headers } = await vera('GET', '/v1/plant');
      const other = { ...json.settings, establishment: '00002', name: 'Plant of Ana' };
      await vera('PUT', '/v1/plant', other, { 'if-match': String(headers.etag) });
      await press(page, 'Save the settings');
      await page.getByText('Someone else changed this while you had it open').waitFor();
      await page
        .getByText('Someone else changed: Name of the plant (Plant of Ana), Establishment number (00002).')
        .waitFor();
      expect(await page.getByLabel('Name of the plant').inputValue()).toBe('Plant of Vera');
      expect(await page.getByLabel('Establishment number').inputValue()).toBe('00002');
      await look(page, 'plant-conflict-desk');
      await press(page, 'Save the settings');
      await page.getByText('The settings are saved.').waitFor();
      expect(await settingsOf(shop())).toMatchObject({ name: 'Plant of Vera', establishment: '00002' });
    });

    it.each(['Tomas', 'Ilse M.'])('shows %s only what they may do', async (name) => {
      const { page } = await shop().open({ at: 'plant', language: 'es' });
      await enter(page, name, passwordOf(name.split(' ')[0] ?? ''));
      await page.getByText('Solo un administrador cambia estos ajustes.').waitFor();
      expect(await page.getByRole('button', { name: 'Guardar los ajustes' }).count()).toBe(0);
      expect(await page.getByLabel('Nombre de la planta').isDisabled()).toBe(true);
      await page.goto(`${shop().service.address}/#/plant/people`);
      await page.getByRole('heading', { name: 'Su contraseña' }).waitFor();
      expect(await page.getByRole('heading', { level: 2 }).allTextContents()).toEqual(['Su contraseña']);
      await page.goto(`${shop().service.address}/#/start/plant`);
      await page.getByText('Solo un administrador configura la planta.').waitFor();
    });
  },
  QUICK,
);
