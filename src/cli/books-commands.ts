import { folderOf, fromWhereCalled } from '../api/settings.ts';
import {
  OF_PACK_LABELS,
  type Options,
  oneOf,
  STORE_COMMANDS,
  type StoreCommandName,
  UsageError,
} from './arguments.ts';
import { EXIT } from './exit.ts';
import { refuseNoStore, storeUrlFrom } from './where-the-store-is.ts';
import { writeWhole } from './whole-file.ts';

/** Commands about the live store. What each of them needs is loaded when it is called. */

/** @returns the exit code. @throws UsageError, and what the command itself refuses. */
export async function booksCommand(
  command: string,
  [operand, second]: readonly string[],
  options: Options,
): Promise<number> {
  const onStore = STORE_COMMANDS.find((name) => name === command);
  if (onStore) return onTheStore(onStore, operand, options);
  const storeUrl = storeUrlFrom(options);
  refuseNoStore(storeUrl);
  const where = { storeUrl, tablesFolder: folderOf(options.tables, 'ingredient-tables', process.env) };
  switch (command) {
    case 'import':
      return takeIn(operand, second, where, options);
    case 'export':
      return giveOut(operand, second, where, options);
    case 'print':
      return printOut(operand, second, where, options);
    default:
      return newPassword(operand, where, options);
  }
}

interface Where {
  readonly storeUrl: string;
  readonly tablesFolder: string;
}

async function onTheStore(
  name: StoreCommandName,
  operand: string | undefined,
  options: Options,
): Promise<number> {
  const { storeCommand } = await import('./store-commands.ts');
  const storeUrl = storeUrlFrom(options);
  if (name !== 'restore') refuseNoStore(storeUrl);
  const done = await storeCommand(name, operandOf(name, operand), {
    storeUrl,
    ...(options.head !== undefined && { head: options.head }),
    ...(options['despite-findings'] && { despiteFindings: true }),
  });
  console.log(options.json ? JSON.stringify(done.json, null, 2) : done.text);
  return done.isSound ? EXIT.done : EXIT.unsound;
}

function operandOf(name: StoreCommandName, operand: string | undefined): string {
  if (name === 'verify') return '';
  if (operand !== undefined) return operand;
  throw new UsageError(name === 'move' ? 'name the store to move to' : 'name a file');
}

async function takeIn(
  dataset: string | undefined,
  file: string | undefined,
  where: Where,
  options: Options,
): Promise<number> {
  if (dataset === undefined || file === undefined) throw new UsageError('name a dataset and a file');
  const { importCommand, importText } = await import('./exchange-commands.ts');
  const answer = await importCommand(dataset, file, { ...where, dryRun: options['dry-run'] ?? false });
  console.log(options.json ? JSON.stringify(answer, null, 2) : importText(answer));
  return answer.counts.faults > 0 ? EXIT.input : EXIT.done;
}

async function giveOut(
  dataset: string | undefined,
  file: string | undefined,
  where: Where,
  options: Options,
): Promise<number> {
  if (dataset === undefined || file === undefined) throw new UsageError('name a dataset and a file');
  const { exportCommand } = await import('./exchange-commands.ts');
  const decimal = oneOf('decimal', options.decimal ?? 'point', ['point', 'comma']);
  const done = await exportCommand(dataset, file, { ...where, decimal });
  console.log(options.json ? JSON.stringify(done, null, 2) : `Written: ${done.file}`);
  return EXIT.done;
}

/** A document of the live store, into a file as a PDF or onto the terminal. */
async function printOut(
  what: string | undefined,
  id: string | undefined,
  where: Where,
  options: Options,
): Promise<number> {
  const { PRINTED_DOCUMENTS, printCommand } = await import('./print-command.ts');
  if (what === undefined) throw new UsageError(`name what to print: ${PRINTED_DOCUMENTS.join(', ')}`);
  const { pdf, from, to, paper, language, stock, part, copies, start, net, unit } = options;
  for (const option of ['paper', 'cost', ...OF_PACK_LABELS] as const) {
    if (options[option] !== undefined && pdf === undefined) {
      throw new UsageError(`--${option} is for a PDF; name its file with --pdf`);
    }
  }
  const printed = await printCommand(what, id, {
    ...where,
    query: {
      ...{ paper, language, stock, part, copies, start, net, unit, fromDay: from, toDay: to },
      ...{ cost: flag(options.cost), guides: flag(options.guides) },
    },
    form: pdf !== undefined ? 'pdf' : options.json ? 'json' : 'text',
  });
  if (typeof printed === 'string') {
    console.log(printed.trimEnd());
    return EXIT.done;
  }
  const file = fromWhereCalled(pdf ?? '', process.env);
  await writeWhole(file, printed);
  console.log(`Written: ${file}`);
  return EXIT.done;
}

/** A flag as query parameters have it. */
function flag(isSet: boolean | undefined): 'true' | undefined {
  return isSet ? 'true' : undefined;
}

async function newPassword(name: string | undefined, { storeUrl }: Where, options: Options): Promise<number> {
  if (name === undefined) throw new UsageError('name a person');
  const { openStore } = await import('../store/store.ts');
  const { resetPassword } = await import('../api/access/reset-password.ts');
  const store = await openStore(storeUrl);
  try {
    const done = await resetPassword(store, name);
    console.log(
      options.json
        ? JSON.stringify(done, null, 2)
        : [
            `New password of ${done.name}: ${done.password}`,
            'It is shown once. Change it after the next login.',
          ].join('\n'),
    );
    return EXIT.done;
  } finally {
    await store.close();
  }
}
