import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { lb, mixerAt } from '../api/batches/mixer.ts';
import {
  expectAccessible,
  expectTouchable,
  inBrowser,
  look,
  type Opening,
  ownFolder,
  type Shop,
  SIZES,
} from './browser.ts';

const PLACES = ['', '/receive', '/ship', '/materials', '/prices', '/sheets', '/B73-1120'];
const OFFLINE = [/ERR_INTERNET_DISCONNECTED|ERR_FAILED/];

/** What the service answers, asked beside the page. */
async function ask(shop: Shop, path: string, body?: unknown) {
  const response = await fetch(`${shop.service.address}/v1${path}`, {
    ...(body !== undefined && {
      method: 'POST',
      body: JSON.stringify(body),
      headers: { 'content-type': 'application/json' },
    }),
  });
  return { status: response.status, body: await response.json() };
}

/** A lot of its own for a test, so that tests do not mind one another. */
async function aLot(shop: Shop, id: string, given: object = {}) {
  const cost = { amount: 2, per: 'lb' };
  const mass = { value: 100, unit: 'lb' };
  const { status } = await ask(shop, '/lots', { id, materialId: 'beef-trim-73', mass, cost, ...given });
  expect(status).toBe(201);
}

const errorOf = (page: Page, label: string) =>
  page.locator('.field', { has: page.getByLabel(label, { exact: true }) }).locator('.error');

inBrowser('the stock', (shop) => {
  const open = (opening: Opening) => shop().open(opening);

  it.each(Object.keys(SIZES) as (keyof typeof SIZES)[])(
    'can be read and tapped in every place on a %s',
    async (size) => {
      const language = size === 'desk' ? 'es' : 'en';
      const { page, complaints } = await open({
        at: 'stock',
        size,
        language,
        look: size === 'phone' ? 'dark' : 'light',
      });
      for (const place of PLACES) {
        await page.goto(`${shop().service.address}/#/stock${place}`);
        await page.locator('main h1').waitFor();
        await page.locator('.waiting').waitFor({ state: 'detached' });
        expect(await page.locator('h1').count()).toBe(1);
        await expectTouchable(page);
        expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
        await look(page, `stock${place.replace('/', '-')}-${size}`);
      }
      expect(complaints).toEqual([]);
    },
  );

  it('shows what is on hand by days and in the order that is asked for', async () => {
    const { page, complaints } = await open({ at: 'stock' });
    const picture = page.getByRole('img', { name: /What must be used first/ });
    await picture.waitFor();
    const { body } = await ask(shop(), '/lots?limit=500');
    expect(await picture.locator('rect').count()).toBe(body.items.length);
    await page.getByLabel('Order').selectOption('Leanness');
    await page.getByRole('heading', { name: /^90 % lean and more/ }).waitFor();
    const first = page.getByRole('table').first().getByRole('rowheader').first();
    expect(await first.textContent()).toContain('CTM-1123');
    await page.getByLabel('Search').fill('curing');
    await page.getByRole('link', { name: 'CURE-0812' }).waitFor();
    expect(await page.getByRole('rowheader').count()).toBe(1);
    await page.getByLabel('Search').fill('nothing like that');
    await page.getByText('No lot has "nothing like that"').waitFor();
    await page.getByLabel('Search').fill('');
    await page.getByLabel('Kind').selectOption('Packs');
    await page.getByText('Nothing is on hand.').waitFor();
    await page.getByLabel('Kind').selectOption('Meat and ingredients');
    await page.getByRole('link', { name: 'B73-1120' }).click();
    await page.getByRole('heading', { name: /B73-1120/, level: 1 }).waitFor();
    await page.goBack();
    await page.getByRole('heading', { name: 'On hand' }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('receives with little typing, says what is wrong beside the field, and goes on with the next', async () => {
    const { page, complaints } = await open({ at: 'stock/receive' });
    await page.getByRole('button', { name: 'Receive, and the next' }).click();
    await page.getByText('Choose what came').waitFor();
    await page.getByLabel('Material').fill('trim 85');
    await page.getByRole('button', { name: 'Beef trim 85 % lean' }).click();
    // The lot before it says the rest.
    await expect.poll(() => page.getByLabel('Price', { exact: true }).inputValue()).toBe('3.06');
    expect(await page.getByLabel('Weight of one box', { exact: true }).inputValue()).toBe('60');
    expect(await page.getByLabel('Supplier (Est. number)').inputValue()).toBe('00001');
    const id = await page.getByLabel('Lot here').inputValue();
    expect(id).toMatch(/^B85-\d{4}$/);

    await page.getByLabel('Total weight').check();
    await page.getByLabel('Total weight', { exact: true }).last().fill('0');
    await page.getByLabel('Use by').fill('2020-01-01');
    await page.getByRole('button', { name: 'Receive', exact: true }).click();
    await page.getByText('must be above 0').waitFor();
    await look(page, 'stock-receive-wrong');
    await page.getByLabel('Total weight', { exact: true }).last().fill('120,5 kg');
    await page.getByLabel('Lot here').fill('B85-1119');
    await page.getByRole('button', { name: 'Receive', exact: true }).click();
    await page.getByText(/2020-01-01 is before/).waitFor();
    expect(await errorOf(page, 'Use by').count()).toBe(1);
    await page.getByLabel('Use by').fill('2099-01-01');
    await page.getByRole('button', { name: 'Receive', exact: true }).click();
    await errorOf(page, 'Lot here').waitFor();
    await expectAccessible(page);

    await page.getByLabel('Lot here').fill(id);
    expect(await errorOf(page, 'Lot here').count()).toBe(0);
    await page.getByText('Boxes one by one').click();
    await page.getByLabel('Weights of the boxes').fill('60.1 60.2 59.9');
    await page.getByText('3 boxes, together 180.2 lb').waitFor();
    await page.getByText('Fat, origin, hold').click();
    await page.getByLabel('Fat', { exact: true }).fill('16.4');
    await page.getByLabel('Found by').fill('NIR');
    await look(page, 'stock-receive-filled');
    await page.getByRole('button', { name: 'Receive, and the next' }).click();
    await page.getByText(`Received: ${id}, 180.20 lb`).waitFor();
    expect(await page.getByLabel('Supplier (Est. number)').inputValue()).toBe('00001');
    expect(await page.getByLabel('Lot here').inputValue()).toBe('');
    const { body } = await ask(shop(), `/lots/${id}`);
    expect(body).toMatchObject({
      onHand: { lb: 180.2 },
      measuredFat: { fatFraction: 0.164 },
      costPerLb: 3.06,
    });
    await page.getByRole('link', { name: id }).click();
    await page.getByRole('heading', { name: new RegExp(id), level: 1 }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('keeps a delivery that was typed without a connection, and books it once', async () => {
    const { page, context, complaints } = await open({
      at: 'stock/receive',
      size: 'phone',
      expected: OFFLINE,
    });
    await page.getByLabel('Material').fill('pork trim 80');
    await page.getByRole('button', { name: 'Pork trim 80 % lean' }).click();
    await expect.poll(() => page.getByLabel('Price', { exact: true }).inputValue()).toBe('1.36');
    await context.setOffline(true);
    await page.getByLabel('Boxes', { exact: true }).fill('7');
    const id = await page.getByLabel('Lot here').inputValue();
    const send = page.getByRole('button', { name: 'Receive', exact: true });
    await send.click();
    await page.getByText('What you typed is kept on this device').first().waitFor();
    await context.setOffline(false);
    await page.reload();
    await expect.poll(() => page.getByLabel('Boxes', { exact: true }).inputValue()).toBe('7');

    // The service takes it, but its answer is lost: nobody knows, and it is sent again.
    let lost = 0;
    await page.route('**/v1/lots', async (route) => {
      if (route.request().method() !== 'POST' || lost > 0) return route.continue();
      lost += 1;
      await route.fetch();
      await route.abort();
    });
    await send.click();
    await page.getByText('send it again when the connection is back').waitFor();
    await page.reload();
    await expect.poll(() => page.getByLabel('Lot here').inputValue()).toBe(id);
    await send.click();
    await page.getByText(`Received: ${id}, 420.00 lb`).waitFor();
    expect(lost).toBe(1);
    const { body } = await ask(shop(), '/lots?materialId=pork-trim-80');
    expect(body.items.map((lot: { id: string }) => lot.id).toSorted()).toEqual(['P80-1121', id].toSorted());
    expect((await ask(shop(), `/movements?lotId=${id}`)).body.items).toHaveLength(1);
    expect(complaints).toEqual([]);
  });

  it('lets two people change one lot: the second sees the newest, and keeps what was typed', async () => {
    await aLot(shop(), 'TWO', { location: 'Cooler 1' });
    const [one, two] = [await open({ at: 'stock/TWO?do=change' }), await open({ at: 'stock/TWO?do=change' })];
    await two.page.getByLabel('Place').fill('Freezer');
    await one.page.getByLabel('Place').fill('Cooler 9');
    await one.page.getByLabel('Lot of the supplier').fill('S-77');
    await one.page.getByRole('button', { name: 'Save' }).click();
    await one.page.getByText('Saved: TWO').waitFor();
    await two.page.getByRole('button', { name: 'Save' }).click();
    await two.page.getByText('Someone else changed this').waitFor();
    await two.page.getByText('In the books: Cooler 9').waitFor();
    expect(await two.page.getByLabel('Place').inputValue()).toBe('Freezer');
    expect(await two.page.getByLabel('Lot of the supplier').inputValue()).toBe('S-77');
    await expectAccessible(two.page);
    await look(two.page, 'stock-changed-meanwhile');
    await two.page.reload();
    await expect.poll(() => two.page.getByLabel('Place').inputValue()).toBe('Freezer');
    await two.page.getByRole('button', { name: 'Save' }).click();
    await two.page.getByText('Saved: TWO').waitFor();
    expect((await ask(shop(), '/lots/TWO')).body).toMatchObject({ location: 'Freezer', supplierLot: 'S-77' });
    expect([...one.complaints, ...two.complaints]).toEqual([]);
  });

  it('books what happens to a lot, and takes it back', async () => {
    await aLot(shop(), 'MOVED');
    const { page, complaints } = await open({ at: 'stock/MOVED' });
    const freeIs = (text: string) => page.locator('.stock-weights').getByText(text).first().waitFor();
    const sure = (name: string) => page.getByRole('dialog').getByRole('button', { name });

    await page.getByRole('button', { name: 'Count' }).click();
    await sure('Count').click();
    await page.getByRole('dialog').getByText('needed').waitFor();
    await page.getByLabel('What is really there', { exact: true }).fill('96 lb 8 oz');
    await sure('Count').click();
    await page.getByRole('dialog').getByText('is missing').waitFor();
    await expectTouchable(page);
    await page.getByLabel('Reason').fill('counted on Friday');
    await sure('Count').click();
    await freeIs('96.50 lb');
    await page.locator('.told').getByRole('button', { name: 'Undo' }).click();
    await freeIs('100.00 lb');

    await page.getByRole('button', { name: 'Discard' }).click();
    await page.getByLabel('Weight', { exact: true }).fill('500');
    await page.getByLabel('Reason').fill('fell on the floor');
    await sure('Discard').click();
    await page
      .getByRole('dialog')
      .getByText(/Take less/)
      .waitFor();
    await page.getByLabel('Weight', { exact: true }).fill('10');
    await sure('Discard').click();
    await freeIs('90.00 lb');

    await page.getByRole('button', { name: 'Add a fat test' }).click();
    await page.getByLabel('Fat', { exact: true }).fill('26.1');
    await sure('Add a fat test').click();
    await freeIs('73.9 %');
    await page.getByRole('button', { name: 'Withdraw' }).click();
    await page.getByLabel('Reason').fill('sample of another lot');
    await sure('Withdraw').click();
    await page.getByText('Withdrawn: sample of another lot').waitFor();

    await page.getByRole('button', { name: 'Put on hold' }).click();
    await page.getByLabel('Reason').fill('torn bag');
    await sure('Put on hold').click();
    await page.getByText('on hold: torn bag').waitFor();
    await look(page, 'stock-lot-held');
    await page.getByRole('button', { name: 'Release' }).click();
    await page.getByLabel('Reason').fill('rewrapped');
    await sure('Release').click();
    await page.getByRole('button', { name: 'Put on hold' }).waitFor();

    const discarded = page.getByRole('row', { name: /fell on the floor/ });
    await discarded.getByRole('button', { name: 'Take back' }).click();
    await page.getByLabel('Reason').fill('wrong lot');
    await sure('Take back').click();
    await freeIs('100.00 lb');
    await discarded.getByText('taken back').waitFor();
    expect(await page.getByRole('link', { name: 'What was made of it' }).getAttribute('href')).toBe(
      '#/records/trace?lot=MOVED',
    );
    expect(complaints).toEqual([]);
  });

  it('ships several lots together, all of them or none', async () => {
    await aLot(shop(), 'OUT-1');
    await aLot(shop(), 'OUT-2');
    const { page, complaints } = await open({ at: 'stock/ship', size: 'phone' });
    for (const id of ['OUT-1', 'OUT-2']) {
      await page.getByLabel('Add a lot').fill(id);
      await page.getByRole('button', { name: `+ ${id}` }).click();
    }
    await page.getByRole('button', { name: 'Ship 2 lots' }).click();
    await page.locator('.field', { hasText: 'To whom' }).getByText('needed').waitFor();
    await page.getByLabel('To whom').fill('Corner grocery');
    await page.getByLabel('Delivery note or invoice').fill('D-1');
    await page.getByRole('region', { name: 'OUT-1' }).getByText('All that is free').click();
    const second = page.getByRole('region', { name: 'OUT-2' });
    await second.getByLabel('Weight', { exact: true }).fill('101');
    await page.getByRole('button', { name: 'Ship 2 lots' }).click();
    await second.getByText(/Take less/).waitFor();
    expect((await ask(shop(), '/lots/OUT-1')).body.onHand.lb).toBe(100);
    await look(page, 'stock-ship-short');
    await second.getByLabel('Weight', { exact: true }).fill('40');
    await page.reload();
    await page.getByRole('button', { name: 'Ship 2 lots' }).click();
    await page.getByText('140.00 lb shipped to Corner grocery').first().waitFor();
    expect((await ask(shop(), '/lots/OUT-2')).body.onHand.lb).toBe(60);
    expect(complaints).toEqual([]);
  });

  it('counts, labels and ships packs by their number', async () => {
    const mixer = mixerAt(shop().service.address);
    const batch = await mixer.weighed('ground-beef-80-20', 60);
    await mixer.done(`/batches/${batch.id}/finish`, { output: { weight: lb('60') } });
    const packed = await mixer.done(`/batches/${batch.id}/packs`, {
      packs: [{ count: 40, format: 'brick-1-lb' }],
    });
    const { lotId } = packed.packs[0];
    const { page, context, complaints } = await open({ at: `stock/${lotId}` });
    const dialog = page.getByRole('dialog');
    await page.locator('.stock-weights').getByText('40 packs').waitFor();
    await page.getByRole('button', { name: 'Count' }).click();
    await dialog.getByLabel('Packs that are really there').fill('39');
    await dialog.getByLabel('Reason').fill('one was torn');
    await dialog.getByRole('button', { name: 'Count' }).click();
    await page.locator('.stock-weights').getByText('39 packs').waitFor();
    await page.getByRole('button', { name: 'Print its label' }).click();
    await dialog.getByLabel('How many labels').fill('0');
    await dialog.getByRole('button', { name: 'Print' }).click();
    await errorOf(page, 'How many labels').waitFor();
    await dialog.getByLabel('How many labels').fill('2');
    const tab = context.waitForEvent('page');
    await dialog.getByRole('button', { name: 'Print' }).click();
    expect((await tab).url()).toMatch(/^blob:/);
    await dialog.getByRole('button', { name: 'Close' }).click();

    await page.getByRole('link', { name: 'Ship', exact: true }).click();
    await page.getByRole('button', { name: `+ ${lotId}` }).click();
    await page.getByRole('region', { name: lotId }).getByLabel('Packs', { exact: true }).last().fill('9');
    await page.getByLabel('To whom').fill('Corner grocery');
    await page.getByLabel('Delivery note or invoice').fill('D-2');
    await page.getByRole('button', { name: 'Ship 1 lot' }).click();
    await page.getByText('9.00 lb shipped to Corner grocery').first().waitFor();
    await page.getByText('is not closed').first().waitFor();
    await page.locator('.told').getByRole('button', { name: 'Undo' }).click();
    await expect.poll(async () => (await ask(shop(), `/lots/${lotId}`)).body.packs.onHand).toBe(39);
    expect(complaints).toEqual([]);
  });

  it('keeps materials of our own and prices', async () => {
    const { page, complaints } = await open({ at: 'stock/materials' });
    const dialog = page.getByRole('dialog');
    await page.getByLabel('Search').fill('sage');
    await page.getByRole('button', { name: 'Copy: Sage', exact: false }).first().click();
    await dialog.getByLabel('Name on the floor').fill('House sage');
    await dialog.getByLabel('Water', { exact: true }).fill('99');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.getByText(/more than the whole/).waitFor();
    await dialog.getByLabel('Water', { exact: true }).fill('8');
    await dialog.getByLabel('mustard').check();
    await expectAccessible(page);
    await expectTouchable(page);
    await look(page, 'stock-material');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Saved: House sage').waitFor();
    expect((await ask(shop(), '/materials/house-sage')).body).toMatchObject({
      own: true,
      allergens: ['mustard'],
    });
    await page.getByRole('button', { name: 'Change: House sage' }).click();
    await dialog.getByLabel('Name on the floor').fill('House sage, rubbed');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText('House sage, rubbed').first().waitFor();

    await page.getByRole('link', { name: 'Prices' }).click();
    await page.getByRole('button', { name: 'Add a price' }).click();
    await dialog.getByLabel('Material').fill('house sage');
    await dialog.getByRole('button', { name: 'House sage, rubbed' }).click();
    await dialog.getByLabel('Price', { exact: true }).fill('8,4');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('row', { name: /House sage, rubbed.*\$8\.40\/lb/ }).waitFor();
    await page.getByRole('button', { name: 'Withdraw: House sage, rubbed' }).click();
    await dialog.getByRole('button', { name: 'Withdraw' }).click();
    await page.getByText('House sage, rubbed is withdrawn').waitFor();

    await page.getByRole('link', { name: 'Materials' }).click();
    await page.getByLabel('Only our own').check();
    await page.getByRole('button', { name: 'Withdraw: House sage, rubbed' }).click();
    await dialog.getByRole('button', { name: 'Withdraw' }).click();
    await page.getByText('You have no material of your own yet').waitFor();
    expect(complaints).toEqual([]);
  });

  it('saves tables, shows what a file would change and what is wrong in it, and takes it in', async () => {
    const { folder, remove } = ownFolder();
    try {
      const { page, complaints } = await open({ at: 'stock/sheets', size: 'desk' });
      const saving = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Save as CSV' }).click();
      const download = await saving;
      expect(download.suggestedFilename()).toMatch(/^lots-\d{4}-\d\d-\d\d\.csv$/);
      await download.saveAs(join(folder, 'lots.csv'));
      expect(readFileSync(join(folder, 'lots.csv'), 'utf8')).toMatch(/^lot_id,material_id,/);

      // The same file again, put right meanwhile.
      const prices = async (rows: string) => {
        writeFileSync(join(folder, 'prices.csv'), `material_id,cost,cost_per\n${rows}`);
        const choosing = page.waitForEvent('filechooser');
        await page.getByLabel('File, CSV or .xlsx').click();
        await (await choosing).setFiles(join(folder, 'prices.csv'));
      };
      await page.getByLabel('Table').last().selectOption('Prices');
      await prices('salt,a lot,lb\nsugar,0.7,lb\n');
      await page.getByText('1 cell is wrong').waitFor();
      await page.getByRole('row', { name: /B2.*cost.*a lot/ }).waitFor();
      await expectAccessible(page);
      await look(page, 'stock-sheets-wrong');
      expect(await page.getByRole('button', { name: /Take in/ }).count()).toBe(0);
      await prices('salt,0.25,lb\nwater,0,lb\n');
      await page.getByText('Nothing is taken in yet. 2 rows: 0 new, 1 changed, 1 as they are.').waitFor();
      await page.getByRole('button', { name: 'Take in 1 row' }).click();
      await page.getByText('Taken in.').waitFor();
      const { body } = await ask(shop(), '/prices');
      expect(body.items.find((price: { materialId: string }) => price.materialId === 'salt').costPerLb).toBe(
        0.25,
      );
      await prices('salt,0.25,lb\n');
      await page.getByText('Everything stands in the books as it is in the file.').waitFor();
      expect(complaints).toEqual([]);
    } finally {
      remove();
    }
  });

  it('offers an inspector nothing but to read', async () => {
    const { page, complaints } = await open({});
    await page.route('**/v1/session', async (route) => {
      const response = await route.fetch();
      const session = await response.json();
      const caller = { ...session.caller, role: 'inspector', may: ['anyone', 'read'] };
      await route.fulfill({ response, json: { ...session, caller } });
    });
    await page.goto(`${shop().service.address}/#/stock`);
    await page.reload();
    await page.getByRole('img', { name: /What must be used first/ }).waitFor();
    expect(await page.getByRole('link', { name: 'Receive' }).count()).toBe(0);
    for (const place of ['B73-1120', 'materials', 'prices', 'sheets', 'receive']) {
      await page.goto(`${shop().service.address}/#/stock/${place}`);
      await page.locator('main h1, main .notice').first().waitFor();
      const offered = await page.locator('main button').allTextContents();
      expect(offered.filter((text) => !/^(Save|All tables|Show more)/.test(text))).toEqual([]);
    }
    await page.goto(`${shop().service.address}/#/stock/B73-1120?do=change`);
    await page.getByRole('heading', { name: /B73-1120/ }).waitFor();
    expect(await page.getByRole('dialog').count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});
