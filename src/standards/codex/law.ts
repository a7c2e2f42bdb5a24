import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';

/** The shapes that many limits of Codex standards share. */

export const LAW = { authority: 'law', sense: 'max', unit: 'percent' } as const;
export const GSFA = 'CXS 192-1995 (GSFA)';

/** None of the numerator may go in. */
export const none = (
  id: string,
  says: string,
  numerator: Limit['numerator'],
  citation: string,
  extra: Partial<Pick<Limit, 'read' | 'note'>> = {},
): Limit => ({
  ...LAW,
  id,
  says,
  numerator,
  basis: FORMS.formula,
  bound: 0,
  citation,
  read: 'secondary',
  ...extra,
});
