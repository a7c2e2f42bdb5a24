import { atFat, type Composition } from './composition.ts';
import { defaultFatSd, type FatKnown, type MeasuredFat, testedFatSd } from './fat-certainty.ts';
import { isMeat, type Material } from './material.ts';
import type { TrimKnowledge } from './trim-learning.ts';

export const LOT_STATES = ['chilled', 'frozen', 'dry'] as const;

/** Countries (ISO 3166-1, two letters) through which the animals of a lot went. */
export interface Origin {
  readonly bornIn: string;
  readonly raisedIn: string;
  readonly slaughteredIn: string;
}

/** A received quantity of one material. Dates are calendar days as YYYY-MM-DD text. */
export interface Lot {
  readonly id: string;
  readonly materialId: string;
  readonly onHandKg: number;
  readonly costPerKg: number;
  /** Fat found by a test of this lot; without one the material's own figure stands. */
  readonly measuredFat?: MeasuredFat;
  readonly receivedDate: string;
  readonly packedDate?: string;
  readonly useByDate?: string;
  readonly state: (typeof LOT_STATES)[number];
  readonly boxKg?: number;
  readonly supplierEstablishment?: string;
  readonly supplierLot?: string;
  readonly location?: string;
  /** Where its animals lived; absent when the supplier does not say. An origin claim needs it. */
  readonly origin?: Origin;
  /** Why it must not be used for now; absent when it may. */
  readonly held?: string;
}

/**
 * Something a batch can draw on: a lot on hand, or a material bought at a known price without a lot of its
 * own (water from the tap, a spice whose lots are not tracked).
 */
export interface Supply {
  readonly id: string;
  readonly material: Material;
  readonly lot?: Lot;
  readonly composition: Composition;
  /** What is known of its fat; only meat has it. */
  readonly fat?: FatKnown;
  readonly costPerKg: number;
  /** Infinity for a material without a lot. */
  readonly onHandKg: number;
  /** The least and the most to use of it in one batch, where the plant says so. */
  readonly leastKg?: number;
  readonly mostKg?: number;
  /** The least to use of it in one batch if any is used. */
  readonly leastIfUsedKg?: number;
  /** Whole boxes to use, where the blend was asked to open none. */
  readonly boxes?: number;
}

/** The most that a batch can take: what is there, or less where the plant says so. */
export function availableKg({ onHandKg, mostKg = Number.POSITIVE_INFINITY }: Supply): number {
  return Math.min(onHandKg, mostKg);
}

/**
 * A lot as a supply. Its composition follows the fat that was measured, or else the fat that past tests of the trim
 * lead to expect, or else is the figure of its material.
 * @param knowledge of this trim from this supplier, where there is any.
 * @throws RangeError when the knowledge is of another trim or another supplier.
 */
export function supplyOfLot(lot: Lot, material: Material, knowledge?: TrimKnowledge): Supply {
  if (knowledge) refuseOfAnother(knowledge, lot);
  const fatFraction = lot.measuredFat?.fatFraction ?? knowledge?.meanFraction;
  return {
    id: lot.id,
    material,
    lot,
    composition: fatFraction === undefined ? material.composition : atFat(material, fatFraction),
    ...(isMeat(material) && { fat: fatOfLot(lot, material, knowledge) }),
    costPerKg: lot.costPerKg,
    onHandKg: lot.onHandKg,
  };
}

/** A material without a lot as a supply that does not run out. @param costPerKg what it is bought at. */
export function supplyOfMaterial(material: Material, costPerKg: number): Supply {
  return {
    id: material.id,
    material,
    composition: material.composition,
    ...(isMeat(material) && { fat: fatOfClass(material) }),
    costPerKg,
    onHandKg: Number.POSITIVE_INFINITY,
  };
}

function fatOfLot({ measuredFat }: Lot, material: Material, knowledge?: TrimKnowledge): FatKnown {
  if (measuredFat) {
    return {
      meanFraction: measuredFat.fatFraction,
      sdFraction: testedFatSd(measuredFat),
      says: `the figure of this lot by ${measuredFat.method}`,
      from: 'test',
    };
  }
  return knowledge ? fatOfKnowledge(knowledge) : fatOfClass(material);
}

function fatOfKnowledge(knowledge: TrimKnowledge): FatKnown {
  const { tests, lots, supplierEstablishment, latestDate, shrinkage, meanFraction, sdFraction } = knowledge;
  const counted = (count: number, noun: string) => `${count} ${noun}${count === 1 ? '' : 's'}`;
  return {
    meanFraction,
    sdFraction,
    says: `${counted(tests, 'test')} of ${counted(lots, 'lot')} of this trim from Est. ${supplierEstablishment} up to ${latestDate}, class figure weighs ${Math.round(shrinkage * 100)} %`,
    from: 'lots of the supplier',
  };
}

function fatOfClass(material: Material): FatKnown {
  return {
    meanFraction: material.composition.fatFraction,
    sdFraction: defaultFatSd(material),
    says: 'the figure of its class, not a test',
    from: 'class',
  };
}

function refuseOfAnother(knowledge: TrimKnowledge, { id, materialId, supplierEstablishment }: Lot): void {
  if (knowledge.materialId === materialId && knowledge.supplierEstablishment === supplierEstablishment)
    return;
  throw new RangeError(
    `knowledge is of ${knowledge.materialId} from Est. ${knowledge.supplierEstablishment}, but lot ${id} is ${materialId} from Est. ${supplierEstablishment ?? 'unknown'}; pass the knowledge of that trim and supplier`,
  );
}
