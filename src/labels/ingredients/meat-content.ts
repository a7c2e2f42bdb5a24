import type { Product } from '../../batch/product.ts';
import { Coefficients } from '../../rules/coefficients.ts';
import { MissingFigure } from '../../rules/form.ts';
import { declaredMeat } from '../../rules/meat-content.ts';
import type { Standard } from '../../rules/standard.ts';
import { fixed } from '../../units.ts';
import type { LabelBatch } from '../put-in.ts';

/** The meat of a product as its label must count it. */
export interface DeclaredMeatContent {
  readonly text: string;
  readonly citation: string;
  readonly meats: readonly {
    readonly says: string;
    /** All four as fractions of the finished product; above 1 where it lost more than the rest weighs. */
    readonly usedFraction: number;
    readonly declaredFraction: number;
    readonly excessFatFraction: number;
    readonly excessConnectiveTissueFraction: number;
  }[];
}

/**
 * The quantity of meat for the ingredient list: declarable meat as put in, over the weight of the finished product
 * (Regulation (EU) 1169/2011, Annex VIII points 3 and 4). Undefined where the standard adjusts no meat, and where a meat
 * has no figure that this needs: `meatContentCaution` says which.
 */
export function meatContent(
  product: Product,
  standard: Standard,
  batch: LabelBatch,
): DeclaredMeatContent | undefined {
  const found = workedOut(product, standard, batch);
  return found instanceof MissingFigure ? undefined : found;
}

/** Why the meat is not counted as the label must count it, where it is not. */
export function meatContentCaution(product: Product, standard: Standard, batch: LabelBatch): string[] {
  const found = workedOut(product, standard, batch);
  if (!(found instanceof MissingFigure)) return [];
  return [
    `The meat content is not worked out, for the ${found.constituent} of ${found.materialId} is not known: the ingredients count all of the meat as meat. Add the figure to its table before a label is printed.`,
  ];
}

function workedOut(
  product: Product,
  standard: Standard,
  batch: LabelBatch,
): DeclaredMeatContent | MissingFigure | undefined {
  try {
    return counted(product, standard, batch);
  } catch (error) {
    if (error instanceof MissingFigure) return error;
    throw error;
  }
}

function counted(product: Product, standard: Standard, batch: LabelBatch): DeclaredMeatContent | undefined {
  if (!standard.meatContent) return undefined;
  const { meats: definitions, citation, read } = standard.meatContent;
  const coefficients = new Coefficients(
    batch.lines.map(({ supply }) => supply),
    product.process,
  );
  const masses = batch.lines.map(({ exactMassKg }) => exactMassKg);
  const meats = definitions
    .map((definition) => declaredMeat(definition, coefficients, masses))
    .filter(({ usedKg }) => usedKg > 0)
    .map(({ says, usedKg, declaredKg, excessFatKg, excessConnectiveTissueKg }) => ({
      says,
      usedFraction: usedKg / batch.finishedKg,
      declaredFraction: declaredKg / batch.finishedKg,
      excessFatFraction: excessFatKg / batch.finishedKg,
      excessConnectiveTissueFraction: excessConnectiveTissueKg / batch.finishedKg,
    }));
  return {
    text: meats.map(meatText).join('; '),
    citation: read === 'official' ? citation : `${citation}, ${read}`,
    meats,
  };
}

/** Above 100 % the label gives grams of meat used for 100 g of product. */
function meatText(meat: DeclaredMeatContent['meats'][number]): string {
  const amount = (fraction: number) => `${fixed(fraction * 100, 1)} %`;
  const content =
    meat.declaredFraction > 1
      ? `prepared with ${fixed(meat.declaredFraction * 100, 0)} g per 100 g of product`
      : amount(meat.declaredFraction);
  const excess = [
    ...(meat.excessFatFraction > 0 ? [`its fat as an ingredient ${amount(meat.excessFatFraction)}`] : []),
    ...(meat.excessConnectiveTissueFraction > 0
      ? [`its connective tissue as an ingredient ${amount(meat.excessConnectiveTissueFraction)}`]
      : []),
  ];
  return [`${meat.says} ${content}`, ...excess].join(', ');
}
