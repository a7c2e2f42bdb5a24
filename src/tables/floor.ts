import { z } from 'zod';
import { nameField, record, remedy } from './json.ts';

/** A share of a cost or of a size. */
export const shareField = z
  .number(remedy('must be a number'))
  .min(0, remedy('must not be negative'))
  .max(1, remedy('must be at most 1, which is 100 %'));

/** What the floor asks of the choice of lots, of one batch or as a habit of the plant. */
export const floorSchema = record(
  {
    wholeBoxes: z
      .union(
        [
          z.enum(['all', 'frozen']),
          z
            .array(nameField, remedy('must be a list of lot ids'))
            .max(500, remedy('must hold at most 500 lot ids')),
        ],
        remedy('must be "all", "frozen" or a list of lot ids'),
      )
      .optional()
      .meta({
        description:
          'Lots of which only whole boxes are taken: all that have boxes, the frozen ones, or these.',
      }),
    mostLots: z
      .int(remedy('must be a whole number'))
      .min(1, remedy('must be at least 1'))
      .max(100, remedy('must be at most 100'))
      .optional()
      .meta({ description: 'Most meat lots in the batch.' }),
    simplestWithin: shareField.optional().meta({
      description: 'The fewest meat lots whose cost is at most this share above the least.',
    }),
    olderFirstWithin: shareField.optional().meta({
      description:
        'As much as possible of the lots to be used first, at most this share above the least cost.',
    }),
    sizeWithin: shareField.max(0.5, remedy('must be at most 0.5')).optional().meta({
      description: 'How far the batch may be from its size, as a share of it, so that boxes come out whole.',
    }),
  },
  'must be an object with wholeBoxes, mostLots, simplestWithin, olderFirstWithin or sizeWithin',
).meta({ id: 'FloorWishes', description: 'What the floor asks of the choice of lots.' });
