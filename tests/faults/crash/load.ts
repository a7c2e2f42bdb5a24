import { randomUUID } from 'node:crypto';

/** Clients that write as fast as they get answers, and remember what they were told. */

/** A write that was sent. Without an answer nobody knows whether it was done. */
export interface SentWrite {
  readonly key: string;
  readonly method: 'POST' | 'PUT';
  readonly path: string;
  readonly body: unknown;
  answer?: { readonly status: number; readonly body: unknown };
}

// biome-ignore lint/suspicious/noExplicitAny: answers are read here as a client reads any JSON.
type Json = any;

const MATERIALS = ['beef-trim-85', 'beef-trim-65', 'beef-trim-50', 'beef-trim-90', 'pork-trim-72'];

/**
 * One client: receives lots, moves, holds and tests them, edits products and prices, makes batches and ships their packs,
 * until it is told to stop or nobody answers.
 */
export async function client(address: string, sent: SentWrite[], isOver: () => boolean): Promise<void> {
  const write = async (method: SentWrite['method'], path: string, body: unknown): Promise<Json> => {
    const one: SentWrite = { key: randomUUID(), method, path, body };
    sent.push(one);
    one.answer = await send(address, one);
    return one.answer.body;
  };
  const at: Service = {
    post: (path, body) => write('POST', path, body),
    put: (path, body) => write('PUT', path, body),
    get: async (path) => (await fetch(`${address}/v1${path}`)).json(),
    isOver,
  };
  try {
    while (!isOver()) await pick([receiveAndMove, makeBatch, receiveAndMove, edit])(at);
  } catch (error) {
    if (!isGone(error)) throw error;
  }
}

/** Sends a write under its key. @throws TypeError when nobody answers. */
export async function send(address: string, { key, method, path, body }: SentWrite) {
  const response = await fetch(`${address}/v1${path}`, {
    method,
    headers: {
      'content-type': 'application/json',
      'idempotency-key': key,
      ...(method === 'PUT' && { 'if-match': '*' }),
    },
    body: JSON.stringify(body),
  });
  return { status: response.status, body: (await response.json()) as unknown };
}

/** Whether the service was gone in the middle of it. */
export function isGone(error: unknown): boolean {
  const { name, message } = error as Error;
  // What fetch says when there is no answer, or half of one; any other TypeError is a fault of the client.
  return name === 'AbortError' || (error instanceof TypeError && /^fetch failed$|^terminated$/.test(message));
}

interface Service {
  readonly post: (path: string, body: unknown) => Promise<Json>;
  readonly put: (path: string, body: unknown) => Promise<Json>;
  readonly get: (path: string) => Promise<Json>;
  readonly isOver: () => boolean;
}

async function receiveAndMove({ post }: Service): Promise<void> {
  const id = `C-${randomUUID().slice(0, 13)}`;
  const received = await post('/lots', {
    id,
    materialId: pick(MATERIALS),
    mass: { value: 200 + Math.round(Math.random() * 400), unit: 'lb' },
    cost: { amount: 1 + Math.round(Math.random() * 300) / 100, per: 'lb' },
    receivedDate: '2026-11-25',
    useByDate: '2026-12-20',
    supplierEstablishment: '00001',
    supplierLot: id,
  });
  if (received.id !== id) return;
  await post(`/lots/${id}/movements`, {
    kind: 'discarded',
    mass: { value: 1.5, unit: 'lb' },
    reason: `dropped ${randomUUID()}`,
  });
  await post(`/lots/${id}/tests`, { fatFraction: 0.1 + Math.random() * 0.3, method: 'NIR' });
  await post(`/lots/${id}/hold`, { reason: `to be sampled ${randomUUID()}` });
  await post(`/lots/${id}/release`, { reason: `the sample is clear ${randomUUID()}` });
  // A plant does not heap up lots: every blend looks at all that is on hand.
  await post(`/lots/${id}/movements`, { kind: 'sold', mass: 'all' });
}

/** Everybody edits the same few things. */
async function edit({ put, get }: Service): Promise<void> {
  const { items } = await get('/products');
  const { id } = pick<Json>(items);
  const product = await get(`/products/${id}`);
  await put(`/products/${id}`, { ...product, name: `${product.name.split(' no.')[0]} no. ${randomUUID()}` });
  const cost = { amount: Math.round(Math.random() * 100) / 100, per: 'lb' };
  await put(`/prices/${pick(['salt', 'water'])}`, { cost });
}

async function makeBatch({ post, get, isOver }: Service): Promise<void> {
  const planned = await post('/batches', {
    product: 'ground-beef-80-20',
    batchSize: { total: { value: 60 + Math.round(Math.random() * 60), unit: 'lb' } },
  });
  if (!planned.lines) return;
  const { id } = planned;
  for (const { number, perLoad, loads } of planned.lines) {
    for (const { load } of loads) {
      if (isOver()) return;
      await post(`/batches/${id}/weighings`, { line: number, load, weight: perLoad });
    }
  }
  await post(`/batches/${id}/weighed`, { reasons: [] });
  await post(`/batches/${id}/finish`, {
    output: { weight: { value: (planned.planned.lb - 0.2).toFixed(1), unit: 'lb' } },
  });
  await post(`/batches/${id}/packs`, { packs: [{ count: 10, net: { value: '1', unit: 'lb' } }] });
  await post(`/batches/${id}/closing`, {});
  const { items } = await get('/lots?kind=pack&limit=500');
  const lines = items
    .filter(({ batchId }: Json) => batchId === id)
    .map((lot: Json) => ({ lotId: lot.id, mass: 'all' }));
  if (lines.length > 0) await post('/shipments', { to: 'Consignee 1', document: `D-${randomUUID()}`, lines });
}

function pick<Item>(items: readonly Item[]): Item {
  return items[Math.floor(Math.random() * items.length)] as Item;
}
