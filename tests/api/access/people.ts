import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Role } from '../../../src/api/access/roles.ts';
import type { Service } from '../../../src/api/service.ts';
import type { Settings } from '../../../src/api/settings.ts';
import { type Json, type Received, SETTINGS, type Sent, send, startDemo } from '../running.ts';

/** A service with people, and ways to be one of them. */

/** Fast: what it takes to guess a password is not what most tests are about. */
export const QUICK: Partial<Settings> = { passwordCost: 16 };

export const PASSWORD = 'quite a long secret of';

export const passwordOf = (name: string) => `${PASSWORD} ${name}`;

/** Says nothing of where it comes from, and brings nothing. */
export async function plain(service: Service, sent: Sent): Promise<Received & { readonly json: Json }> {
  const headers = {
    ...(sent.body !== undefined && { 'content-type': 'application/json' }),
    ...sent.headers,
  };
  const received = await send(service.address, { method: 'GET', ...sent, headers });
  const json = /json/.test(String(received.headers['content-type'])) ? JSON.parse(received.text) : undefined;
  return { ...received, json };
}

export type Asks = (
  method: string,
  path: string,
  body?: unknown,
  headers?: Record<string, string>,
) => ReturnType<typeof plain>;

/** Sends with a cookie as a page of the service does over plain HTTP: with Origin, without Sec-Fetch-Site. */
export function withCookie(service: Service, cookie: string): Asks {
  return (method, path, body, headers = {}) =>
    plain(service, {
      method,
      path,
      ...(body !== undefined && { body }),
      headers: { cookie, origin: service.address, ...headers },
    });
}

export function withKey(service: Service, key: string): Asks {
  return (method, path, body, headers = {}) =>
    plain(service, {
      method,
      path,
      ...(body !== undefined && { body }),
      headers: { authorization: `Bearer ${key}`, ...headers },
    });
}

/** The part of Set-Cookie that a browser sends back. */
export function cookieOf({ headers }: Pick<Received, 'headers'>): string {
  return headers['set-cookie']?.[0]?.split(';')[0] ?? '';
}

export function tryLogin(service: Service, name: string, password: string, headers = {}) {
  return plain(service, { method: 'POST', path: '/v1/session', body: { name, password }, headers });
}

export async function login(service: Service, name: string, password = passwordOf(name)): Promise<Asks> {
  const received = await tryLogin(service, name, password);
  if (received.status !== 200) throw new Error(received.text);
  return withCookie(service, cookieOf(received));
}

/** The demonstration with Ana as its admin, and one person of every other role. */
export async function startWithPeople(settings: Partial<Settings> = {}): Promise<Service> {
  const service = await startDemo({ ...QUICK, ...settings });
  const add = (ask: (sent: Sent) => ReturnType<typeof plain>, name: string, role: Role) =>
    ask({ method: 'POST', path: '/v1/people', body: { name, role, password: passwordOf(name) } });
  await add((sent) => plain(service, sent), 'Ana', 'admin');
  const ana = await login(service, 'Ana');
  for (const [name, role] of [
    ['Tomas', 'floor'],
    ['Vera', 'formulator'],
    ['Ilse', 'inspector'],
  ] as const) {
    const { status, text } = await add(
      ({ method = '', path = '', body }) => ana(method, path, body),
      name,
      role,
    );
    if (status !== 201) throw new Error(text);
  }
  return service;
}

/** A plant that is no demonstration, in a new folder. */
export function realPlantFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'meatblock-plant-'));
  cpSync(SETTINGS.plantFolder, folder, { recursive: true });
  const file = join(folder, 'plant.json');
  const { demoDate: _, ...plant } = JSON.parse(readFileSync(file, 'utf8'));
  writeFileSync(file, JSON.stringify(plant));
  return folder;
}

/** Lets the clock of a service stand a while later. */
export function moveClock({ books }: Service, byMs: number): void {
  const before = books.now;
  (books as { now: () => Date }).now = () => new Date(before().getTime() + byMs);
}

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;
