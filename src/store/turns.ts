/** Lets work be done one after the other, in the order in which it was asked for. */
export type Turns = <Result>(work: () => Promise<Result>) => Promise<Result>;

export function takeTurns(): Turns {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const mine = last.then(work, work);
    last = mine.catch(() => {});
    return mine;
  };
}
