import express, { type Express } from 'express';
import { rateLimit } from 'express-rate-limit';
import helmet from 'helmet';
import type { Logger } from 'pino';
import { pinoHttp } from 'pino-http';
import type { Access } from './access/access.ts';
import { storeGate } from './access/gate.ts';
import { type Books, deskOf } from './books.ts';
import { docsPage } from './docs-page.ts';
import { allEndpoints } from './endpoints.ts';
import { errorHandler, notFound } from './error-handler.ts';
import { contractEndpoint, openApiDocument } from './openapi.ts';
import { pageFiles } from './page-files.ts';
import { PROBLEMS, Problem } from './problem.ts';
import { apiRouter } from './router.ts';
import { rulesPages } from './rules-page.ts';

export interface AppParts {
  readonly books: Books;
  readonly access: Access;
  readonly logger: Logger;
  readonly version: string;
  readonly maxBodyKb: number;
  readonly maxFileMb: number;
  readonly requestsPerMinute: number;
  /** Where the built page lies, when not where the build puts it. */
  readonly pageFolder?: string;
}

/** The HTTP service without a port: routes, guards and logs around the use-cases. */
export function createApp(parts: AppParts): Express {
  const { books, access, logger, version, maxBodyKb, maxFileMb, requestsPerMinute } = parts;
  const app = express();
  app.disable('x-powered-by');
  app.set('query parser', 'simple');
  app.use(requestLog(logger));
  app.use(securityHeaders());
  app.use(
    rateLimit({
      windowMs: 60_000,
      limit: requestsPerMinute,
      standardHeaders: 'draft-8',
      legacyHeaders: false,
      handler: (_request, _response, next) =>
        next(
          new Problem(
            'too-many-requests',
            `More than ${requestsPerMinute} requests in a minute. Wait a moment.`,
          ),
        ),
    }),
  );
  app.use(express.json({ limit: maxBodyKb * 1024, strict: false }));

  const endpoints = allEndpoints(books, version, access);
  const contract = openApiDocument(endpoints, version);
  app.use(
    '/v1',
    apiRouter([...endpoints, contractEndpoint(contract)], storeGate(books, access), { maxFileMb }),
  );
  app.use('/docs', docsPage());
  app.use(
    '/rules',
    rulesPages(() => deskOf(books)),
  );
  app.get('/problems/:kind', ({ params }, response) => {
    const kind = Object.entries(PROBLEMS).find(([name]) => name === params.kind);
    if (!kind) throw new Problem('not-found', `No problem is called "${params.kind}".`);
    response.json({ type: `/problems/${kind[0]}`, ...kind[1] });
  });
  app.use(pageFiles(parts.pageFolder));
  app.use(notFound);
  app.use(errorHandler);
  return app;
}

function requestLog(logger: Logger) {
  return pinoHttp({
    logger,
    customLogLevel: (_request, { statusCode }, error) => (error || statusCode >= 500 ? 'error' : 'info'),
    serializers: {
      req: ({ id, method, url }: { id: unknown; method: string; url: string }) => ({ id, method, url }),
      res: ({ statusCode }: { statusCode: number }) => ({ statusCode }),
    },
  });
}

/** Fit for plain HTTP on a plant's own network: nothing here asks the browser for TLS. */
function securityHeaders() {
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: { 'default-src': ["'none'"], 'frame-ancestors': ["'none'"], 'base-uri': ["'none'"] },
    },
    strictTransportSecurity: false,
  });
}
