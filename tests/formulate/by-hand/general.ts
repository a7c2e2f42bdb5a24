import type { Supply } from '../../../src/batch/lot.ts';
import {
  all,
  type Brings,
  carries,
  cost,
  fatLeft,
  finished,
  holds,
  isBird,
  isCarcass,
  isKind,
  type Meaning,
  meat,
  minus,
  plus,
  protein,
  share,
  times,
  WHOLE,
  waterLeft,
  whole,
} from './quantities.ts';

const BYPRODUCTS = ['liver', 'other byproduct', 'partially defatted tissue', 'skin'];
const meatProtein: Brings = (supply, process) => (isCarcass(supply) ? protein(supply, process) : 0n);
const addedWater: Brings = (supply, process) =>
  waterLeft(supply, process) - 4n * meatProtein(supply, process);
/** One percent of other protein at most counts as protein of meat: four percent of the finished product. */
const addedWaterPastAllowance = minus(addedWater, times(finished, 4n, 100n));
const addedWaterByAllProtein: Brings = (supply, process) =>
  waterLeft(supply, process) - 4n * protein(supply, process);
const ascorbicAcids = carries('ascorbic acid', 'erythorbic acid');
const ascorbates = carries('sodium ascorbate', 'sodium erythorbate', 'sodium erythorbate monohydrate');
const accelerators = plus(ascorbicAcids, ascorbates);

/**
 * Molar masses in milligrams per mole, added up from H 1.008, C 12.011, N 14.007, O 15.999, Na 22.990, P 30.974,
 * K 39.098 (IUPAC abridged standard atomic weights of 2021; from memory, verify).
 */
const NO2 = 46_005n;
const NO3 = 62_004n;
const NA = 22_990n;
const K = 39_098n;
const nitriteOf = (sodium: bigint, potassium: bigint, over: readonly [bigint, bigint]) =>
  plus(
    times(carries('sodium nitrite'), sodium, over[0]),
    times(carries('potassium nitrite'), potassium, over[1]),
  );
const nitrateOf = (sodium: bigint, potassium: bigint, over: readonly [bigint, bigint]) =>
  plus(
    times(carries('sodium nitrate'), sodium, over[0]),
    times(carries('potassium nitrate'), potassium, over[1]),
  );
const ERYTHORBIC_ACID = 176_124n;
const SODIUM_ERYTHORBATE = 198_106n;
const WATER_OF_HYDRATE = 18_015n;
const ERYTHORBATE_HYDRATE = SODIUM_ERYTHORBATE + WATER_OF_HYDRATE;
const P2O5 = 2n * 30_974n + 5n * 15_999n;
const NA2HPO4 = 2n * NA + 1_008n + 30_974n + 4n * 15_999n;
const collagen: Brings = (supply) =>
  isCarcass(supply) ? share(supply.composition.collagenFraction ?? 0) : 0n;
/** Water that a liquid of another kind brings. */
const freeWater: Brings = (supply) => (isKind(supply, 'water') ? 0n : holds(supply, 'free water'));
const waterPutIn: Brings = (supply, process) => whole(isKind(supply, 'water')) + freeWater(supply, process);
const soyAndCaseinate = carries('isolated soy protein', 'sodium caseinate');
const isOf = ({ material }: Supply, ...species: string[]) => species.includes(material.species ?? '');
const isLivestock = (supply: Supply) => isOf(supply, 'beef', 'veal', 'pork', 'lamb', 'goat');
const isFiller = (supply: Supply) => isKind(supply, 'vegetable', 'dairy');
const citricAcidOf =
  (...kinds: string[]): Brings =>
  (supply) =>
    isKind(supply, ...kinds) ? holds(supply, 'citric acid') : 0n;
const citricAcidAsAccelerator = citricAcidOf('cure', 'cure accelerator');
/** What each form means, said again from the regulations' words; several where the worst of them counts. */
export const GENERAL: Readonly<Record<string, Meaning>> = {
  formula: all,
  formulaWithoutWater: (supply, process) => WHOLE - waterPutIn(supply, process),
  finished,
  greenWeight: meat,
  fat: ({ composition }) => share(composition.fatFraction),
  finishedFat: fatLeft,
  waterPutIn,
  water: ({ composition }) => share(composition.waterFraction),
  finishedWater: waterLeft,
  finishedWithoutFat: minus(finished, fatLeft),
  finishedWithoutDairy: (supply, process) => (isKind(supply, 'dairy') ? 0n : finished(supply, process)),
  protein,
  proteinWithoutGelatin: minus(protein, carries('gelatin')),
  meatProtein,
  collagen,
  salt: ({ composition }) => share(composition.saltFraction),
  cost,
  addedWater: [addedWaterByAllProtein, addedWaterPastAllowance],
  fatAndAddedWater: [plus(fatLeft, addedWaterByAllProtein), plus(fatLeft, addedWaterPastAllowance)],
  notBeef: (supply) => whole(isCarcass(supply) && supply.material.species !== 'beef'),
  notPork: (supply) => whole(isCarcass(supply) && supply.material.species !== 'pork'),
  cheekMeat: (supply) => whole(isKind(supply, 'cheek meat')),
  organMeat: (supply) => whole(isKind(supply, 'heart meat', 'tongue meat')),
  byproducts: (supply) => whole(isKind(supply, ...BYPRODUCTS)),
  byproductsOtherThanDefattedTissue: (supply) => whole(isKind(supply, 'liver', 'other byproduct', 'skin')),
  notMuscleOfOneAnimal: (supply) => whole(isCarcass(supply) && !isKind(supply, 'skeletal meat', 'fat')),
  fatAsSuch: (supply) => whole(isKind(supply, 'fat')),
  mechanicallySeparated: (supply) => whole(isKind(supply, 'mechanically separated') && !isBird(supply)),
  mechanicallySeparatedBeef: (supply) =>
    whole(
      isKind(supply, 'mechanically separated') && ['beef', 'veal'].includes(supply.material.species ?? ''),
    ),
  mechanicallySeparatedMeat: (supply) => whole(isKind(supply, 'mechanically separated')),
  poultry: (supply) => whole(isCarcass(supply) && isBird(supply)),
  poultrySkinAndFat: (supply) => whole(isBird(supply) && isKind(supply, 'skin', 'fat')),
  meatOrFat: (supply) => whole(isKind(supply, 'skeletal meat', 'head meat', 'cheek meat', 'fat')),
  notSeasoning: (supply) => whole(isFiller(supply)),
  notSeasoningNorPepper: (supply) => (isFiller(supply) ? WHOLE - holds(supply, 'red or green pepper') : 0n),
  liver: (supply) => whole(isKind(supply, 'liver')),
  defattedTissue: (supply) => whole(isKind(supply, 'partially defatted tissue')),
  notMeat: (supply) => whole(!isCarcass(supply)),
  skeletalMeat: (supply) => whole(isKind(supply, 'skeletal meat')),
  skin: (supply) => whole(isKind(supply, 'skin')),
  notPoultry: (supply) => whole(isCarcass(supply) && !isBird(supply)),
  notVeal: (supply) => whole(isCarcass(supply) && supply.material.species !== 'veal'),
  notLamb: (supply) => whole(isCarcass(supply) && supply.material.species !== 'lamb'),
  notBeefOrVeal: (supply) => whole(isCarcass(supply) && !isOf(supply, 'beef', 'veal')),
  notPorkBeefOrVeal: (supply) => whole(isCarcass(supply) && !isOf(supply, 'pork', 'beef', 'veal')),
  notForLiverSausage: (supply) =>
    whole(
      isCarcass(supply) &&
        !isOf(supply, 'pork', 'beef', 'veal') &&
        !(isKind(supply, 'liver') && isOf(supply, 'lamb', 'goat')),
    ),
  notChicken: (supply) => whole(isCarcass(supply) && !isOf(supply, 'chicken')),
  notTurkey: (supply) => whole(isCarcass(supply) && !isOf(supply, 'turkey')),
  byproductsOtherThanLiver: (supply) => whole(isKind(supply, ...BYPRODUCTS) && !isKind(supply, 'liver')),
  liverOrSkinOfLivestock: (supply) => whole(isKind(supply, 'liver', 'skin') && !isBird(supply)),
  skeletalMeatOfLivestock: (supply) => whole(isKind(supply, 'skeletal meat') && isLivestock(supply)),
  meatOfLivestock: (supply) =>
    whole(
      isLivestock(supply) &&
        isKind(supply, 'skeletal meat', 'cheek meat', 'head meat', 'heart meat', 'tongue meat'),
    ),
  poultrySkin: (supply) => whole(isKind(supply, 'skin') && isBird(supply)),
  cheese: (supply) => whole(isKind(supply, 'dairy')),
  binderOtherThanTransglutaminase: (supply, process) =>
    isKind(supply, 'binder') ? WHOLE - holds(supply, 'transglutaminase') : soyAndCaseinate(supply, process),
  sodiumAcidPyrophosphateAndAccelerators: plus(
    accelerators,
    citricAcidAsAccelerator,
    carries('sodium acid pyrophosphate', 'fumaric acid', 'glucono delta lactone'),
  ),
  nitrite: carries('sodium nitrite', 'potassium nitrite'),
  nitrate: carries('sodium nitrate', 'potassium nitrate'),
  nitriteAndNitrate: carries('sodium nitrite', 'potassium nitrite', 'sodium nitrate', 'potassium nitrate'),
  nitriteAsSodiumNitrite: nitriteOf(NO2 + NA, NO2 + NA, [NO2 + NA, NO2 + K]),
  nitrateAsSodiumNitrate: nitrateOf(NO3 + NA, NO3 + NA, [NO3 + NA, NO3 + K]),
  nitriteIon: nitriteOf(NO2, NO2, [NO2 + NA, NO2 + K]),
  nitrateIon: nitrateOf(NO3, NO3, [NO3 + NA, NO3 + K]),
  ascorbicAcid: ascorbicAcids,
  sodiumAscorbate: ascorbates,
  anhydrousAscorbate: plus(
    carries('sodium ascorbate', 'sodium erythorbate'),
    times(carries('sodium erythorbate monohydrate'), SODIUM_ERYTHORBATE, ERYTHORBATE_HYDRATE),
  ),
  asErythorbicAcid: plus(
    carries('erythorbic acid'),
    times(carries('sodium erythorbate'), ERYTHORBIC_ACID, SODIUM_ERYTHORBATE),
    times(carries('sodium erythorbate monohydrate'), ERYTHORBIC_ACID, ERYTHORBATE_HYDRATE),
  ),
  fumaricAcid: carries('fumaric acid'),
  gluconoDeltaLactone: carries('glucono delta lactone'),
  sodiumAcidPyrophosphate: carries('sodium acid pyrophosphate'),
  accelerators,
  citricAcidAsAccelerator,
  acceleratorsAndCitricAcid: (supply, process) =>
    accelerators(supply, process) + citricAcidAsAccelerator(supply, process),
  citricAcidAsSynergist: citricAcidOf('antioxidant'),
  phosphate: carries('phosphate'),
  phosphateAsP2O5: carries('P2O5'),
  phosphateAsPhosphorus: times(carries('P2O5'), 2n * 30_974n, P2O5),
  phosphateAsDisodiumPhosphate: times(carries('P2O5'), 2n * NA2HPO4, P2O5),
  // 2 % of isolated soy protein or caseinate counts as 3.5 % of binder: each kilogram weighs 1.75. In a binder the
  // first 1 of it is the weight of the binder itself.
  binder: (supply, process) =>
    isKind(supply, 'binder')
      ? WHOLE + (3n * soyAndCaseinate(supply, process)) / 4n
      : (7n * soyAndCaseinate(supply, process)) / 4n,
  anyBinder: (supply, process) => (isKind(supply, 'binder') ? WHOLE : soyAndCaseinate(supply, process)),
  isolatedSoy: carries('isolated soy protein'),
  caseinate: carries('sodium caseinate'),
  antimicrobials: (supply, process) =>
    isKind(supply, 'antimicrobial') ? WHOLE : carries('lactate', 'diacetate')(supply, process),
  soyConcentrate: carries('soy protein concentrate'),
  modifiedStarch: carries('modified food starch'),
  carrageenan: carries('carrageenan'),
  methylCellulose: carries('methyl cellulose'),
  transglutaminase: carries('transglutaminase'),
  porkCollagen: carries('pork collagen'),
  cornSyrup: carries('corn syrup solids'),
  sorbitol: carries('sorbitol'),
  sulfurDioxide: carries('sulfur dioxide'),
  tocopherols: carries('tocopherols'),
  lactate: carries('lactate'),
  diacetate: carries('diacetate'),
  antioxidants: carries('BHA', 'BHT', 'propyl gallate', 'TBHQ'),
  BHA: carries('BHA'),
  BHT: carries('BHT'),
  propylGallate: carries('propyl gallate'),
  TBHQ: carries('TBHQ'),
  saltPutIn: carries('salt'),
  pepper: carries('pepper'),
  fennelOrAnise: carries('fennel or anise'),
};
