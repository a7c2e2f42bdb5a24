import { expect, it } from 'vitest';
import { expectTouchable, inBrowser, look, type Opened, SIZES } from './browser.ts';

/** Of a conflict every way out is worked out in full. */
const SOLVING_MS = 30_000;

const allHold = (page: Opened['page']) =>
  page
    .locator('.products-live')
    .getByText(/All \d+ limits hold/)
    .waitFor({ timeout: SOLVING_MS });

inBrowser('products', (shop) => {
  const api = async (path: string, init: RequestInit = {}) => {
    const answer = await fetch(`${shop().service.address}/v1${path}`, {
      ...init,
      headers: { 'content-type': 'application/json', ...init.headers },
    });
    return { status: answer.status, etag: answer.headers.get('etag') ?? '', body: await answer.json() };
  };
  const field = (page: Opened['page'], name: string | RegExp) =>
    page.getByRole('textbox', { name, exact: true });

  it('make a product from nothing, to saved and blended', async () => {
    const { page, complaints } = await shop().open({ at: 'products', size: 'desk' });
    await page.getByRole('link', { name: 'New product' }).click();
    await page.getByText('Choose a product class').waitFor();
    await field(page, 'Name in the plant').fill('Garlic sausage');
    expect(await field(page, 'Short name').inputValue()).toBe('garlic-sausage');
    await page.getByLabel('Product class').selectOption('uncooked-sausage');
    await page.getByText('skeletal meat · Any species').click();
    await page.getByRole('checkbox', { name: 'pork', exact: true }).check();
    await page.getByRole('group', { name: 'Fat' }).getByLabel('At most').fill('30');
    await page.getByRole('group', { name: 'Fat' }).getByLabel('At least').fill('26');
    await page.getByRole('searchbox', { name: 'Add a material' }).fill('salt');
    await page.getByRole('button', { name: 'Salt', exact: true }).click();
    await field(page, 'Salt: Rate').fill('1.65');
    await allHold(page);
    await look(page, 'products-new-desk');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('Garlic sausage is saved.').waitFor();
    await page.waitForURL(/#\/products\/garlic-sausage$/);
    expect((await api('/products/garlic-sausage')).body).toMatchObject({
      name: 'Garlic sausage',
      meatBlock: [{ name: 'meat', kinds: ['skeletal meat'], species: ['pork'] }],
      targets: [{ measure: 'fat', min: 0.26, max: 0.3 }],
      seasoning: [{ materialId: 'salt', basis: 'green weight', fraction: 0.0165 }],
    });
    const blend = await api('/blends', {
      method: 'POST',
      body: JSON.stringify({ product: 'garlic-sausage', batchSize: { total: { value: 100, unit: 'lb' } } }),
    });
    expect(blend.body.outcome).toBe('blend');
    expect(complaints).toEqual([]);
    // Withdrawn, and taken back.
    await page.getByRole('link', { name: 'Products' }).last().click();
    await page.getByRole('button', { name: 'Withdraw Garlic sausage' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Withdraw', exact: true }).click();
    await page.getByRole('link', { name: 'Garlic sausage', exact: true }).waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('link', { name: 'Garlic sausage', exact: true }).waitFor();
    await page.getByRole('link', { name: 'Copy Garlic sausage' }).click();
    await expect.poll(() => field(page, 'Name in the plant').inputValue()).toBe('Garlic sausage (copy)');
  });

  it('show a limit that breaks at its line, while it is typed', async () => {
    const { page, complaints } = await shop().open({ at: 'products/smoked-sausage' });
    const cure = field(page, 'Curing salt 6.25 % nitrite: Rate');
    await page.getByText('at most 0.2496 % = 3.99 oz/100 lb').waitFor();
    await cure.fill('0.28');
    await page.getByText('This is 0.28 % of green weight: 175.0 ppm of nitrite', { exact: false }).waitFor();
    await page.getByText('No batch fits', { exact: true }).first().waitFor({ timeout: SOLVING_MS });
    await look(page, 'products-nitrite-tablet');
    await page.getByRole('button', { name: 'Make it 0.2496 %' }).click();
    expect(await cure.inputValue()).toBe('0.2496');
    await allHold(page);
    await page.getByLabel('Curing salt 6.25 % nitrite: Unit').selectOption('oz/100 lb');
    expect(await cure.inputValue()).toBe('3.9936');
    // The house allows 2.2 % of salt in the finished product; salt alone is on green weight.
    await field(page, 'Salt: Rate').fill('3');
    await page.getByText('the house allows at most 2.2 %', { exact: false }).waitFor();
    await field(page, 'Salt: Rate').fill('1,8');
    await allHold(page);
    await field(page, 'Salt: Rate').fill('1.8x');
    await page.getByText('Some figures cannot be read yet').first().waitFor();
    // What is not allowed in a class at all.
    await field(page, 'Salt: Rate').fill('1.8');
    await page.getByLabel('Product class').selectOption('uncooked-sausage');
    await page.getByText('Not allowed in this product:', { exact: false }).first().waitFor();
    await page.getByRole('button', { name: 'Back to what is saved' }).click();
    await allHold(page);
    expect(await cure.inputValue()).toBe('0.24');
    expect(complaints).toEqual([]);
  });

  it('offer ways out that change the form', async () => {
    const { page } = await shop().open({ at: 'products/ground-beef-80-20', size: 'desk' });
    await allHold(page);
    const fat = page.getByRole('group', { name: 'Fat' });
    await fat.getByLabel('At least').fill('0.5');
    await fat.getByLabel('At most').fill('1');
    await page.getByText('These cannot all hold:').waitFor({ timeout: SOLVING_MS });
    const wayOut = page.locator('.products-live button').first();
    await wayOut.waitFor();
    await look(page, 'products-way-out-desk');
    await wayOut.click();
    await allHold(page);
    expect(await fat.getByLabel('At most').inputValue()).not.toBe('1');
  });

  it('keep what is typed when someone else has saved, and when the connection is lost', async () => {
    const { page, context } = await shop().open({
      at: 'products/italian-sausage',
      expected: [/ERR_INTERNET_DISCONNECTED/],
    });
    const name = field(page, 'Name in the plant');
    await name.fill('Italian sausage, mild');
    const { body, etag } = await api('/products/italian-sausage');
    const theirs = { ...body, process: { ...body.process, mixing: ['Mix 4 minutes'] } };
    await api('/products/italian-sausage', {
      method: 'PUT',
      headers: { 'if-match': etag },
      body: JSON.stringify(theirs),
    });
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('It differs from yours in: name').waitFor();
    await page.reload();
    await page.getByText('It differs from yours in: name').waitFor();
    expect(await name.inputValue()).toBe('Italian sausage, mild');
    await look(page, 'products-conflict-tablet');
    await page.getByRole('button', { name: 'Keep mine' }).click();
    await context.setOffline(true);
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('What you typed is kept on this device; send it again').waitFor();
    await context.setOffline(false);
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('Italian sausage, mild is saved.').waitFor();
    expect((await api('/products/italian-sausage')).body).toMatchObject({
      name: 'Italian sausage, mild',
      process: { mixing: ['Mix 4 minutes'] },
    });
    await name.fill('Italian sausage, hot');
    await page.getByRole('link', { name: 'House rules' }).click();
    await page.getByText('What you typed is kept on this device, but not saved.').waitFor();
  });

  it('keep the rules of the house', async () => {
    const { page, complaints } = await shop().open({ at: 'products/house' });
    const rules = await api('/house-rules');
    await api('/house-rules', {
      method: 'PUT',
      headers: { 'if-match': rules.etag },
      body: JSON.stringify({
        ...rules.body,
        switchedOff: [{ limitId: 'us-319.15a-fat', reason: 'only tried out in a test' }],
      }),
    });
    await page.reload();
    await page.getByText('only tried out in a test', { exact: false }).waitFor();
    await look(page, 'products-house-tablet');
    await page.getByRole('button', { name: 'Hold it again' }).click();
    await page.getByRole('searchbox', { name: 'Find a limit to be sure of' }).fill('fat at most');
    await page.getByRole('button', { name: 'Target: fat at most' }).click();
    await page.getByRole('searchbox', { name: 'Find a limit of the law' }).fill('fat ground beef');
    await page
      .getByRole('button', { name: /ground beef/i })
      .first()
      .click();
    await field(page, 'Own bound').last().fill('30');
    await page
      .getByRole('group', { name: /30 % fat/ })
      .getByRole('textbox', { name: 'Own bound' })
      .fill('31');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('is no tighter than', { exact: false }).first().waitFor();
    await page
      .getByRole('group', { name: /30 % fat/ })
      .getByRole('textbox', { name: 'Own bound' })
      .fill('28');
    await field(page, 'Own bound').last().fill('2.2');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('The house rules are saved.').waitFor();
    const { body } = await api('/house-rules');
    expect(body.switchedOff).toEqual([]);
    expect(body.certainty).toEqual([{ limitId: 'house-fat-max', confidence: 0.95 }]);
    expect(body.tighter.at(-1)).toMatchObject({ bound: 28 });
    await page.getByLabel('Older lots first').fill('2');
    await page.getByRole('button', { name: 'Save the choice of lots' }).click();
    await page.getByText('The choice of lots is saved.').waitFor();
    expect((await api('/plant')).body.settings.floor).toMatchObject({ olderFirstWithin: 0.02 });
    expect(complaints).toEqual([]);
  });

  it.each(Object.keys(SIZES) as (keyof typeof SIZES)[])('can be read and tapped on a %s', async (size) => {
    const language = size === 'tablet' ? 'en' : 'es';
    const { page, complaints } = await shop().open({
      at: 'products',
      size,
      language,
      look: size === 'desk' ? 'dark' : 'light',
    });
    for (const at of ['products', 'products/smoked-sausage', 'products/house']) {
      await page.goto(`${shop().service.address}/#/${at}`);
      await page.locator('h1').waitFor();
      if (at.endsWith('smoked-sausage')) await page.locator('.products-gauges').waitFor();
      if (at.endsWith('house')) await page.locator('.products-rule').first().waitFor();
      await expectTouchable(page);
      await look(page, `${at.replace('/', '-')}-${size}-${language}`);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    }
    expect(complaints).toEqual([]);
  });
});
