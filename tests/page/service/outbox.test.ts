import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Around, around } from './made-up-service.ts';

type Outbox = typeof import('../../../src/page/service/outbox.ts');

const ANA = { id: 'ana', name: 'Ana' };

let world: Around;
let outbox: Outbox;

/** A page is opened, or a tab beside it, with the memory of the device and without that of the other. */
async function opened(): Promise<Outbox> {
  vi.resetModules();
  return import('../../../src/page/service/outbox.ts');
}

beforeEach(async () => {
  vi.useFakeTimers();
  world = around();
  outbox = await opened();
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.resetModules();
});

const act = (weight: number, by = ANA, batch = 12) => ({
  subject: `batch ${batch}`,
  path: `/batches/${batch}/weighings`,
  body: { weight },
  by,
  seenAt: 1,
  place: '',
});
const put = (...weights: readonly number[]) => weights.map((weight) => outbox.putOut(act(weight)));
const pass = (ms: number) => vi.advanceTimersByTimeAsync(ms);
const weights = (of: readonly { readonly body: unknown }[]) =>
  of.map(({ body }) => (body as { weight: number }).weight);

describe('weighings that wait', () => {
  it('are sent in their order once the service is reached, each booked once', async () => {
    world.fate = () => 'unreached';
    put(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11);
    await pass(60_000);
    expect(world.arrived).toEqual([]);
    world.fate = undefined;
    await pass(4_000);
    expect(weights(world.booked)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect(world.stored.size).toBe(0);
  });

  it('are booked once though the answer is lost and the page is loaded anew', async () => {
    world.fate = ({ path }) => (path === '/session' ? 200 : 'lost');
    put(40);
    await pass(1_000);
    expect(weights(world.booked)).toEqual([40]);
    outbox = await opened();
    world.fate = undefined;
    put(41);
    await pass(10_000);
    expect(weights(world.booked)).toEqual([40, 41]);
    expect(world.stored.size).toBe(0);
  });

  it('are sent again when nothing ever answers', async () => {
    world.fate = () => 'silent';
    put(40);
    await pass(16_000);
    world.fate = undefined;
    await pass(4_000);
    expect(weights(world.booked)).toEqual([40]);
  });

  it('are not lost where the browser keeps nothing, and it is said', async () => {
    world.isFull = true;
    world.fate = () => 'unreached';
    put(40, 41);
    await pass(1_000);
    expect(outbox.isUnsentOnlyHere()).toBe(true);
    world.fate = undefined;
    await pass(4_000);
    expect(weights(world.booked)).toEqual([40, 41]);
    expect(outbox.isUnsentOnlyHere()).toBe(false);
  });

  it('of two tabs do not write over one another, and are booked once', async () => {
    world.fate = () => 'unreached';
    const other = await opened();
    put(1);
    other.putOut(act(2));
    put(3);
    await pass(1_000);
    world.fate = undefined;
    await pass(20_000);
    expect(weights(world.booked)).toEqual([1, 2, 3]);
    expect(world.stored.size).toBe(0);
  });
});

describe('another person on the same tablet', () => {
  it('never sends what somebody else has weighed, arrived or not', async () => {
    world.fate = ({ path }) => (path === '/session' ? 200 : 'lost');
    put(40);
    await pass(1_000);
    // Ana goes, Ben comes: under his name her key is a new one, and 40 would be in twice.
    world.fate = undefined;
    world.caller = 'ben';
    outbox.putOut(act(7, { id: 'ben', name: 'Ben' }));
    await pass(30_000);
    expect(world.booked.map(({ by, body }) => [by, body])).toEqual([
      ['ana', { weight: 40 }],
      ['ben', { weight: 7 }],
    ]);
    expect(world.stored.size).toBe(1);
    world.caller = 'ana';
    await pass(12_000);
    expect(world.booked).toHaveLength(2);
    expect(world.stored.size).toBe(0);
  });

  it('and nobody at all send nothing', async () => {
    world.caller = undefined;
    put(40);
    await pass(60_000);
    expect(world.arrived).toEqual([]);
    world.caller = 'ana';
    await pass(12_000);
    expect(weights(world.booked)).toEqual([40]);
  });
});

describe('a service that does not take it', () => {
  it.each([429, 500, 503, 401])(
    'now, with %i, is asked again, and not more and more often',
    async (status) => {
      world.fate = ({ path }) => (path === '/session' ? 200 : status);
      put(40);
      for (let round = 0; round < 20; round += 1) {
        put(41 + round);
        await pass(1_000);
      }
      const before = world.arrived.length;
      await pass(60_000);
      expect(world.arrived.length - before).toBeLessThanOrEqual(7);
      world.fate = undefined;
      await pass(12_000);
      expect(world.booked).toHaveLength(21);
    },
  );

  it('at all keeps it with the reason and stops those behind it of the same batch alone', async () => {
    world.fate = ({ body }) => ((body as { weight?: number } | undefined)?.weight === 900 ? 422 : 201);
    const [key = ''] = put(900, 40);
    outbox.putOut(act(5, ANA, 13));
    await pass(1_000);
    expect(weights(world.booked)).toEqual([5]);
    expect([...world.stored.values()].map((text) => JSON.parse(text).refusal?.detail)).toEqual([
      'This cannot go in.',
      undefined,
    ]);
    outbox.putRight(key, { weight: 90 }, ANA);
    await pass(1_000);
    expect(weights(world.booked)).toEqual([5, 90, 40]);
    expect(new Set(world.arrived.map((sent) => sent.key)).size).toBe(world.arrived.length);
  });

  it('at all lets those behind it go once it is given up', async () => {
    world.fate = ({ body }) => ((body as { weight?: number } | undefined)?.weight === 900 ? 422 : 201);
    const [key = ''] = put(900, 40);
    await pass(1_000);
    outbox.giveUp(key);
    await pass(1_000);
    expect(weights(world.booked)).toEqual([40]);
    expect(world.stored.size).toBe(0);
  });
});
