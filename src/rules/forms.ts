import type { Form, WorstOf } from './form.ts';
import { ADDITIVES } from './forms/additives.ts';
import { AUSTRALASIA } from './forms/australasia.ts';
import { CANADA } from './forms/canada.ts';
import { CODEX } from './forms/codex.ts';
import { CURED_CUTS } from './forms/cured-cuts.ts';
import { CURING } from './forms/curing.ts';
import { EUROPE } from './forms/europe.ts';
import { MAKEUP } from './forms/makeup.ts';
import { MEATS } from './forms/meats.ts';

/** Every named form. A new numerator or basis is one entry in the file of its subject. */
export const FORMS = {
  ...MAKEUP,
  ...MEATS,
  ...CURING,
  ...ADDITIVES,
  ...CURED_CUTS,
  ...EUROPE,
  ...CANADA,
  ...CODEX,
  ...AUSTRALASIA,
} as const satisfies Record<string, Form | WorstOf>;
