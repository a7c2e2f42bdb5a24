import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import {
  NO_ANTIOXIDANTS,
  NO_ERYTHORBIC_ACID,
  NO_NITRATE,
  NO_PHOSPHATE,
  NO_SULFITE,
  NOT_CURED,
  nitriteAdded,
  PHOSPHATE,
  residualNitrite,
  SULFITE,
} from './additives.ts';
import { additives, LAW, MEAT_CONTENT } from './law.ts';

/** Fresh sausage, burgers and other meat preparations, category 08.2: only listed additives. */

const CATEGORY = additives('08.2');
const naming = { species: 'none', leanPair: false } as const;
const PREPARATION: readonly Limit[] = [NO_ERYTHORBIC_ACID, NO_ANTIOXIDANTS];

const VEGETABLE_OR_CEREAL: Limit = {
  ...LAW,
  sense: 'min',
  id: 'eu-1333-burger-cereal',
  says: 'Burger meat with sulfite or phosphate holds at least 4 % of vegetables or cereal, mixed within the meat.',
  numerator: FORMS.vegetableAndCereal,
  basis: FORMS.formula,
  bound: 0.04,
  citation: CATEGORY,
  note: 'Counted are vegetables and binders of cereal; a binder of milk or soy is neither.',
};

const preparation = (productClass: string, says: string, limits: readonly Limit[]): Standard => ({
  productClass,
  says,
  citation: CATEGORY,
  cooking: ['raw'],
  limits: [...limits, ...PREPARATION],
  meatContent: MEAT_CONTENT,
  naming,
});

export const MEAT_PREPARATIONS: readonly Standard[] = [
  preparation('fresh-sausage', 'Fresh sausage and other meat preparations', [
    NOT_CURED,
    NO_PHOSPHATE,
    NO_SULFITE,
  ]),
  preparation('burger', 'Burger without sulfite and phosphate', [NOT_CURED, NO_PHOSPHATE, NO_SULFITE]),
  preparation('breakfast-sausage', 'Breakfast sausage, muscle and fat completely dispersed', [
    NOT_CURED,
    PHOSPHATE,
    SULFITE,
  ]),
  preparation('burger-meat', 'Burger meat with vegetables or cereal mixed in', [
    NOT_CURED,
    VEGETABLE_OR_CEREAL,
    PHOSPHATE,
    SULFITE,
  ]),
  preparation('fresh-longaniza', 'Salsicha fresca, longaniza fresca, butifarra fresca', [
    NOT_CURED,
    NO_PHOSPHATE,
    SULFITE,
  ]),
  {
    ...preparation(
      'cured-meat-preparation',
      'Cured meat preparation of the closed list, such as Kasseler or Surfleisch',
      [...nitriteAdded('08.2', '08.2', 150, 80), NO_NITRATE, PHOSPHATE, NO_SULFITE],
    ),
    laboratory: [residualNitrite('08.2', '08.2', 45, 'XD')],
  },
];
