import { parseArgs } from 'node:util';

/** What stands on the command line, and what may. */

export const USAGE = `meatblock: what goes into a batch, from the terminal

  meatblock sheet  FILE     batch sheet of a request (JSON, as POST /v1/batch-sheets takes it)
  meatblock label  FILE     label declaration of the same
  meatblock pack-label FILE what sticks on a pack, as JSON (JSON, as POST /v1/pack-labels takes it)
  meatblock blend  FILE     the blend alone, as JSON
  meatblock explain FILE    every limit of the blend: figure, bound, room and who brings how much of it
  meatblock curve  FILE     least cost along a bound or a price (JSON, as POST /v1/curves takes it)
  meatblock correct FILE    what to add to a mix whose fat test is off (JSON, as POST /v1/corrections takes it)
  meatblock use-up FILE     which products to make of what is on hand (JSON, as POST /v1/use-plans takes it)
  meatblock trim            what past fat tests say of each supplier's trim
  meatblock limits PRODUCT  limits that apply to a product of the plant, or to a product class
  meatblock classes         product classes of a jurisdiction
  meatblock products        products of the plant

  meatblock import DATASET FILE   a spreadsheet (CSV or .xlsx) into the live store: lots, materials, prices or
                            products, all of it or nothing; --dry-run says what would be, and every fault
  meatblock export DATASET FILE   a table out of the live store, as .csv or .xlsx by the ending of FILE; all
                            is one workbook with a sheet of each
  meatblock print WHAT [ID] what the live store holds, as text or with --pdf on paper: sheet BATCH, label BATCH,
                            pack-label LOT, recall-drill ID; grinding-log, fat-test-log, cleaning-log,
                            restricted-ingredient-log and cost-report with --from and --to
  meatblock verify          whether the books of the plant hold together: chain, rows, balances
  meatblock backup FILE     the whole store into one new file, while the service runs
  meatblock restore FILE    a backup into a store that is empty
  meatblock reset-password NAME   a new password for someone who lost it, from this machine alone
  meatblock move URL        the whole store to another, a file or postgres://…, counted and compared

  FILE may be - for standard input.
  --json           print JSON instead of text
  --plant FOLDER   the plant's folder (default: the demo plant)
  --tables FOLDER  the ingredient tables
  --date DAY       day of the rules for limits, YYYY-MM-DD
  --engine NAME    the one engine to solve with: javascript-lp-solver or highs (default: by problem)
  --store URL      the live store: a file, or postgres://… (default: STORE; without one, the plant's files)
  --head HASH      for verify: the head that was written down, to show that nothing was cut off since
  --despite-findings  restore or move books that do not hold together, with their faults
  --pdf OUT        for sheet, label, pack-label and print: a PDF into this file instead of text
  --stock ID       for the PDF of a pack-label: the label paper (default: the pack's, or the plant's)
  --part NAME      for the PDF of a pack-label: front or back, for packs that take two smaller labels (default: whole)
  --copies N       for the PDF of a pack-label: how many; --start N at which label of a sheet, --guides to cut along
  --net WEIGHT     for print pack-label: what the pack weighs, where packs are weighed one by one; --unit UNIT of it
  --from DAY --to DAY   for print of logs and the cost report: the days, YYYY-MM-DD (default: the last week)
  --paper NAME     letter or a4 (default: the plant's)
  --language NAME  for sheet: en or es, for what the floor reads (default: the plant's on paper, en as text)
  --cost           for the PDF of a sheet: with its prices, which a sheet for the floor does not show
  --dry-run        for import: write nothing
  --decimal SIGN   for export to .csv: point or comma (default: point; comma puts semicolons between cells)
  --market PLACE   jurisdiction for limits and classes: us, eu, gb, ca, codex, anz (default: the plant's)

Ends with 0 when done, 2 when called wrongly, 3 when the input cannot be used,
4 when no blend keeps every limit, 5 when books do not hold together, 1 when the program itself fails.`;

/** Commands about the live store. */
export const STORE_COMMANDS = ['verify', 'backup', 'restore', 'move'] as const;
export type StoreCommandName = (typeof STORE_COMMANDS)[number];
const BOOKS_COMMANDS: readonly string[] = [...STORE_COMMANDS, 'import', 'export', 'print', 'reset-password'];

export const isBooksCommand = (command: string): boolean => BOOKS_COMMANDS.includes(command);

/** Words that a command takes besides its own name; one when it stands not here. */
const WORDS: Readonly<Record<string, number>> = {
  products: 0,
  classes: 0,
  trim: 0,
  verify: 0,
  import: 2,
  export: 2,
  print: 2,
};

/** The command line cannot be understood: the usage is shown. */
export class UsageError extends Error {}

export type Options = ReturnType<typeof readArguments>['values'];

/** @throws UsageError for an option that there is not or a word too many. */
export function readArguments(args: readonly string[]) {
  const parsed = parsedArguments(args);
  const [command = '', ...words] = parsed.positionals;
  const surplus = words[WORDS[command] ?? 1];
  if (surplus !== undefined) throw new UsageError(`"${surplus}" is one word too many`);
  return parsed;
}

function parsedArguments(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        help: { type: 'boolean', short: 'h' },
        json: { type: 'boolean' },
        plant: { type: 'string' },
        tables: { type: 'string' },
        date: { type: 'string' },
        market: { type: 'string' },
        engine: { type: 'string' },
        store: { type: 'string' },
        head: { type: 'string' },
        'dry-run': { type: 'boolean' },
        decimal: { type: 'string' },
        'despite-findings': { type: 'boolean' },
        pdf: { type: 'string' },
        paper: { type: 'string' },
        language: { type: 'string' },
        cost: { type: 'boolean' },
        stock: { type: 'string' },
        part: { type: 'string' },
        copies: { type: 'string' },
        start: { type: 'string' },
        guides: { type: 'boolean' },
        net: { type: 'string' },
        unit: { type: 'string' },
        from: { type: 'string' },
        to: { type: 'string' },
      },
    });
  } catch (error) {
    throw new UsageError((error as Error).message);
  }
}

/** @throws UsageError for what is none of the names. */
export function oneOf<Name extends string>(option: string, given: string, names: readonly Name[]): Name {
  const found = names.find((name) => name === given);
  if (found === undefined) throw new UsageError(`--${option} ${given}: choose one of ${names.join(', ')}`);
  return found;
}

/** Options that only what is printed out of the store takes, and those of label paper. */
export const PRINT_ONLY = ['from', 'to', 'net', 'unit'] as const;
export const OF_PACK_LABELS = ['stock', 'part', 'copies', 'start', 'guides'] as const;
