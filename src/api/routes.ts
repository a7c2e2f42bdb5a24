import { type Request, type Response, Router } from 'express';
import { batchSheetText } from '../documents/batch-sheet-text.ts';
import { correctionText } from '../documents/correction-text.ts';
import { labelText } from '../documents/label-text.ts';
import { usePlanText } from '../documents/use-plan-text.ts';
import { blend, type Desk, label, sheet } from './blending.ts';
import { lotsQuery, materialsQuery, productsQuery, rulesQuery } from './contract/resources.ts';
import { correction } from './correcting.ts';
import { curve } from './curves.ts';
import { openApiDocument } from './openapi.ts';
import { parseOrProblem } from './parse.ts';
import { Problem } from './problem.ts';
import { listLots, listMaterials, listProducts, listTrim, readPlant, readProduct } from './resources.ts';
import { listRules } from './rules.ts';
import { usePlan } from './use-planning.ts';

/** Everything under /v1: each route parses, calls one use-case and sends what it answers. */
export function apiRoutes(desk: Desk, version: string): Router {
  const router = Router({ caseSensitive: true, strict: true });
  const document = openApiDocument(version);

  router
    .route('/blends')
    .post(async (request, response) => {
      response.json(await blend(desk, jsonBody(request)));
    })
    .all(refuseMethod('POST'));
  router
    .route('/batch-sheets')
    .post(async (request, response) => {
      const form = answerForm(request);
      send(response, form, await sheet(desk, jsonBody(request)), batchSheetText);
    })
    .all(refuseMethod('POST'));
  router
    .route('/labels')
    .post(async (request, response) => {
      const form = answerForm(request);
      send(response, form, await label(desk, jsonBody(request)), labelText);
    })
    .all(refuseMethod('POST'));

  router
    .route('/curves')
    .post(async (request, response) => {
      response.json(await curve(desk, jsonBody(request)));
    })
    .all(refuseMethod('POST'));

  router
    .route('/corrections')
    .post(async (request, response) => {
      const form = answerForm(request);
      send(response, form, await correction(desk, jsonBody(request)), correctionText);
    })
    .all(refuseMethod('POST'));
  router
    .route('/use-plans')
    .post(async (request, response) => {
      const form = answerForm(request);
      send(response, form, await usePlan(desk, jsonBody(request)), usePlanText);
    })
    .all(refuseMethod('POST'));

  const get = (path: string, answer: (request: Request) => unknown) =>
    router
      .route(path)
      .get((request, response) => {
        response.json(answer(request));
      })
      .all(refuseMethod('GET'));
  get('/materials', ({ query }) => listMaterials(desk, parseOrProblem(materialsQuery, query)));
  get('/lots', ({ query }) => listLots(desk, parseOrProblem(lotsQuery, query)));
  get('/products', ({ query }) => listProducts(desk, parseOrProblem(productsQuery, query)));
  get('/products/:id', ({ params }) => readProduct(desk, String(params.id)));
  get('/rules', ({ query }) => listRules(desk, parseOrProblem(rulesQuery, query)));
  get('/plant', () => readPlant(desk));
  get('/trim', () => listTrim(desk));
  get('/health', () => ({ status: 'ok', version, doubtedAnswers: desk.doubts?.() ?? {} }));
  get('/openapi.json', () => document);
  return router;
}

/** The parsed body; Express leaves it undefined when the content type is not JSON. */
function jsonBody(request: Request): unknown {
  if (
    request.get('content-length') === '0' ||
    (!request.get('content-length') && !request.get('transfer-encoding'))
  ) {
    throw new Problem('not-json', 'There is no body. Send the request as JSON.');
  }
  if (!request.is('application/json')) {
    const given = request.get('content-type') ?? 'none';
    throw new Problem(
      'unsupported-media-type',
      `The content type is ${given}; send JSON as application/json.`,
    );
  }
  return request.body;
}

type AnswerForm = 'application/json' | 'text/plain';

/** The form asked for, settled before any work is done. */
function answerForm(request: Request): AnswerForm {
  const form = request.accepts(['application/json', 'text/plain']);
  if (form === 'application/json' || form === 'text/plain') return form;
  throw new Problem(
    'not-acceptable',
    'This comes as application/json or text/plain; ask for one of them in Accept.',
  );
}

function send<Answer>(
  response: Response,
  form: AnswerForm,
  answer: Answer,
  text: (answer: Answer) => string,
): void {
  if (form === 'text/plain') response.type('text/plain').send(`${text(answer)}\n`);
  else response.json(answer);
}

function refuseMethod(allowed: 'GET' | 'POST') {
  return ({ method, originalUrl }: Request): never => {
    throw new Problem('method-not-allowed', `${originalUrl} answers ${allowed}, not ${method}.`, {
      headers: { Allow: allowed },
    });
  };
}
