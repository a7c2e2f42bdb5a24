import type { z } from 'zod';
import type { Caller, Incoming } from './access/caller.ts';
import type { Permission } from './access/roles.ts';

/** What a request brings, before its use-case has looked at it. */
export interface Call {
  readonly caller: Caller;
  readonly params: Readonly<Record<string, string>>;
  readonly query: unknown;
  /** The parsed JSON, or the bytes of a file; undefined where the endpoint takes none. */
  readonly body: unknown;
  /** From Idempotency-Key, with a hash of what was sent. */
  readonly idempotency?: { readonly key: string; readonly requestHash: string };
  /** From If-Match: the version that was read. */
  readonly ifVersion?: number;
  readonly incoming: Incoming;
  /** The first of these content types that the caller wants; undefined when it wants none of them. */
  readonly accepts: (types: readonly string[]) => string | undefined;
}

/** What is answered: plain JSON, so that it can be kept and given again. */
export interface Answer {
  readonly body?: unknown;
  /** Of the resource; it becomes the ETag. */
  readonly version?: number;
  /** Where what was made can be read, below /v1. */
  readonly location?: string;
  /** Set-Cookie and the like. */
  readonly headers?: Readonly<Record<string, string>>;
  /** In place of a body. */
  readonly file?: AnsweredFile;
}

/** A file to be saved, which is made while it is sent. */
export interface AnsweredFile {
  readonly type: string;
  readonly name: string;
  readonly content: AsyncIterable<string | Uint8Array>;
}

/** An answer in another form: a text, or the bytes of a file. @param query as the endpoint parsed it. */
export type Form = (body: never, query: never, params: Call['params']) => string | Promise<Uint8Array>;

/** One method at one place: how it is called, who may call it and what it does. The routes and the contract follow. */
export interface Endpoint {
  readonly method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** Below /v1, with places as :name. */
  readonly path: string;
  /** In the contract: a heading and one line. */
  readonly tag: string;
  readonly says: string;
  readonly may: Permission;
  readonly query?: z.ZodObject;
  /** The body it takes; none is read without it. */
  readonly takes?: z.ZodType;
  /** Content types of the file that it takes as its body. */
  readonly takesFile?: readonly string[];
  /** Content types of the files that it answers with. */
  readonly givesFile?: readonly string[];
  readonly example?: unknown;
  readonly gives: z.ZodType;
  /** 201 for what makes something; 200 when absent. */
  readonly status?: 200 | 201;
  /** Other forms of the answer, by content type. */
  readonly forms?: Readonly<Record<string, Form>>;
  /** Whether If-Match must be there: an update of something that others edit too. */
  readonly needsVersion?: boolean;
  readonly handle: (call: Call) => Promise<Answer>;
}
