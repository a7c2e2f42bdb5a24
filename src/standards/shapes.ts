import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';

/** The shapes that limits of the law share in every market. */

export const LAW = { authority: 'law', sense: 'max', unit: 'percent' } as const;

type Extra = Partial<Pick<Limit, 'read' | 'note' | 'basis' | 'unit' | 'inForce'>>;

/**
 * None of the numerator may go in.
 * @param read how the rules of a market were mostly read; a limit may say otherwise.
 */
export const noneReadAs =
  (read: Limit['read']) =>
  (id: string, says: string, numerator: Limit['numerator'], citation: string, extra: Extra = {}): Limit => ({
    ...LAW,
    id,
    says,
    numerator,
    basis: FORMS.formula,
    bound: 0,
    citation,
    read,
    ...extra,
  });
