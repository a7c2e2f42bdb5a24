import type { Caller } from '../api/access/caller.ts';
import { batchEndpoints } from '../api/batches/endpoints.ts';
import type { Books } from '../api/books.ts';
import type { Endpoint } from '../api/endpoint.ts';
import { PROGRAM } from '../api/found-plant.ts';
import { packLabelEndpoints } from '../api/labels/endpoints.ts';
import { PDF } from '../api/paper.ts';
import { parseOrProblem } from '../api/parse.ts';
import { Problem } from '../api/problem.ts';
import { recordsEndpoints } from '../api/records/endpoints.ts';
import { reportEndpoints } from '../api/reports/endpoints.ts';
import { connect } from '../store/open.ts';
import { storeOn } from '../store/store.ts';
import type { StoreUrl } from '../store/store-url.ts';
import { booksHere } from './books-here.ts';

/** What the books hold, printed from a terminal: the very answers of the service, by the same endpoints. */

/** Where each document is read; a place :id takes the id of a batch, a lot or a drill. */
const DOCUMENTS = {
  sheet: '/batches/:id/sheet',
  label: '/batches/:id/label',
  'pack-label': '/lots/:id/label',
  'grinding-log': '/logs/grinding',
  'fat-test-log': '/logs/fat-tests',
  'restricted-ingredient-log': '/logs/restricted-ingredients',
  'cleaning-log': '/logs/cleanings',
  'recall-drill': '/recall-drills/:id',
  'cost-report': '/reports/costs',
} as const;
export type PrintedDocument = keyof typeof DOCUMENTS;
export const PRINTED_DOCUMENTS = Object.keys(DOCUMENTS) as PrintedDocument[];

/** Options of the terminal by the query parameter that they are. */
const OPTION_OF = { fromDay: 'from', toDay: 'to' } as const;
const optionOf = (parameter: string) =>
  parameter in OPTION_OF ? OPTION_OF[parameter as keyof typeof OPTION_OF] : parameter;

export interface PrintOptions {
  readonly storeUrl: StoreUrl;
  readonly tablesFolder: string;
  /** As query parameters of the endpoint; those that are undefined were not given. */
  readonly query: Readonly<Record<string, string | undefined>>;
  readonly form: 'pdf' | 'text' | 'json';
}

/** Forms of text, the one that reads best in a terminal first. */
const TEXTS = ['text/plain', 'text/csv'];

/**
 * One document out of a live store. Only looks: the service may be running on the same store.
 * @returns the text, or the bytes of a PDF; JSON where the document has no text.
 * @throws RangeError for an option or an id that does not fit the document; Problem, Refused, StoreFault.
 */
export async function printCommand(
  name: string,
  id: string | undefined,
  { storeUrl, tablesFolder, query, form }: PrintOptions,
): Promise<string | Uint8Array> {
  const document = PRINTED_DOCUMENTS.find((known) => known === name);
  if (!document) {
    throw new RangeError(`"${name}" cannot be printed; write one of ${PRINTED_DOCUMENTS.join(', ')}.`);
  }
  const path = DOCUMENTS[document];
  const takesId = path.includes(':id');
  if (takesId && id === undefined) throw new RangeError(`Say which ${document} to print, by its id.`);
  if (!takesId && id !== undefined) {
    throw new RangeError(`A ${document} has no id; leave "${id}" out, and give days with --from and --to.`);
  }
  const store = storeOn(await connect(storeUrl, { readOnly: true }), storeUrl);
  try {
    const books = booksHere(store, tablesFolder);
    return await answerOf(endpointAt(books, path), document, { id, query, form });
  } finally {
    await store.close();
  }
}

function endpointAt(books: Books, path: string): Endpoint {
  const all = [batchEndpoints, packLabelEndpoints, recordsEndpoints, reportEndpoints];
  const found = all
    .flatMap((endpoints) => endpoints(books))
    .find((endpoint) => endpoint.method === 'GET' && endpoint.path === path);
  if (!found) throw new Error(`no endpoint reads ${path}`);
  return found;
}

/** Whoever is at the machine itself may read everything. */
const AT_THE_MACHINE: Caller = { ...PROGRAM, role: 'inspector', via: 'session' };

async function answerOf(
  { query: schema, forms = {}, handle }: Endpoint,
  document: PrintedDocument,
  { id, query: options, form }: Pick<PrintOptions, 'query' | 'form'> & { readonly id: string | undefined },
): Promise<string | Uint8Array> {
  const given = Object.entries(options).filter(([, value]) => value !== undefined);
  const foreign = given.find(([parameter]) => !(parameter in (schema?.shape ?? {})));
  if (foreign) throw new RangeError(`--${optionOf(foreign[0])} is not for a ${document}.`);
  const query = schema ? parsed(() => parseOrProblem(schema, Object.fromEntries(given))) : {};
  const params = id === undefined ? {} : { id };
  const incoming = { method: 'GET', headers: {}, remoteAddress: '' };
  const { body } = await handle({
    caller: AT_THE_MACHINE,
    params,
    query,
    body: undefined,
    incoming,
    accepts: () => undefined,
  });
  const type = form === 'pdf' ? PDF : form === 'text' ? TEXTS.find((text) => text in forms) : undefined;
  if (type === undefined) return JSON.stringify(body, null, 2);
  const formed = await forms[type]?.(body as never, query as never, params);
  if (formed === undefined) throw new Error(`${document} has no form ${type}`);
  return formed;
}

/** Faults are named by the option that was written. */
function parsed<Output>(parse: () => Output): Output {
  try {
    return parse();
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const errors = error.errors.map(({ pointer, message }) => ({
      pointer: `--${optionOf(pointer.slice(1))}`,
      message,
    }));
    throw new Problem(error.kind, error.message, { errors });
  }
}
