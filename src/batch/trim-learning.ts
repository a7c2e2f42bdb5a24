import { defaultFatSd, type MeasuredFat, testedFatSd } from './fat-certainty.ts';
import { isMeat, type Material } from './material.ts';

/**
 * What past tests say of the next lot of a trim: a normal model whose mean and variance are both unknown, with its
 * conjugate prior (Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.3), set by the class of the trim.
 */

/** A past test of a lot of some supplier's trim. */
export interface FatTest extends MeasuredFat {
  /** Tests of one lot count as one, by their mean; a test without it stands for a lot of its own. */
  readonly lotId?: string;
  readonly materialId: string;
  readonly supplierEstablishment: string;
  /** Calendar day as YYYY-MM-DD text. */
  readonly date: string;
}

/**
 * How many lots the class figure counts as. Own judgement: a supplier's mean is taken to differ from the class by some
 * 0.7 (one over the root of 2) of the spread among his lots, so two tested lots weigh as much as the class.
 */
export const CLASS_WEIGHT_LOTS = 2;

/**
 * Degrees of freedom of the class's spread. Own judgement: few, so that half a dozen lots outweigh it, yet above 4, where
 * the expected variance has a finite variance of its own: two lots that happen to agree must not feign certainty.
 */
export const CLASS_DEGREES_OF_FREEDOM = 5;

/** What is believed of the lots of one trim: the four figures of a normal-inverse-gamma distribution. */
export interface FatBelief {
  /** Mean fat of the lots (mu). */
  readonly meanFraction: number;
  /** How many lots the mean is worth (kappa). */
  readonly weightLots: number;
  readonly degreesOfFreedom: number;
  /** Scale of the variance between lots (sigma squared), in fractions squared. */
  readonly variance: number;
}

/** What is believed of a supplier's trim before any of its lots was tested. */
export interface TrimPrior {
  readonly materialId: string;
  readonly supplierEstablishment: string;
  readonly belief: FatBelief;
}

/** What tests up to a day say of the next lot of one trim from one supplier. */
export interface TrimKnowledge {
  readonly materialId: string;
  readonly supplierEstablishment: string;
  readonly tests: number;
  /** Lots these tests are of. */
  readonly lots: number;
  readonly classMeanFraction: number;
  /** Mean of the lots tested. */
  readonly testedMeanFraction: number;
  /** What the next lot is expected to hold, between the class and the tests. */
  readonly meanFraction: number;
  /** Weight of the class figure in that mean, 0 to 1. */
  readonly shrinkage: number;
  /** Standard deviation of the next lot. */
  readonly sdFraction: number;
  readonly latestDate: string;
}

/**
 * The belief that the class figure alone gives; its predictive standard deviation is the default of the class.
 * @throws RangeError for a material that is no meat.
 */
export function classBelief(material: Material): FatBelief {
  if (!isMeat(material)) {
    throw new RangeError(`material ${material.id} is ${material.kind}; only the fat of meat is learned`);
  }
  const prior = { weightLots: CLASS_WEIGHT_LOTS, degreesOfFreedom: CLASS_DEGREES_OF_FREEDOM };
  return {
    ...prior,
    meanFraction: material.composition.fatFraction,
    variance: defaultFatSd(material) ** 2 / nextLotFactor(prior),
  };
}

/** The belief after some more lots, all at once or one by one. @param fatFractions mean fat of each. */
export function updateBelief(belief: FatBelief, fatFractions: readonly number[]): FatBelief {
  const lots = fatFractions.length;
  if (lots === 0) return belief;
  const { meanFraction, weightLots, degreesOfFreedom, variance } = belief;
  const tested = mean(fatFractions);
  const squares = fatFractions.reduce((sum, fat) => sum + (fat - tested) ** 2, 0);
  const apart = ((weightLots * lots) / (weightLots + lots)) * (tested - meanFraction) ** 2;
  return {
    meanFraction: (weightLots * meanFraction + lots * tested) / (weightLots + lots),
    weightLots: weightLots + lots,
    degreesOfFreedom: degreesOfFreedom + lots,
    variance: (degreesOfFreedom * variance + squares + apart) / (degreesOfFreedom + lots),
  };
}

/** Standard deviation of the fat of the next lot, as a fraction of its mass: that of a Student t. */
export function nextLotSd(belief: FatBelief): number {
  return Math.sqrt(belief.variance * nextLotFactor(belief));
}

/** Predictive variance over the scale of the variance. */
function nextLotFactor({
  weightLots,
  degreesOfFreedom,
}: Pick<FatBelief, 'weightLots' | 'degreesOfFreedom'>): number {
  return (((weightLots + 1) / weightLots) * degreesOfFreedom) / (degreesOfFreedom - 2);
}

/**
 * What tests say of the next lot. The error of each test is left inside the spread between the lots, so the spread
 * comes out a little wide.
 * @param tests of this supplier's trim, in any order.
 * @throws RangeError without a test.
 */
export function learnTrim(prior: TrimPrior, tests: readonly FatTest[]): TrimKnowledge {
  const { materialId, supplierEstablishment, belief } = prior;
  const [latestDate] = tests
    .map(({ date }) => date)
    .sort()
    .reverse();
  if (latestDate === undefined)
    throw new RangeError(`tests of ${materialId} is empty; give at least one test`);
  const lots = fatOfLots(tests);
  const learned = updateBelief(belief, lots);
  return {
    materialId,
    supplierEstablishment,
    tests: tests.length,
    lots: lots.length,
    classMeanFraction: belief.meanFraction,
    testedMeanFraction: fraction12(mean(lots)),
    meanFraction: fraction12(learned.meanFraction),
    shrinkage: belief.weightLots / learned.weightLots,
    sdFraction: fraction12(nextLotSd(learned)),
    latestDate,
  };
}

/**
 * What is known of every trim that was tested, by supplier and then by material.
 * @param asOfDate tests of later days are not known yet.
 * @throws RangeError for a test of a material that is not among the materials or is no meat.
 */
export function trimKnowledge(
  tests: readonly FatTest[],
  materials: ReadonlyMap<string, Material>,
  asOfDate: string,
): TrimKnowledge[] {
  const known = tests.filter(({ date }) => date <= asOfDate);
  const bySupplier = groupBy(known, ({ supplierEstablishment }) => supplierEstablishment);
  return bySupplier.flatMap(([supplierEstablishment, ofSupplier]) =>
    groupBy(ofSupplier, ({ materialId }) => materialId).map(([materialId, ofTrim]) => {
      const material = materials.get(materialId);
      if (!material) throw new RangeError(`materialId ${materialId} of a fat test is no known material`);
      return learnTrim({ materialId, supplierEstablishment, belief: classBelief(material) }, ofTrim);
    }),
  );
}

/**
 * What tests of a lot itself say of it: their mean, and a standard deviation that falls with their number, though not
 * below what sampling leaves. Undefined where none is on file by that day.
 */
export function ownTests(
  tests: readonly FatTest[],
  lot: { readonly id: string; readonly materialId: string },
  asOfDate: string,
): MeasuredFat | undefined {
  const own = tests.filter(
    ({ lotId, materialId, date }) => lotId === lot.id && materialId === lot.materialId && date <= asOfDate,
  );
  if (own.length === 0) return undefined;
  const sum = own.reduce((total, test) => total + testedFatSd(test) ** 2, 0);
  const methods = [...new Set(own.map(({ method }) => method))].join(' and ');
  return {
    fatFraction: fraction12(mean(own.map(({ fatFraction }) => fatFraction))),
    method: own.length === 1 ? methods : `${own.length} tests by ${methods}`,
    sdFraction: fraction12(Math.max(LEAST_SD_OF_A_MEAN, Math.sqrt(sum) / own.length)),
  };
}

/** More composites of one lot share what the lot itself is uneven by: 0.4 points, own judgement. */
export const LEAST_SD_OF_A_MEAN = 0.004;

/** Mean fat of each lot that was tested: a second test of a lot is not a second lot. */
function fatOfLots(tests: readonly FatTest[]): number[] {
  const named = tests.filter(({ lotId }) => lotId !== undefined);
  const alone = tests.filter(({ lotId }) => lotId === undefined);
  const ofNamed = groupBy(named, ({ lotId = '' }) => lotId).map(([, ofLot]) =>
    mean(ofLot.map(({ fatFraction }) => fatFraction)),
  );
  return [...ofNamed, ...alone.map(({ fatFraction }) => fatFraction)];
}

/** Entries by key, the keys in the order of their characters. */
function groupBy<Entry>(entries: readonly Entry[], keyOf: (entry: Entry) => string): [string, Entry[]][] {
  const groups = new Map<string, Entry[]>();
  for (const entry of entries) {
    const key = keyOf(entry);
    const group = groups.get(key);
    if (group) group.push(entry);
    else groups.set(key, [entry]);
  }
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** To 12 decimals like every computed share: exact sums stay short, and the dust of a mean of 100 % does not pass 1. */
function fraction12(value: number): number {
  return Number(value.toFixed(12));
}
