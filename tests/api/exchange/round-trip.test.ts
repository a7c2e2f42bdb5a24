import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { DATASETS, type Dataset } from '../../../src/tables/sheets/read-dataset.ts';
import { readWorkbook } from '../../../src/tables/sheets/read-workbook.ts';
import { onEachDatabase } from '../../store/databases.ts';
import { NASTY } from '../../tables/sheets/made.ts';
import { demoProduct, type Json, startDemo } from '../running.ts';
import { clientOf, entriesOf, good, verifiedStop } from '../stock/client.ts';
import { fetchTable, sendFile, startEmpty, XLSX } from './empty-plant.ts';

const short = (text: string, most: number) => [...text].slice(0, most).join('');

/** Materials first: the others name them. */
const ORDER: readonly Dataset[] = ['materials', 'prices', 'products', 'lots'];

onEachDatabase((newStoreUrl, kind) => {
  const forms = kind === 'SQLite' ? ['csv', 'xlsx'] : ['csv'];
  let full: Service;
  beforeAll(async () => {
    full = await startDemo({ storeUrl: await newStoreUrl() });
    const ask = clientOf(full);
    for (const [index, text] of NASTY.entries()) {
      await good(
        ask('POST /materials', {
          body: {
            id: `Own_${index}`,
            name: short(text, 120),
            declaredName: short(text, 100),
            kind: 'spice',
            composition: {
              waterFraction: 0.1 + index / 1e9,
              fatFraction: 0.123456789012,
              proteinFraction: 0.14,
              carbohydrateFraction: 0.5,
              ashFraction: 0.08,
              fiberFraction: 0.2,
              sodiumMgPerKg: 1234.5,
              ironMgPerKg: 0.1,
            },
            allergens: ['milk', 'wheat'],
            subIngredients: [short(text, 200), 'plain', 'a; b'],
            madeIn: 'MX',
            source: short(text, 300),
          },
        }),
      );
      await good(
        ask('POST /lots', {
          body: {
            id: `N${index}`,
            materialId: 'beef-trim-73',
            mass: { value: 1234.567 + index, unit: 'lb' },
            box: { value: 60.01, unit: 'lb' },
            cost: { amount: 1.234 + index / 7, per: 'lb' },
            measuredFat: { fatFraction: 0.2713, method: short(text, 80), sdFraction: 0.0123 },
            packedDate: '2026-11-20',
            useByDate: '2026-12-05',
            supplierEstablishment: '00123',
            supplierLot: short(text, 80),
            location: short(text, 80),
            origin: { bornIn: 'MX', raisedIn: 'US', slaughteredIn: 'US' },
            ...(index % 5 === 0 && { hold: `waits: ${short(text, 50)}` }),
          },
        }),
      );
    }
    await good(ask('PUT /prices/Own_3', { body: { cost: { amount: 7.77, per: 'oz' } } }));
    const nasty: Json = demoProduct('bratwurst');
    nasty.id = 'nasty';
    nasty.name = '=1+1; "x"\n2';
    nasty.process.mixing = NASTY.map((text) => short(text, 300));
    nasty.rework = { productIds: ['bratwurst', 'nasty'], maxFraction: 0.1 };
    nasty.targets = [
      { measure: 'cost per kg', max: 4.56 },
      { measure: 'fat', min: 0.26, max: 0.3 },
    ];
    nasty.label = {
      storage: 'keep frozen',
      claims: ['product of usa'],
      nutritionExemption: 'small plant; @ its own word',
      packs: [
        // A number of the form of ISO/IEC 15420 with its check digit, made up for tests.
        { id: 'tray', gtin: '00012345678905', netWeight: { value: '1.00', unit: 'lb' }, pieces: 4 },
        {
          id: 'bulk',
          itemNumber: '01234',
          tare: { value: '0.050', unit: 'kg' },
          price: { amount: '4.90', per: 'lb' },
        },
      ],
    };
    await good(ask('POST /products', { body: nasty }));
  });
  afterAll(() => verifiedStop(full));

  test.each(DATASETS)('%s that are given out and taken in again all stand as they were', async (dataset) => {
    const before = await entriesOf(full);
    for (const query of [...forms.map((form) => `form=${form}`), 'form=csv&decimal=comma']) {
      const { bytes, status } = await fetchTable(full, `${dataset}?${query}`);
      expect(status).toBe(200);
      for (const dryRun of [true, false]) {
        const { body } = await sendFile(full, dataset, bytes, { dryRun, type: 'application/octet-stream' });
        expect(body, JSON.stringify(body).slice(0, 500)).toMatchObject({
          written: false,
          counts: { new: 0, changed: 0, faults: 0 },
        });
        expect(body.counts.unchanged).toBeGreaterThan(8);
      }
    }
    expect(await entriesOf(full)).toBe(before);
  });

  describe.each(forms)('as %s', (form) => {
    test('they found another plant, which gives out the same', async () => {
      const empty = await startEmpty({ storeUrl: await newStoreUrl() });
      const before = await entriesOf(empty);
      for (const dataset of ORDER) {
        const first = await fetchTable(full, `${dataset}?form=${form}`);
        const { status, body } = await sendFile(empty, dataset, first.bytes, {
          type: form === 'csv' ? 'text/csv' : XLSX,
        });
        expect([status, body.written], JSON.stringify(body).slice(0, 600)).toEqual([200, true]);
        const second = await fetchTable(empty, `${dataset}?form=${form}`);
        if (form === 'csv') expect(second.text).toBe(first.text);
        else expect(await cellsOf(second.bytes, dataset)).toEqual(await cellsOf(first.bytes, dataset));
      }
      expect(await entriesOf(empty)).toBe(before + ORDER.length);
      const [there, here] = await Promise.all(
        [full, empty].map(async (service) => (await good(clientOf(service)('GET /products/nasty'))).body),
      );
      expect(here).toEqual(there);
      const lot = (await good(clientOf(empty)('GET /lots/N5'))).body;
      expect(lot).toMatchObject({ held: expect.stringContaining('waits'), supplierEstablishment: '00123' });
      expect(lot.onHand).toEqual((await good(clientOf(full)('GET /lots/N5'))).body.onHand);
      await verifiedStop(empty);
    });
  });
});

async function cellsOf(bytes: Buffer, name: string): Promise<unknown> {
  return (await readWorkbook(bytes, name)).rows;
}
