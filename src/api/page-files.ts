import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { type Request, type Response, Router } from 'express';
import { Problem } from './problem.ts';

/** Where the build puts the page, seen from src and from dist alike. */
const BUILT = fileURLToPath(new URL('../../dist/page', import.meta.url));

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
};

/** The page runs only what stands in its own files, and speaks with this service alone. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob:",
  "connect-src 'self'",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

interface PageFile {
  readonly type: string;
  readonly bytes: Buffer;
  readonly zipped: Buffer;
  readonly etag: string;
}

/** The page for the shop, out of memory: a dozen small files, read and zipped once. */
export function pageFiles(folder = BUILT): Router {
  const files = readFiles(folder);
  const router = Router();
  router.get('/', (request, response) => {
    const index = files.get('index.html');
    if (!index) {
      throw new Problem(
        'not-found',
        'The page is not built. Run "npm run build"; the API is described at /docs.',
      );
    }
    response.set('Content-Security-Policy', POLICY);
    // A new version of the page is seen at the next look; its pieces have their content in their names.
    give(index, 'no-cache', request, response);
  });
  router.get('/page/:name', (request, response) => {
    const file = files.get(request.params.name);
    if (!file) throw new Problem('not-found', 'The page has no such file.');
    give(file, 'public, max-age=31536000, immutable', request, response);
  });
  return router;
}

function readFiles(folder: string): Map<string, PageFile> {
  const names = existsSync(folder) ? readdirSync(folder) : [];
  return new Map(
    names.flatMap((name): [string, PageFile][] => {
      const type = TYPES[extname(name)];
      if (type === undefined) return [];
      const bytes = readFileSync(join(folder, name));
      const etag = `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 27)}"`;
      return [[name, { type, bytes, zipped: gzipSync(bytes, { level: 9 }), etag }]];
    }),
  );
}

function give(
  { type, bytes, zipped, etag }: PageFile,
  cacheControl: string,
  request: Request,
  response: Response,
): void {
  response.set({ 'Content-Type': type, 'Cache-Control': cacheControl, ETag: etag, Vary: 'Accept-Encoding' });
  if (request.fresh) {
    response.status(304).end();
    return;
  }
  const isZipped = request.acceptsEncodings('gzip') === 'gzip';
  if (isZipped) response.set('Content-Encoding', 'gzip');
  response.end(isZipped ? zipped : bytes);
}
