import { z } from 'zod';
import { record } from '../../tables/json.ts';
import { priceSchema } from './quantities.ts';

/** Prices of materials that are bought without lots. */

export const priceRequestSchema = record(
  { cost: priceSchema },
  'must be a price such as {"cost": {"amount": 3.1, "per": "lb"}}',
);

export const priceAnswer = z
  .object({
    materialId: z.string(),
    material: z.string(),
    costPerKg: z.number(),
    costPerLb: z.number(),
    version: z.int(),
  })
  .meta({ id: 'KnownPrice' });

export const pricesAnswer = z.object({ items: z.array(priceAnswer) });
