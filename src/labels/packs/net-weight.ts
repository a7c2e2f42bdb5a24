import type { GivenWeight } from '../../batch/product.ts';
import { compare, type Exact, exact, multiply, toText } from '../../exact.ts';
import { KILOGRAMS_PER, type MassUnit } from '../../units.ts';

/** How the net weight stands on a pack. A printed weight is never above what is there: it is rounded down. */

export interface NetWeightStatement {
  /** 'NET WT 1 LB 8 OZ (680g)' */
  readonly text: string;
  /** What was printed, which is what price and codes are worked out from. */
  readonly printed: GivenWeight;
  readonly citation: string;
}

export interface NetWeight {
  readonly net: GivenWeight;
  /** Whether each pack is weighed for itself. */
  readonly isWeighed: boolean;
  readonly jurisdiction: string;
  /** Unit in which the plant sells what it weighs. */
  readonly units: 'lb' | 'kg';
}

const US_CITATION = '9 CFR 317.2(h)';

/** The statement that the market of the product asks for. @throws RangeError for a weight that prints as nothing. */
export function netWeightStatement(of: NetWeight): NetWeightStatement {
  const { net, isWeighed, jurisdiction, units } = of;
  const isUs = jurisdiction === 'us';
  if (isWeighed) {
    // Random weight: pounds and decimals, in place of ounces also below a pound (317.2(h)(5), (9)).
    const unit = isUs ? 'lb' : units;
    const printed = printedWeight(net, unit, DECIMALS[unit]);
    return isUs
      ? { text: `NET WT ${printed.value} LB`, printed, citation: US_CITATION }
      : {
          text: `NET ${printed.value} ${printed.unit}`,
          printed,
          citation: metricCitation(jurisdiction),
        };
  }
  return isUs ? avoirdupois(net) : metric(net, jurisdiction);
}

/** Decimals of a weighed pack: what retail scales show. Common practice. */
const DECIMALS = { lb: 2, kg: 3 } as const;

/**
 * Below a pound in ounces, from a pound in pounds with the rest in ounces, or in decimals where the rest is no whole
 * number of ounces (317.2(h)(4), (5)). Grams beside it are welcome and not asked for; they are whole and rounded down.
 */
function avoirdupois(net: GivenWeight): NetWeightStatement {
  const massKg = kilogramsOf(net);
  const grams = wholeOf(massKg, KILOGRAMS_PER.g);
  const done = (words: string, printed: GivenWeight) => ({
    text: `NET WT ${words} (${grams}g)`,
    printed,
    citation: US_CITATION,
  });
  if (compare(massKg, KILOGRAMS_PER.lb) < 0) {
    const printed = net.unit === 'oz' ? net : printedWeight(net, 'oz', 1);
    return done(`${tidy(printed.value)} OZ`, printed);
  }
  const ounces = wholeOf(massKg, KILOGRAMS_PER.oz);
  if (compare(multiply({ digits: ounces, scale: 0 }, KILOGRAMS_PER.oz), massKg) === 0) {
    const rest = ounces % 16n;
    const words = rest === 0n ? `${ounces / 16n} LB` : `${ounces / 16n} LB ${rest} OZ`;
    return done(words, net);
  }
  const printed = net.unit === 'lb' ? net : printedWeight(net, 'lb', 2);
  return done(`${tidy(printed.value)} LB`, printed);
}

/** Grams below a kilogram, kilograms from there. */
function metric(net: GivenWeight, jurisdiction: string): NetWeightStatement {
  const citation = metricCitation(jurisdiction);
  const isSmall = compare(kilogramsOf(net), exact(1)) < 0;
  const printed = printedWeight(net, isSmall ? 'g' : 'kg', isSmall ? 0 : 3);
  return { text: `NET ${tidy(printed.value)} ${printed.unit}`, printed, citation };
}

function metricCitation(jurisdiction: string): string {
  if (jurisdiction === 'eu' || jurisdiction === 'gb')
    return 'Regulation (EU) No 1169/2011 Art. 23 and Annex IX, secondary';
  if (jurisdiction === 'ca') return 'Safe Food for Canadians Regulations, net quantity, from memory, verify';
  return 'net quantity rules of the market, from memory, verify';
}

/**
 * A weight in a unit at so many decimals, rounded down: the printed weight is never above the weight.
 * @throws RangeError where nothing is left of it.
 */
export function printedWeight(net: GivenWeight, unit: MassUnit, decimals: number): GivenWeight {
  const step = { digits: KILOGRAMS_PER[unit].digits, scale: KILOGRAMS_PER[unit].scale + decimals };
  const steps = wholeOf(kilogramsOf(net), step);
  if (steps === 0n) {
    throw new RangeError(
      `${net.value} ${net.unit} is less than the smallest weight that is printed in ${unit}`,
    );
  }
  const text = steps.toString().padStart(decimals + 1, '0');
  const value = decimals === 0 ? text : `${text.slice(0, -decimals)}.${text.slice(-decimals)}`;
  return { value, unit };
}

/** How many whole units fit into a mass. */
function wholeOf(mass: Exact, unit: Exact): bigint {
  return (mass.digits * 10n ** BigInt(unit.scale)) / (unit.digits * 10n ** BigInt(mass.scale));
}

function kilogramsOf({ value, unit }: GivenWeight): Exact {
  return multiply(exact(value), KILOGRAMS_PER[unit]);
}

function tidy(value: string): string {
  return toText(exact(value));
}

const SQUARE_INCH = 25.4 ** 2;

/** Areas of the principal panel up to which a height is enough, in square inches and inches (9 CFR 317.2(h)(6)). */
const US_HEIGHTS: readonly (readonly [upTo: number, inches: number])[] = [
  [5, 1 / 16],
  [25, 1 / 8],
  [100, 3 / 16],
  [400, 1 / 4],
  [Number.POSITIVE_INFINITY, 1 / 2],
];

/**
 * Up to square centimetres, millimetres. Read in section 14(2) of the Consumer Packaging and Labelling Regulations of
 * Canada; that the Safe Food for Canadians Regulations have the same for food: from memory, verify.
 */
const CA_HEIGHTS: readonly (readonly [upTo: number, mm: number])[] = [
  [32, 1.6],
  [258, 3.2],
  [645, 6.4],
  [2580, 9.5],
  [Number.POSITIVE_INFINITY, 12.7],
];

/** Up to grams, millimetres (Directive 76/211/EEC, Annex I 3.1; read on a label printer's page about Great Britain). */
const EU_HEIGHTS: readonly (readonly [upTo: number, mm: number])[] = [
  [50, 2],
  [200, 3],
  [1000, 4],
  [Number.POSITIVE_INFINITY, 6],
];

/**
 * Least height of the figures and capitals of the net weight, in millimetres: by the area of the panel in the United
 * States and Canada, by the weight elsewhere.
 */
export function netWeightHeightMm(panelMm2: number, printed: GivenWeight, jurisdiction: string): number {
  const least = (table: readonly (readonly [number, number])[], value: number) =>
    (table.find(([upTo]) => value <= upTo) ?? [0, 0])[1];
  if (jurisdiction === 'us') return least(US_HEIGHTS, panelMm2 / SQUARE_INCH) * 25.4;
  if (jurisdiction === 'ca') return least(CA_HEIGHTS, panelMm2 / 100);
  return least(EU_HEIGHTS, Number(toText(multiply(kilogramsOf(printed), exact(1000)))));
}
