import type { Material } from '../../batch/material.ts';
import type { Product } from '../../batch/product.ts';
import { compare, exact, sum, toNumber } from '../../exact.ts';
import type { Standard } from '../../rules/standard.ts';
import { fixed } from '../../units.ts';
import type { Entry, MeatShare } from './entries.ts';
import type { DeclaredMeatContent } from './meat-content.ts';

/** Kinds that characterize the food even where its name does not mention them. */
const MUSCLE: readonly Material['kind'][] = ['skeletal meat', 'cheek meat'];
/** Used in small amounts to give flavor, these need no quantity (Regulation (EU) 1169/2011, Annex VIII 1; from memory, verify). */
const FLAVOR_ONLY: readonly Material['kind'][] = ['spice', 'flavoring', 'salt', 'cure', 'water'];
/** Words of an ingredient that do not say what it is. */
const NO_NAME = /^(dried|fresh|nonfat|powder|flour|white|black|green|brown|whole|modified|isolated)$/;

/** The shares of each meat that its law lets count, from the meat content of the label. */
export function meatSharesOf(
  { meatContent }: Pick<Standard, 'meatContent'>,
  content: DeclaredMeatContent | undefined,
  finishedKg: number,
  materials: readonly Material[],
): MeatShare[] {
  if (!meatContent || !content) return [];
  return meatContent.meats.flatMap((definition) => {
    const found = content.meats.find(({ says }) => says === definition.says);
    if (!found) return [];
    const { kinds, species } = definition.meat;
    const counts = (material: Material) =>
      (!kinds || kinds.includes(material.kind)) &&
      (!species || (material.species !== undefined && species.includes(material.species)));
    const names = [...new Set(materials.filter(counts).flatMap((material) => material.species ?? []))].join(
      ' and ',
    );
    const excess = (name: string, fraction: number) =>
      fraction > 0 ? [{ name: `${names} ${name}`, massKg: fraction * finishedKg }] : [];
    return [
      {
        counts,
        declaredOfUsed: found.declaredFraction / found.usedFraction,
        excess: [
          ...excess('fat', found.excessFatFraction),
          ...excess('connective tissue', found.excessConnectiveTissueFraction),
        ],
      },
    ];
  });
}

/**
 * The amount of each ingredient that has to be given: of muscle meat, and of what the name of the product mentions, as
 * put in over the finished product. Where one of them or all together come to more than 100 %, as grams for 100 g
 * of it (Commission notice of 2017 on quantities; as a legal text quotes it).
 */
export function quantitiesOf(
  product: Product,
  name: string,
  entries: readonly Entry[],
  finishedKg: number,
): ReadonlyMap<Entry, string> {
  const quantified = entries.filter((entry) => isMuscle(entry) || isInName(entry, `${name} ${product.name}`));
  const whole = exact(finishedKg);
  if (finishedKg <= 0) return new Map();
  const isBeyond = compare(sum(quantified.map(({ massKg }) => massKg)), whole) > 0;
  return new Map(
    quantified.map((entry) => [entry, isBeyond ? grams(entry, finishedKg) : percent(entry, finishedKg)]),
  );
}

function isMuscle({ materials }: Entry): boolean {
  return materials.some(({ kind }) => MUSCLE.includes(kind));
}

function isInName({ name, materials }: Entry, productName: string): boolean {
  if (materials.length === 0 || materials.every(({ kind }) => FLAVOR_ONLY.includes(kind))) return false;
  const spoken = productName.toLowerCase();
  // From the beginning of a word: goat speaks of no oats, and what is corned of no corn.
  const isSpoken = (stem: string) => new RegExp(`\\b${stem}(?!ed\\b)`).test(spoken);
  return name
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((word) => word.length > 3 && !NO_NAME.test(word))
    .some((word) => isSpoken(word.replace(/(ies|es|s)$/, '')));
}

const shareOf = ({ massKg }: Entry, finishedKg: number) => (toNumber(massKg) / finishedKg) * 100;

/** To whole percents, to half ones below 5 (the same notice, from memory, verify). */
function percent(entry: Entry, finishedKg: number): string {
  const share = shareOf(entry, finishedKg);
  if (share >= 5) return `${fixed(share, 0)}%`;
  return `${Math.max(0.5, Number(fixed(share * 2, 0)) / 2)}%`;
}

function grams(entry: Entry, finishedKg: number): string {
  return `${fixed(shareOf(entry, finishedKg), 0)} g per 100 g of the finished product`;
}
