import { MEAT_KINDS } from '../../batch/material.ts';
import { daysBetween } from '../figures/days.ts';
import type { LotAnswer, MaterialAnswer, TrimItem } from './stock-types.ts';

/** What the shop sees of a lot on a day, put together from the lot, its material and what tests taught of its trim. */
export interface LotFacts {
  readonly lot: LotAnswer;
  readonly name: string;
  /** Known for meat alone. */
  readonly fatFraction?: number;
  /** test: of this lot, or the figure that it came with; supplier: from earlier lots; class: of its material. */
  readonly fatFrom?: 'test' | 'supplier' | 'class';
  /** Of what is on hand, in the plant's currency. */
  readonly value: number;
  /** Days since it was packed, or received where that is not known. */
  readonly ageDays: number;
  /** Days to its use-by date, below 0 when it is past; absent without a date. */
  readonly daysLeft?: number;
}

/** Days before the use-by date from which a lot is marked as to be used first. */
export const SOON_DAYS = 3;

export const isPast = ({ daysLeft }: Pick<LotFacts, 'daysLeft'>): boolean =>
  daysLeft !== undefined && daysLeft < 0;

export const isSoon = ({ daysLeft }: Pick<LotFacts, 'daysLeft'>): boolean =>
  daysLeft !== undefined && daysLeft >= 0 && daysLeft <= SOON_DAYS;

/** Whether it is meat, poultry or rework of them: fat of it is tested, and blends go by it. */
export const isMeat = ({ kind }: Pick<MaterialAnswer, 'kind'>): boolean =>
  kind === 'rework' || (MEAT_KINDS as readonly string[]).includes(kind);

export interface Known {
  readonly materials: ReadonlyMap<string, MaterialAnswer>;
  readonly trim: readonly TrimItem[];
  readonly today: string;
}

export function factsOf(lot: LotAnswer, known: Known): LotFacts {
  const material = known.materials.get(lot.materialId ?? '');
  return {
    lot,
    name: lot.product ?? material?.name ?? lot.materialId ?? lot.productId ?? '',
    ...fatOf(lot, material, known.trim),
    value: lot.onHand.kg * lot.costPerKg,
    ageDays: daysBetween(lot.packedDate ?? lot.receivedDate, known.today),
    ...(lot.useByDate !== undefined && { daysLeft: daysBetween(known.today, lot.useByDate) }),
  };
}

/** The figure that blends go by: the lot's own, else what its supplier's lots taught, else that of the material. */
function fatOf(
  { measuredFat, materialId, supplierEstablishment }: LotAnswer,
  material: MaterialAnswer | undefined,
  trim: readonly TrimItem[],
): Pick<LotFacts, 'fatFraction' | 'fatFrom'> {
  if (!material || !isMeat(material)) return {};
  if (measuredFat) return { fatFraction: measuredFat.fatFraction, fatFrom: 'test' };
  const taught = trim.find(
    (each) => each.materialId === materialId && each.supplierEstablishment === supplierEstablishment,
  );
  if (taught) return { fatFraction: taught.meanFraction, fatFrom: 'supplier' };
  return { fatFraction: material.composition.fatFraction, fatFrom: 'class' };
}
