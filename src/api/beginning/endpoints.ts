import type { Access } from '../access/access.ts';
import { NO_STORE } from '../access/no-store.ts';
import type { Books } from '../books.ts';
import type { Endpoint } from '../endpoint.ts';
import { begin, readBeginning } from './begin.ts';
import { beginningAnswer, beginningSchema, beginningStateAnswer } from './contract.ts';

/** A plant of one's own, as long as no work is booked. */
export function beginningEndpoints(books: Books, access: Access): Endpoint[] {
  const shared = { tag: 'Plant and rules', path: '/beginning', may: 'manage' } as const;
  return [
    {
      ...shared,
      method: 'GET',
      says: 'Whether the plant can still be begun anew',
      gives: beginningStateAnswer,
      handle: async () => ({ body: await readBeginning(books), headers: NO_STORE }),
    },
    {
      ...shared,
      method: 'POST',
      says: 'Begin a plant of your own in place of the demonstration, as long as no work is booked',
      takes: beginningSchema,
      example: EXAMPLE,
      gives: beginningAnswer,
      handle: (call) => begin(books, access, call),
    },
  ];
}

const EXAMPLE = {
  plant: {
    name: 'Our Plant',
    establishment: '00000',
    jurisdiction: 'us',
    currency: 'USD',
    units: 'lb',
    timeZone: 'America/Chicago',
    mixerCapacity: { value: 200, unit: 'lb' },
    scales: [{ id: 'floor', name: 'Floor scale', unit: 'lb', division: '0.1', capacity: 500 }],
  },
  keeps: { products: [{ id: 'ground-beef-80-20' }] },
  admin: { name: 'Ana', password: 'a few words of your own' },
};
