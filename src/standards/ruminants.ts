import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import { noneReadAs } from './shapes.ts';

/** Bones of cattle, sheep and goats may not be used for mechanically separated meat, for fear of prions. */
export const noSeparatedRuminants = (prefix: 'eu' | 'gb', retained: '' | 'retained '): Limit =>
  noneReadAs('from memory')(
    `${prefix}-999-no-separated-ruminants`,
    'Mechanically separated meat of cattle, sheep and goats is not produced for food.',
    FORMS.separatedRuminants,
    `${retained}Regulation (EC) No 999/2001, Annex V point 5`,
  );
