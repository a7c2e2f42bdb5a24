import { fractionOfPercent } from '../units.ts';
import { isMeat, isRework, type Material } from './material.ts';

/** A fat found by a test. */
export interface MeasuredFat {
  readonly fatFraction: number;
  /** In the plant's words, such as "NIR" or "supplier certificate". */
  readonly method: string;
  /** Standard deviation of the lot's true fat about this result, where the plant knows it. */
  readonly sdFraction?: number;
}

/** What is known of the fat of a lot: its mean and standard deviation as fractions of the mass. */
export interface FatKnown {
  readonly meanFraction: number;
  readonly sdFraction: number;
  /** How it is known, in words. */
  readonly says: string;
  readonly from: 'test' | 'lots of the supplier' | 'class';
}

/** A default of our own, in points of fat, with the published figures it was judged from. */
export interface FatSdDefault {
  readonly says: string;
  readonly sdPoints: number;
  readonly source: string;
}

const CLASS_SOURCE =
  'own judgement. Purchas 2007 (Comput. Electron. Agric. 112-122): lean of 12 cores against the carton, sd below 1 ' +
  'point for fine pieces of 80 % lean or more, above 2 for larger pieces or less lean. ' +
  'USDA SR28: between samples of ground beef sd 3.8 (n 42), of 93/7 turkey 0.9 (n 11), an upper bound for one plant';

/** Trim known by its class alone, the leanest first; each holds up to its fat fraction. */
export const TRIM_CLASS_SDS: readonly (FatSdDefault & { readonly mostFatFraction: number })[] = [
  { says: '85 % lean or more', mostFatFraction: 0.15, sdPoints: 2, source: CLASS_SOURCE },
  { says: '70 to 85 % lean', mostFatFraction: 0.3, sdPoints: 2.5, source: CLASS_SOURCE },
  { says: 'less than 70 % lean', mostFatFraction: 1, sdPoints: 3.5, source: CLASS_SOURCE },
];

/** Fat and skin known by their names alone. */
export const FAT_AND_SKIN_SD: FatSdDefault = {
  says: 'fat and skin',
  sdPoints: 3,
  source:
    'own judgement. USDA SR28: between samples of backfat sd 2.6 (n 96), of separable beef fat 1.4 (n 12), ' +
    'of belly 3.9 (n 33)',
};

/** A supplier's figure for the lot: its sampling is not known here. */
export const CERTIFICATE_SD: FatSdDefault = {
  says: 'supplier certificate',
  sdPoints: 1.5,
  source:
    'own judgement. Wold et al. 2011 (Meat Sci. 89:317): NIR imaging of trimmings errs by 1.33 points on batches of ' +
    '10-24 kg; Purchas 2007: about 2 points for cores of coarse or fat cartons',
};

/** What one composite of a lot, ground and mixed well, differs from its lot by. */
export const COMPOSITE_SD: FatSdDefault = {
  says: 'one well-ground composite against its lot',
  sdPoints: 0.7,
  source:
    'own judgement. Anderson & Walker 2003 (abstract): whole ground 27 kg blocks are found within 0.70-1.05 points; ' +
    'Wold et al. 2011 (Meat Sci. 89:317): about 0.6 on 100 kg',
};

/** Laboratory error that grows with the fat: NIR and solvent extraction. */
export const NIR_OR_SOLVENT_SD = {
  says: 'NIR or solvent extraction',
  ofFat: 0.02,
  leastPoints: 0.15,
  source:
    'own judgement. Anderson 2007 (J. AOAC Int. 90:1073, AOAC 2007.04): NIR repeats within 0.22-2.67 % of the figure; ' +
    'Croon & Wallin 1992 (abstract): acid hydrolysis repeats within 0.93 % of the figure at 44.5 % fat and 4.5 % at 2.5 % fat, ' +
    'between laboratories 1.2 to 6.1 %',
} as const;

/** Laboratory error of every other method, and of one that is not told. */
export const OTHER_METHOD_SD: FatSdDefault = {
  says: 'microwave, X-ray or any other method',
  sdPoints: 0.6,
  source:
    'own judgement, without a published figure: Bostian et al. 1985 (AOAC 985.15, microwave and solvent) was read in an ' +
    'abstract that gives none. Kolar 1993: 31 laboratories on one reference meat, sd 0.58',
};

/** How much of what a process took from rework may have been fat instead of water, or water instead of fat. */
export const PROCESS_LOSS_SD = {
  says: 'what the process took from rework',
  ofLoss: 0.1,
  source: 'own judgement: the loss is weighed, how much of it was fat is declared and not weighed',
} as const;

/**
 * Standard deviation of the fat of a lot of which only the material is known, as a fraction of the mass. Of rework it
 * follows from its parts, which err independently of each other.
 * @returns 0 for what is no meat.
 */
export function defaultFatSd(material: Material): number {
  if (!isMeat(material)) return 0;
  if (isRework(material)) return reworkFatSd(material);
  if (material.kind === 'fat' || material.kind === 'skin') return fractionOfPercent(FAT_AND_SKIN_SD.sdPoints);
  const { fatFraction } = material.composition;
  const found = TRIM_CLASS_SDS.find(({ mostFatFraction }) => fatFraction <= mostFatFraction);
  if (!found) throw new RangeError(`fatFraction of ${material.id} is ${fatFraction}; it must be 0 to 1`);
  return fractionOfPercent(found.sdPoints);
}

function reworkFatSd({ madeOf = [] }: Material): number {
  const lost = madeOf
    .filter(({ material }) => material.kind === 'process loss')
    .reduce((sum, { fraction }) => sum - Number(fraction), 0);
  const parts = madeOf.map(
    ({ material, fraction, fatSdFraction }) => Number(fraction) * (fatSdFraction ?? defaultFatSd(material)),
  );
  return Number(Math.hypot(...parts, PROCESS_LOSS_SD.ofLoss * lost).toFixed(12));
}

/**
 * Standard deviation of the true fat of a lot about its test, as a fraction of the mass: as given, or else of one
 * composite (the sampling and the laboratory, added as squares).
 */
export function testedFatSd(measured: MeasuredFat): number {
  if (measured.sdFraction !== undefined) return measured.sdFraction;
  if (isBy(measured, CERTIFICATE)) return fractionOfPercent(CERTIFICATE_SD.sdPoints);
  return fractionOfPercent(Math.hypot(COMPOSITE_SD.sdPoints, laboratorySdPoints(measured)));
}

const CERTIFICATE = /\bcertificate\b/i;
const ROUGHER = /microwave|x-?ray/i;
const NIR_OR_SOLVENT = /\bni[rt]s?\b|near[- ]infrared|solvent|\bether\b/i;

function laboratorySdPoints(measured: MeasuredFat): number {
  // A method that names both, such as microwave and solvent, counts as the rougher one.
  if (isBy(measured, ROUGHER) || !isBy(measured, NIR_OR_SOLVENT)) return OTHER_METHOD_SD.sdPoints;
  const { ofFat, leastPoints } = NIR_OR_SOLVENT_SD;
  return Math.max(leastPoints, ofFat * measured.fatFraction * 100);
}

function isBy({ method }: MeasuredFat, words: RegExp): boolean {
  return words.test(method);
}
