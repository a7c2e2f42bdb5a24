import { WHOLE_PHRASES } from '../spanish.ts';
import { SPANISH_SENTENCES } from '../spanish-sentences.ts';
import { type Told, teller } from '../teller.ts';
import { ACCESS } from './access.ts';
import { ADDITIVES } from './additives.ts';
import { BATCH_STEPS } from './batch-steps.ts';
import { BATCHES } from './batches.ts';
import { BLEND } from './blend.ts';
import { CORRECTION } from './correction.ts';
import { FIELDS } from './fields.ts';
import { LABELS } from './labels.ts';
import { LABORATORY } from './laboratory.ts';
import { LIMITS } from './limits.ts';
import { LOGS } from './logs.ts';
import { NO_BLEND } from './no-blend.ts';
import { PLANT } from './plant.ts';
import { PRODUCTS } from './products.ts';
import { RECORDS } from './records.ts';
import { RULES_SAID } from './rules-said.ts';
import { SETUP_FIELDS } from './setup-fields.ts';
import { STANDARDS } from './standards.ts';
import { STANDARDS_ABROAD } from './standards-abroad.ts';
import { STOCK } from './stock.ts';
import { THINGS } from './things.ts';

/** All that the service says. The first that fits counts, so wide patterns stand behind narrow ones. */
export const SAID: Told = [
  ...SPANISH_SENTENCES,
  ...ACCESS,
  ...RULES_SAID,
  ...LABORATORY,
  ...LIMITS,
  ...CORRECTION,
  ...BLEND,
  ...BATCHES,
  ...BATCH_STEPS,
  ...STOCK,
  ...PLANT,
  ...LABELS,
  ...RECORDS,
  ...LOGS,
  ...FIELDS,
  ...SETUP_FIELDS,
  ...NO_BLEND,
  ...THINGS,
  ...ADDITIVES,
  ...PRODUCTS,
  ...STANDARDS,
  ...STANDARDS_ABROAD,
];

/** The Spanish of a sentence or word of the service; undefined where it is not known. */
export const spanishOf = teller([...SAID, ...WHOLE_PHRASES]);

/**
 * The Spanish of a sentence or word that the service writes, for the eyes of a person and never for what is sent back.
 * Names, ids and figures in it stay as they are; so does a sentence that is not known. Never throws.
 */
export function inSpanish(sentence: string): string {
  return spanishOf(sentence) ?? sentence;
}
