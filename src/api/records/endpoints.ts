import type { Books } from '../books.ts';
import type { Endpoint } from '../endpoint.ts';
import { drillEndpoints } from './drill-endpoints.ts';
import { logEndpoints } from './log-endpoints.ts';
import { recordEndpoints } from './record-endpoints.ts';
import { traceEndpoints } from './trace-endpoints.ts';

/** What is asked of the books later: traces, recall drills, logs and records. */
export function recordsEndpoints(books: Books): Endpoint[] {
  return [
    ...traceEndpoints(books),
    ...drillEndpoints(books),
    ...logEndpoints(books),
    ...recordEndpoints(books),
  ];
}
