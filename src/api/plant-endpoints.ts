import type { z } from 'zod';
import type { Desk } from './blending.ts';
import { type Books, deskOf } from './books.ts';
import {
  healthAnswer,
  lotsAnswer,
  lotsQuery,
  materialsAnswer,
  materialsQuery,
  plantAnswer,
  productsAnswer,
  productsQuery,
  rulesAnswer,
  rulesQuery,
  trimAnswer,
} from './contract/resources.ts';
import type { Endpoint } from './endpoint.ts';
import { listLots, listMaterials, listProducts, listTrim, readPlant, readProduct } from './resources.ts';
import { listRules } from './rules.ts';

/** What the plant has and which rules hold, for reading. */
export function plantEndpoints(books: Books, version: string): Endpoint[] {
  const read = <Query extends z.ZodObject>(
    path: string,
    says: string,
    gives: z.ZodType,
    answer: (desk: Desk, query: z.output<Query>, params: Readonly<Record<string, string>>) => unknown,
    query?: Query,
  ): Endpoint => ({
    method: 'GET',
    path,
    tag: 'Plant and rules',
    says,
    may: 'read',
    gives,
    ...(query && { query }),
    handle: async (call) => ({
      body: answer(await deskOf(books), call.query as z.output<Query>, call.params),
    }),
  });
  return [
    read('/materials', 'Materials of the ingredient tables', materialsAnswer, listMaterials, materialsQuery),
    read('/lots', 'Lots on hand', lotsAnswer, listLots, lotsQuery),
    read('/products', 'Products of the plant', productsAnswer, listProducts, productsQuery),
    read('/products/:id', 'One product', productsAnswer.shape.items.element, (desk, _query, { id = '' }) =>
      readProduct(desk, id),
    ),
    read('/rules', 'Limits with their citations', rulesAnswer, listRules, rulesQuery),
    read('/trim', "What past fat tests say of each supplier's trim", trimAnswer, listTrim),
    read('/plant', 'The plant and its scales', plantAnswer, readPlant),
    {
      method: 'GET',
      path: '/health',
      tag: 'Plant and rules',
      says: 'Whether the service answers',
      may: 'anyone',
      gives: healthAnswer,
      handle: async () => ({ body: { status: 'ok', version, doubtedAnswers: books.doubts() } }),
    },
  ];
}
