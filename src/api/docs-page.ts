import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Router } from 'express';

const TITLE = 'meatblock API';

const PAGE = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${TITLE}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/docs/files/swagger-ui.css">
</head>
<body>
<main id="docs"></main>
<script src="/docs/files/swagger-ui-bundle.js"></script>
<script src="/docs/start.js"></script>
</body>
</html>
`;

const START = `SwaggerUIBundle({ url: '/v1/openapi.json', dom_id: '#docs', validatorUrl: null, deepLinking: true });
`;

/** All that is served of the documentation library. */
const FILES = ['swagger-ui.css', 'swagger-ui-bundle.js'];

/** The API's own documentation, served from this machine alone. */
export function docsPage(): Router {
  const files = dirname(createRequire(import.meta.url).resolve('swagger-ui-dist/package.json'));
  const router = Router();
  router.use((_request, response, next) => {
    // The documentation library styles its elements in place and embeds its icons.
    response.set(
      'Content-Security-Policy',
      "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; object-src 'none'; base-uri 'none'; frame-ancestors 'none'",
    );
    next();
  });
  router.get('/', (_request, response) => {
    response.type('html').send(PAGE);
  });
  router.get('/start.js', (_request, response) => {
    response.type('text/javascript').send(START);
  });
  for (const name of FILES) {
    router.get(`/files/${name}`, (_request, response) => {
      response.sendFile(join(files, name), { maxAge: '1h' });
    });
  }
  return router;
}
