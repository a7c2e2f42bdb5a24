import type { NextFunction, Request, Response } from 'express';
import { Refused } from '../ledger/refused.ts';
import { StoreFault } from '../store/faults.ts';
import { notJson, Problem, statusOf } from './problem.ts';
import { problemOfRefusal, problemOfStore } from './refusals.ts';

/** The last stop of every failed request: whatever was thrown leaves as problem details. */
export function errorHandler(
  error: unknown,
  _request: Request,
  response: Response,
  next: NextFunction,
): void {
  if (response.headersSent) {
    next(error);
    return;
  }
  const problem = asProblem(error);
  // The request log shows the cause of a fault; people outside do not.
  if (statusOf(problem) >= 500) response.err = error as Error;
  response.status(statusOf(problem)).set(problem.headers).type('application/problem+json');
  response.send(JSON.stringify(problem));
}

export function notFound({ originalUrl }: Request): never {
  throw new Problem(
    'not-found',
    `There is nothing at ${originalUrl}. The routes are listed at /v1/openapi.json.`,
  );
}

function asProblem(error: unknown): Problem {
  if (error instanceof Problem) return error;
  if (error instanceof Refused) return problemOfRefusal(error);
  if (error instanceof StoreFault) return problemOfStore(error);
  const { type, status, message } = error as { type?: string; status?: number; message?: string };
  if (type === 'entity.parse.failed') return notJson('The body', { message: message ?? '' });
  if (type === 'entity.too.large')
    return new Problem('too-large', 'The body is too large. Send fewer lots or materials.');
  if (type === 'charset.unsupported' || type === 'encoding.unsupported') {
    return new Problem('unsupported-media-type', `${message}. Send JSON in UTF-8, uncompressed or gzip.`);
  }
  if (status !== undefined && status >= 400 && status < 500) {
    return new Problem('invalid-request', `${message}.`);
  }
  return new Problem(
    'fault',
    'The service failed on this request; nothing was changed. The log has the cause.',
  );
}
