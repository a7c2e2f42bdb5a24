import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { ENGINE_NAMES, type EngineName } from '../solver/engine-names.ts';
import { dialectOf } from '../store/store-url.ts';

/** The store of a plant that names none. */
export const STORE_FILE = 'plant.sqlite';

/** What the service can be told from its environment; everything has a default that works. */
const settingsSchema = z.object({
  HOST: z.string().min(1).default('127.0.0.1'),
  PORT: integer(0, 65_535).default(8080),
  PLANT_FOLDER: z.string().min(1).optional(),
  TABLES_FOLDER: z.string().min(1).optional(),
  STORE: z.string().min(1).optional(),
  LOG_LEVEL: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent']).default('info'),
  MAX_BODY_KB: integer(1, 10_240).default(512),
  MAX_FILE_MB: integer(1, 100).default(30),
  SOLVE_SECONDS: integer(1, 120).default(10),
  REQUESTS_PER_MINUTE: integer(1, 1_000_000).default(600),
  SECURE_COOKIE: z.enum(['yes', 'no'], 'must be yes or no').default('no'),
  ENGINE: z
    .enum(['by problem', ...ENGINE_NAMES], `must be "by problem" or one of ${ENGINE_NAMES.join(', ')}`)
    .default('by problem'),
});

export interface Settings {
  readonly host: string;
  readonly port: number;
  readonly plantFolder: string;
  readonly tablesFolder: string;
  /** A file of SQLite, ':memory:', or the URL of a PostgreSQL database. */
  readonly storeUrl: string;
  readonly logLevel: string;
  readonly maxBodyKb: number;
  /** Largest file that is taken in, as it comes. */
  readonly maxFileMb: number;
  readonly solveSeconds: number;
  readonly requestsPerMinute: number;
  /** Whether sessions go by TLS alone: for a service behind a proxy that brings TLS. */
  readonly secureCookie?: true;
  /** Where the built page lies; no variable of the environment changes it. */
  readonly pageFolder?: string;
  /** Longest time for a request to arrive whole; no variable of the environment changes it. */
  readonly requestSeconds?: number;
  /** N of scrypt; no variable of the environment lowers it. */
  readonly passwordCost?: number;
  /** The one engine to use; the choice is by problem when absent. */
  readonly engine?: EngineName;
}

function integer(min: number, max: number) {
  return z
    .string()
    .regex(/^\d+$/, `must be a whole number from ${min} to ${max}`)
    .transform(Number)
    .refine((value) => value >= min && value <= max, `must be a whole number from ${min} to ${max}`);
}

/** @throws Error naming every variable that is wrong, so that a bad start fails at once and says why. */
export function readSettings(environment: Readonly<Record<string, string | undefined>>): Settings {
  const parsed = settingsSchema.safeParse(environment);
  if (!parsed.success) {
    const faults = parsed.error.issues.map(({ path, message }) => {
      const name = String(path[0]);
      return `${name}=${environment[name]} ${message}`;
    });
    throw new Error(`The environment has settings that cannot be used: ${faults.join('; ')}`);
  }
  const { data } = parsed;
  const plantFolder = folderOf(data.PLANT_FOLDER, 'demo-data', environment);
  return {
    host: data.HOST,
    port: data.PORT,
    plantFolder,
    storeUrl: storeUrlOf(data.STORE, plantFolder, environment),
    tablesFolder: folderOf(data.TABLES_FOLDER, 'ingredient-tables', environment),
    logLevel: data.LOG_LEVEL,
    maxBodyKb: data.MAX_BODY_KB,
    maxFileMb: data.MAX_FILE_MB,
    solveSeconds: data.SOLVE_SECONDS,
    requestsPerMinute: data.REQUESTS_PER_MINUTE,
    ...(data.SECURE_COOKIE === 'yes' && { secureCookie: true as const }),
    ...(data.ENGINE !== 'by problem' && { engine: data.ENGINE }),
  };
}

/** Where the store lies: as named, or beside the files of the plant. */
export function storeUrlOf(
  named: string | undefined,
  plantFolder: string,
  environment: Readonly<Record<string, string | undefined>>,
): string {
  if (named === undefined) return resolve(plantFolder, STORE_FILE);
  if (named === ':memory:' || dialectOf(named) === 'PostgreSQL') return named;
  return fromWhereCalled(named, environment);
}

/** A folder as it was named where the command was given; the project's own one when none was. */
export function folderOf(
  named: string | undefined,
  own: string,
  environment: Readonly<Record<string, string | undefined>>,
): string {
  if (named === undefined) return fileURLToPath(new URL(`../../${own}`, import.meta.url));
  return fromWhereCalled(named, environment);
}

/** The launcher works in the project's folder and says where it was called from. */
export function fromWhereCalled(
  path: string,
  environment: Readonly<Record<string, string | undefined>>,
): string {
  return resolve(environment.CALLED_FROM ?? process.cwd(), path);
}
