import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { packLabelAnswer } from '../../../src/api/labels/contract.ts';
import type { Service } from '../../../src/api/service.ts';
import { drawnTextOfPdf, MISSING_READERS, pagesOfPdf } from '../../documents/pdf/reading.ts';
import { lb, type Mixer, mixerAt } from '../batches/mixer.ts';
import { demoProduct, type Json, send, startDemo, strictly } from '../running.ts';
import { type Ask, clientOf, good, refusal, verifiedStop } from '../stock/client.ts';

/** Labels of packs over HTTP: of lots that were really packed, and of blends that are only thought of. */

let service: Service;
let mixer: Mixer;
let ask: Ask;
let batch: Json;

beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
  ask = clientOf(service);
  batch = await mixer.weighed('ground-beef-80-20', 100);
  await mixer.done(`/batches/${batch.id}/finish`, {
    output: { weight: lb('99.5'), useByDate: '2026-12-09' },
  });
});
afterAll(() => verifiedStop(service));

const pack = (...packs: object[]) => mixer.post(`/batches/${batch.id}/packs`, { packs });
const labelOf = async (lot: string, query = ''): Promise<Json> =>
  (await good(ask(`GET /lots/${lot}/label${query}`))).body;

async function pdf(path: string, body?: object): Promise<Uint8Array> {
  const response = await fetch(`${service.address}/v1${path}`, {
    method: body ? 'POST' : 'GET',
    headers: { accept: 'application/pdf', ...(body && { 'content-type': 'application/json' }) },
    ...(body && { body: JSON.stringify(body) }),
  });
  const bytes = new Uint8Array(await response.arrayBuffer());
  expect(response.status, Buffer.from(bytes).toString('latin1').slice(0, 300)).toBe(200);
  expect(response.headers.get('content-type')).toBe('application/pdf');
  expect(Buffer.from(bytes.slice(0, 5)).toString()).toBe('%PDF-');
  return bytes;
}

describe('packs of a format of the product', () => {
  test('declare what the format says, and are labelled by it', async () => {
    const { status, body } = await pack({ count: 20, format: 'brick-1-lb' });
    expect(status, JSON.stringify(body)).toBe(200);
    expect(body.packs.at(-1)).toMatchObject({ count: 20, net: { value: '1', unit: 'lb' } });
    const { body: lot } = await good(ask(`GET /lots/${body.packs.at(-1).lotId}`));
    expect(lot.packs).toMatchObject({ packed: 20, net: { value: '1', unit: 'lb' }, format: 'brick-1-lb' });
    const label = await labelOf(lot.id);
    const declared = await mixer.get(`/batches/${batch.id}/label`);
    expect(label).toMatchObject({
      name: declared.name,
      leanPair: declared.leanPair.text,
      netWeight: { text: 'NET WT 1 LB (453g)' },
      lotId: `${batch.id}-P1`,
      plant: {
        name: 'Demo Plant',
        address: ['1 Example Road', 'Sampletown, ZZ 00000'],
        establishment: '00000',
      },
      dates: [
        { says: 'Packed', day: '2026-11-25' },
        { says: 'Use by', day: '2026-12-09' },
      ],
      labelStock: 'roll-102x152',
    });
    expect(label.codes.map(({ symbology, data }: Json) => [symbology, data])).toEqual([
      ['upc-a', '400001000014'],
      ['gs1-datamatrix', `(01)00400001000014(13)261125(17)261209(10)${batch.id}-P1`],
    ]);
  });

  test('that are weighed one by one are packed by what they hold together', async () => {
    const { status, body } = await pack({ count: 10, format: 'tray', filled: lb('12.55') });
    expect(status, JSON.stringify(body)).toBe(200);
    const lot = body.packs.at(-1);
    expect(lot).toMatchObject({ count: 10, net: { value: '1.255', unit: 'lb' } });
    const label = await labelOf(lot.lotId, '?net=1.238');
    expect(label).toMatchObject({
      netWeight: { text: 'NET WT 1.23 LB' },
      tare: 'Tare 0.03 lb',
      // 1.23 lb at 5.49.
      price: { unit: '$5.49/lb', total: '$6.75' },
    });
    expect(label.codes.map(({ data }: Json) => data)).toEqual([
      '201080006757',
      `(01)99521000000011(3202)000123(13)261125(17)261209(3922)675(10)${lot.lotId}`,
    ]);
    const inKg = await labelOf(lot.lotId, '?net=0.5&unit=kg');
    expect(inKg.netWeight.text).toBe('NET WT 1.10 LB');
    await refusal(ask(`GET /lots/${lot.lotId}/label`), 422, [], 'give its net weight as net and unit');
    await refusal(
      ask(`GET /lots/${lot.lotId}/label?unit=kg`),
      400,
      ['/net'],
      'stands there without a weight',
    );
    await refusal(ask(`GET /lots/${lot.lotId}/label?net=0`), 400, ['/net'], 'what the pack weighs');
    await refusal(ask(`GET /lots/${lot.lotId}/label?net=999`), 422, [], 'above 999.99');
  });

  test.each([
    ['an unknown format', { count: 1, format: 'bag' }, 'format', 'its packs are brick-1-lb, tray'],
    ['another weight', { count: 1, format: 'brick-1-lb', net: lb('2') }, 'net', 'declares 1 lb, not 2 lb'],
    ['a common weight of weighed packs', { count: 1, format: 'tray', net: lb('1') }, 'net', 'one by one'],
    ['weighed packs without their weight', { count: 4, format: 'tray' }, 'filled', 'hold together'],
  ])('%s is refused', async (_, request, field, words) => {
    const { status, body } = await pack(request);
    expect([status, body.errors[0].pointer]).toEqual([422, `/packs/0/${field}`]);
    expect(body.errors[0].message).toContain(words);
  });

  test('or of none: the weight must be there, and no number is', async () => {
    const none = await pack({ count: 1 });
    expect([none.status, none.body.errors[0].pointer]).toEqual([400, '/packs/0/net']);
    const { body } = await pack({ count: 3, net: lb('5') });
    const label = await labelOf(body.packs.at(-1).lotId);
    expect(label.codes).toEqual([]);
    expect(label.netWeight.text).toBe('NET WT 5 LB (2267g)');
    expect(label.nutrition?.serving?.count).toBe('About 20 servings per container');
    await refusal(ask(`GET /lots/${body.packs.at(-1).lotId}/label?net=5`), 422, ['/net'], 'leave net out');
  });

  test('stay as they were labelled when the product is changed later', async () => {
    const before = await labelOf(`${batch.id}-P1`);
    const { etag } = await good(ask('GET /products/ground-beef-80-20'));
    const product = demoProduct('ground-beef-80-20');
    product.label.packs = [{ id: 'brick-1-lb', netWeight: { value: '2', unit: 'lb' } }];
    await good(ask('PUT /products/ground-beef-80-20', { body: product, ifMatch: etag }));
    expect(await labelOf(`${batch.id}-P1`)).toEqual(before);
    const { body } = await pack({ count: 1, format: 'brick-1-lb' });
    expect(body.packs.at(-1).net).toEqual({ value: '2', unit: 'lb' });
  });

  test('what is no packs has no label', async () => {
    await refusal(ask(`GET /lots/${batch.id}/label`), 422, ['/id'], 'is no packs');
    await refusal(ask('GET /lots/nothing-P1/label'), 404, [], 'nothing-P1');
  });
});

describe('on paper', () => {
  test.skipIf(MISSING_READERS.length > 0)('a label to a page, as many as are asked for', async () => {
    const bytes = await pdf(`/lots/${batch.id}-P1/label?copies=3`);
    expect(await pagesOfPdf(bytes)).toHaveLength(3);
    const text = await drawnTextOfPdf(bytes);
    for (const part of ['NET WT 1 LB (453g)', `Lot ${batch.id}-P1`, 'Safe Handling Instructions']) {
      expect(text).toContain(part);
    }
  });

  test('in two parts on smaller labels, of which the whole tells when it is too large', async () => {
    for (const [part, stock] of [
      ['front', 'roll-76x51'],
      ['back', 'roll-102x127'],
    ]) {
      await pdf(`/lots/${batch.id}-P1/label?part=${part}&stock=${stock}`);
      await pdf(`/pack-labels?part=${part}&stock=${stock}`, {
        blend: { product: 'hamburger-patties', batchSize: { total: { value: 100, unit: 'lb' } } },
        lotId: 'TRIAL-1',
      });
    }
  });

  test('what cannot be printed so is refused', async () => {
    const refuse = async (query: string, status: number, words: string) => {
      const got = await send(service.address, {
        method: 'GET',
        path: `/v1/lots/${batch.id}-P1/label${query}`,
        headers: { accept: 'application/pdf' },
      });
      expect([got.status, got.text]).toEqual([status, expect.stringContaining(words)]);
      expect(got.headers['content-type']).toContain('application/problem+json');
    };
    await refuse('?stock=roll-58x40', 422, 'It fits on roll-102x152');
    await refuse('?stock=a-postcard', 400, 'must be one of: roll-102x152');
    await refuse('?stock=roll-76x51', 422, 'In two labels: part front fits on');
    await refuse('?part=side', 400, 'must be one of: whole, front, back');
    await refuse('?copies=0', 400, 'from 1 to 200');
    await refuse('?start=2', 422, 'has one label to a page');
  });
});

describe('without a batch', () => {
  const request = (part: object = {}) => ({
    blend: { product: 'breakfast-sausage-links', batchSize: { total: { value: 100, unit: 'lb' } } },
    lotId: 'TRIAL-1',
    useByDate: '2026-12-09',
    ...part,
  });

  test('a blend has the label of its first pack, or of the one that is named', async () => {
    const { body } = await good(ask('POST /pack-labels', { body: request() }));
    expect(strictly(packLabelAnswer).safeParse(body).error).toBeUndefined();
    expect(body).toMatchObject({
      pieces: '8 links',
      netWeight: { text: 'NET WT 12.8 OZ (362g)' },
      lotId: 'TRIAL-1',
    });
    const bytes = await pdf('/pack-labels?stock=letter-102x127&copies=2&start=3&guides=true', {
      ...request(),
      blend: { product: 'hamburger-patties', batchSize: { total: { value: 100, unit: 'lb' } } },
    }).catch((error: Error) => error);
    // A raw product with its panel needs the large stock.
    expect(String(bytes)).toContain('does not fit on letter-102x127');
  });

  test('faults are named where they stand', async () => {
    const refused = (part: object, status: number, pointers: string[], words: string) =>
      refusal(ask('POST /pack-labels', { body: request(part) }), status, pointers, words);
    await refused({ format: 'bag' }, 422, ['/format'], 'its packs are links-8');
    await refused({ lotId: 'Würste 1' }, 422, [], 'signs that a code cannot hold');
    await refused({ useByDate: '2026-11-01' }, 422, [], 'before the day of packing');
    await refused({ bestBeforeDate: '2026-12-09' }, 400, ['/bestBeforeDate'], 'one of the two');
    const blend = { ...request().blend, product: 'nothing' };
    await refused({ blend }, 422, ['/blend/product'], 'nothing');
    await refused({ blend: { product: 'bratwurst' } }, 400, ['/blend/batchSize'], 'is missing');
  });
});

test('the stocks are listed with their size', async () => {
  const { body } = await good(ask('GET /label-stocks'));
  expect(body.items[0]).toMatchObject({ id: 'roll-102x152', widthMm: 101.6, heightMm: 152.4 });
  expect(body.items.find(({ id }: Json) => id === 'a4-70x51').sheet).toMatchObject({ columns: 3, rows: 5 });
});

test('a stock that is not there is refused in a product and in the plant', async () => {
  const product = demoProduct('bratwurst');
  product.label.packs = [{ id: 'pack', netWeight: { value: '1', unit: 'lb' }, labelStock: 'postcard' }];
  const { etag } = await good(ask('GET /products/bratwurst'));
  await refusal(
    ask('PUT /products/bratwurst', { body: product, ifMatch: etag }),
    422,
    ['/label/packs/0/labelStock'],
    'the stocks are roll-102x152',
  );
  const { body, etag: version } = await good(ask('GET /plant'));
  const plant = { ...body.settings, printing: { ...body.settings.printing, labelStock: 'postcard' } };
  await refusal(
    ask('PUT /plant', { body: plant, ifMatch: version }),
    422,
    ['/printing/labelStock'],
    'postcard',
  );
});
