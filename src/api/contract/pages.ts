import { z } from 'zod';
import { record, remedy } from '../../tables/json.ts';

/** How long lists are asked for and answered. */

const whole = (most: number) =>
  z
    .string(remedy(`must be one whole number from 0 to ${most}`))
    .regex(/^\d{1,6}$/, remedy(`must be a whole number from 0 to ${most}`))
    .transform(Number)
    .refine((value) => value <= most, remedy(`must be a whole number from 0 to ${most}`));

export const query = <Shape extends z.ZodRawShape>(shape: Shape) => record(shape, 'must be query parameters');

const limit = whole(500).default(100);

/** A list that is counted as a whole. */
export const page = { limit, offset: whole(100_000).default(0) };

export const paged = <Item extends z.ZodType>(item: Item) =>
  z.object({ total: z.int(), limit: z.int(), offset: z.int(), items: z.array(item) });

/** A list that grows: the next page starts after the last item of the one before. */
export const following = {
  limit,
  after: z
    .string(remedy('must be the next of the page before'))
    .regex(/^\d{1,15}$/, remedy('must be the next of the page before'))
    .transform(Number)
    .optional()
    .meta({ description: 'The next of the page before.' }),
};

export const followed = <Item extends z.ZodType>(item: Item) =>
  z.object({
    items: z.array(item),
    next: z.int().optional().meta({ description: 'Ask for more with after; absent on the last page.' }),
  });

/** One page out of rows of which one more was fetched than fits. */
export function pageAfter<Row extends { readonly seq: number }>(rows: readonly Row[], most: number) {
  const items = rows.slice(0, most);
  const last = items.at(-1);
  return { items, ...(rows.length > most && last && { next: last.seq }) };
}
