import { ANTIOXIDANTS, CURING_AGENTS, carries } from '../../batch/carries.ts';
import { isMeat, type Material } from '../../batch/material.ts';
import { compare, type Exact, exact, multiply, ratio, subtract, sum, ZERO } from '../../exact.ts';
import { checkLimits } from '../../rules/check.ts';
import { Coefficients } from '../../rules/coefficients.ts';
import { shownBound } from '../../rules/limit.ts';
import { isPoultryProduct } from '../../rules/standard.ts';
import { fixed } from '../../units.ts';
import { putIn } from '../put-in.ts';
import { isCollagen, isEdible, isOfOtherSpecies } from './casing.ts';
import { falseWords } from './false-names.ts';
import { type Duty, isFormed, listed, type Named, type NameOfMarket, speciesOf, title } from './named.ts';

/** The name by the standard, with the qualifiers that what went in calls for (9 CFR 317.2, 317.8, 317.17 and 319). */
export function unitedStatesName(named: Named): NameOfMarket {
  const uncured = isUncured(named);
  return {
    name: [
      uncured ? 'Uncured' : '',
      smoked(named),
      isFormed(named) ? 'Formed' : '',
      leadingSpecies(named),
      `${withAdded(named)}${withByproducts(named)}`,
    ]
      .filter(Boolean)
      .join(' '),
    qualifiers: [
      ...(uncured ? notCured(named) : []),
      ...(uncured && named.product.process.cooking !== 'dried' ? [NOT_PRESERVED] : []),
      ...solutionLine(named),
      ...binderLine(named),
      ...smokeFlavorLines(named),
      ...antioxidantLine(named),
      ...casingLine(named),
    ],
    cautions: [...(uncured ? [WHEN_PRESERVED] : []), ...unearnedName(named), ...falseWords(named)],
  };
}

/** 9 CFR 317.17(c)(2), (3): what was not dried is kept cold, and the label says so. */
const NOT_PRESERVED: Duty = {
  text: 'Not Preserved - Keep Refrigerated Below 40 °F. At All Times',
  citation: '9 CFR 317.17(c)(2)',
};
const WHEN_PRESERVED =
  'Without nitrate and nitrite the label says "Not Preserved - Keep Refrigerated Below 40 °F. At All Times" unless the product was heated to Fo 3, fermented to pH 4.6 or dried to a water activity of 0.92; from 10 % brine on none of the lines is asked for (9 CFR 317.17(c)). Whether that is so a process authority and the inspector decide, not these weights.';

/** Cured pork is named by its protein: with less than its name asks for, the next name down is the true one. */
function unearnedName({ product, standard, batch }: Named): string[] {
  const limit = standard.limits.find(({ id }) => id.endsWith('-pff'));
  if (!limit || batch.lines.length === 0) return [];
  const coefficients = new Coefficients(
    batch.lines.map(({ supply }) => supply),
    product.process,
  );
  const [check] = checkLimits(
    [limit],
    coefficients,
    batch.lines.map(({ exactMassKg }) => exactMassKg),
  );
  if (!check || check.holds) return [];
  const found = fixed(check.value * 100, 3);
  return [
    `The batch does not earn the name ${standard.naming.name}: its PFF is ${found}, unrounded below the ${shownBound(limit)} of that name (${limit.citation}). Make it by the class of a lower grade.`,
  ];
}

/** Vegetables and their juices that bring nitrate or nitrite of their own. */
const NATURAL_NITRITE = /celery|beet|chard|spinach|cherry|parsley/i;

function curingMaterials({ batch }: Named): Material[] {
  return putIn(batch.lines)
    .map(({ material }) => material)
    .filter((material) => carries(material, CURING_AGENTS));
}

function isUncured(named: Named): boolean {
  if (named.standard.naming.impliesCure !== true) return false;
  return curingMaterials(named).every(({ declaredName }) => NATURAL_NITRITE.test(declaredName));
}

function notCured(named: Named): Duty[] {
  const natural = [...new Set(curingMaterials(named).map(({ declaredName }) => declaredName))];
  if (natural.length === 0) return [{ text: 'No Nitrate or Nitrite Added', citation: '9 CFR 317.17(c)(1)' }];
  return [
    {
      text: `No Nitrate or Nitrite Added Except for Those Naturally Occurring in ${listed(natural)}`,
      citation: '9 CFR 317.17(c)(1) and labeling policy, from memory, verify',
    },
  ];
}

function smoked({ product, standard }: Named): string {
  return product.process.smoked && !/smoked/i.test(standard.naming.name ?? product.name) ? 'Smoked' : '';
}

function leadingSpecies(named: Named): string {
  if (named.standard.naming.species !== 'lead') return '';
  const all = speciesOf(named);
  const [only] = all;
  return all.size === 1 && only ? title(only) : '';
}

/** The name with the percent that it leaves open, for product that is sold with water. */
function withAdded({ product, standard, batch }: Named): string {
  const name = (standard.naming.name ?? product.name).replace('X%', `${addedPercent(batch)}%`);
  if (product.form.shape !== 'patty' || /patt|burgers|steak/i.test(name)) return name;
  return `${name} Patties`;
}

/**
 * Percent of the finished product that is added: what it weighs beyond its raw meat, and no less than what went in beside
 * meat and water, which no heat takes away. Rounded up, for the label gives the most (9 CFR 319.104(a), note 3).
 */
export function addedPercent({ lines, finishedKg }: Named['batch']): number {
  const finished = exact(finishedKg);
  const meatKg = massOf(lines, isMeat);
  const gained = subtract(finished, meatKg);
  const dry = massOf(lines, (material) => !isMeat(material) && material.kind !== 'water');
  const added = compare(gained, dry) > 0 ? gained : dry;
  return upToWhole(added, finished);
}

/** Cooked sausage of 9 CFR 319.180 with byproducts bears that in its name (b), (d); what they are there says (g). */
const FRANKFURTER_LIKE = /frank|furter|wiener|vienna|bologna|knockwurst|hot ?dog/i;
const BYPRODUCTS: readonly Material['kind'][] = [
  'heart meat',
  'tongue meat',
  'fat',
  'other byproduct',
  'partially defatted tissue',
];

function withByproducts({ product, standard, batch }: Named): string {
  const name = standard.naming.name ?? product.name;
  if (standard.naming.name !== undefined || !FRANKFURTER_LIKE.test(name)) return '';
  if (/by-?products|variety meats/i.test(name)) return '';
  const used = putIn(batch.lines).some(({ material }) => BYPRODUCTS.includes(material.kind));
  return used ? ' with Byproducts' : '';
}

/** Raw meat with a solution and no standard in part 319 is named with how much of what (9 CFR 317.2(e)(2)). */
function solutionLine({ product, standard, batch }: Named): Duty[] {
  if (product.process.cooking !== 'raw' || hasStandard(standard)) return [];
  const added = putIn(batch.lines).filter(({ material }) => !isMeat(material));
  if (!added.some(({ material }) => material.kind === 'water' || carries(material, ['free water'])))
    return [];
  const byName = new Map<string, Exact>();
  for (const { material, massKg } of added) {
    byName.set(material.declaredName, sum([byName.get(material.declaredName) ?? ZERO, massKg]));
  }
  const names = [...byName].sort(([, a], [, b]) => compare(b, a)).map(([name]) => name);
  const percent = solutionPercent(batch);
  const citation = isPoultryProduct(standard) ? '9 CFR 381.117(h)' : '9 CFR 317.2(e)(2)';
  return [{ text: `Containing ${percent}% added solution of ${listed(names)}`, citation }];
}

/** Solution over the raw meat without it, in percent, rounded up to a whole one so that it is never too little. */
export function solutionPercent({ lines }: Named['batch']): number {
  return upToWhole(
    massOf(lines, (material) => !isMeat(material)),
    massOf(lines, isMeat),
  );
}

/** Section 319.1 is about labels alone; sausage is named as such. */
function hasStandard({ citation, productClass }: Named['standard']): boolean {
  return /9 CFR 319\.(?!1\b)\d/.test(citation) || productClass.includes('sausage');
}

/** Sausage in casing or link form is marked with each added binder. */
function binderLine({ product: { form }, batch }: Named): Duty[] {
  if (form.shape !== 'link') return [];
  const binders = putIn(batch.lines).filter(({ material }) => isBinder(material));
  const names = [...new Set(binders.map(({ material }) => material.declaredName))];
  if (names.length === 0) return [];
  return [{ text: `${title(listed(names))} added`, citation: '9 CFR 316.11(b)' }];
}

function isBinder(material: Material): boolean {
  return material.kind === 'binder' || carries(material, ['isolated soy protein', 'sodium caseinate']);
}

/** A smoke flavor is artificial where its name or its parts say so. */
function smokeFlavorLines({ batch }: Named): Duty[] {
  const used = putIn(batch.lines)
    .map(({ material }) => material)
    .filter((material) => carries(material, ['smoke flavor']));
  const isArtificial = ({ declaredName, subIngredients }: Material) =>
    [declaredName, ...subIngredients].some((text) => /artificial/i.test(text));
  const line = (text: string) => ({ text, citation: '9 CFR 317.2(j)(3)' });
  return [
    ...(used.some((material) => !isArtificial(material)) ? [line('Smoke flavoring added')] : []),
    ...(used.some(isArtificial) ? [line('Artificial smoke flavoring added')] : []),
  ];
}

/** In the words of the example of 9 CFR 317.2(j)(10): 'BHA, BHT, and Propylgallate added to help protect flavor.' */
function antioxidantLine({ batch }: Named): Duty[] {
  const used = [...ANTIOXIDANTS, 'tocopherols' as const].filter((substance) =>
    putIn(batch.lines).some(({ material }) => carries(material, [substance])),
  );
  if (used.length === 0) return [];
  return [{ text: `${title(listed(used))} added to help protect flavor`, citation: '9 CFR 317.2(j)(10)' }];
}

/** A natural casing of another species than the meat is declared, and one of collagen always. */
function casingLine(named: Named): Duty[] {
  const { casing } = named;
  if (!casing || !isEdible(casing)) return [];
  const line = (paragraph: string) => [
    { text: `In ${casing.declaredName}`, citation: `9 CFR 317.8(b)(${paragraph})` },
  ];
  if (isCollagen(casing)) return line('38');
  return isOfOtherSpecies(casing, named) ? line('37') : [];
}

function massOf(lines: Named['batch']['lines'], counts: (material: Material) => boolean): Exact {
  return sum(
    putIn(lines)
      .filter(({ material }) => counts(material))
      .map(({ massKg }) => massKg),
  );
}

/** A share in whole percents, rounded up on the exact numbers. */
function upToWhole(part: Exact, whole: Exact): number {
  if (compare(whole, ZERO) <= 0) return 0;
  const near = Math.max(0, Math.floor(ratio(part, whole) * 100) - 1);
  const reaches = (percent: number) =>
    compare(multiply(exact(percent), whole), multiply(exact(100), part)) >= 0;
  return [near, near + 1, near + 2, near + 3].find(reaches) ?? near + 3;
}
