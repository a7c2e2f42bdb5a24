import type { IncomingHttpHeaders } from 'node:http';
import type { Actor } from '../../store/store.ts';
import type { Role } from './roles.ts';

/** Who a request comes from. */
export interface Caller extends Actor {
  readonly role: Role;
  readonly via: 'session' | 'key' | 'demo';
}

/** What of a request tells who sends it. */
export interface Incoming {
  readonly method: string;
  readonly headers: IncomingHttpHeaders;
  readonly remoteAddress: string;
}

/** Decides who a request comes from. */
export interface Gate {
  /**
   * Undefined for someone who has not logged in.
   * @throws Problem when what was sent to prove it does not hold.
   */
  readonly callerOf: (incoming: Incoming) => Promise<Caller | undefined>;
}

/** A demonstration on this machine alone: whoever reaches it may do everything, under one name. */
export const DEMO_CALLER: Caller = { id: 'demo', name: 'Demo', role: 'admin', via: 'demo' };
