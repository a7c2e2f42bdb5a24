import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { send, startDemo } from './running.ts';

const HTML = '<!doctype html><title>a page</title>';
const SCRIPT = 'console.log("a page");'.repeat(50);

let folder: string;
let demo: Service;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'meatblock-page-'));
  writeFileSync(join(folder, 'index.html'), HTML);
  writeFileSync(join(folder, 'index-abc.js'), SCRIPT);
  writeFileSync(join(folder, 'notes.txt'), 'not for the page');
  demo = await startDemo({ pageFolder: folder });
});
afterAll(async () => {
  await demo.stop();
  rmSync(folder, { recursive: true });
});

const get = (path: string, headers = {}) => send(demo.address, { method: 'GET', path, headers });

describe('the files of the page', () => {
  it('stand at the bare address, asked for anew at each look, and run nothing that is not theirs', async () => {
    const { status, headers, text } = await get('/');
    expect(status).toBe(200);
    expect(text).toBe(HTML);
    expect(headers['cache-control']).toBe('no-cache');
    expect(headers['content-security-policy']).toMatch(
      /^default-src 'none'; script-src 'self'; style-src 'self'/,
    );
    expect(headers['content-security-policy']).not.toContain('unsafe');
    expect((await get('/', { 'if-none-match': headers.etag })).status).toBe(304);
  });

  it('are kept for good, and zipped for whoever takes that', async () => {
    const { headers, bytes } = await get('/page/index-abc.js', { 'accept-encoding': 'gzip' });
    expect(headers['cache-control']).toContain('immutable');
    expect(headers['content-encoding']).toBe('gzip');
    expect(gunzipSync(bytes).toString()).toBe(SCRIPT);
    const plain = await get('/page/index-abc.js');
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(plain.text).toBe(SCRIPT);
  });

  it('are all that is given', async () => {
    for (const path of ['/page/notes.txt', '/page/none.js', '/page/..%2f..%2fpackage.json', '/page/%2e%2e']) {
      expect((await get(path)).status, path).toBe(404);
    }
  });

  it('are asked for where they are not built', async () => {
    const bare = await startDemo({ pageFolder: join(folder, 'none') });
    const { status, text } = await send(bare.address, { method: 'GET', path: '/' });
    await bare.stop();
    expect(status).toBe(404);
    expect(text).toContain('npm run build');
  });
});
