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
}
