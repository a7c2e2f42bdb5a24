import { z } from 'zod';

/** What an answer says beyond the weights: proof, certainty, worth, other blends and the way out. */

const perKg = (description: string) => z.number().meta({ description });

export const proofAnswer = z
  .object({
    among: z.string().meta({ description: 'Among which blends.' }),
    leastCost: z.number().meta({
      description: 'None of them, within every limit and stock, costs less: proven in exact arithmetic.',
    }),
    aboveLeast: z.number().meta({ description: 'Cost of the printed weights above that.' }),
    withinFraction: z.number().optional().meta({ description: 'The same as a share of leastCost.' }),
    says: z.string(),
  })
  .meta({ id: 'CostProof' });

export const certaintyAnswer = z
  .object({
    limitId: z.string(),
    says: z.string(),
    probability: z.number().meta({
      description:
        'That the limit holds in the batch as weighed, as far as the fat of the lots is uncertain.',
    }),
    sd: z.number().meta({ description: 'Standard deviation of what is counted, in the unit of the limit.' }),
    confidence: z.number().optional().meta({ description: 'What was asked for.' }),
  })
  .meta({ id: 'Certainty' });

export const worthAnswer = z
  .object({
    limits: z.array(
      z.object({
        limitId: z.string(),
        says: z.string(),
        step: z.number().meta({ description: 'In the unit of the limit: 1 point, 10 ppm.' }),
        unit: z.string(),
        savesPerKg: perKg('What one step more of room saves on a kilogram of batch, at first.'),
        togetherWith: z.array(z.object({ limitId: z.string(), says: z.string() })).meta({
          description: 'Limits that press at the same place: it saves only with the same room in those.',
        }),
      }),
    ),
    lines: z.array(
      z.object({
        materialId: z.string(),
        stepPoints: z.number(),
        costsPerKg: perKg('What one step more of the line does to the cost of a kilogram of batch.'),
      }),
    ),
    nextUnit: z.object({ of: z.string(), costs: z.number() }).optional().meta({
      description:
        'What one unit (lb or kg, as units says) more of the asked size costs; absent when it cannot be made.',
    }),
    notUsed: z.array(
      z.object({
        supplyId: z.string(),
        material: z.string(),
        costPerKg: z.number(),
        wouldEnterBelowPerKg: z.number().optional().meta({
          description: 'The price below which it would go in; absent when it would not at any price.',
        }),
      }),
    ),
    used: z.array(
      z.object({
        supplyId: z.string(),
        material: z.string(),
        costPerKg: z.number(),
        bestFromPerKg: z.number().optional().meta({
          description:
            'The prices between which this blend stays best. Absent where confidence is asked of a limit: there it shifts a little with every price.',
        }),
        bestToPerKg: z
          .number()
          .optional()
          .meta({ description: 'Absent when it stays best at any higher price.' }),
        oneUnitMoreSaves: z.number().optional().meta({
          description:
            'What one unit (lb or kg) more of it saves; absent where more lies there than is used.',
        }),
      }),
    ),
  })
  .meta({ id: 'Worth', description: 'What limits and lots are worth, before rounding to the scales.' });

export const choiceAnswer = z
  .object({
    cost: z.number(),
    reportedLeastCost: z.number().meta({
      description:
        'The cost below which the engine reports that no choice in whole numbers lies; not proven here.',
    }),
  })
  .meta({ id: 'Choice' });

export const nearBestAnswer = z
  .object({
    cost: z.number(),
    costPerKg: z.number(),
    aboveFraction: z.number(),
    without: z.array(z.string()),
    withInstead: z.array(z.string()),
    lines: z.array(
      z.object({
        supplyId: z.string(),
        weight: z.string().meta({ description: 'In one load, as the scale shows it.' }),
        kg: z.number().meta({ description: 'In the whole batch.' }),
      }),
    ),
  })
  .meta({ id: 'NearBest' });

const change = z.union([
  z.object({ limitId: z.string(), from: z.number(), to: z.number(), unit: z.string() }),
  z.object({ limitId: z.string(), confidenceFrom: z.number(), confidenceTo: z.number() }),
  z.object({ buyMaterialId: z.string(), massKg: z.number(), costPerKg: z.number().optional() }),
  z.object({ sizeFromKg: z.number(), sizeToKg: z.number() }),
  z.object({ materialId: z.string(), rateFrom: z.number(), rateTo: z.number() }),
  z.object({ sizeWithin: z.number() }),
  z.object({ mostLots: z.int() }),
  z.object({ withoutLeastOf: z.string() }),
  z.object({ withoutWish: z.string() }),
]);

export const wayOutAnswer = z
  .object({
    conflict: z
      .array(
        z.object({
          kind: z.enum(['law', 'house', 'line', 'stock', 'demand', 'size']),
          limitId: z.string().optional(),
          supplyId: z.string().optional(),
          says: z.string(),
        }),
      )
      .meta({ description: 'What cannot all hold: at least one has to give.' }),
    repairs: z
      .array(
        z.object({
          kind: z.enum([
            'target',
            'targets together',
            'rate',
            'buy',
            'smaller batch',
            'confidence',
            'demand',
            'wish',
          ]),
          says: z.string(),
          changes: z.array(change),
          costPerKg: z.number().optional(),
        }),
      )
      .meta({
        description: 'Changes that lead to a blend, each worked out in full. The law is never among them.',
      }),
  })
  .meta({ id: 'WayOut' });
