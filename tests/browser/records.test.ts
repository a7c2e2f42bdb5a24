import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Mixer, mixerAt } from '../api/batches/mixer.ts';
import { expectTouchable, inBrowser, look, type SIZES } from './browser.ts';

const OFFLINE = { expected: [/ERR_INTERNET_DISCONNECTED/] };

/** One batch of ground beef, packed, shipped, sold and sealed; a supplier whose last lot is far off. */
async function dayOfWork({ done, weighed }: Mixer): Promise<{ batch: string; lot: string }> {
  await done('/cleanings', { equipment: ['grinder'], what: 'cleaned and sanitized' });
  const { id, lines } = await weighed('ground-beef-80-20', 200);
  await done(`/batches/${id}/finish`, { output: { weight: { value: '198', unit: 'lb' } } });
  const packs = [{ count: 80, net: { value: '2', unit: 'lb' } }];
  await done(`/batches/${id}/packs`, { packs });
  const ship = (to: string, document: string, count: number) =>
    done('/shipments', { to, document, lines: [{ lotId: `${id}-P1`, packs: count }] });
  await ship('Corner grocery', 'D-1042', 30);
  await ship('School kitchen', 'D-1043', 20);
  await done(`/lots/${id}-P1/movements`, { kind: 'sold', packs: 5 });
  await done(`/batches/${id}/closing`, { note: 'label checked' });
  await weighed('smoked-sausage', 150);
  const fats = [48.2, 51.4, 50.1, 52.3, 49.7, 50.8, 51.9, 49.2, 50.6, 61.9];
  for (const [at, fat] of fats.entries()) {
    await done('/lots', {
      id: `C50-${String(at + 1).padStart(2, '0')}`,
      materialId: 'beef-trim-50',
      mass: { value: 100, unit: 'lb' },
      cost: { amount: 1.5, per: 'lb' },
      supplierEstablishment: '00003',
      test: { fatFraction: Number((fat / 100).toFixed(3)), method: 'NIR' },
    });
  }
  return { batch: id, lot: lines[0].lotId };
}

inBrowser('records, traces, drills and logs', (shop) => {
  it('says what will be here, and how it comes here, while there is nothing', async () => {
    const { page, complaints } = await shop().open({ at: 'records' });
    const says = async (at: string, text: string) => {
      await page.goto(`${shop().service.address}/#/records${at}`);
      await page.getByText(text).waitFor();
    };
    await says('', 'Finish a batch and close it');
    await says('/trace', 'A trace will be drawn here');
    await says('/drill', 'Drills will be here');
    await says('/logs/grinding', 'No raw beef was ground');
    await says('/logs/cleanings', 'Write one down above');
    await says('/logs/restricted-ingredients', 'Nothing restricted was weighed');
    await says('/costs', 'What batches cost will be here');
    await says('/4711', 'There is no record 4711');
    await says('/drill/NONE', 'There is no recall drill "NONE"');
    expect(complaints).toEqual([]);
  });

  describe('after a day of work', () => {
    let batch: string;
    let lot: string;
    beforeAll(async () => {
      ({ batch, lot } = await dayOfWork(mixerAt(shop().service.address)));
    }, 60_000);

    it('shows what a record holds and seals a correction, also after the connection was lost', async () => {
      const { page, context, complaints } = await shop().open({ at: 'records', ...OFFLINE });
      await page.getByLabel('Kind').selectOption('Batch');
      await page
        .getByRole('link', { name: /^Record \d+/ })
        .first()
        .click();
      await page.getByRole('heading', { level: 1, name: new RegExp(`Batch ${batch}`) }).waitFor();
      await page.getByRole('heading', { name: 'What came out' }).waitFor();
      await page.getByText('label checked').waitFor();
      await page.getByText('Everything in it').click();
      await page.getByText('yield fraction').first().waitFor();
      const seal = page.getByRole('button', { name: 'Seal the correction' });
      await seal.click();
      expect(await page.getByText('Say it in a few words').count()).toBe(3);
      await page.getByLabel('What was wrong').fill('the note says that the label was checked');
      await page.getByLabel('What is right').fill('the label was checked a day later');
      await page.getByLabel('Reason').fill('signed on the wrong line');
      await context.setOffline(true);
      await seal.click();
      await page.getByRole('dialog').getByRole('button', { name: 'Seal the correction' }).click();
      await page.getByText('What you typed is kept on this device').first().waitFor();
      await context.setOffline(false);
      await page.reload();
      expect(await page.getByLabel('What is right').inputValue()).toBe('the label was checked a day later');
      await seal.click();
      await page.getByRole('dialog').getByRole('button', { name: 'Seal the correction' }).click();
      await page.getByText('Corrected by a later record').waitFor();
      await page.getByText('Right: the label was checked a day later').waitFor();
      expect(await page.getByLabel('What is right').inputValue()).toBe('');
      await look(page, 'records-one');
      expect(complaints).toEqual([]);
    });

    it('traces both ways, from a picture whose places lead on', async () => {
      const { page, complaints } = await shop().open({ at: 'records/trace', size: 'desk' });
      await page.getByText('A trace will be drawn here').waitFor();
      const name = page.getByLabel('Our lot', { exact: true }).last();
      await name.fill('NO-SUCH');
      await page.getByRole('button', { name: 'Trace' }).click();
      await page.getByText('Our lot "NO-SUCH" is not in the books.').waitFor();
      await page.getByLabel('Our lot', { exact: true }).last().fill(lot);
      await page.getByRole('button', { name: 'Trace' }).click();
      const picture = page.getByRole('region', { name: 'Picture of the trace' });
      await picture.getByText('Corner grocery', { exact: true }).waitFor();
      for (const place of [lot, batch, `${batch}-P1`]) {
        await picture.getByRole('link', { name: place }).first().waitFor();
      }
      await page.getByText('As a table').click();
      await page
        .getByRole('row', { name: /Corner grocery.*60\.00 lb/ })
        .first()
        .waitFor();
      await look(page, 'records-trace-forward');
      await page.getByRole('link', { name: 'Back: what it is of', exact: true }).click();
      await page.getByRole('heading', { name: 'Whose lots it may be made of' }).waitFor();
      await page.goto(`${shop().service.address}/#/records/trace?lot=${batch}-P1&direction=back`);
      await picture.getByText('Est. 00001', { exact: true }).first().waitFor();
      await look(page, 'records-trace-back');
      await picture.getByRole('link', { name: batch }).first().focus();
      await page.keyboard.press('Enter');
      await page.waitForURL(`**/#/batches/${batch}`);
      expect(complaints).toEqual([]);
    });

    it('runs a recall drill from the start to what was found', async () => {
      const { page, context, complaints } = await shop().open({ at: `records/drill?lot=${lot}` });
      await page.getByRole('button', { name: 'Start the clock' }).click();
      await page.getByText('must say why').first().waitFor();
      await page.getByLabel('Reason').fill('yearly recall drill');
      await page.getByLabel('Our lot', { exact: true }).last().fill('NO-SUCH');
      await page.getByRole('button', { name: 'Start the clock' }).click();
      await page.getByText('There is no lot "NO-SUCH"').waitFor();
      await page.getByLabel('Our lot', { exact: true }).last().fill(lot);
      await page.getByRole('button', { name: 'Start the clock' }).click();
      await page.getByRole('timer').waitFor();
      const ticks = page.getByRole('checkbox');
      const packs = page.getByRole('checkbox', { name: new RegExp(`${batch}-P1`) });
      await packs.check();
      await page.getByRole('textbox', { name: 'Found' }).fill('48');
      await page.getByRole('checkbox', { name: /Corner grocery/ }).check();
      await page.getByRole('textbox', { name: 'Note' }).nth(1).fill('took it off the shelf');
      await look(page, 'records-drill-running');
      await page.reload();
      expect(await packs.isChecked()).toBe(true);
      for (const tick of await ticks.all()) await tick.check();
      await page.getByRole('button', { name: 'Finish the drill' }).click();
      await page.getByRole('dialog').getByRole('button', { name: 'Finish the drill' }).click();
      await page.getByRole('heading', { name: 'What was counted' }).waitFor();
      await page.getByRole('row', { name: /48\.00 lb.*! -2\.00 lb/ }).waitFor();
      await page.getByText('took it off the shelf').waitFor();
      await look(page, 'records-drill-finished');
      await expectPaper(page, 'PDF to print', '/v1/recall-drills/', 'application/pdf');
      await page.getByRole('link', { name: 'Recall drill' }).first().click();
      await page.getByRole('row', { name: /yearly recall drill/ }).waitFor();
      expect(context.pages().length).toBeGreaterThan(0);
      expect(complaints).toEqual([]);
    });

    it('writes a cleaning down and gives the logs on paper and as a table', async () => {
      const { page, complaints } = await shop().open({ at: 'records/logs/cleanings' });
      await page.getByRole('button', { name: 'Write a cleaning down' }).click();
      await page.getByRole('button', { name: 'Seal the cleaning' }).click();
      await page.getByText('must name at least one piece').waitFor();
      await page.getByLabel('Equipment').fill('stuffer, mixer');
      await page.getByLabel('Note').fill('between allergens');
      await page.getByRole('button', { name: 'Seal the cleaning' }).click();
      await page.getByRole('row', { name: /stuffer, mixer.*between allergens/ }).waitFor();
      await expectPaper(page, 'PDF to print', '/v1/logs/cleanings', 'application/pdf');
      const saved = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Table (CSV)' }).click();
      expect((await saved).suggestedFilename()).toMatch(/^cleanings-2026-.*\.csv$/);
      await page.getByRole('link', { name: 'Grinding log' }).click();
      await page.getByRole('heading', { name: 'Ground lot 1' }).waitFor();
      await look(page, 'records-grinding');
      await page.getByRole('link', { name: 'Restricted ingredients' }).click();
      await page
        .getByRole('row', { name: /sodium nitrite/ })
        .first()
        .waitFor();
      await look(page, 'records-restricted');
      await page.getByRole('link', { name: 'Fat tests', exact: true }).click();
      await page.getByRole('row', { name: /C50-10.*61\.90 %/ }).waitFor();
      await page.getByLabel('From day').fill('2026-11-30');
      await page.getByText('fromDay').first().waitFor();
      expect(complaints).toEqual([]);
    });

    it('charts the fat of each supplier and marks what lies outside', async () => {
      const { page, complaints } = await shop().open({ at: 'records/tests', size: 'desk' });
      await page.getByRole('link', { name: /Est\. 00003/ }).click();
      await page.getByText('1 lot to look at.').waitFor();
      await page.getByText('As a table').click();
      await page.getByRole('row', { name: /C50-10.*outside, beyond 3 s/ }).waitFor();
      await page.getByText('e-Handbook of Statistical Methods').waitFor();
      await look(page, 'records-chart');
      expect(complaints).toEqual([]);
    });

    it('adds costs up and finds who did what', async () => {
      const { page, complaints } = await shop().open({ at: 'records/costs' });
      await page.getByRole('img', { name: /Ground beef 80\/20, Weighed/ }).waitFor();
      await page.getByText('Day', { exact: true }).click();
      await page.getByRole('img', { name: /2026, Weighed/ }).waitFor();
      await page.getByRole('link', { name: 'Who did what' }).click();
      await page.getByRole('searchbox', { name: 'About' }).fill(batch);
      await page.getByRole('cell', { name: 'batch closed' }).waitFor();
      expect(await page.getByRole('cell', { name: 'batch planned' }).count()).toBe(1);
      await page.getByRole('combobox', { name: 'Who' }).fill('nobody');
      await page.getByText('Nothing fits this search').waitFor();
      expect(complaints).toEqual([]);
    });

    const places = (): [string, RegExp][] => [
      ['/1', /^(Record|Registro) 1/],
      [`/trace?lot=${lot}`, /^(Trace|Rastreo)$/],
      ['/tests?trim=beef-trim-50&supplier=00003', /^(Fat tests over time|Análisis de grasa en el tiempo)$/],
      ['', /^(Records|Registros)$/],
      ['/drill', /^(Recall drill|Simulacro de retiro)$/],
      ['/logs/grinding', /^(Grinding log|Bitácora de molienda)$/],
      ['/costs', /^(Costs|Costos)$/],
      ['/entries', /^(Who did what|Quién hizo qué)$/],
    ];

    it.each<[keyof typeof SIZES, 'en' | 'es', 'light' | 'dark']>([
      ['tablet', 'en', 'light'],
      ['phone', 'es', 'light'],
      ['desk', 'en', 'dark'],
    ])('can be read and tapped on a %s in %s, %s', async (size, language, looks) => {
      const { page, complaints } = await shop().open({ at: 'records', size, language, look: looks });
      for (const [at, heading] of places()) {
        await page.goto(`${shop().service.address}/#/records${at}`);
        await page.getByRole('heading', { level: 1, name: heading }).waitFor();
        await page.locator('.waiting').waitFor({ state: 'detached' });
        await expectTouchable(page);
        expect(await widerThanTheScreen(page), at).toBe(false);
        await look(page, `records-${at.replaceAll(/\W+/g, '-').slice(0, 12)}-${size}`);
      }
      expect(complaints).toEqual([]);
    });
  });
});

const widerThanTheScreen = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

/** The button fetches a paper of that type. */
async function expectPaper(page: Page, button: string, path: string, type: string): Promise<void> {
  const fetched = page.waitForResponse((response) => response.url().includes(path) && isPaper(response));
  const isPaper = (response: { headers: () => Record<string, string> }) =>
    response.headers()['content-type'] === type;
  await page.getByRole('button', { name: button }).click();
  expect((await fetched).status()).toBe(200);
}
