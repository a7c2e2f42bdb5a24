import { scryptSync } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { attemptsOf } from '../../../src/api/access/attempts.ts';
import { passwordFault, passwordsOf } from '../../../src/api/access/passwords.ts';
import { codeKeyOf, newCode } from '../../../src/api/access/secrets.ts';

describe('a password', () => {
  test('is kept as scrypt with its parameters and a salt of its own', async () => {
    const passwords = passwordsOf();
    const [one, other] = await Promise.all([
      passwords.hash('a fine long secret'),
      passwords.hash('a fine long secret'),
    ]);
    expect(one).not.toBe(other);
    const [kind, cost, blockSize, parallel, salt = '', hash] = one.split('$');
    expect([kind, cost, blockSize, parallel]).toEqual(['scrypt', '32768', '8', '1']);
    const again = scryptSync('a fine long secret', Buffer.from(salt, 'base64url'), 32, {
      N: 2 ** 15,
      r: 8,
      p: 1,
      maxmem: 2 ** 27,
    });
    expect(hash).toBe(again.toString('base64url'));
    expect(await passwords.isRight('a fine long secret', one)).toBe(true);
    expect(await passwords.isRight('a fine long secre', one)).toBe(false);
  });

  test('is right however its letters were composed, and by the parameters it was kept with', async () => {
    const kept = await passwordsOf(16).hash('Kühlraum im Süden');
    expect(await passwordsOf(32).isRight('Kühlraum im Süden'.normalize('NFD'), kept)).toBe(true);
  });

  test('is hashed for nobody too, so that time does not tell who exists', async () => {
    const passwords = passwordsOf();
    const kept = await passwords.hash('a fine long secret');
    const timeOf = async (text: string | undefined) => {
      const start = performance.now();
      expect(await passwords.isRight('not this one at all', text)).toBe(false);
      return performance.now() - start;
    };
    const known = await timeOf(kept);
    const unknown = await timeOf(undefined);
    // Without a hash it would be a thousandth.
    expect(unknown).toBeGreaterThan(known / 10);
    expect(await timeOf(undefined)).toBeGreaterThan(5);
  });

  test('waits while two are hashed, and is refused when too many wait', async () => {
    const passwords = passwordsOf(1024);
    const results = await Promise.allSettled(
      Array.from({ length: 40 }, () => passwords.isRight('x', undefined)),
    );
    const refused = results.filter(({ status }) => status === 'rejected');
    expect(refused).toHaveLength(40 - 22);
    for (const one of refused) expect(one).toMatchObject({ reason: { kind: 'busy' } });
    expect(await passwords.isRight('x', undefined)).toBe(false);
  });

  test.each([
    ['nine char', 'at least 10'],
    ['😀😀😀😀😀', 'at least 10'],
    ['x'.repeat(201), 'at most 200'],
    ['  ANA  of the Plant ', 'is the name'],
  ])('%s cannot be one', (password, why) => {
    expect(passwordFault(password, 'Ana of the plant')).toContain(why);
  });

  test.each(['ten chars.', 'only small letters', '1234512345', 'x'.repeat(200), '😀😀😀😀😀😀😀😀😀😀'])(
    '%s can be one',
    (password) => {
      expect(passwordFault(password, 'Ana')).toBeUndefined();
    },
  );
});

describe('wrong tries', () => {
  const clock = { at: 0 };
  const attempts = () => attemptsOf(() => new Date(clock.at));

  test('of a name are ten, of one address thirty, and end after a quarter of an hour', () => {
    const { begin } = attempts();
    for (let count = 0; count < 10; count++) begin({ name: 'Ana', address: `10.0.0.${count}` });
    expect(() => begin({ name: ' ANA', address: '10.0.0.99' })).toThrow(/for this name/);
    for (let count = 0; count < 30; count++) begin({ name: `n${count}`, address: '10.0.1.1' });
    expect(() => begin({ name: 'other', address: '10.0.1.1' })).toThrow(/from this address/);
    clock.at += 15 * 60_000;
    begin({ name: 'Ana', address: '10.0.1.1' });
  });

  test('count for the network of an IPv6 address, but for each IPv4 address written so', () => {
    const { begin } = attempts();
    for (let count = 0; count < 30; count++) begin({ name: `n${count}`, address: `2001:db8::${count + 1}` });
    expect(() => begin({ name: 'other', address: '2001:db8::ffff' })).toThrow(/from this address/);
    for (let count = 0; count < 30; count++) begin({ name: `m${count}`, address: '::ffff:10.0.0.1' });
    begin({ name: 'other', address: '::ffff:10.0.0.2' });
  });

  test('are forgotten for a name that was right once, and not counted when nothing was compared', () => {
    const { begin } = attempts();
    for (let count = 0; count < 9; count++) begin({ name: 'Ana', address: '1.1.1.1' });
    begin({ name: 'Ana', address: '1.1.1.1' }).right();
    for (let count = 0; count < 20; count++) begin({ name: 'Ana', address: '1.1.1.1' }).dropped();
    for (let count = 0; count < 10; count++) begin({ name: 'Ana', address: '1.1.1.1' });
    expect(() => begin({ name: 'Ana', address: '1.1.1.1' })).toThrow(/for this name/);
  });
});

test('a code is easy to type: clear letters in groups, in any case, and new each time', () => {
  const codes = Array.from({ length: 200 }, () => newCode(3));
  expect(new Set(codes).size).toBe(200);
  for (const code of codes) expect(code).toMatch(/^(?:[A-HJKMNP-TV-Z2-9]{4}-){2}[A-HJKMNP-TV-Z2-9]{4}$/);
  expect(codeKeyOf(' k7qm 4xtr9hwp ')).toBe(codeKeyOf('K7QM-4XTR-9HWP'));
});
