#!/usr/bin/env node
import { isBooksCommand, readArguments, USAGE, UsageError } from './cli/arguments.ts';
import { EXIT, report } from './cli/exit.ts';

/** The terminal. A command loads what it needs and nothing else, so that it starts at once. */

async function main(args: readonly string[]): Promise<number> {
  const { values, positionals } = readArguments(args);
  const [command, ...words] = positionals;
  if (values.help) {
    console.log(USAGE);
    return EXIT.done;
  }
  if (command === undefined) throw new UsageError('Say what to do.');
  if (isBooksCommand(command)) {
    const { booksCommand } = await import('./cli/books-commands.ts');
    return booksCommand(command, words, values);
  }
  const { deskCommand } = await import('./cli/desk-commands.ts');
  return deskCommand(command, words[0], values);
}

process.exitCode = await main(process.argv.slice(2)).catch(report);
