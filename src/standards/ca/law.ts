import { noneReadAs } from '../shapes.ts';

/** The shapes that many limits of Canada share. */

/** Food and Drug Regulations. */
export const section = (number: string) => `Food and Drug Regulations, C.R.C., c. 870, ${number}`;

/** None of the numerator may go in. */
export const none = noneReadAs('secondary');
