import { blendEndpoints } from './blend-endpoints.ts';
import type { Books } from './books.ts';
import type { Endpoint } from './endpoint.ts';
import { plantEndpoints } from './plant-endpoints.ts';

/** Everything that the service answers under /v1. */
export function allEndpoints(books: Books, version: string): Endpoint[] {
  return [...blendEndpoints(books), ...plantEndpoints(books, version)];
}
