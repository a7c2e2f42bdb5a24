import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, lb, SETTINGS, startDemo } from '../running.ts';
import { type Ask, askAs, clientOf, entriesOf, good, refusal, verifiedStop } from './client.ts';

let service: Service;
let ask: Ask;
beforeAll(async () => {
  service = await startDemo();
  ask = clientOf(service);
});
afterAll(() => verifiedStop(service));

describe('the plant', () => {
  test('is written anew as it was read, with what was changed', async () => {
    const { body: plant, etag } = await good(ask('GET /plant'));
    expect(etag).toBe(`"${plant.version}"`);
    const settings = { ...plant.settings, name: 'Demo Plant Two', mixerCapacity: lb(300) };
    await refusal(ask('PUT /plant', { body: settings }), 428, [], 'If-Match');
    const put = await good(ask('PUT /plant', { body: settings, ifMatch: etag }));
    expect(put.body).toMatchObject({ name: 'Demo Plant Two', mixerCapacityKg: 136.077711, settings });
    expect((await good(ask('GET /plant'))).body).toEqual(put.body);
    const request = { product: 'ground-beef-80-20', batchSize: { total: lb(500) } };
    expect((await good(ask('POST /blends', { body: request }))).body.loads).toBe(2);
    const late = ask('PUT /plant', { body: settings, ifMatch: etag });
    await refusal(late, 412, [], 'The plant changed since', 'changed: name, mixerCapacity');
  });

  test('lives in its own day once the demonstration is over', async () => {
    // Without the demonstration nobody gets in who is not known.
    const admin = await askAs(service, 'admin');
    const { body: plant, etag } = await good(admin.ask('GET /plant'));
    const { demoDate, ...live } = plant.settings;
    const put = await good(admin.ask('PUT /plant', { body: live, ifMatch: etag }));
    const now = new Intl.DateTimeFormat('sv-SE', { timeZone: live.timeZone, dateStyle: 'short' });
    expect(put.body.today).toBe(now.format(service.books.now()));
    const body = { ...live, demoDate };
    const back = await good(admin.ask('PUT /plant', { body, ifMatch: put.etag }));
    expect(back.body.today).toBe('2026-11-25');
    admin.close();
  });

  test.each<[string, Json, number, string[], string]>([
    ['with no scales', { scales: [] }, 400, ['/scales'], 'at least one scale'],
    ['in no time zone', { timeZone: 'Moon/Base' }, 400, ['/timeZone'], 'America/Chicago'],
    ['under no rules', { jurisdiction: 'moon' }, 422, ['/jurisdiction'], 'the jurisdictions are us'],
    ['with a field that is none', { colour: 'red' }, 400, ['/colour'], 'unknown field'],
  ])('%s is refused and changes nothing', async (_name, fields, status, pointers, word) => {
    const { body: plant } = await good(ask('GET /plant'));
    const before = await entriesOf(service);
    const body = { ...plant.settings, ...fields };
    await refusal(ask('PUT /plant', { body, ifMatch: '*' }), status, pointers, word);
    expect(await entriesOf(service)).toBe(before);
  });

  test('is written by its admins alone', async () => {
    const { body: plant } = await good(ask('GET /plant'));
    const formulator = await askAs(service, 'formulator');
    const sent = { body: plant.settings, ifMatch: '*' };
    await refusal(formulator.ask('PUT /plant', sent), 403, [], 'this needs admin');
    formulator.close();
  });
});

describe('the rules of the house', () => {
  test('are written anew as they were read, and blends keep them', async () => {
    const { body: rules, etag } = await good(ask('GET /house-rules'));
    const own = {
      id: 'protein-least',
      says: 'At least 17 % protein',
      numerator: 'protein',
      basis: 'formula',
      sense: 'min',
      bound: 17,
      unit: 'percent',
    };
    const next = { ...rules, own: [...rules.own, own] };
    await refusal(ask('PUT /house-rules', { body: next }), 428, [], 'If-Match');
    const put = await good(ask('PUT /house-rules', { body: next, ifMatch: etag }));
    expect(put.body).toEqual(next);
    expect((await good(ask('GET /house-rules'))).body).toEqual(next);
    const request = { product: 'ground-beef-90-10', batchSize: { total: lb(200) } };
    const { body: blend } = await good(ask('POST /blends', { body: request }));
    expect(blend.checks.map(({ limit }: Json) => limit.id)).toContain('house-own-protein-least');
    const late = ask('PUT /house-rules', { body: rules, ifMatch: etag });
    await refusal(late, 412, [], 'The house rules changed since', 'changed: own');
  });

  test('name limits and forms that there are', async () => {
    const before = await entriesOf(service);
    const body = { tighter: [{ limitId: 'us-none', bound: 1 }] };
    await refusal(ask('PUT /house-rules', { body, ifMatch: '*' }), 422, ['/tighter/0/limitId'], 'us-none');
    const unsaid = { switchedOff: [{ limitId: 'x', reason: 'no' }] };
    await refusal(
      ask('PUT /house-rules', { body: unsaid, ifMatch: '*' }),
      400,
      ['/switchedOff/0/reason'],
      'why',
    );
    expect(await entriesOf(service)).toBe(before);
  });
});

describe('a plant without rules of its own', () => {
  test('has version 0 of them and writes the first', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'plant-'));
    cpSync(SETTINGS.plantFolder, folder, { recursive: true });
    rmSync(join(folder, 'house-rules.json'));
    const without = await startDemo({ plantFolder: folder });
    try {
      const one = clientOf(without);
      const { body, etag } = await good(one('GET /house-rules'));
      expect([body, etag]).toEqual([{ tighter: [], own: [], switchedOff: [], certainty: [] }, '"0"']);
      expect((await good(one('PUT /house-rules', { body, ifMatch: etag }))).etag).toBe('"1"');
      await refusal(one('PUT /house-rules', { body, ifMatch: etag }), 412, [], 'version 1 stands now');
    } finally {
      await without.stop();
      rmSync(folder, { recursive: true });
    }
  });
});
