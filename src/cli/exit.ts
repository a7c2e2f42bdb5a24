import { Problem } from '../api/problem.ts';
import { Refused } from '../ledger/refused.ts';
import { CopyRefused } from '../store/copy-refused.ts';
import { StoreFault } from '../store/faults.ts';
import { TableError } from '../tables/csv.ts';
import { USAGE, UsageError } from './arguments.ts';

export const EXIT = { done: 0, fault: 1, usage: 2, input: 3, noBlend: 4, unsound: 5 } as const;

/** Codes of the operating system for a file that the user named and that cannot be read. */
const FILE_FAULTS = ['ENOENT', 'EISDIR', 'EACCES', 'ENOTDIR'];

/** Says what went wrong and which exit code that is. */
export function report(error: unknown): number {
  if (error instanceof UsageError) {
    console.error(`${error.message}\n\n${USAGE}`);
    return EXIT.usage;
  }
  if (error instanceof Problem) {
    console.error(error.message);
    for (const { pointer, message } of error.errors)
      console.error(`  ${pointer || '(whole request)'}: ${message}`);
    return error.kind === 'no-blend' ? EXIT.noBlend : EXIT.input;
  }
  if ([StoreFault, CopyRefused, Refused, RangeError].some((kind) => error instanceof kind)) {
    console.error((error as Error).message);
    return EXIT.input;
  }
  if (error instanceof TableError || FILE_FAULTS.includes(String((error as NodeJS.ErrnoException).code))) {
    console.error((error as Error).message);
    return EXIT.input;
  }
  console.error(error);
  return EXIT.fault;
}
