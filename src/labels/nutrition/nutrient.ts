/** What a nutrition panel may declare. 'salt' is sodium as salt, where the law asks for it. */
export const NUTRIENTS = [
  'fat',
  'saturated fat',
  'trans fat',
  'monounsaturated fat',
  'polyunsaturated fat',
  'cholesterol',
  'sodium',
  'salt',
  'carbohydrate',
  'fiber',
  'sugars',
  'added sugars',
  'protein',
  'vitamin D',
  'calcium',
  'iron',
  'potassium',
] as const;
export type Nutrient = (typeof NUTRIENTS)[number];

/** Milligrams and micrograms as they are usual; all others in grams. */
export type NutrientUnit = 'g' | 'mg' | 'mcg';
