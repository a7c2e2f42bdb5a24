import { z } from 'zod';
import { NUTRIENTS } from '../../labels/nutrition/nutrient.ts';

const nutrient = z.enum(NUTRIENTS);

const figure = z
  .object({
    amount: z.number().meta({ description: 'In 100 g as sold, unrounded.' }),
    unit: z.enum(['g', 'mg', 'mcg']),
    from: z
      .array(z.object({ material: z.string(), amount: z.number(), source: z.string() }))
      .meta({ description: 'What each ingredient brings; below 0 for what the process took.' }),
    notKnown: z
      .array(z.object({ material: z.string(), fraction: z.number() }))
      .meta({ description: 'Ingredients without a figure, with their share of the batch.' }),
  })
  .meta({ id: 'NutrientFigure' });

const panel = z
  .object({
    format: z.enum(['us vertical', 'us simplified', 'eu table', 'canada basic']),
    title: z.string(),
    serving: z
      .object({
        count: z.string().optional(),
        size: z.string(),
        grams: z.number(),
        referenceAmount: z.string(),
        citation: z.string(),
      })
      .optional(),
    columns: z.array(z.string()),
    energy: z.object({ label: z.string(), text: z.string(), kcal: z.number().optional() }),
    rows: z.array(
      z.object({
        label: z.string(),
        amount: z.string(),
        dailyValue: z.string().optional(),
        level: z.union([z.literal(0), z.literal(1), z.literal(2)]),
        isFirstOfGroup: z.literal(true).optional(),
        declares: z.object({ nutrient, amount: z.number() }).optional(),
      }),
    ),
    footnotes: z.array(z.string()),
    citation: z.string(),
  })
  .meta({ id: 'NutritionPanel', description: 'Words and rounded figures as they are printed.' });

export const nutritionSchema = z
  .object({
    basis: z.string(),
    energyKcalPer100g: z.number(),
    energyKjPer100g: z.number(),
    per100g: z.partialRecord(nutrient, figure),
    panel: panel.optional(),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'Nutrition', description: 'Absent on labels kept by an earlier version.' });
