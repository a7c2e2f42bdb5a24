import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Refused, Unreached } from '../../../src/page/service/ask.ts';
import { forgetSending, sendOnce } from '../../../src/page/service/sending.ts';
import { type Around, around } from './made-up-service.ts';

let world: Around;
beforeEach(() => {
  world = around();
});
afterEach(() => vi.unstubAllGlobals());

const receive = (weight: number, name = 'receipt') => sendOnce(name, { path: '/lots', body: { weight } });

describe('a form that is sent', () => {
  it('again after its answer was lost is done once', async () => {
    world.fate = () => 'lost';
    await expect(receive(100)).rejects.toBeInstanceOf(Unreached);
    world.fate = undefined;
    expect((await receive(100)).body).toEqual({ body: { weight: 100 } });
    expect(world.booked).toHaveLength(1);
    await receive(100);
    expect(world.booked).toHaveLength(2);
    expect(world.stored.size).toBe(0);
  });

  it('with another figure after its answer was lost is told that the first arrived, and books not both', async () => {
    world.fate = () => 'lost';
    await expect(receive(100)).rejects.toBeInstanceOf(Unreached);
    world.fate = undefined;
    const refused = await receive(120).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(Refused);
    expect((refused as Refused).kind).toBe('arrived-before');
    expect(world.booked.map(({ body }) => body)).toEqual([{ weight: 100 }]);
    // Whoever has looked and still wants it sends it.
    await receive(120);
    expect(world.booked).toHaveLength(2);
  });

  it('with another figure after nothing arrived books the new one alone', async () => {
    world.fate = () => 'unreached';
    await expect(receive(100)).rejects.toBeInstanceOf(Unreached);
    world.fate = undefined;
    await receive(120);
    expect(world.booked.map(({ body }) => body)).toEqual([{ weight: 120 }]);
  });

  it.each([503, 429, 401, 403])('again after an answer of %i keeps its key', async (status) => {
    world.fate = () => status;
    await expect(receive(100)).rejects.toBeInstanceOf(Refused);
    world.fate = undefined;
    await receive(100);
    expect(new Set(world.arrived.map(({ key }) => key)).size).toBe(1);
  });

  it('again after a refusal, or after it was thrown away, is another act', async () => {
    world.fate = () => 422;
    await expect(receive(100)).rejects.toBeInstanceOf(Refused);
    world.fate = () => 'lost';
    await expect(receive(100)).rejects.toBeInstanceOf(Unreached);
    forgetSending('receipt');
    world.fate = undefined;
    await receive(100);
    expect(new Set(world.arrived.map(({ key }) => key)).size).toBe(3);
  });

  it('with a password leaves nothing on the device', async () => {
    world.fate = () => 'lost';
    const login = sendOnce('login', { path: '/login', body: { password: 'a few words' }, isSecret: true });
    await expect(login).rejects.toBeInstanceOf(Unreached);
    await expect(receive(100)).rejects.toBeInstanceOf(Unreached);
    expect([...world.stored.values()].join()).not.toContain('words');
  });
});
