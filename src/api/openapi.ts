import { z } from 'zod';
import { createDocument, type ZodOpenApiOperationObject } from 'zod-openapi';
import { problemSchema } from './contract/blend-answer.ts';
import type { Endpoint } from './endpoint.ts';

/** The contract as OpenAPI 3.1, made from the very endpoints and schemas that answer requests. */
export function openApiDocument(endpoints: readonly Endpoint[], version: string) {
  const paths: Record<string, Record<string, ZodOpenApiOperationObject>> = {};
  for (const endpoint of endpoints) {
    const path = `/v1${endpoint.path.replace(/:(\w+)/g, '{$1}')}`;
    paths[path] = { ...paths[path], [endpoint.method.toLowerCase()]: operation(endpoint) };
  }
  return createDocument({
    openapi: '3.1.0',
    info: {
      title: 'meatblock',
      version,
      description:
        'Least-cost blends of ground meat and sausage from the lots on hand, inside the limits of the law and of the plant, rounded to what the scales can weigh and checked again exactly. Fractions are fractions of 1, masses carry their unit. The inspector, local rules and the HACCP plan of the plant come before any answer of this service.',
    },
    components: {
      securitySchemes: {
        key: { type: 'http', scheme: 'bearer', description: 'An API key of a program.' },
        session: { type: 'apiKey', in: 'cookie', name: 'session', description: 'Login of a person.' },
      },
    },
    paths,
  });
}

/** The contract itself, for reading. */
export function contractEndpoint(contract: ReturnType<typeof openApiDocument>): Endpoint {
  return {
    method: 'GET',
    path: '/openapi.json',
    tag: 'Plant and rules',
    says: 'This contract',
    may: 'anyone',
    gives: z.unknown(),
    handle: async () => ({ body: contract }),
  };
}

const problem = (description: string) => ({
  description,
  content: { 'application/problem+json': { schema: problemSchema } },
});

function operation(endpoint: Endpoint): ZodOpenApiOperationObject {
  const { tag, says, may, takes, takesFile, example, query, path } = endpoint;
  const parameters = [...placesOf(path), ...headersOf(endpoint)];
  return {
    tags: [tag],
    summary: says,
    ...(may !== 'anyone' && { security: [{ key: [] }, { session: [] }] }),
    ...(parameters.length > 0 && { parameters }),
    ...(query && { requestParams: { query } }),
    ...(takes && {
      requestBody: {
        required: true,
        content: { 'application/json': { schema: takes, ...(example !== undefined && { example }) } },
      },
    }),
    ...(takesFile && { requestBody: { required: true, content: filesOf(takesFile) } }),
    responses: { ...answers(endpoint), ...refusals(endpoint) },
  };
}

/** Bytes as they are: OpenAPI 3.1 says no more of them than their type. */
function filesOf(types: readonly string[]) {
  return Object.fromEntries(types.map((type) => [type, {}]));
}

function placesOf(path: string) {
  return [...path.matchAll(/:(\w+)/g)].map(([, name = '']) => ({
    name,
    in: 'path' as const,
    required: true,
    schema: { type: 'string' as const },
  }));
}

function headersOf({ method, may, needsVersion }: Endpoint) {
  const header = (name: string, required: boolean, description: string) => ({
    name,
    in: 'header' as const,
    required,
    description,
    schema: { type: 'string' as const },
  });
  const changes = method !== 'GET' && may !== 'read' && may !== 'anyone';
  return [
    ...(changes
      ? [
          header(
            'Idempotency-Key',
            false,
            'A new key for each new request: sent again, it is done once and answered as before.',
          ),
        ]
      : []),
    ...(needsVersion ? [header('If-Match', true, 'The ETag of the version that was changed.')] : []),
  ];
}

function answers({ gives, givesFile, forms = {}, status = 200 }: Endpoint) {
  if (givesFile) return { '200': { description: 'The file', content: filesOf(givesFile) } };
  const text = Object.fromEntries(
    Object.keys(forms).map((type) => [
      type,
      { schema: { type: 'string' as const, ...(!type.startsWith('text/') && { format: 'binary' }) } },
    ]),
  );
  return {
    [String(status) as '200']: {
      description: 'The answer',
      content: { 'application/json': { schema: gives }, ...text },
    },
  };
}

function refusals({ takes, takesFile, givesFile, forms, may, method, path, needsVersion }: Endpoint) {
  const changes = method !== 'GET' && may !== 'read';
  return {
    '400': problem('The request is not of the right form'),
    ...(may !== 'anyone' && {
      '401': problem('Not logged in'),
      '403': problem('The role of the caller does not allow it'),
    }),
    ...((method === 'GET' || path.includes(':')) && { '404': problem('There is nothing here') }),
    ...((forms || givesFile) && { '406': problem('The answer is asked for in a form it does not come in') }),
    ...(changes && { '409': problem('It cannot be done as things stand; the message says what changed') }),
    ...(needsVersion && {
      '412': problem('Someone changed it since it was read'),
      '428': problem('If-Match is missing'),
    }),
    ...((takes || takesFile) && {
      '413': problem('The body is too large'),
      '415': problem('The body is not sent in a form that is taken'),
      '422': problem('What is asked cannot be done; the message says why and what would help'),
    }),
    '429': problem('Too many requests'),
    '503': problem('Not now: no answer in the time allowed, too busy, or the store cannot be reached'),
  };
}
