import { CURING_AGENTS, carries } from '../batch/carries.ts';
import type { Product } from '../batch/product.ts';
import type { BlendLine } from '../formulate/blend.ts';

/** Stands beside the line of the cure as well, where the sheet is printed. */
export const CURE_CAUTION =
  'Nitrite is poisonous in excess: weigh the cure alone, have a second person check it, and never guess.';

/** How the caution begins that must be read before anything is fetched. */
export const ALLERGENS_HELD = 'Holds allergens';

/** The cautions that every sheet of such a product carries, whoever reads it. */
export function standingCautions({ process }: Product, lines: readonly BlendLine[]): string[] {
  const cured = lines.some(({ supply }) => carries(supply.material, CURING_AGENTS));
  const allergens = [...new Set(lines.flatMap(({ supply }) => supply.material.allergens))];
  return [
    ...(cured ? [CURE_CAUTION] : []),
    ...(allergens.length > 0
      ? [`${ALLERGENS_HELD} (${allergens.join(', ')}): run it last or clean before the next product.`]
      : []),
    ...(process.cooking === 'cooked'
      ? [
          'Cooking and cooling follow the HACCP plan and its process authority; this sheet sets no lethality or cooling limit.',
        ]
      : []),
    ...(process.cooking === 'dried'
      ? [
          'Fermentation, drying and the control of trichinae and other pathogens follow the HACCP plan and its process authority; this sheet sets no limit of pH, water activity or time.',
        ]
      : []),
    'Keep meat at or below 40 °F (4 °C) while it is worked (common practice).',
    'Local rules, the inspector and the HACCP plan of the plant come before this sheet.',
  ];
}
