import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { send, startDemo } from './running.ts';

let demo: Service;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(() => demo.stop());

const asked = async (body: unknown) => {
  const { status, text } = await send(demo.address, { path: '/v1/translations', body });
  return { status, body: JSON.parse(text) };
};

describe('sentences of the service in Spanish', () => {
  it('come in the order asked for; one that is not known comes back as it is', async () => {
    const sentences = ['Log in first', 'A sentence that nobody wrote.', 'Log in first'];
    const { status, body } = await asked({ language: 'es', sentences });
    expect(status).toBe(200);
    expect(body.sentences).toEqual([
      expect.stringMatching(/sesión/),
      'A sentence that nobody wrote.',
      body.sentences[0],
    ]);
    expect((await asked({ language: 'en', sentences })).body.sentences).toEqual(sentences);
  });

  it('that are made up to take long do not keep the others waiting', async () => {
    const parts = [
      ' and a ',
      'Line 1, load 1: ',
      'at most 1 % ',
      'Lot ',
      ', ',
      ': ',
      ' is ',
      '; ',
      ' (',
      ' of ',
    ];
    let state = 1;
    const next = () => {
      state = (state * 48_271) % 2_147_483_647;
      return parts[state % parts.length] ?? '';
    };
    const sentences = Array.from({ length: 500 }, () => Array.from({ length: 150 }, next).join(''));
    const begun = Date.now();
    const long = asked({ language: 'es', sentences });
    await new Promise((resolve) => setTimeout(resolve, 300));
    const asking = Date.now();
    expect((await send(demo.address, { method: 'GET', path: '/v1/health' })).status).toBe(200);
    expect(Date.now() - asking).toBeLessThan(2_000);
    expect((await long).status).toBe(200);
    expect(Date.now() - begun).toBeLessThan(15_000);
  });

  it('are refused where there are too many or another language is asked for', async () => {
    const many = await asked({ language: 'es', sentences: Array(501).fill('x') });
    expect(many).toMatchObject({ status: 400, body: { errors: [{ pointer: '/sentences' }] } });
    const german = await asked({ language: 'de', sentences: [] });
    expect(german).toMatchObject({ status: 400, body: { errors: [{ pointer: '/language' }] } });
  });
});
