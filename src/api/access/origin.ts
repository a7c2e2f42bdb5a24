import type { Incoming } from './caller.ts';

/**
 * Where a request comes from, as browsers tell it. Over plain HTTP in a plant's network they send no Sec-Fetch-Site
 * (W3C Fetch Metadata: to trustworthy addresses only), but all of them send Origin with whatever is not GET or HEAD
 * (Fetch standard, "append a request Origin header").
 */
export type Site = 'same' | 'other' | 'unknown';

export function siteOf({ headers }: Incoming): Site {
  const site = headers['sec-fetch-site'];
  if (site !== undefined) return site === 'same-origin' || site === 'none' ? 'same' : 'other';
  const { origin, host } = headers;
  if (origin === undefined) return 'unknown';
  return host !== undefined && hostOf(origin) === host.toLowerCase() ? 'same' : 'other';
}

/** Host and port; a proxy may have taken TLS off, so the scheme is left out. */
function hostOf(origin: string): string | undefined {
  return /^https?:\/\/([^/]+)$/.exec(origin.toLowerCase())?.[1];
}

/** Whether a method promises to change nothing (RFC 9110, section 9.2.1). */
export function isSafe({ method }: Incoming): boolean {
  return method === 'GET' || method === 'HEAD' || method === 'OPTIONS';
}

/** Whether a name or an address reaches this machine alone: 127.0.0.0/8 and ::1 (RFC 6890), localhost (RFC 6761). */
export function isLoopback(host: string): boolean {
  return /^(?:127(?:\.\d{1,3}){3}|\[?::1\]?|localhost)$/i.test(host);
}

/** Whether a request names this machine itself: another name that leads here is somebody's trick. */
export function namesLoopback({ headers }: Incoming): boolean {
  return isLoopback((headers.host ?? '').replace(/:\d{1,5}$/, ''));
}
