import { z } from 'zod';
import { choiceField, record } from '../../tables/json.ts';
import { plantSchema } from '../../tables/plant.ts';
import { newPersonSchema, sessionAnswer } from '../access/contract.ts';
import { idSchema } from '../contract/quantities.ts';

/** A plant of one's own in place of the one that the books were founded with. */

const { name, password } = newPersonSchema.shape;

const keptProduct = record(
  {
    id: idSchema,
    productClass: idSchema.optional().meta({
      description:
        "Its standard in the plant's market; absent: the standard that its recipe was written for.",
    }),
  },
  'must be a product to keep, such as {"id": "ground-beef-80-20"}',
);

export const beginningSchema = record(
  {
    plant: plantSchema.meta({ description: 'As PUT /v1/plant takes it, without demoDate.' }),
    keeps: z
      .union(
        [choiceField(['all']), record({ products: z.array(keptProduct).max(500) }, 'must hold products')],
        {
          error: 'must be "all", to try things out, or the products to begin with, such as {"products": []}',
        },
      )
      .meta({
        description:
          'all: lots, prices, products and the day of the demonstration stay, to try things out. products: these recipes stay, with the prices of what they name; everything else is put away.',
      }),
    admin: record({ name, password }, 'must hold name and password')
      .optional()
      .meta({ description: 'The first admin, who is then logged in; only as long as there is none.' }),
  },
  'must hold plant and keeps',
);

export const beginningStateAnswer = z
  .object({
    isPossible: z.boolean().meta({
      description: 'Whether nothing stands in the books but what the plant was founded with.',
    }),
    says: z
      .string()
      .optional()
      .meta({ description: 'Why it is not possible, and the way to begin all the same.' }),
    command: z.string().optional().meta({ description: 'What starts the service on a store of its own.' }),
    standsStillAt: z.string().optional().meta({ description: 'The day of a demonstration.' }),
    needsAdmin: z.boolean().meta({ description: 'Whether nobody is there yet who can log in as an admin.' }),
  })
  .meta({ id: 'BeginningState' });

export const beginningAnswer = z
  .object({
    session: sessionAnswer,
    lotsPutAway: z.int(),
    testsWithdrawn: z.int(),
    productsKept: z.int(),
    pricesKept: z.int(),
  })
  .meta({ id: 'Beginning' });
