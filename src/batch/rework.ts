import {
  compare,
  type Exact,
  exact,
  isZero,
  multiply,
  ONE,
  ratio,
  subtract,
  sum,
  toNumber,
  toText,
  ZERO,
} from '../exact.ts';
import { type Composition, OF_FAT, OF_LEAN, WHERE_KNOWN } from './composition.ts';
import { partsOf } from './made-of.ts';
import { ALLERGENS, isMeat, type MadeOf, type Material, SUBSTANCES } from './material.ts';
import type { Process } from './product.ts';

/** What was weighed into the batch that left rework. */
export interface ReworkLine {
  /** With the composition that was used: that of its lot, not of its class. */
  readonly material: Material;
  readonly massKg: Exact;
  /** Standard deviation of its fat, where it is known better than by its class. */
  readonly fatSdFraction?: number;
}

export interface ReworkOf {
  readonly id: string;
  /** What the floor calls it. */
  readonly name: string;
  /** The product whose batch left it. */
  readonly productId: string;
  readonly lines: readonly ReworkLine[];
  /** What the batch weighed after its process, where the rework went through it; absent when it was left before. */
  readonly finishedKg?: Exact;
  readonly process: Pick<Process, 'yieldFraction' | 'fatLossFraction'>;
  /** What the product is stuffed into. */
  readonly casing?: Material;
}

/**
 * Rework as a material: a kilogram of it is so many kilograms of each thing that was weighed into its batch, less what
 * the process took. What was put in stays put in: the meat counts with the green weight that it had, nitrite and
 * whatever else the law counts as ingoing with all that was weighed in, though some of it is used up since. Only
 * weight, water and fat are less by what was lost. The fat lost has the share of the loss that the process declares;
 * the rest is water, and it leaves neither the water put in nor the meat. What a batch gained was water put in.
 * Parts that are rework themselves are opened, so that no rework grows with the number of batches it went through.
 * @param lines at least one meat; what the same material brings under several lots is one part.
 * @throws RangeError when nothing was weighed, no meat went in, or more is lost than was there.
 */
export function reworkMaterial(rework: ReworkOf): Material {
  const { id, name, productId, lines, finishedKg, process } = rework;
  const opened = mergeSame(lines.filter(({ massKg }) => compare(massKg, ZERO) > 0).flatMap(openLine));
  const rawKg = sum(opened.map(({ massKg }) => massKg));
  const wholeKg = finishedKg ?? rawKg;
  const [main] = opened.filter(({ material }) => isMeat(material)).sort(heaviestFirst);
  if (!main) throw new RangeError(`lines of rework ${id} hold no meat; give what was weighed into its batch`);
  if (compare(wholeKg, ZERO) <= 0) {
    throw new RangeError(`finishedKg of rework ${id} is ${toNumber(wholeKg)}; give what the batch weighed`);
  }
  const lost = finishedKg ? processLines(opened, rawKg, finishedKg, process) : [];
  const parts = sharesOf(mergeSame([...opened, ...lost]), wholeKg);
  const composition = compositionOf(parts);
  if (composition.waterFraction < 0) {
    throw new RangeError(
      `finishedKg of rework ${id} is ${toNumber(wholeKg)}: of ${toNumber(rawKg)} kg more is gone than their water; weigh it again`,
    );
  }
  const casings = casingsOf(rework);
  return {
    id,
    name,
    declaredName: name,
    kind: 'rework',
    ...(main.material.species && { species: main.material.species }),
    composition,
    substances: substancesOf(parts),
    allergens: ALLERGENS.filter((allergen) =>
      [...parts.map(({ material }) => material), ...casings].some(({ allergens }) =>
        allergens.includes(allergen),
      ),
    ),
    subIngredients: declaredNames(parts),
    source: `worked out from the weights of the batch of ${productId} that left it`,
    madeOf: parts.map((part) => ({ ...part, fraction: toText(part.fraction) })),
    reworkOf: productId,
    ...(casings.length > 0 && { casings }),
  };
}

/** The casing of the product, and those of rework that went into it. */
function casingsOf({ lines, casing }: ReworkOf): Material[] {
  const all = [
    ...lines.flatMap(({ material, massKg }) => (compare(massKg, ZERO) > 0 ? (material.casings ?? []) : [])),
    ...(casing ? [casing] : []),
  ];
  return [...new Map(all.map((each) => [each.id, each])).values()];
}

const NOTHING: Composition = {
  waterFraction: 0,
  fatFraction: 0,
  proteinFraction: 0,
  carbohydrateFraction: 0,
  ashFraction: 0,
  saltFraction: 0,
  collagenFraction: 0,
};

const processMaterial = (
  id: string,
  name: string,
  kind: Material['kind'],
  composition: Partial<Composition>,
): Material => ({
  id,
  name,
  declaredName: name,
  kind,
  composition: { ...NOTHING, ...composition },
  substances: {},
  allergens: [],
  subIngredients: [],
  source: 'mass balance of the process',
});

const zeroOf = (fields: readonly (typeof WHERE_KNOWN)[number][]): Partial<Composition> =>
  Object.fromEntries(fields.map((field) => [field, 0]));

const NO_FIGURES = zeroOf(WHERE_KNOWN);
const WATER_LOST = processMaterial('process-loss-water', 'water lost', 'process loss', {
  ...NO_FIGURES,
  waterFraction: 1,
});
const WATER_TAKEN_UP = processMaterial('process-water', 'water', 'water', {
  ...NO_FIGURES,
  waterFraction: 1,
});

/**
 * Fat as the lines have it in the mean. It takes its own parts along; whatever else is known of the lines counts as
 * staying, so cholesterol and sodium are rather found too high than too low.
 */
function fatLostFrom(lines: readonly ReworkLine[]): Material {
  const totalOf = (field: keyof Composition) =>
    sum(lines.map(({ material, massKg }) => multiply(massKg, exact(material.composition[field] ?? 0))));
  const fatKg = totalOf('fatFraction');
  const known = OF_FAT.filter((field) =>
    lines.every(({ material }) => material.composition[field] !== undefined),
  );
  return processMaterial('process-loss-fat', 'fat lost', 'process loss', {
    ...zeroOf([...OF_LEAN, 'cholesterolMgPerKg']),
    ...Object.fromEntries(known.map((field) => [field, round12(ratio(totalOf(field), fatKg))])),
    fatFraction: 1,
  });
}

/** A line as it is, or for rework the lines that it is made of. */
function openLine(line: ReworkLine): ReworkLine[] {
  const { material, massKg } = line;
  if (!material.madeOf) return [line];
  return partsOf(material, material.composition).flatMap(({ fraction, ...part }) =>
    openLine({ ...part, massKg: multiply(massKg, exact(fraction)) }),
  );
}

/**
 * Lines of one material as one line. Forms are linear in what a material is made of, so the mean by weight counts as
 * the lines did.
 */
function mergeSame(lines: readonly ReworkLine[]): ReworkLine[] {
  const same = new Map<string, ReworkLine[]>();
  for (const line of lines) {
    const { composition: _, ...others } = line.material;
    const key = JSON.stringify(others);
    same.set(key, [...(same.get(key) ?? []), line]);
  }
  return [...same.values()].flatMap((group) => {
    const [first] = group;
    if (!first || group.length === 1) return group;
    const massKg = sum(group.map((line) => line.massKg));
    const isOne = group.every(({ material }) => isSame(material.composition, first.material.composition));
    const composition = isOne ? first.material.composition : meanComposition(group, massKg);
    return [{ ...meanSd(group, massKg), material: { ...first.material, composition }, massKg }];
  });
}

const isSame = (a: Composition, b: Composition): boolean => JSON.stringify(a) === JSON.stringify(b);

/** The lots err independently of each other; one whose error is not told leaves all of them to their class. */
function meanSd(group: readonly ReworkLine[], massKg: Exact): Pick<ReworkLine, 'fatSdFraction'> {
  const parts = group.flatMap((line) =>
    line.fatSdFraction === undefined ? [] : [line.fatSdFraction * ratio(line.massKg, massKg)],
  );
  return parts.length === group.length ? { fatSdFraction: round12(Math.hypot(...parts)) } : {};
}

/** Fat that the process took from the lines, below nothing, or water where the batch gained weight. */
function processLines(
  lines: readonly ReworkLine[],
  rawKg: Exact,
  finishedKg: Exact,
  { yieldFraction, fatLossFraction }: ReworkOf['process'],
): ReworkLine[] {
  const lostKg = subtract(rawKg, finishedKg);
  if (compare(lostKg, ZERO) < 0) return [{ material: WATER_TAKEN_UP, massKg: subtract(ZERO, lostKg) }];
  const fatOfLoss = yieldFraction < 1 ? Math.min(1, fatLossFraction / (1 - yieldFraction)) : 0;
  const saidKg = multiply(lostKg, exact(round12(fatOfLoss)));
  const fatKg = sum(
    lines.map(({ material, massKg }) => multiply(massKg, exact(material.composition.fatFraction))),
  );
  const fatLostKg = compare(saidKg, fatKg) > 0 ? fatKg : saidKg;
  return isZero(fatLostKg) ? [] : [{ material: fatLostFrom(lines), massKg: subtract(ZERO, fatLostKg) }];
}

/** A part with its kilograms for a kilogram of the whole. */
interface Share extends Omit<MadeOf, 'fraction'> {
  readonly fraction: Exact;
}

/** A kilogram has fewer molecules than this many digits tell apart. */
const DECIMALS = 30;
/** Shares of shares are cut off here, where rework went in that was made of rework. */
const MOST_DECIMALS = 100;

/**
 * Kilograms of each for a kilogram of the whole. All are the weights times one number, a kilogram over the whole cut off
 * far below a molecule: so they stand to each other exactly as they were weighed, and what was at a limit is at it
 * still. What is left to 1 is the water that was lost, and what cutting off left.
 */
function sharesOf(lines: readonly ReworkLine[], wholeKg: Exact): Share[] {
  const perKg = quotient(ONE, wholeKg);
  const shares = lines
    .filter(({ material }) => material.id !== WATER_LOST.id)
    .map(({ massKg, ...part }) => ({ ...part, fraction: cutOff(multiply(massKg, perKg)) }));
  const rest = subtract(ONE, sum(shares.map(({ fraction }) => fraction)));
  return isZero(rest) ? shares : [...shares, { material: WATER_LOST, fraction: rest }];
}

/** a / b cut off to so many decimals; b above 0. */
function quotient(a: Exact, b: Exact): Exact {
  const dividend = a.digits * 10n ** BigInt(b.scale + DECIMALS);
  return { digits: dividend / (b.digits * 10n ** BigInt(a.scale)), scale: DECIMALS };
}

function cutOff(value: Exact): Exact {
  const { digits, scale } = value;
  if (scale <= MOST_DECIMALS) return value;
  return { digits: digits / 10n ** BigInt(scale - MOST_DECIMALS), scale: MOST_DECIMALS };
}

function meanComposition(lines: readonly ReworkLine[], massKg: Exact): Composition {
  const perKg = quotient(ONE, massKg);
  return compositionOf(
    lines.map((line) => ({ material: line.material, fraction: multiply(line.massKg, perKg) })),
  );
}

/** The sum of the parts; a figure that some part lacks is not known of the whole. Seasonings bring no collagen. */
function compositionOf(parts: readonly Share[]): Composition {
  const total = (of: keyof Composition) =>
    round12(toNumber(sumOver(parts, ({ material }) => material.composition[of] ?? 0)));
  const isKnown = (of: keyof Composition) =>
    parts.every(
      ({ material }) =>
        material.composition[of] !== undefined || (of === 'collagenFraction' && !isMeat(material)),
    );
  return {
    waterFraction: total('waterFraction'),
    fatFraction: total('fatFraction'),
    proteinFraction: total('proteinFraction'),
    carbohydrateFraction: total('carbohydrateFraction'),
    ashFraction: total('ashFraction'),
    saltFraction: total('saltFraction'),
    ...Object.fromEntries(WHERE_KNOWN.filter(isKnown).map((of) => [of, total(of)])),
  };
}

/** What is carried, for a look at the whole; rules count it part by part. */
function substancesOf(parts: readonly Share[]): Material['substances'] {
  return Object.fromEntries(
    SUBSTANCES.flatMap((substance) => {
      const carried = sumOver(parts, ({ material }) => material.substances[substance] ?? 0);
      return isZero(carried) ? [] : [[substance, toNumber(carried)]];
    }),
  );
}

function sumOver(parts: readonly Share[], of: (part: Share) => number): Exact {
  return sum(parts.map((part) => multiply(part.fraction, exact(of(part)))));
}

function declaredNames(parts: readonly Share[]): string[] {
  const byWeight = parts
    .filter(({ material }) => material.kind !== 'process loss')
    .sort((a, b) => compare(b.fraction, a.fraction));
  return [...new Set(byWeight.map(({ material }) => material.declaredName))];
}

function heaviestFirst(a: ReworkLine, b: ReworkLine): number {
  return compare(b.massKg, a.massKg);
}

/** To 12 decimals like every computed share, so that exact sums stay short. */
function round12(value: number): number {
  return Number(value.toFixed(12)) || 0;
}
