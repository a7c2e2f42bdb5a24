import { type Access, accessOf } from './access/access.ts';
import { accessEndpoints } from './access/endpoints.ts';
import { batchEndpoints } from './batches/endpoints.ts';
import { beginningEndpoints } from './beginning/endpoints.ts';
import { blendEndpoints } from './blend-endpoints.ts';
import type { Books } from './books.ts';
import type { Endpoint } from './endpoint.ts';
import { exchangeEndpoints } from './exchange/endpoints.ts';
import { packLabelEndpoints } from './labels/endpoints.ts';
import { plantEndpoints } from './plant-endpoints.ts';
import { recordsEndpoints } from './records/endpoints.ts';
import { reportEndpoints } from './reports/endpoints.ts';
import { stockEndpoints } from './stock/endpoints.ts';
import { translationEndpoints } from './translations.ts';

/** Everything that the service answers under /v1. */
export function allEndpoints(books: Books, version: string, access: Access = accessOf(books)): Endpoint[] {
  return [
    ...blendEndpoints(books),
    ...batchEndpoints(books),
    ...packLabelEndpoints(books),
    ...stockEndpoints(books),
    ...recordsEndpoints(books),
    ...exchangeEndpoints(books),
    ...reportEndpoints(books),
    ...plantEndpoints(books, version),
    ...translationEndpoints(),
    ...accessEndpoints(books, access),
    ...beginningEndpoints(books, access),
  ];
}
