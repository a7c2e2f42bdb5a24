import { z } from 'zod';

const duty = z.object({ text: z.string(), citation: z.string() }).meta({ id: 'LabelDuty' });

export const labelAnswerSchema = z
  .object({
    name: z.string(),
    qualifiers: z.array(duty),
    ingredients: z.object({
      text: z.string(),
      ingredients: z.array(
        z.object({
          name: z.string(),
          fraction: z.number(),
          parts: z.array(z.string()),
          inSmallGroup: z.boolean(),
        }),
      ),
    }),
    allergens: z.object({ allergens: z.array(z.string()), text: z.string().optional() }),
    leanPair: duty.optional(),
    meatContent: z
      .object({
        text: z.string(),
        citation: z.string(),
        meats: z.array(
          z.object({
            says: z.string(),
            usedFraction: z.number(),
            declaredFraction: z.number(),
            excessFatFraction: z.number(),
            excessConnectiveTissueFraction: z.number(),
          }),
        ),
      })
      .optional()
      .meta({ description: 'Meat as the label must count it, where the law adjusts it.' }),
    storage: duty.optional(),
    safeHandling: duty.optional(),
    inspection: duty.optional(),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'LabelDeclaration' });
