import type { IncomingHttpHeaders } from 'node:http';

/** The cookie that holds a session. Cookies know no ports: another service on this host would be sent it too. */

const TOKEN = /(?:^|;)\s*session=([A-Za-z0-9_-]{43})\s*(?:;|$)/;

export function sessionToken({ cookie }: IncomingHttpHeaders): string | undefined {
  return TOKEN.exec(cookie ?? '')?.[1];
}

export interface CookieOptions {
  /** Whether browsers may send it by TLS alone. */
  readonly secure: boolean;
}

export function sessionCookie(token: string, lastsMs: number, { secure }: CookieOptions): string {
  const parts = [`session=${token}`, 'Path=/', 'HttpOnly', 'SameSite=Strict', `Max-Age=${lastsMs / 1000}`];
  return [...parts, ...(secure ? ['Secure'] : [])].join('; ');
}

/** Makes a browser forget it. */
export function noCookie(options: CookieOptions): string {
  return sessionCookie('', 0, options);
}
