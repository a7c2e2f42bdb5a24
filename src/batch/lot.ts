import { type Composition, collagenOfProtein, trimComposition, withFat } from './composition.ts';
import type { Material } from './material.ts';

export const LOT_STATES = ['chilled', 'frozen', 'dry'] as const;

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
}

export interface MeasuredFat {
  readonly fatFraction: number;
  readonly method: string;
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
  readonly costPerKg: number;
  /** Infinity for a material without a lot. */
  readonly onHandKg: number;
  /** The least and the most to use of it in one batch, where the plant says so. */
  readonly leastKg?: number;
  readonly mostKg?: number;
}

/** The most that a batch can take: what is there, or less where the plant says so. */
export function availableKg({ onHandKg, mostKg = Number.POSITIVE_INFINITY }: Supply): number {
  return Math.min(onHandKg, mostKg);
}

/** A lot as a supply; its composition follows the fat that was measured, where it was. */
export function supplyOfLot(lot: Lot, material: Material): Supply {
  return {
    id: lot.id,
    material,
    lot,
    composition: lotComposition(lot, material),
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
    costPerKg,
    onHandKg: Number.POSITIVE_INFINITY,
  };
}

function lotComposition(lot: Lot, material: Material): Composition {
  if (!lot.measuredFat) return material.composition;
  const { fatFraction } = lot.measuredFat;
  return material.trimLine
    ? trimComposition(material.trimLine, fatFraction, collagenOfProtein(material.composition))
    : withFat(material.composition, fatFraction);
}
