#!/usr/bin/env node
import { existsSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { resetPassword } from './api/access/reset-password.ts';
import { blend, type Desk, label, sheet } from './api/blending.ts';
import { dayAt } from './api/books.ts';
import { dateSchema } from './api/contract/quantities.ts';
import { correction } from './api/correcting.ts';
import { curve } from './api/curves.ts';
import { doJob } from './api/jobs.ts';
import { printQuery } from './api/labels/contract.ts';
import { labelOfBlend, printedLabel } from './api/labels/make.ts';
import { loadPlant } from './api/load-plant.ts';
import { hashOfDocument, printedBy } from './api/paper.ts';
import { parseOrProblem } from './api/parse.ts';
import { plantOfStore } from './api/plant-of-store.ts';
import { notJson, Problem } from './api/problem.ts';
import { listTrim } from './api/resources.ts';
import { listRules } from './api/rules.ts';
import { folderOf, fromWhereCalled, storeUrlOf } from './api/settings.ts';
import { usePlan } from './api/use-planning.ts';
import { LANGUAGES, PAPERS } from './batch/plant.ts';
import { type ExchangeOptions, exportCommand, importCommand, importText } from './cli/exchange-commands.ts';
import { PRINTED_DOCUMENTS, printCommand } from './cli/print-command.ts';
import {
  STORE_COMMANDS,
  type StoreCommandName,
  type StoreOptions,
  storeCommand,
} from './cli/store-commands.ts';
import { writeWhole } from './cli/whole-file.ts';
import { batchSheetText } from './documents/batch-sheet-text.ts';
import { correctionText } from './documents/correction-text.ts';
import { curveText } from './documents/curve-text.ts';
import { declarationReport } from './documents/declaration-report.ts';
import { explanationText } from './documents/explanation-text.ts';
import { labelText } from './documents/label-text.ts';
import { limitsText } from './documents/limits-text.ts';
import { reportPaper } from './documents/pdf/report-paper.ts';
import { batchSheetPaper } from './documents/pdf/sheet/batch-sheet-paper.ts';
import { trimText } from './documents/trim-text.ts';
import { usePlanText } from './documents/use-plan-text.ts';
import { wayOutText } from './documents/way-out-text.ts';
import { Refused } from './ledger/refused.ts';
import { ENGINE_NAMES, type EngineName } from './solver/engine-names.ts';
import { loadEngines } from './solver/engines/load.ts';
import { RULE_SETS } from './standards/all.ts';
import { CopyRefused } from './store/copy-refused.ts';
import { StoreFault } from './store/faults.ts';
import { dialectOf, type StoreUrl } from './store/open.ts';
import { snapshot } from './store/snapshot.ts';
import { openStore } from './store/store.ts';
import { TableError } from './tables/csv.ts';
import { loadMaterials } from './tables/materials.ts';
import type { PlantData } from './tables/plant-folder.ts';

const USAGE = `meatblock: what goes into a batch, from the terminal

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

const EXIT = { done: 0, fault: 1, usage: 2, input: 3, noBlend: 4, unsound: 5 } as const;

/** Codes of the operating system for a file that the user named and that cannot be read. */
const FILE_FAULTS = ['ENOENT', 'EISDIR', 'EACCES', 'ENOTDIR'];

/** Commands that stand alone. */
const WITHOUT_OPERAND: readonly string[] = ['products', 'classes', 'trim', 'verify'];

/** Commands that take a dataset and a file. */
const WITH_FILE: readonly string[] = ['import', 'export'];

/** Commands that take two words or one. */
const WITH_ID: readonly string[] = ['print'];

class UsageError extends Error {}

async function main(args: readonly string[]): Promise<number> {
  const { values, positionals } = readArguments(args);
  const [command, operand, file] = positionals;
  if (values.help) {
    console.log(USAGE);
    return EXIT.done;
  }
  if (command === undefined) throw new UsageError('Say what to do.');
  const takesTwo = WITH_FILE.includes(command) || WITH_ID.includes(command);
  const surplus = positionals[WITHOUT_OPERAND.includes(command) ? 1 : takesTwo ? 3 : 2];
  if (surplus !== undefined) throw new UsageError(`"${surplus}" is one word too many`);
  const print = <Answer>(answer: Answer, text: (answer: Answer) => string) =>
    console.log(values.json ? JSON.stringify(answer, null, 2) : text(answer));
  const onStore = STORE_COMMANDS.find((name) => name === command);
  if (onStore) {
    const options = storeOptions(values);
    if (onStore !== 'restore') refuseNoStore(options.storeUrl);
    const done = await storeCommand(onStore, operandOf(onStore, operand), options);
    console.log(values.json ? JSON.stringify(done.json, null, 2) : done.text);
    return done.isSound ? EXIT.done : EXIT.unsound;
  }
  if (WITH_FILE.includes(command)) {
    const options = exchangeOptions(values);
    if (operand === undefined || file === undefined) throw new UsageError('name a dataset and a file');
    if (command === 'import') {
      const dryRun = values['dry-run'] ?? false;
      const answer = await importCommand(operand, file, { ...options, dryRun });
      print(answer, importText);
      return answer.counts.faults > 0 ? EXIT.input : EXIT.done;
    }
    const decimal = oneOf('decimal', values.decimal ?? 'point', ['point', 'comma']);
    print(await exportCommand(operand, file, { ...options, decimal }), (done) => `Written: ${done.file}`);
    return EXIT.done;
  }
  if (command === 'print') {
    if (operand === undefined) throw new UsageError(`name what to print: ${PRINTED_DOCUMENTS.join(', ')}`);
    await printOut(operand, file, values);
    return EXIT.done;
  }
  for (const option of PRINT_ONLY) {
    if (values[option] !== undefined) throw new UsageError(`--${option} is for print`);
  }
  if (command === 'reset-password') {
    if (operand === undefined) throw new UsageError('name a person');
    print(await newPasswordFor(operand, storeOptions(values).storeUrl), ({ name, password }) =>
      [`New password of ${name}: ${password}`, 'It is shown once. Change it after the next login.'].join(
        '\n',
      ),
    );
    return EXIT.done;
  }
  const paper = paperOf(command, values);
  const desk = await openDesk(values, engineOf(values.engine));

  switch (command) {
    case 'sheet': {
      const answer = await sheet(desk, readRequest(operand));
      if (paper.file === undefined) {
        print(answer, (found) => batchSheetText(found, paper.language));
      } else {
        const printed = { ...printedBy(desk.data.plant, paper), withCost: values.cost ?? false };
        await putOnPaper(
          paper.file,
          await batchSheetPaper(answer, { ...printed, hash: hashOfDocument(answer) }),
        );
      }
      return EXIT.done;
    }
    case 'label': {
      const answer = await label(desk, readRequest(operand));
      if (paper.file === undefined) {
        print(answer, labelText);
      } else {
        const { name, establishment } = desk.data.plant;
        const printed = { ...printedBy(desk.data.plant, paper), isLandscape: false, day: desk.today() };
        const report = declarationReport(answer, { plant: name, establishment });
        await putOnPaper(paper.file, await reportPaper(report, { ...printed, hash: hashOfDocument(answer) }));
      }
      return EXIT.done;
    }
    case 'pack-label': {
      const answer = await labelOfBlend(desk, readRequest(operand));
      if (paper.file === undefined) {
        console.log(JSON.stringify(answer, null, 2));
      } else {
        const { stock, part, copies, start, guides } = values;
        const wanted = parseOrProblem(
          printQuery,
          given({ stock, part, copies, start, guides: flag(guides) }),
        );
        await putOnPaper(paper.file, await printedLabel(answer, wanted));
      }
      return EXIT.done;
    }
    case 'blend': {
      const answer = await blend(desk, readRequest(operand));
      console.log(JSON.stringify(answer, null, 2));
      return answer.outcome === 'blend' ? EXIT.done : EXIT.noBlend;
    }
    case 'explain': {
      const answer = await blend(desk, readRequest(operand));
      if (answer.outcome === 'no blend') {
        print(answer, wayOutText);
        return EXIT.noBlend;
      }
      print(answer, explanationText);
      return EXIT.done;
    }
    case 'curve': {
      const answer = await curve(desk, readRequest(operand));
      print(answer, curveText);
      return answer.outcome === 'curve' ? EXIT.done : EXIT.noBlend;
    }
    case 'correct': {
      const answer = await correction(desk, readRequest(operand));
      print(answer, correctionText);
      return answer.outcome === 'cannot be brought back' ? EXIT.noBlend : EXIT.done;
    }
    case 'use-up':
      print(await usePlan(desk, readRequest(operand)), usePlanText);
      return EXIT.done;
    case 'trim':
      print(listTrim(desk), trimText);
      return EXIT.done;
    case 'limits':
      print(limitsOf(desk, operand, values), limitsText);
      return EXIT.done;
    case 'classes':
      print(classesOf(desk, values), ({ standards }) =>
        standards
          .map(({ productClass, says, citation }) => `${productClass}  ${says} (${citation})`)
          .join('\n'),
      );
      return EXIT.done;
    case 'products':
      print(
        [...desk.data.products.values()].map(({ json }) => json),
        () =>
          [...desk.data.products.values()].map(({ product }) => `${product.id}  ${product.name}`).join('\n'),
      );
      return EXIT.done;
    default:
      throw new UsageError(`"${command}" is no command`);
  }
}

function readArguments(args: readonly string[]) {
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

/** Commands whose answer also comes as a PDF. */
const PRINTED: readonly string[] = ['sheet', 'label', 'pack-label'];

/** What a document is printed on, and where to. @throws UsageError for what the command does not print. */
function paperOf(
  command: string,
  { pdf, paper, language, cost, ...values }: ReturnType<typeof readArguments>['values'],
) {
  const refuse = (option: string, where: string) => new UsageError(`--${option} is for ${where}`);
  if (pdf !== undefined && !PRINTED.includes(command)) throw refuse('pdf', PRINTED.join(', '));
  for (const option of OF_PACK_LABELS) {
    if (values[option] !== undefined && (pdf === undefined || command !== 'pack-label')) {
      throw refuse(option, 'the PDF of a pack-label');
    }
  }
  if (paper !== undefined && pdf === undefined) throw refuse('paper', 'a PDF; name its file with --pdf');
  if (cost && (pdf === undefined || command !== 'sheet')) throw refuse('cost', 'the PDF of a sheet');
  if (language !== undefined && command !== 'sheet') throw refuse('language', 'sheet');
  return {
    ...(pdf !== undefined && { file: fromWhereCalled(pdf, process.env) }),
    ...(paper !== undefined && { paper: oneOf('paper', paper, PAPERS) }),
    ...(language !== undefined && { language: oneOf('language', language, LANGUAGES) }),
  };
}

function oneOf<Name extends string>(option: string, given: string, names: readonly Name[]): Name {
  const found = names.find((name) => name === given);
  if (found === undefined) throw new UsageError(`--${option} ${given}: choose one of ${names.join(', ')}`);
  return found;
}

/** Options that only what is printed out of the store takes, and those of label paper. */
const PRINT_ONLY = ['from', 'to', 'net', 'unit'] as const;
const OF_PACK_LABELS = ['stock', 'part', 'copies', 'start', 'guides'] as const;

/** A document of the live store, into a file as a PDF or onto the terminal. */
async function printOut(
  what: string,
  id: string | undefined,
  values: ReturnType<typeof readArguments>['values'],
): Promise<void> {
  const { pdf, from, to, paper, language, stock, part, copies, start, net, unit } = values;
  for (const option of ['paper', 'cost', ...OF_PACK_LABELS] as const) {
    if (values[option] !== undefined && pdf === undefined) {
      throw new UsageError(`--${option} is for a PDF; name its file with --pdf`);
    }
  }
  const options = exchangeOptions(values);
  const printed = await printCommand(what, id, {
    ...options,
    query: {
      ...{ paper, language, stock, part, copies, start, net, unit, fromDay: from, toDay: to },
      ...{ cost: flag(values.cost), guides: flag(values.guides) },
    },
    form: pdf !== undefined ? 'pdf' : values.json ? 'json' : 'text',
  });
  if (typeof printed === 'string') console.log(printed.trimEnd());
  else await putOnPaper(fromWhereCalled(pdf ?? '', process.env), printed);
}

/** A flag as query parameters have it. */
function flag(isSet: boolean | undefined): 'true' | undefined {
  return isSet ? 'true' : undefined;
}

/** Without what was not given. */
function given(options: Readonly<Record<string, string | undefined>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(options).filter((one): one is [string, string] => one[1] !== undefined),
  );
}

async function putOnPaper(file: string, pdf: Uint8Array): Promise<void> {
  await writeWhole(file, pdf);
  console.log(`Written: ${file}`);
}

interface Where {
  readonly plant?: string | undefined;
  readonly tables?: string | undefined;
  readonly store?: string | undefined;
}

/** The plant as its store has it, or as its files do where no store is named. */
async function openDesk({ plant, tables, store }: Where, engine: EngineName | undefined): Promise<Desk> {
  const plantFolder = folderOf(plant, 'demo-data', process.env);
  const tablesFolder = folderOf(tables, 'ingredient-tables', process.env);
  const named = store ?? process.env.STORE;
  const data =
    named === undefined
      ? loadPlant(plantFolder, tablesFolder, RULE_SETS)
      : await plantInStore(storeUrlOf(named, plantFolder, process.env), tablesFolder);
  return {
    data,
    ruleSets: RULE_SETS,
    today: () => data.plant.demoDate ?? dayAt(data.plant.timeZone, new Date()),
    work: async (name, of) => doJob(name, of, (await loadEngines(engine)).engines),
  };
}

/** Only looks: the service may be running on the same store. */
function plantInStore(url: string, tablesFolder: string): Promise<PlantData> {
  refuseNoStore(url);
  const tables = loadMaterials(tablesFolder);
  return snapshot(url, (db) => plantOfStore({ read: (look) => look(db) }, tables)());
}

async function newPasswordFor(name: string, storeUrl: string) {
  refuseNoStore(storeUrl);
  const store = await openStore(storeUrl);
  try {
    return await resetPassword(store, name);
  } finally {
    await store.close();
  }
}

/** Looking makes no store: a name that is mistyped must not look like books that are lost. @throws CopyRefused */
function refuseNoStore(url: StoreUrl): void {
  if (dialectOf(url) !== 'SQLite' || existsSync(url)) return;
  throw new CopyRefused(
    `There is no store ${url}. Name it with --store or STORE; a new plant has one after the first start of the service.`,
  );
}

function operandOf(name: StoreCommandName, operand: string | undefined): string {
  if (name === 'verify') return '';
  if (operand !== undefined) return operand;
  throw new UsageError(name === 'move' ? 'name the store to move to' : 'name a file');
}

function storeOptions(values: ReturnType<typeof readArguments>['values']): StoreOptions {
  const plantFolder = folderOf(values.plant, 'demo-data', process.env);
  return {
    storeUrl: storeUrlOf(values.store ?? process.env.STORE, plantFolder, process.env),
    ...(values.head !== undefined && { head: values.head }),
    ...(values['despite-findings'] && { despiteFindings: true }),
  };
}

function exchangeOptions(values: ReturnType<typeof readArguments>['values']): ExchangeOptions {
  const { storeUrl } = storeOptions(values);
  refuseNoStore(storeUrl);
  return { storeUrl, tablesFolder: folderOf(values.tables, 'ingredient-tables', process.env) };
}

function engineOf(name: string | undefined): EngineName | undefined {
  const found = ENGINE_NAMES.find((engine) => engine === name);
  if (name !== undefined && !found) {
    throw new UsageError(`--engine ${name}: choose one of ${ENGINE_NAMES.join(', ')}`);
  }
  return found;
}

function readRequest(file: string | undefined): unknown {
  if (file === undefined) throw new UsageError('name a JSON file, or - for standard input');
  const text = readText(file);
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw notJson(file === '-' ? 'Standard input' : file, error as Error);
  }
}

function readText(file: string): string {
  try {
    return readFileSync(file === '-' ? 0 : fromWhereCalled(file, process.env), 'utf8');
  } catch (error) {
    throw new Problem('not-found', `${file} cannot be read: ${(error as Error).message}.`);
  }
}

/** Limits of a product of the plant, or of a class when no product has that id. */
function limitsOf(desk: Desk, name: string | undefined, where: WhereAndWhen) {
  if (name === undefined) throw new UsageError('name a product or a product class');
  const place = where.market === undefined ? {} : { jurisdiction: where.market };
  const what = desk.data.products.has(name) ? { product: name } : { productClass: name };
  return listRules(desk, { ...place, ...what, ...dayOf(where) });
}

function classesOf(desk: Desk, where: WhereAndWhen) {
  return listRules(desk, {
    ...(where.market !== undefined && { jurisdiction: where.market }),
    ...dayOf(where),
  });
}

interface WhereAndWhen {
  readonly date?: string | undefined;
  readonly market?: string | undefined;
}

function dayOf({ date }: WhereAndWhen): { date?: string } {
  if (date === undefined) return {};
  if (dateSchema.safeParse(date).success) return { date };
  throw new UsageError(`--date ${date}: write a calendar day such as 2026-11-25`);
}

/** Says what went wrong and which exit code that is. */
function report(error: unknown): number {
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

process.exitCode = await main(process.argv.slice(2)).catch(report);
