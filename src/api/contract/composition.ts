import { z } from 'zod';
import { MOST_MAIN_PARTS, MOST_PARTS } from '../../batch/composition.ts';
import { fractionField, record, remedy } from '../../tables/json.ts';

/** What a material is made of, as it is given and as it is shown. */

const perKg = z
  .number(remedy('must be a number'))
  .min(0, remedy('must not be negative'))
  .max(1e6, remedy('must be at most 1000000'));

export const compositionSchema = record(
  {
    waterFraction: fractionField,
    fatFraction: fractionField,
    proteinFraction: fractionField,
    carbohydrateFraction: fractionField.default(0),
    ashFraction: fractionField.default(0),
    saltFraction: fractionField.optional().meta({ description: 'What substances say of salt when absent.' }),
    collagenFraction: fractionField.optional(),
    saturatedFatFraction: fractionField.optional(),
    transFatFraction: fractionField.optional(),
    monounsaturatedFatFraction: fractionField.optional(),
    polyunsaturatedFatFraction: fractionField.optional(),
    fiberFraction: fractionField.optional(),
    sugarsFraction: fractionField.optional(),
    addedSugarsFraction: fractionField.optional().meta({
      description:
        'Sugars of it that count as added where it goes into food: all of a sugar, none of a fruit.',
    }),
    cholesterolMgPerKg: perKg.optional(),
    sodiumMgPerKg: perKg.optional(),
    potassiumMgPerKg: perKg.optional(),
    calciumMgPerKg: perKg.optional(),
    ironMgPerKg: perKg.optional(),
    vitaminDMcgPerKg: perKg.optional(),
  },
  'must be a composition with waterFraction, fatFraction and proteinFraction',
)
  .superRefine((composition, context) => {
    const { waterFraction, fatFraction, proteinFraction, carbohydrateFraction, ashFraction } = composition;
    const refuse = (path: string[], message: string) => context.addIssue({ code: 'custom', path, message });
    const main = waterFraction + fatFraction + proteinFraction;
    const all = main + carbohydrateFraction + ashFraction;
    if (main > MOST_MAIN_PARTS) {
      refuse(
        [],
        `water ${waterFraction}, fat ${fatFraction} and protein ${proteinFraction} add up to ${short(main)}, more than the whole; correct one of them`,
      );
    } else if (all > MOST_PARTS) {
      refuse(
        [],
        `its five parts add up to ${short(all)}, more than separate tests explain; correct one of them`,
      );
    }
    for (const [name, wholeName] of PARTS_OF_PARTS) {
      const part = composition[name] ?? 0;
      const whole = composition[wholeName];
      if (whole !== undefined && part > whole)
        refuse(
          [name],
          `${part} is more than ${wholeName} ${whole}, of which it is a part; correct one of the two`,
        );
    }
  })
  .meta({
    id: 'Composition',
    description:
      'Shares of one kilogram; water, fat and protein together at most 1, a hair more for separate tests. What is absent is not determined, never zero.',
  });

const PARTS_OF_PARTS = [
  ['collagenFraction', 'proteinFraction'],
  ['saturatedFatFraction', 'fatFraction'],
  ['transFatFraction', 'fatFraction'],
  ['monounsaturatedFatFraction', 'fatFraction'],
  ['polyunsaturatedFatFraction', 'fatFraction'],
  ['fiberFraction', 'carbohydrateFraction'],
  ['sugarsFraction', 'carbohydrateFraction'],
  ['addedSugarsFraction', 'carbohydrateFraction'],
  ['addedSugarsFraction', 'sugarsFraction'],
] as const;

export const compositionAnswer = z.object({
  waterFraction: z.number(),
  fatFraction: z.number(),
  proteinFraction: z.number(),
  carbohydrateFraction: z.number(),
  ashFraction: z.number(),
  saltFraction: z.number(),
  collagenFraction: z.number().optional(),
  saturatedFatFraction: z.number().optional(),
  transFatFraction: z.number().optional(),
  monounsaturatedFatFraction: z.number().optional(),
  polyunsaturatedFatFraction: z.number().optional(),
  fiberFraction: z.number().optional(),
  sugarsFraction: z.number().optional(),
  addedSugarsFraction: z.number().optional(),
  cholesterolMgPerKg: z.number().optional(),
  sodiumMgPerKg: z.number().optional(),
  potassiumMgPerKg: z.number().optional(),
  calciumMgPerKg: z.number().optional(),
  ironMgPerKg: z.number().optional(),
  vitaminDMcgPerKg: z.number().optional(),
});

function short(value: number): number {
  return Number(value.toPrecision(6));
}
