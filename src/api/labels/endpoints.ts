import { LABEL_STOCKS } from '../../documents/pdf/label/label-stock.ts';
import type { PackLabel } from '../../labels/packs/pack-label.ts';
import { EXAMPLE_BLEND } from '../blend-endpoints.ts';
import { type Books, deskOf } from '../books.ts';
import type { Endpoint, Form } from '../endpoint.ts';
import { PDF } from '../paper.ts';
import {
  type LotLabelQuery,
  labelStocksAnswer,
  lotLabelQuery,
  type PrintQuery,
  packLabelAnswer,
  packLabelRequestSchema,
  printQuery,
} from './contract.ts';
import { labelOfLot } from './lot-label.ts';
import { labelOfBlend, printedLabel } from './make.ts';

/** What sticks on a pack: as data, and ready to print. */
export function packLabelEndpoints(books: Books): Endpoint[] {
  const tag = 'Labels';
  const forms = {
    [PDF]: ((label: PackLabel, query: PrintQuery) => printedLabel(label, query)) as Form,
  };
  return [
    {
      method: 'GET',
      path: '/label-stocks',
      tag,
      says: 'Label paper by its size: rolls and sheets',
      may: 'read',
      gives: labelStocksAnswer,
      handle: async () => ({ body: { items: LABEL_STOCKS } }),
    },
    {
      method: 'GET',
      path: '/lots/:id/label',
      tag,
      says: 'The label of a lot of packs; as PDF ready to print',
      may: 'read',
      query: lotLabelQuery,
      gives: packLabelAnswer,
      forms,
      handle: async ({ params, query }) => ({
        body: await labelOfLot(books, params.id ?? '', query as LotLabelQuery),
      }),
    },
    {
      method: 'POST',
      path: '/pack-labels',
      tag,
      says: 'Work out a blend and the label of a pack of it; as PDF ready to print',
      may: 'read',
      query: printQuery,
      takes: packLabelRequestSchema,
      example: { blend: EXAMPLE_BLEND, lotId: 'TRIAL-1', useByDate: '2026-12-09' },
      gives: packLabelAnswer,
      forms,
      handle: async ({ body }) => ({ body: await labelOfBlend(await deskOf(books), body) }),
    },
  ];
}
