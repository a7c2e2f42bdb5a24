/** Why something cannot be booked or done as things stand. Nothing has been changed. */
export type RefusalCode =
  /** There is no such lot, batch, person or the like. */
  | 'unknown'
  /** The id is taken. */
  | 'taken'
  /** Not enough on hand, or what is there is reserved. */
  | 'short'
  /** The lot is on hold or past its use-by date. */
  | 'not usable'
  /** The step does not fit the state the thing is in. */
  | 'out of turn'
  /** A field does not fit what is known. */
  | 'unfit'
  /** A deviation without its reason. */
  | 'needs a reason'
  /** Changed by someone else since it was read. */
  | 'changed meanwhile';

/** A refusal that a person can act on: what is wrong, where in the request, and what to do. */
export class Refused extends Error {
  readonly code: RefusalCode;
  /** Place in the request, where there is one. */
  readonly path: readonly (string | number)[];

  constructor(code: RefusalCode, message: string, path: readonly (string | number)[] = []) {
    super(message);
    this.name = 'Refused';
    this.code = code;
    this.path = path;
  }
}
