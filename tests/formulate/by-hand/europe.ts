import { type Brings, carries, isCarcass, isKind, type Meaning, share, WHOLE, whole } from './quantities.ts';

const isMuscle = (supply: Parameters<Brings>[0], species?: readonly string[]) =>
  isKind(supply, 'skeletal meat', 'cheek meat') &&
  (species === undefined || species.includes(supply.material.species ?? ''));

/**
 * Meat less its excess of connective tissue X = 4.625 (C − l P) / (1 − l) and of fat (F − L (M − X)) / (1 − L), each
 * with and without the excess, so that the least of the four is the meat that may be declared. Percent as whole numbers.
 */
function declarable(
  species: readonly string[] | undefined,
  fatPercent: bigint,
  collagenPercent: bigint,
): Meaning {
  const of =
    (work: (fat: bigint, protein: bigint, collagen: bigint) => bigint): Brings =>
    (supply) => {
      if (!isMuscle(supply, species)) return 0n;
      const { fatFraction, proteinFraction, collagenFraction = 0 } = supply.composition;
      return work(share(fatFraction), share(proteinFraction), share(collagenFraction));
    };
  const tissue = (protein: bigint, collagen: bigint) =>
    (37n * (100n * collagen - collagenPercent * protein)) / (8n * (100n - collagenPercent));
  const fatBeyond = (fat: bigint, meat: bigint) => (100n * fat - fatPercent * meat) / (100n - fatPercent);
  return [
    of(() => WHOLE),
    of((_, protein, collagen) => WHOLE - tissue(protein, collagen)),
    of((fat) => WHOLE - fatBeyond(fat, WHOLE)),
    of((fat, protein, collagen) => {
      const excess = tissue(protein, collagen);
      return WHOLE - excess - fatBeyond(fat, WHOLE - excess);
    }),
  ];
}

const BIRDS_AND_RABBITS = ['chicken', 'turkey', 'duck', 'goose', 'rabbit'];
const otherThan =
  (...species: string[]): Brings =>
  (supply) =>
    whole(isCarcass(supply) && !species.includes(supply.material.species ?? ''));

const OF_MILK_SOY_EGG_OR_STARCH = [
  ...[
    'nonfat-dry-milk',
    'calcium-reduced-dried-skim-milk',
    'dried-whey',
    'dried-whole-milk',
    'dried-buttermilk',
  ],
  ...['soy-flour', 'textured-soy-protein', 'wheat-gluten', 'egg-white-dried', 'gelatin'],
  ...['corn-starch', 'potato-starch'],
];
const neitherVegetableNorCereal = carries(
  'isolated soy protein',
  'sodium caseinate',
  'soy protein concentrate',
  'modified food starch',
  'carrageenan',
  'methyl cellulose',
  'transglutaminase',
  'pork collagen',
);

/** Forms that only the rules of the European Union and Great Britain count. */
export const EUROPE: Readonly<Record<string, Meaning>> = {
  declarablePork: declarable(['pork'], 30n, 25n),
  declarableBeef: declarable(['beef', 'veal'], 25n, 25n),
  declarableMammals: declarable(['beef', 'veal', 'lamb', 'goat'], 25n, 25n),
  declarableMixed: declarable(undefined, 25n, 25n),
  declarableBirds: declarable(BIRDS_AND_RABBITS, 15n, 10n),
  notBovine: otherThan('beef', 'veal'),
  notBirds: otherThan(...BIRDS_AND_RABBITS),
  birdsAndRabbits: (supply) =>
    whole(isCarcass(supply) && BIRDS_AND_RABBITS.includes(supply.material.species ?? '')),
  separatedRuminants: (supply) =>
    whole(
      isKind(supply, 'mechanically separated') &&
        ['beef', 'veal', 'lamb', 'goat'].includes(supply.material.species ?? ''),
    ),
  neitherBeefNorPork: otherThan('beef', 'veal', 'pork'),
  notMuscle: (supply) => whole(isCarcass(supply) && !isMuscle(supply)),
  otherByproducts: (supply) => whole(isKind(supply, 'other byproduct', 'partially defatted tissue')),
  notMeatNorSalt: (supply) => whole(!isCarcass(supply) && !isKind(supply, 'salt')),
  pigmeat: (supply) => whole(isCarcass(supply) && supply.material.species === 'pork'),
  vegetableAndCereal: (supply, process) => {
    if (isKind(supply, 'vegetable')) return WHOLE;
    if (!isKind(supply, 'binder') || OF_MILK_SOY_EGG_OR_STARCH.includes(supply.material.id)) return 0n;
    return WHOLE - neitherVegetableNorCereal(supply, process);
  },
  additivesOfGroupOne: carries('glucono delta lactone', 'fumaric acid', 'tocopherols', 'methyl cellulose'),
};
