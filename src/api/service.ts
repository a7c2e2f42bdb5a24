import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Logger } from 'pino';
import { RULE_SETS } from '../standards/all.ts';
import { openStore } from '../store/store.ts';
import { type Access, accessOf } from './access/access.ts';
import { createApp } from './app.ts';
import type { Books } from './books.ts';
import { jobPool } from './job-pool.ts';
import { openPlant } from './open-plant.ts';
import type { Settings } from './settings.ts';
import { keepTidy } from './tidying.ts';

export interface Service {
  /** Where the service can be reached, such as http://127.0.0.1:8080. */
  readonly address: string;
  readonly books: Books;
  readonly access: Access;
  readonly stop: () => Promise<void>;
}

const STOP_WITHIN_MS = 10_000;
const REQUEST_SECONDS = 60;

/** Opens the store, founds the plant in an empty one and starts to listen. @throws TableError, StoreFault, or the error of the port. */
export async function startService(settings: Settings, logger: Logger): Promise<Service> {
  const doubts = new Map<string, number>();
  const store = await openStore(settings.storeUrl);
  const undo: (() => Promise<void>)[] = [store.close];
  try {
    const plant = await openPlant(store, settings, RULE_SETS);
    const pool = jobPool({
      solveSeconds: settings.solveSeconds,
      ...(settings.engine && { engine: settings.engine }),
      doubted: (found) => {
        for (const { engine } of found) doubts.set(engine, (doubts.get(engine) ?? 0) + 1);
        const [first] = found;
        logger.info({ count: found.length, ...first }, 'an answer of an engine was not believed');
      },
    });
    undo.unshift(pool.close);
    const books: Books = {
      store,
      ruleSets: RULE_SETS,
      work: pool.run,
      doubts: () => Object.fromEntries(doubts),
      plant,
      now: () => new Date(),
    };
    const stopTidying = await keepTidy(books, logger);
    undo.unshift(async () => stopTidying());
    const access = accessOf(books, { ...settings, tell: (about, what) => logger.warn(about, what) });
    const app = createApp({ books, access, logger, version: packageVersion(), ...settings });
    let stopping = false;
    const requestTimeout = (settings.requestSeconds ?? REQUEST_SECONDS) * 1000;
    // Whoever sends a request a byte at a time holds a connection for so long and no longer.
    const timeouts = { requestTimeout, headersTimeout: requestTimeout, connectionsCheckingInterval: 1000 };
    const server = createServer(timeouts, (request, response) => {
      if (stopping) response.setHeader('Connection', 'close');
      app(request, response);
    });
    await listen(server, settings);
    return {
      address: addressOf(server.address() as AddressInfo),
      books,
      access,
      stop: async () => {
        stopping = true;
        await closeServer(server);
        await inTurn(undo);
      },
    };
  } catch (error) {
    await inTurn(undo);
    throw error;
  }
}

async function inTurn(steps: readonly (() => Promise<void>)[]): Promise<void> {
  for (const step of steps) await step();
}

export function packageVersion(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}

function listen(server: Server, { port, host }: Settings): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

/** Ends when every request under way is answered, or by force after a while. */
function closeServer(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const force = setTimeout(() => server.closeAllConnections(), STOP_WITHIN_MS);
    // A connection that falls idle after its last answer would otherwise be kept open for its next request.
    const idle = setInterval(() => server.closeIdleConnections(), 50);
    server.close(() => {
      clearTimeout(force);
      clearInterval(idle);
      resolve();
    });
  });
}

function addressOf({ address, port, family }: AddressInfo): string {
  return `http://${family === 'IPv6' ? `[${address}]` : address}:${port}`;
}
