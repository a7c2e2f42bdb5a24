import type { ReferenceAmount, Standard } from '../../rules/standard.ts';

/**
 * Reference amounts of table 2 of 9 CFR 317.312(b) and 381.412(b), read in the edition of 2015: what is eaten at one
 * time, ready to serve and ready to cook. The table names kinds of product; which class belongs to which kind is our
 * reading of its examples.
 */
interface Kind {
  readonly says: string;
  readonly citation: string;
  readonly readyToServe: number;
  /** Absent where the table has none. */
  readonly readyToCook?: number;
  readonly classes: readonly string[];
}

const MEAT = '9 CFR 317.312(b)';
const POULTRY = '9 CFR 381.412(b)';

const KINDS: readonly Kind[] = [
  {
    says: 'bacon',
    citation: MEAT,
    readyToServe: 15,
    readyToCook: 54,
    classes: [
      'bacon-pumped',
      'bacon-pumped-100',
      'bacon-pumped-with-starter',
      'bacon-immersion',
      'bacon-dry-cured',
    ],
  },
  {
    says: 'dried, such as jerky, and sausage with less than 2 of moisture to 1 of protein',
    citation: MEAT,
    readyToServe: 30,
    classes: ['jerky', 'pepperoni', 'dry-sausage'],
  },
  {
    says: 'luncheon meat, Canadian style bacon, liver sausage, thuringer and the like',
    citation: MEAT,
    readyToServe: 55,
    classes: [
      'luncheon-meat',
      'scrapple',
      'braunschweiger',
      'liver-sausage',
      'chopped-ham',
      'cured-pork-loin',
      'genoa-salami',
      'semi-dry-sausage',
      'thuringer',
    ],
  },
  {
    says: 'linked meat sausage, frankfurters, pork sausage, smoked sausage, summer sausage',
    citation: MEAT,
    readyToServe: 55,
    readyToCook: 75,
    classes: [
      'fresh-pork-sausage',
      'fresh-beef-sausage',
      'breakfast-sausage',
      'whole-hog-sausage',
      'italian-sausage',
      'uncooked-sausage',
      'smoked-pork-sausage',
      'bockwurst',
      'frankfurter',
      'frankfurter-with-byproducts',
      'cheesefurter',
      'cooked-sausage',
      'farmer-summer-sausage',
    ],
  },
  {
    says: 'entrees without sauce: patties, ground meat, cuts of meat, cured ham, corned beef',
    citation: MEAT,
    readyToServe: 85,
    readyToCook: 114,
    classes: [
      'ground-beef',
      'hamburger',
      'beef-patties',
      'fabricated-steak',
      'ground-pork',
      'ground-veal',
      'ground-lamb',
      'meat-loaf',
      'ham',
      'ham-patties',
      'uncooked-ham',
      'cured-pork-shoulder',
      'uncooked-cured-pork-loin',
      'uncooked-cured-pork-shoulder',
      'country-ham',
      'country-pork-shoulder',
      'corned-beef',
      'corned-beef-brisket',
      'corned-beef-round',
      'cured-beef-tongue',
      'roast-beef',
      'roast-beef-parboiled',
      'barbecued-meat',
    ],
  },
  {
    says: 'linked poultry sausage',
    citation: POULTRY,
    readyToServe: 55,
    readyToCook: 69,
    classes: ['poultry-sausage', 'cooked-poultry-sausage'],
  },
  {
    says: 'poultry entrees without sauce',
    citation: POULTRY,
    readyToServe: 85,
    readyToCook: 114,
    classes: [
      'ground-chicken',
      'chicken-burgers',
      'chicken-patties',
      'ground-turkey',
      'turkey-burgers',
      'turkey-patties',
    ],
  },
];

/** Endings of classes that differ in what the table does not ask about. */
const ENDING = /-(with-natural-juices|water-added|and-water-product|without-nitrite|cooked)$/;

/** The standard with its reference amounts, where the table has a kind for it. */
export function withReferenceAmounts(standard: Standard): Standard {
  const family = standard.productClass.replace(ENDING, '');
  const kind = KINDS.find(({ classes }) => classes.includes(family));
  if (!kind) return standard;
  const amounts = standard.cooking.flatMap((cooking): [Standard['cooking'][number], ReferenceAmount][] => {
    const grams = cooking === 'raw' ? kind.readyToCook : kind.readyToServe;
    if (grams === undefined) return [];
    const state = cooking === 'raw' ? 'ready to cook' : 'ready to serve';
    return [[cooking, { grams, says: `${state}: ${kind.says}`, citation: kind.citation, read: 'official' }]];
  });
  return { ...standard, referenceAmounts: Object.fromEntries(amounts) };
}

/** Classes of the table, so that a test can see that each one is a class. */
export const CLASSES_WITH_AMOUNTS: readonly string[] = KINDS.flatMap(({ classes }) => classes);
