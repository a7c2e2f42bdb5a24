import { createHash } from 'node:crypto';
import { promises, Readable } from 'node:stream';
import express, { type Request, type Response, Router } from 'express';
import type { Caller, Gate, Incoming } from './access/caller.ts';
import { mayDo, rolesThatMay } from './access/roles.ts';
import type { Answer, AnsweredFile, Call, Endpoint } from './endpoint.ts';
import { refuseUnkeepable } from './keepable.ts';
import { parseOrProblem } from './parse.ts';
import { idempotencyOf, ifMatchOf } from './preconditions.ts';
import { Problem } from './problem.ts';

/** Everything under /v1: each endpoint is reached by its method alone, by those who may, and answers in its forms. */
export function apiRouter(
  endpoints: readonly Endpoint[],
  gate: Gate,
  { maxFileMb }: { readonly maxFileMb: number } = { maxFileMb: 30 },
): Router {
  const readFile = fileReader(maxFileMb);
  const router = Router({ caseSensitive: true, strict: true });
  for (const path of new Set(endpoints.map((endpoint) => endpoint.path))) {
    const here = endpoints.filter((endpoint) => endpoint.path === path);
    const route = router.route(path);
    for (const endpoint of here) {
      route[METHODS[endpoint.method]](async (request: Request, response: Response) => {
        await serve(endpoint, gate, readFile, request, response);
      });
    }
    route.all(refuseOthers(here.map(({ method }) => method)));
  }
  return router;
}

const METHODS = { GET: 'get', POST: 'post', PUT: 'put', PATCH: 'patch', DELETE: 'delete' } as const;

const JSON_FORM = 'application/json';

async function serve(
  endpoint: Endpoint,
  gate: Gate,
  readFile: FileReader,
  request: Request,
  response: Response,
): Promise<void> {
  const incoming = incomingOf(request);
  const caller = allowed(endpoint, await gate.callerOf(incoming));
  const form = formOf(endpoint, request);
  const { body, sent } = await bodyOf(endpoint, readFile, request, response);
  for (const given of [request.params, request.query, sent]) refuseUnkeepable(given);
  const call: Call = {
    caller,
    params: request.params as Record<string, string>,
    query: endpoint.query ? parseOrProblem(endpoint.query, request.query) : {},
    body,
    ...idempotencyOf(incoming, `${endpoint.method} ${request.originalUrl}`, sent),
    ...ifMatchOf(incoming, endpoint.needsVersion ?? false),
    incoming,
    accepts: (types) => request.accepts([...types]) || undefined,
  };
  await reply(response, await endpoint.handle(call), call, form, endpoint);
}

/** Someone who is not known has no more than what needs no login. */
const STRANGER: Caller = { id: '', name: '', role: 'inspector', via: 'session' };

function allowed({ may }: Endpoint, caller: Caller | undefined): Caller {
  if (may === 'anyone') return caller ?? STRANGER;
  if (!caller) {
    throw new Problem('not-logged-in', 'Log in, or send an API key as "Authorization: Bearer KEY".', {
      headers: { 'WWW-Authenticate': 'Bearer' },
    });
  }
  if (mayDo(caller.role, may)) return caller;
  throw new Problem(
    'not-allowed',
    `${caller.name} has the role ${caller.role}; this needs ${rolesThatMay(may).join(' or ')}. Ask an admin.`,
  );
}

function incomingOf({ method, headers, socket }: Request): Incoming {
  return { method, headers, remoteAddress: socket.remoteAddress ?? '' };
}

/** What came as the body, and what of it tells one request from another. */
async function bodyOf(endpoint: Endpoint, readFile: FileReader, request: Request, response: Response) {
  const { takes, takesFile } = endpoint;
  if (!takesFile) {
    const body = takes ? jsonBody(request) : undefined;
    return { body, sent: body };
  }
  if (!request.is([...takesFile])) {
    const given = request.get('content-type') ?? 'none';
    const message = `The content type is ${given}; send the file as ${takesFile.join(' or ')}.`;
    throw new Problem('unsupported-media-type', message);
  }
  const body = await readFile(request, response);
  return { body, sent: { sha256: createHash('sha256').update(body).digest('hex') } };
}

type FileReader = (request: Request, response: Response) => Promise<Buffer>;

/** Files are read only once it is known that the caller may send them. */
function fileReader(maxFileMb: number): FileReader {
  const raw = express.raw({ type: () => true, limit: maxFileMb * 1024 * 1024 });
  return (request, response) =>
    new Promise((resolve, reject) => {
      raw(request, response, (error?: unknown) => {
        if ((error as { type?: string } | undefined)?.type === 'entity.too.large') {
          reject(new Problem('too-large', `The file is larger than ${maxFileMb} MB. Split it into several.`));
        } else if (error) reject(error);
        else if (Buffer.isBuffer(request.body)) resolve(request.body);
        else reject(new Problem('invalid-request', 'There is no file. Send it as the body of the request.'));
      });
    });
}

/** The parsed body; Express leaves it undefined when the content type is not JSON. */
function jsonBody(request: Request): unknown {
  if (
    request.get('content-length') === '0' ||
    (!request.get('content-length') && !request.get('transfer-encoding'))
  ) {
    throw new Problem('not-json', 'There is no body. Send the request as JSON.');
  }
  if (!request.is(JSON_FORM)) {
    const given = request.get('content-type') ?? 'none';
    throw new Problem(
      'unsupported-media-type',
      `The content type is ${given}; send JSON as application/json.`,
    );
  }
  return request.body;
}

/** The form asked for, settled before any work is done; whoever takes anything gets JSON. */
function formOf({ forms }: Endpoint, request: Request): string {
  if (!forms) return JSON_FORM;
  const known = [JSON_FORM, ...Object.keys(forms)];
  const form = request.accepts(known);
  if (typeof form === 'string') return form;
  throw new Problem('not-acceptable', `This comes as ${known.join(' or ')}; ask for one of them in Accept.`);
}

async function reply(
  response: Response,
  answer: Answer,
  { query, params }: Call,
  form: string,
  { forms, method, status = 200 }: Endpoint,
): Promise<void> {
  const { body, version, location, headers = {}, file } = answer;
  // Before any header goes out: what cannot be put into this form is answered as a problem.
  const formed = await forms?.[form]?.(body as never, query as never, params);
  response.status(status).set(headers);
  if (version !== undefined) {
    response.set('ETag', `"${version}"`);
    // The version is what an update is held against. Parts of an answer change without it (what tests say of a lot), so no
    // copy is called fresh by it.
    delete response.req.headers['if-none-match'];
  }
  if (location !== undefined) response.set('Location', `/v1${location}`);
  if (method === 'GET' && !response.get('Cache-Control')) response.set('Cache-Control', 'private, no-cache');
  if (file) await sendFile(response, file);
  else if (typeof formed === 'string') response.type(form).send(ended(formed));
  else if (formed) response.type(form).send(Buffer.from(formed));
  else if (body === undefined) response.end();
  else response.json(body);
}

/** The first piece is made before anything is sent: what cannot be made is then still answered as a problem. */
async function sendFile(response: Response, { type, name, content }: AnsweredFile): Promise<void> {
  const pieces = content[Symbol.asyncIterator]();
  const first = await pieces.next();
  response.type(type).attachment(name);
  response.type(type);
  const all = async function* () {
    try {
      for (let piece = first; !piece.done; piece = await pieces.next()) yield piece.value;
    } finally {
      await pieces.return?.();
    }
  };
  await promises
    .pipeline(Readable.from(all(), { objectMode: true }), response)
    .catch((error: NodeJS.ErrnoException) => {
      // Whoever asked has gone away.
      if (error.code !== 'ERR_STREAM_PREMATURE_CLOSE') throw error;
    });
}

function ended(text: string): string {
  return text.endsWith('\n') ? text : `${text}\n`;
}

function refuseOthers(methods: readonly string[]) {
  const allow = methods.join(', ');
  return ({ method, originalUrl }: Request): never => {
    throw new Problem('method-not-allowed', `${originalUrl} answers ${allow}, not ${method}.`, {
      headers: { Allow: allow },
    });
  };
}
