import { FORMS } from './forms.ts';
import type { Limit } from './limit.ts';

const NATURE = {
  basis: FORMS.formula,
  sense: 'min',
  bound: 0,
  unit: 'percent',
  authority: 'house',
  citation: 'mass balance',
  read: 'official',
} as const;

/**
 * The limits of nature, whatever the standard, for a process that loses something: without them a loss larger
 * than what is there would count as negative fat or water and make room under a limit of the law.
 */
export const MASS_BALANCE: readonly Limit[] = [
  {
    ...NATURE,
    id: 'mass-balance-fat',
    says: 'The process loses no more fat than the batch holds.',
    numerator: FORMS.finishedFat,
  },
  {
    ...NATURE,
    id: 'mass-balance-water',
    says: 'The process loses no more water than the batch holds.',
    numerator: FORMS.finishedWater,
  },
];
