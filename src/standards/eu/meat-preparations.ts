import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import {
  NO_ANTIOXIDANTS,
  NO_ERYTHORBIC_ACID,
  NO_GROUP_ONE,
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
import { PREPARATION_CRITERIA } from './microbiology.ts';

/** Fresh sausage, burgers and other meat preparations, category 08.2: only listed additives. */

const CATEGORY = additives('08.2');
const PREPARATION: readonly Limit[] = [NO_ERYTHORBIC_ACID, NO_ANTIOXIDANTS, NO_GROUP_ONE];

const VEGETABLE_OR_CEREAL: Limit = {
  ...LAW,
  sense: 'min',
  id: 'eu-1333-burger-cereal',
  says: 'Burger meat with sulfite or phosphate holds at least 4 % of vegetables or cereal, mixed within the meat.',
  numerator: FORMS.vegetableAndCereal,
  basis: FORMS.formula,
  bound: 0.04,
  citation: CATEGORY,
  note: 'Binders of milk, soy, egg, gluten, starch, gums and gelatin do not count; a binder of your own counts as cereal.',
};

const preparation = (
  productClass: string,
  says: string,
  limits: readonly Limit[],
  laboratory: readonly LaboratoryLimit[] = [],
): Standard => ({
  productClass,
  says,
  citation: CATEGORY,
  cooking: ['raw'],
  limits: [...limits, ...PREPARATION],
  laboratory: [...laboratory, ...PREPARATION_CRITERIA],
  meatContent: MEAT_CONTENT,
  naming: { species: 'none', leanPair: false },
});

const CURED = [...nitriteAdded('08.2', '08.2', [150, 80]), NO_NITRATE, NO_SULFITE];
const CURED_RESIDUE = [residualNitrite('08.2', '08.2', 45, 'XD')];

export const MEAT_PREPARATIONS: readonly Standard[] = [
  preparation('fresh-sausage', 'Fresh sausage and other meat preparations', [
    NOT_CURED,
    NO_PHOSPHATE,
    NO_SULFITE,
  ]),
  preparation('burger', 'Burger without sulfite and phosphate', [NOT_CURED, NO_PHOSPHATE, NO_SULFITE]),
  // The 6 % of cereal stands in the rows for colors alone.
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
  preparation('fresh-klobasa', 'Bílá, vinná, sváteční and syrová klobása', [
    NOT_CURED,
    PHOSPHATE,
    NO_SULFITE,
  ]),
  preparation(
    'cured-meat-preparation',
    'Lomo, careta and costilla de cerdo adobada, pincho moruno, kiełbasa surowa biała and metka, tatar wołowy, golonka peklowana',
    [...CURED, NO_PHOSPHATE],
    CURED_RESIDUE,
  ),
  preparation(
    'cured-meat-preparation-with-phosphate',
    'Kasseler, Bräte, Surfleisch, toorvorst, šašlõkk, ahjupraad',
    [...CURED, PHOSPHATE],
    CURED_RESIDUE,
  ),
];
