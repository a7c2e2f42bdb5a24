import { noneReadAs } from '../shapes.ts';

/** The shapes that many limits of Codex standards share. */

export const GSFA = 'CXS 192-1995 (GSFA)';

/** None of the numerator may go in. */
export const none = noneReadAs('secondary');
