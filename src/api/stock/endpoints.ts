import type { Books } from '../books.ts';
import type { Endpoint } from '../endpoint.ts';
import { fatTestEndpoints } from './fat-tests.ts';
import { houseRuleEndpoints } from './house-rules.ts';
import { lotEndpoints } from './lots.ts';
import { materialEndpoints } from './materials.ts';
import { movementEndpoints } from './movements.ts';
import { plantItselfEndpoints } from './plant.ts';
import { priceEndpoints } from './prices.ts';
import { productEndpoints } from './products.ts';

/** What the plant has and works by, to read and to change. */
export function stockEndpoints(books: Books): Endpoint[] {
  return [
    ...lotEndpoints(books),
    ...fatTestEndpoints(books),
    ...movementEndpoints(books),
    ...productEndpoints(books),
    ...materialEndpoints(books),
    ...priceEndpoints(books),
    ...plantItselfEndpoints(books),
    ...houseRuleEndpoints(books),
  ];
}
