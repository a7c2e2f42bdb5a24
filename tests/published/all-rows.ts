import type { PublishedRow } from './row.ts';
import { ADDED_WATER_ROWS } from './rows/added-water.ts';
import { ANZ_ROWS } from './rows/anz.ts';
import { BLEND_ROWS } from './rows/blends.ts';
import { CA_ROWS } from './rows/ca.ts';
import { CODEX_ROWS } from './rows/codex.ts';
import { COMPOSITION_ROWS } from './rows/composition.ts';
import { CURE_ROWS } from './rows/cures.ts';
import { EU_ROWS } from './rows/eu.ts';
import { FIGURE_ROWS } from './rows/figures.ts';
import { GB_ROWS } from './rows/gb.ts';
import { LABEL_ROWS } from './rows/labels.ts';
import { NUTRITION_ROWS } from './rows/nutrition.ts';
import { US_CLASS_ROWS } from './rows/us-classes.ts';
import { US_CURED_CUT_ROWS } from './rows/us-cured-cuts.ts';
import { WEIGHT_ROWS } from './rows/weights.ts';

/** Every row of the published checks. */
export const ROWS: readonly PublishedRow[] = [
  ...CURE_ROWS,
  ...COMPOSITION_ROWS,
  ...ADDED_WATER_ROWS,
  ...FIGURE_ROWS,
  ...WEIGHT_ROWS,
  ...BLEND_ROWS,
  ...US_CLASS_ROWS,
  ...US_CURED_CUT_ROWS,
  ...EU_ROWS,
  ...GB_ROWS,
  ...CA_ROWS,
  ...CODEX_ROWS,
  ...ANZ_ROWS,
  ...NUTRITION_ROWS,
  ...LABEL_ROWS,
];
