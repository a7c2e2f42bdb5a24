import { noneReadAs } from '../shapes.ts';

/** The shapes that many limits of the Australia New Zealand Food Standards Code share. */

export const STANDARD_221 = 'Food Standards Code, Standard 2.2.1';
export const SCHEDULE_15 = 'Food Standards Code, Schedule 15';

/** None of the numerator may go in. */
export const none = noneReadAs('secondary');
