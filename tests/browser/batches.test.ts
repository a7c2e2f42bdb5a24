import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { type Json, send } from '../api/running.ts';
import { expectAccessible, expectTouchable, inBrowser, look, type Opening } from './browser.ts';

/** Batches at the mixer: from the plan to the sealed record, two tablets at once, and what happens without reception. */

const NO_RECEPTION = [/ERR_INTERNET_DISCONNECTED/];

inBrowser('batches', (shop) => {
  const post = async (path: string, body: unknown): Promise<Json> => {
    const { status, text } = await send(shop().service.address, { path: `/v1${path}`, body });
    expect(status, text).toBeLessThan(300);
    return JSON.parse(text);
  };
  const get = async (path: string): Promise<Json> =>
    JSON.parse((await send(shop().service.address, { method: 'GET', path: `/v1${path}` })).text);
  const plan = (product: string, pounds: number) =>
    post('/batches', { product, batchSize: { total: { value: pounds, unit: 'lb' } } });
  const weighAll = async (batch: Json): Promise<void> => {
    for (const { number, perLoad, loads } of batch.lines) {
      for (const { load } of loads) {
        await post(`/batches/${batch.id}/weighings`, { line: number, load, weight: perLoad });
      }
    }
  };
  const open = (opening: Opening) => shop().open(opening);

  it('go from the plan to the sealed record on a tablet', async () => {
    const batch = await plan('smoked-sausage', 200);
    const { page, context, complaints } = await open({ at: 'batches', expected: NO_RECEPTION });
    await page.getByRole('link', { name: new RegExp(`${batch.id}.*planned`) }).click();
    await page.getByRole('heading', { level: 1, name: batch.id }).waitFor();
    await look(page, 'overview-tablet');
    await page.getByRole('main').getByRole('link', { name: 'Weigh' }).last().click();

    await target(page, batch.lines[0]);
    await look(page, 'weigh-tablet');
    await expectTouchable(page);
    await bigTarget(page);

    // A part by our own keys, then the rest with one tap.
    await press(page, '10');
    await page.getByText('still to weigh', { exact: false }).first().waitFor();
    await page.getByRole('button', { name: '10 lb goes in' }).click();
    await page.getByRole('button', { name: 'Take back 10 lb' }).waitFor();
    // A wrong one is taken back.
    await page.getByRole('button', { name: 'Take back 10 lb' }).click();
    await page.getByRole('dialog').getByLabel('What was wrong?').fill('wrong line');
    await page.getByRole('dialog').getByRole('button', { name: 'Take back 10 lb' }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await tapTarget(page, batch.lines[0]);

    // What the scale cannot show is asked about.
    await target(page, batch.lines[1]);
    const { value } = batch.lines[1].perLoad;
    await figure(page).fill(`${value}5`);
    await page.getByText('This scale shows steps of 0.1 lb').waitFor();
    await look(page, 'weigh-between');
    await page.getByRole('button', { name: `${value} lb`, exact: true }).click();
    await page.getByRole('button', { name: `${value} lb goes in` }).click();

    // Another lot asks for its reason before it is booked.
    const [, , third] = batch.lines;
    await target(page, third);
    await page.getByRole('button', { name: 'Another lot' }).click();
    await look(page, 'weigh-other-lot');
    await page.getByRole('button', { name: 'Take B50-1118' }).click();
    await page.getByText('is another lot. If it is right, say why').waitFor();
    expect(await page.getByRole('button', { name: third.perLoad.value }).last().isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'ran out' }).click();
    await tapTarget(page, third);
    await target(page, batch.lines[3]);

    // Without reception the screen goes on, and sends when it is back.
    await context.setOffline(true);
    for (const line of batch.lines.slice(3, 5)) await tapTarget(page, line);
    await expect.poll(() => page.getByText('not sent yet').count()).toBe(2);
    await look(page, 'weigh-offline');
    expect((await get(`/batches/${batch.id}`)).lines[3].loads[0].weighings).toEqual([]);
    await context.setOffline(false);
    await expect
      .poll(async () => (await get(`/batches/${batch.id}`)).lines[4].loads[0].weighings.length, {
        timeout: 15_000,
      })
      .toBe(1);
    await expect.poll(() => page.getByText('not sent yet').count()).toBe(0);

    // Too much cure is warned of before it is booked.
    const cure = batch.lines.find((line: Json) => line.cure);
    await page.getByRole('button', { name: new RegExp(cure.material) }).click();
    await page.getByText('nitrite is poisonous', { exact: false }).waitFor();
    await figure(page).fill(String(Number(cure.perLoad.value) + 60));
    await page.getByText('This would break a limit').waitFor();
    await page.getByText('9 CFR 424.21(c)').waitFor();
    await look(page, 'weigh-limit');
    await expectAccessible(page);
    expect((await get(`/batches/${batch.id}`)).lines[cure.number - 1].loads[0].weighings).toEqual([]);
    await figure(page).fill('');

    for (const line of batch.lines.slice(5)) {
      await page
        .getByRole('navigation', { name: 'Lines of this load' })
        .getByRole('button')
        .nth(line.number - 1)
        .click();
      await tapTarget(page, line);
    }
    await page.getByRole('button', { name: 'All is in' }).click();
    await page.getByRole('link', { name: 'Enter what came out' }).waitFor();
    await look(page, 'overview-weighed');
    await page.getByRole('link', { name: 'Enter what came out' }).click();

    const now = await get(`/batches/${batch.id}`);
    const out = (now.weighed.lb * 0.9).toFixed(1);
    await page.getByRole('textbox', { name: 'Product that came out' }).fill('50');
    await page.getByText('The yield is far').waitFor();
    await page.getByRole('textbox', { name: 'Product that came out' }).fill(out);
    await page.getByText(/Yield (89\.9|90\.0|90\.1) %/).waitFor();
    await page.getByLabel('Degrees').first().fill('38');
    await look(page, 'finish-tablet');
    await expectTouchable(page);
    await page.reload();
    expect(await page.getByRole('textbox', { name: 'Product that came out' }).inputValue()).toBe(out);
    await page.getByRole('button', { name: 'This came out' }).click();

    await page.getByRole('heading', { name: 'Packs' }).waitFor();
    await page.getByLabel('How many').fill('100');
    await page.getByLabel('Net weight of each', { exact: true }).fill('1');
    await page.getByRole('button', { name: 'Make these packs' }).click();
    await page.getByText('100 × 1 lb').waitFor();
    await look(page, 'packed-tablet');
    await page.getByRole('button', { name: 'Close the batch' }).click();
    await page.getByRole('button', { name: 'Seal the record' }).click();
    await page.getByRole('link', { name: /See record \d+/ }).waitFor();
    expect((await get(`/batches/${batch.id}`)).state).toBe('closed');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('are weighed by two tablets at once, each seeing the other', async () => {
    const batch = await plan('ground-beef-80-20', 500);
    const at = `batches/${batch.id}/weigh`;
    const [one, other] = [await open({ at }), await open({ at: `${at}?load=2` })];
    const [first, second] = batch.lines;
    await target(one.page, first);
    await target(other.page, first);
    await Promise.all([tapTarget(one.page, first), tapTarget(other.page, first)]);
    await Promise.all([target(one.page, second), target(other.page, second)]);
    await one.page.getByRole('link', { name: 'Load 2' }).click();
    await one.page.getByRole('button', { name: new RegExp(`${first.material}.*in`) }).waitFor();
    await target(one.page, second);
    await tapTarget(other.page, second);
    await one.page.getByText('Load 2 is in').waitFor();
    await one.page.getByRole('link', { name: 'Load 1' }).last().click();
    await tapTarget(one.page, second);
    await one.page.getByRole('heading', { name: 'All is in' }).waitFor();
    const { lines, weighed, planned } = await get(`/batches/${batch.id}`);
    expect(lines.flatMap(({ loads }: Json) => loads).map(({ weighings }: Json) => weighings.length)).toEqual([
      1, 1, 1, 1,
    ]);
    expect(weighed.kg).toBe(planned.kg);
    await one.page.getByRole('button', { name: 'All is in' }).click();
    await other.page.getByText('Nothing is to be weighed now').waitFor();
    expect([...one.complaints, ...other.complaints]).toEqual([]);
    await Promise.all([one.context.close(), other.context.close()]);
  });

  it('are corrected after a fat test, and a refused weighing is put right', async () => {
    const batch = await plan('ground-beef-80-20', 300);
    await weighAll(batch);
    await post(`/batches/${batch.id}/weighed`, {});
    const { page, complaints, context } = await open({ at: `batches/${batch.id}/test` });
    await page.getByLabel('Fat found').fill('22,6');
    await page.getByRole('button', { name: 'Take this test' }).click();
    await page.getByRole('heading', { name: 'Least cost' }).waitFor();
    await page.getByRole('heading', { name: 'From other lots' }).waitFor();
    await look(page, 'test-tablet');
    await expectTouchable(page);
    await page.getByRole('button', { name: 'Add this' }).first().click();
    const added = (await expectLine(() => get(`/batches/${batch.id}`), 3)).perLoad;
    await page.getByRole('button', { name: `${added.value} lb is in` }).waitFor();

    // What was booked without a look at the limits and is refused can be weighed anew, or be put right with a reason.
    const unchecked = async (figures: string) => {
      await page.route('**/weighing-checks', (route) => route.abort());
      await figure(page).fill(figures);
      await page.getByText('the limits cannot be checked').waitFor();
      await page.getByRole('button', { name: `${figures} lb goes in` }).click();
      await page.unroute('**/weighing-checks');
      await page.getByText('NOT booked').waitFor();
    };
    await unchecked('900');
    await look(page, 'weigh-refused');
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Weigh it anew' }).click();
    await page.getByText('NOT booked').waitFor({ state: 'detached' });
    await unchecked((Number(added.value) * 1.15).toFixed(1));
    await page.getByRole('button', { name: 'big last piece' }).click();
    await page.getByRole('button', { name: 'Send with this reason' }).click();
    await page.getByRole('heading', { name: 'All is in' }).waitFor();
    await page.getByRole('button', { name: 'All is in' }).click();
    await page.getByRole('link', { name: 'Enter what came out' }).waitFor();
    expect(complaints.filter((text) => !/ERR_FAILED/.test(text))).toEqual([]);
    await context.close();
  });

  it('that end short ask for the reasons in one form', async () => {
    const batch = await plan('hamburger-patties', 100);
    const [line] = batch.lines;
    const { page, complaints, context } = await open({ at: `batches/${batch.id}/weigh` });
    await figure(page).fill(`${Number(line.perLoad.value) / 2}`.replace(/(\.\d).*/, '$1'));
    await page.getByRole('button', { name: /goes in/ }).click();
    await page.getByRole('button', { name: 'End here without the rest' }).click();
    await page.getByRole('heading', { name: 'All is in' }).waitFor();
    await look(page, 'all-in-tablet');
    await expectAccessible(page);
    await page.getByRole('button', { name: 'All is in' }).click();
    await page
      .getByText(/needs? (its|a) reason/)
      .first()
      .waitFor();
    const fields = page.getByRole('main').getByRole('textbox');
    for (let index = 0; index < (await fields.count()); index += 1) await fields.nth(index).fill('ran out');
    await page.getByRole('button', { name: 'All is in' }).click();
    await page.getByText('Departures from the plan').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it.each([
    ['tablet', ['list', 'overview', 'weigh', 'test', 'finish']],
    ['phone', ['list', 'overview', 'weigh']],
    ['desk', ['weigh', 'overview']],
  ] as const)('speak Spanish on a %s', async (size, names) => {
    const batch = await plan('smoked-sausage', 50);
    const places = {
      list: 'Abiertas',
      overview: 'Límites',
      weigh: 'Peso en la báscula',
      test: 'Ninguna carga',
      finish: 'se anota cuando',
    };
    const { page, complaints, context } = await open({
      at: 'batches',
      size,
      language: 'es',
      look: size === 'desk' ? 'dark' : 'light',
    });
    for (const name of names) {
      const part = name === 'list' ? '' : `/${batch.id}/${name === 'overview' ? '' : name}`;
      await page.goto(`${shop().service.address}/#/batches${part}`);
      await page.getByText(places[name]).first().waitFor();
      await look(page, `es-${name}-${size}`);
      await expectTouchable(page);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
    }
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('have their papers, and can be cancelled', async () => {
    const { id } = await plan('ground-beef-80-20', 20);
    const { page, complaints, context } = await open({ at: `batches/${id}`, language: 'es' });
    for (const [name, part] of [
      ['Hoja de tanda', 'sheet?paper=a4&language=es'],
      ['Lo que debe decir la etiqueta', 'label?paper=a4'],
    ] as const) {
      await page.getByText('A4').click();
      const answer = page.waitForResponse((response) => response.url().endsWith(part));
      await page.getByRole('button', { name }).click();
      expect((await answer).headers()['content-type']).toBe('application/pdf');
    }
    await page.getByRole('button', { name: 'Cancelar esta tanda' }).click();
    await page.getByLabel('¿Por qué se cancela?').fill('se retiró el pedido');
    await page.getByRole('dialog').getByRole('button', { name: 'Cancelar esta tanda' }).click();
    await page.getByText('cancelada').first().waitFor();
    expect((await get(`/batches/${id}`)).state).toBe('cancelled');
    expect(complaints).toEqual([]);
    await context.close();
  });
});

const figure = (page: Page) => page.getByLabel('Weight on the scale');

async function press(page: Page, text: string): Promise<void> {
  for (const digit of text) await page.getByRole('button', { name: digit, exact: true }).click();
}

/** Waits until a line is the one to weigh. */
async function target(page: Page, { perLoad }: Json): Promise<void> {
  await page.getByRole('button', { name: `${perLoad.value} ${perLoad.unit} is in` }).waitFor();
}

async function tapTarget(page: Page, { perLoad }: Json): Promise<void> {
  await page.getByRole('button', { name: `${perLoad.value} ${perLoad.unit} is in` }).click();
}

/** What is to be weighed is read from two meters away: at least four times the text. */
async function bigTarget(page: Page): Promise<void> {
  const size = await page.evaluate(() => {
    const target = document.querySelector('.weigh-target strong');
    const text = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    return target ? Number.parseFloat(getComputedStyle(target).fontSize) / text : 0;
  });
  expect(size).toBeGreaterThanOrEqual(4);
  const keys = await page
    .getByRole('group', { name: 'Keys' })
    .getByRole('button')
    .evaluateAll((all) => all.map((key) => key.getBoundingClientRect()));
  expect(keys.every(({ width, height }) => width >= 60 && height >= 60)).toBe(true);
}

async function expectLine(read: () => Promise<Json>, number: number): Promise<Json> {
  let line: Json;
  await expect
    .poll(async () => {
      line = (await read()).lines[number - 1];
      return line;
    })
    .toBeTruthy();
  return line;
}
