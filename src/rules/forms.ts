import type { Form, WorstOf } from './form.ts';
import { ADDITIVES } from './forms/additives.ts';
import { CURING } from './forms/curing.ts';
import { MAKEUP } from './forms/makeup.ts';
import { MEATS } from './forms/meats.ts';

/** Every named form. A new numerator or basis is one entry in the file of its subject. */
export const FORMS = {
  ...MAKEUP,
  ...MEATS,
  ...CURING,
  ...ADDITIVES,
} as const satisfies Record<string, Form | WorstOf>;
