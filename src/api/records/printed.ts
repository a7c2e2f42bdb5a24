import { createHash } from 'node:crypto';
import { PRINTED_PAGE_STYLE } from '../../documents/printed-page.ts';

const styleHash = createHash('sha256').update(PRINTED_PAGE_STYLE).digest('base64');

/** Lets a browser show a printed page with the style that stands in it, and nothing else. */
export const PRINTED_HEADERS = {
  'Content-Security-Policy': `default-src 'none'; style-src 'sha256-${styleHash}'; img-src data:; base-uri 'none'; frame-ancestors 'none'`,
};
