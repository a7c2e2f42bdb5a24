import { randomUUID } from 'node:crypto';

/** Clients that write as fast as they get answers, and remember what they were told. */

/** A write that was sent. Without an answer nobody knows whether it was done. */
export interface SentWrite {
  readonly key: string;
  readonly path: string;
  readonly body: unknown;
  answer?: { readonly status: number; readonly body: unknown };
}

// biome-ignore lint/suspicious/noExplicitAny: answers are read here as a client reads any JSON.
type Json = any;

const MATERIALS = ['beef-trim-85', 'beef-trim-65', 'beef-trim-50', 'beef-trim-90', 'pork-trim-72'];

/** One client: receives lots, moves them, tests them, makes batches of them, until it is told to stop or nobody answers. */
export async function client(address: string, sent: SentWrite[], isOver: () => boolean): Promise<void> {
  const post = async (path: string, body: unknown): Promise<Json> => {
    const write: SentWrite = { key: randomUUID(), path, body };
    sent.push(write);
    write.answer = await send(address, write);
    return write.answer.body;
  };
  try {
    while (!isOver()) await pick([receiveAndMove, makeBatch, receiveAndMove])(post, isOver);
  } catch (error) {
    if (!isOver() && !isGone(error)) throw error;
  }
}

/** Sends a write under its key. @throws TypeError when nobody answers. */
export async function send(address: string, { key, path, body }: SentWrite) {
  const response = await fetch(`${address}/v1${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'idempotency-key': key },
    body: JSON.stringify(body),
  });
  return { status: response.status, body: (await response.json()) as unknown };
}

/** Whether the service was gone in the middle of it. */
export function isGone(error: unknown): boolean {
  return error instanceof TypeError || (error as Error).name === 'AbortError';
}

type Post = (path: string, body: unknown) => Promise<Json>;

async function receiveAndMove(post: Post): Promise<void> {
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
}

async function makeBatch(post: Post, isOver: () => boolean): Promise<void> {
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
}

function pick<Item>(items: readonly Item[]): Item {
  return items[Math.floor(Math.random() * items.length)] as Item;
}
