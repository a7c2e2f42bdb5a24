import { vi } from 'vitest';

/** What a browser has around the page: memory that may be full, and a service that answers, refuses or is not reached. */

export interface Sent {
  readonly method: string;
  readonly path: string;
  readonly body: unknown;
  readonly key: string | undefined;
  readonly by: string | undefined;
}

/** What became of a request: the status of its answer; 'lost' when it arrived and its answer did not; or nothing arrived. */
export type Fate = number | 'lost' | 'unreached' | 'silent';

export interface Around {
  /** All that arrived at the service, without who is here. */
  readonly arrived: Sent[];
  /** What the service booked: each key of a person once. */
  readonly booked: Sent[];
  readonly stored: Map<string, string>;
  /** Decides of the next requests; 201 when absent. */
  fate: ((sent: Sent) => Fate) | undefined;
  caller: string | undefined;
  isFull: boolean;
  problem: { readonly type: string; readonly detail: string };
}

export function around(): Around {
  const world: Around = {
    arrived: [],
    booked: [],
    stored: new Map(),
    fate: undefined,
    caller: 'ana',
    isFull: false,
    problem: { type: '/problems/cannot-be-used', detail: 'This cannot go in.' },
  };
  vi.stubGlobal('localStorage', storageOf(world));
  vi.stubGlobal('fetch', (address: string, init: RequestInit) => answer(world, address, init));
  return world;
}

/** As in a browser: what is kept are the own names of the object. */
function storageOf(world: Around): unknown {
  const methods = {
    getItem: (name: string) => world.stored.get(name) ?? null,
    setItem: (name: string, text: string) => {
      if (world.isFull) throw new DOMException('full', 'QuotaExceededError');
      world.stored.set(name, text);
    },
    removeItem: (name: string) => world.stored.delete(name),
  };
  return new Proxy(methods, {
    ownKeys: () => [...world.stored.keys()],
    getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
  });
}

async function answer(world: Around, address: string, init: RequestInit): Promise<Response> {
  const path = address.replace('/v1', '');
  const json = (status: number, body: unknown) => new Response(JSON.stringify(body), { status });
  const headers = init.headers as Record<string, string>;
  const sent: Sent = {
    method: init.method ?? 'GET',
    path,
    body: init.body === undefined ? undefined : JSON.parse(String(init.body)),
    key: headers['idempotency-key'],
    by: world.caller,
  };
  const fate = world.fate?.(sent) ?? 201;
  if (fate === 'unreached') throw new TypeError('Failed to fetch');
  if (fate === 'silent') {
    return new Promise((_, reject) => {
      init.signal?.addEventListener('abort', () => reject(new DOMException('aborted', 'AbortError')));
    });
  }
  if (path === '/session')
    return json(200, world.caller === undefined ? {} : { caller: { id: world.caller } });
  world.arrived.push(sent);
  if (typeof fate === 'number' && fate >= 400)
    return json(fate, { ...world.problem, title: '', status: fate });
  const before = world.booked.find(({ key, by }) => key === sent.key && by === sent.by);
  if (before && JSON.stringify(before.body) !== JSON.stringify(sent.body)) {
    const detail = `The Idempotency-Key "${sent.key}" was used for another request.`;
    return json(409, { type: '/problems/not-as-things-stand', title: '', status: 409, detail });
  }
  if (!before) world.booked.push(sent);
  if (fate === 'lost') throw new TypeError('Failed to fetch');
  return json(201, { body: sent.body });
}
