import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';

/** Secrets that this service makes itself: long enough that a fast hash of them tells nothing. */

/** 32 random bytes as 43 characters. */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}

/** What is kept of a secret. */
export function sha256Of(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}

/** Compares without telling by the time it takes how much of it is right. */
export function isSame(one: string, other: string): boolean {
  return timingSafeEqual(Buffer.from(sha256Of(one)), Buffer.from(sha256Of(other)));
}

/** Capital letters and digits that nobody takes for one another. */
const CLEAR = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';

/** Groups of four clear characters, such as K7QM-4XTR-9HWP: 4.9 bits each. */
export function newCode(groups: number): string {
  const group = () => Array.from({ length: 4 }, () => CLEAR.charAt(randomInt(CLEAR.length))).join('');
  return Array.from({ length: groups }, group).join('-');
}

/** A code as it is compared: however it was typed. */
export function codeKeyOf(code: string): string {
  return code.toUpperCase().replaceAll(/[^A-Z0-9]/g, '');
}
