import { z } from 'zod';
import { nutritionSchema } from './nutrition.ts';

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
          inSmallGroup: z
            .boolean()
            .meta({ description: 'Whether it stands in the last group, in any order.' }),
          quantity: z.string().optional().meta({ description: 'As printed: 62%.' }),
          allergens: z.array(z.string()).optional(),
          mayChangePlaces: z
            .literal(true)
            .optional()
            .meta({ description: 'Joined to the next by "and": the two may change places.' }),
        }),
      ),
      runs: z
        .array(z.object({ text: z.string(), emphasized: z.boolean() }))
        .optional()
        .meta({ description: 'The statement for print; the texts join to the whole text.' }),
      citation: z.string().optional(),
    }),
    allergens: z.object({
      allergens: z.array(z.string()).meta({
        description: 'Those of the list of the market, sulfites among them where they are declared.',
      }),
      text: z.string().optional().meta({ description: 'The line of its own, where the market has one.' }),
      emphasized: z
        .boolean()
        .optional()
        .meta({ description: 'Whether they stand out in the ingredient statement.' }),
      sulfitesMgPerKg: z.number().optional(),
      citation: z.string().optional(),
    }),
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
    claims: z
      .array(
        z.object({
          claim: z.string(),
          says: z.string(),
          holds: z.boolean().meta({ description: 'Only then may it be printed.' }),
          because: z.string(),
          citation: z.string(),
        }),
      )
      .optional(),
    origin: z
      .array(duty)
      .optional()
      .meta({ description: 'Where the animals lived, where that must be told.' }),
    storage: duty.optional(),
    date: duty.optional().meta({ description: 'The words before the date.' }),
    maker: duty.optional().meta({ description: 'Name and place of the maker.' }),
    safeHandling: duty.optional(),
    cookingInstruction: duty.optional(),
    inspection: duty.optional(),
    nutrition: nutritionSchema.optional(),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'LabelDeclaration' });
