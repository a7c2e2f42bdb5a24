import { MEAT_KINDS } from '../batch/material.ts';
import type { Product, SeasoningBasis, Target } from '../batch/product.ts';
import type { Form } from '../rules/form.ts';
import { form, mass, massOf } from '../rules/forms/build.ts';
import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import { leanPairCitation, type Standard } from '../rules/standard.ts';
import { fatPercentOf, fixed, fractionOfPercent, percentOfFraction } from '../units.ts';

/** The plant's own limits that follow from a product: targets, shares of the meat block, ranges of lines. */
export function houseLimits(product: Product, standard: Pick<Standard, 'citation'>): Limit[] {
  return [
    ...product.targets.flatMap(targetLimits),
    ...labelLimits(product, standard),
    ...shareLimits(product),
    ...seasoningLimits(product),
    ...reworkLimits(product),
  ];
}

const WHOLE_FORMS: Readonly<Record<SeasoningBasis, Form>> = {
  'green weight': FORMS.greenWeight,
  batch: FORMS.formula,
  'finished weight': FORMS.finished,
};

const FRESH_FORMS: Readonly<Record<SeasoningBasis, Form>> = {
  'green weight': form(
    'freshGreenWeight',
    'green weight of meat, poultry and their byproducts, rework not counted',
    mass({ kinds: MEAT_KINDS, exceptKinds: ['rework'] }),
  ),
  batch: form(
    'freshFormula',
    'all ingredients, water included, rework not counted',
    mass({ exceptKinds: ['rework'] }),
  ),
  'finished weight': form(
    'freshFinished',
    'finished product, rework not counted',
    mass({ exceptKinds: ['rework'] }, 1, 'yield'),
  ),
};

/**
 * What the rate of a seasoning line is on. Rework comes seasoned, so where it may go in the recipe is scaled on what is
 * fresh (common practice); a rate on the whole would season it twice. Limits are on the whole all the same.
 */
export function basisForm(basis: SeasoningBasis, { rework }: Pick<Product, 'rework'>): Form {
  return (rework ? FRESH_FORMS : WHOLE_FORMS)[basis];
}

/** What is weighed in of a material for its line, not what rework brings of it. */
export function lineForm(materialId: string): Form {
  return massOf(materialId, materialId, { materialIds: [materialId], exceptKinds: ['rework'] });
}

const TARGET_FORMS: Readonly<Record<Target['measure'], Form>> = {
  fat: FORMS.finishedFat,
  protein: FORMS.protein,
  water: FORMS.finishedWater,
  salt: FORMS.salt,
  'cost per kg': FORMS.cost,
};

const HOUSE = { authority: 'house', unit: 'percent', citation: 'house target', read: 'official' } as const;

type Ends = { readonly min?: number | undefined; readonly max?: number | undefined };

/** At most two limits, one for each end that is given. */
function ends(
  base: Omit<Limit, 'sense' | 'bound' | 'says' | 'id'> & { id: string; what: string },
  { min, max }: Ends,
): Limit[] {
  const { id, what, ...rest } = base;
  const shown = (bound: number) =>
    rest.unit === 'percent' ? `${percentOfFraction(bound)} %` : fixed(bound, 4);
  return [
    ...(min === undefined
      ? []
      : [
          {
            ...rest,
            id: `${id}-min`,
            sense: 'min',
            bound: min,
            says: `${what} is at least ${shown(min)}.`,
          } as const,
        ]),
    ...(max === undefined
      ? []
      : [
          {
            ...rest,
            id: `${id}-max`,
            sense: 'max',
            bound: max,
            says: `${what} is at most ${shown(max)}.`,
          } as const,
        ]),
  ];
}

function targetLimits({ measure, min, max }: Target): Limit[] {
  const unit = measure === 'cost per kg' ? 'price per kg' : 'percent';
  return ends(
    {
      ...HOUSE,
      unit,
      id: `house-${measure.replaceAll(' ', '-')}`,
      what:
        measure === 'cost per kg'
          ? 'Cost per kg of the finished product'
          : `Target: ${measure} of the finished product`,
      numerator: TARGET_FORMS[measure],
      basis: FORMS.finished,
    },
    { min, max },
  );
}

const LABEL_LEAN_ID = 'house-label-lean';
/** The limit that a lean percent on the label sets. */
export const LABEL_LEAN = `${LABEL_LEAN_ID}-max`;

/** A lean percent on the label is a promise: the fat must be no more than the rest. */
function labelLimits({ label }: Product, standard: Pick<Standard, 'citation'>): Limit[] {
  if (label.leanPercent === undefined) return [];
  return ends(
    {
      ...HOUSE,
      id: LABEL_LEAN_ID,
      what: `Fat behind "${label.leanPercent}% lean" on the label`,
      numerator: { ...FORMS.finishedFat, says: 'fat, as the label promises' },
      basis: FORMS.finished,
      citation: leanPairCitation(standard),
    },
    { max: fractionOfPercent(fatPercentOf(label.leanPercent)) },
  );
}

function shareLimits({ meatBlock }: Product): Limit[] {
  return meatBlock.flatMap(({ name, minFraction, maxFraction, kinds, species, materialIds }, index) =>
    ends(
      {
        ...HOUSE,
        id: `house-share-${index + 1}`,
        what: `Share of ${name} in the meat block`,
        numerator: massOf(`share-${index + 1}`, `share of ${name}`, {
          ...(kinds && { kinds }),
          ...(species && { species }),
          ...(materialIds && { materialIds }),
        }),
        basis: FORMS.greenWeight,
      },
      { min: minFraction || undefined, max: maxFraction === 1 ? undefined : maxFraction },
    ),
  );
}

function seasoningLimits(product: Product): Limit[] {
  return product.seasoning
    .filter(({ minFraction, maxFraction }) => minFraction !== maxFraction)
    .flatMap(({ materialId, basis, minFraction, maxFraction }) =>
      ends(
        {
          ...HOUSE,
          id: `house-line-${materialId}`,
          what: `${materialId} on ${basis}`,
          numerator: lineForm(materialId),
          basis: basisForm(basis, product),
        },
        { min: minFraction || undefined, max: maxFraction },
      ),
    );
}

function reworkLimits({ rework }: Product): Limit[] {
  if (!rework) return [];
  return ends(
    {
      ...HOUSE,
      id: 'house-rework',
      what: 'Share of rework in the batch',
      numerator: massOf('rework', 'rework', { kinds: ['rework'] }),
      basis: FORMS.formula,
    },
    { max: rework.maxFraction },
  );
}
