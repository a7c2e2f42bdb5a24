import type { Books } from '../books.ts';
import type { Endpoint } from '../endpoint.ts';
import type { Access } from './access.ts';
import { auditEndpoints } from './audit-endpoints.ts';
import { keyEndpoints } from './key-endpoints.ts';
import { peopleEndpoints } from './people-endpoints.ts';
import { sessionEndpoints } from './session-endpoints.ts';

/** Who gets in, and what they have done. */
export function accessEndpoints(books: Books, access: Access): Endpoint[] {
  return [
    ...sessionEndpoints(books, access),
    ...peopleEndpoints(books, access),
    ...keyEndpoints(books),
    ...auditEndpoints(books),
  ];
}
