import type { z } from 'zod';
import type {
  keyAnswer,
  keysAnswer,
  madeKeyAnswer,
  peopleAnswer,
  personAnswer,
} from '../../api/access/contract.ts';
import type { Role } from '../../api/access/roles.ts';
import type { labelStocksAnswer } from '../../api/labels/contract.ts';
import type { Language, Paper } from '../../batch/plant.ts';

export type Person = z.output<typeof personAnswer>;
export type People = z.output<typeof peopleAnswer>;
export type Key = z.output<typeof keyAnswer>;
export type Keys = z.output<typeof keysAnswer>;
export type MadeKey = z.output<typeof madeKeyAnswer>;
export type LabelStocks = z.output<typeof labelStocksAnswer>;
export type { Role };

/** The plant in the form that PUT /v1/plant takes; what the form does not show is sent back as it was. */
export interface PlantSettings {
  readonly name: string;
  readonly establishment: string;
  readonly address?: readonly string[];
  readonly jurisdiction: string;
  readonly currency: string;
  readonly units: 'lb' | 'kg';
  readonly timeZone: string;
  /** A figure that cannot be read stays as it was typed: the service says what is wrong with it. */
  readonly mixerCapacity: { readonly value: number | string; readonly unit: string };
  readonly scales: readonly {
    readonly id: string;
    readonly name: string;
    readonly unit: string;
    readonly division: string;
    readonly capacity: number | string;
  }[];
  readonly printing?: {
    readonly paper?: Paper;
    readonly language?: Language;
    readonly labelStock?: string;
    readonly priceCode?: { readonly numberSystem: '2'; readonly priceVerifier: boolean };
  };
  readonly demoDate?: string;
}
