import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW, noneReadAs } from '../shapes.ts';

/** The shapes that many limits of the law share. */

/** None of the numerator may go in. */
export const none = noneReadAs('official');

/**
 * A standard that names meat and seasoning. What is a seasoning has no figure: it is told by the kind of material.
 * @param section as in the id, for example '319.141'.
 */
export const seasoningOnly = (
  section: string,
  citation = `9 CFR ${section}`,
  numerator: Limit['numerator'] = FORMS.notSeasoning,
): Limit =>
  none(
    `us-${section}-seasoning-only`,
    `No ${numerator.says} go in: the standard names none.`,
    numerator,
    citation,
    { note: 'Garlic, onion and herbs, fresh or dried, are seasonings.' },
  );

/** The most fat of a product as it is sold. @param section as in the id, for example '319.15a'. */
export const finishedFat = (section: string, name: string, percent: number, citation: string): Limit => ({
  ...LAW,
  id: `us-${section}-fat`,
  says: `${name} holds at most ${percent} % fat.`,
  numerator: FORMS.finishedFat,
  basis: FORMS.finished,
  bound: percent / 100,
  citation,
  read: 'official',
});

/** A standard that names meat, which is of cattle, sheep, swine, goats and equines (9 CFR 301.2). */
export const noPoultry = (section: string): Limit =>
  none(
    `us-${section}-no-poultry`,
    'No poultry goes in: the standard names meat.',
    FORMS.poultry,
    `9 CFR ${section} and 301.2`,
  );

export const noByproducts = (section: string, extra: Partial<Limit> = {}): Limit =>
  none(`us-${section}-no-byproducts`, 'No byproducts go in.', FORMS.byproducts, `9 CFR ${section}`, extra);

/** Water put in, at most 3 % of all ingredients. */
export const water3Percent = (section: string, product: string): Limit => ({
  ...LAW,
  id: `us-${section}-water`,
  says: `Water or ice put into ${product} is at most 3 % of all ingredients, the water of wine and other liquids included.`,
  numerator: FORMS.waterPutIn,
  basis: FORMS.formula,
  bound: 0.03,
  citation: `9 CFR ${section}`,
  read: 'official',
});
