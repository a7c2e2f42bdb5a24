import type { MassUnit } from '../units.ts';

/** One scale of the plant. */
export interface Scale {
  readonly id: string;
  readonly name: string;
  readonly unit: MassUnit;
  /** Smallest step it shows, as decimal text in its unit: '0.01'. */
  readonly division: string;
  readonly capacity: number;
}

export interface Plant {
  readonly name: string;
  readonly establishment: string;
  readonly jurisdiction: string;
  readonly currency: string;
  /** How masses are shown to people. */
  readonly units: 'lb' | 'kg';
  readonly timeZone: string;
  readonly mixerCapacityKg: number;
  readonly scales: readonly Scale[];
  /** Place of business as it stands on labels, line by line (9 CFR 317.2(g)). */
  readonly address?: readonly string[];
  readonly printing?: Printing;
}

export const PAPERS = ['letter', 'a4'] as const;
export type Paper = (typeof PAPERS)[number];
/** Languages of what the floor reads; what the inspector reads stays English. */
export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** How the plant prints, where a request says nothing else. */
export interface Printing {
  readonly paper?: Paper;
  readonly language?: Language;
  /** Id of the label stock in the label printer. */
  readonly labelStock?: string;
  /** How the price of a weighed pack stands in its code; national numbering authorities differ. */
  readonly priceCode?: PriceCode;
}

/** A restricted-circulation number that carries a price (GS1 General Specifications: each country sets its digits). */
export interface PriceCode {
  /** Its first digit. */
  readonly numberSystem: '2';
  /** Whether a check digit of the price stands before the price, which then has four digits instead of five. */
  readonly priceVerifier: boolean;
}
