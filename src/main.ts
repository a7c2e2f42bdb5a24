import { pino } from 'pino';
import { type Desk, sheetAndLabel } from './api/blending.ts';
import { deskOf } from './api/books.ts';
import { Problem } from './api/problem.ts';
import { type Service, startService } from './api/service.ts';
import { readSettings } from './api/settings.ts';
import { batchSheetText } from './documents/batch-sheet-text.ts';
import { labelText } from './documents/label-text.ts';

/** Starts the service, prints its address and one worked batch sheet, and stops on a signal. */

const WORKED_EXAMPLE = { product: 'smoked-sausage', batchSize: { total: { value: 500, unit: 'lb' } } };

async function main(): Promise<void> {
  const settings = readSettings(process.env);
  const logger = pino({ level: settings.logLevel }, pino.destination({ dest: 2, sync: false }));
  const service = await startService(settings, logger);
  const stop = (signal: string) => {
    logger.info({ signal }, 'stopping');
    service.stop().then(
      () => process.exit(0),
      () => process.exit(1),
    );
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);

  const desk = await deskOf(service.books);
  const example = await workedExample(desk);
  if (example !== undefined) console.log(`${example}\n`);
  console.log(`meatblock serves ${desk.data.plant.name} at ${service.address}   Open it in a browser.`);
  for (const line of await entranceLines(service)) console.log(line);
  console.log(
    `Rules of every market: ${service.address}/rules   API documentation: ${service.address}/docs   Stop: Ctrl-C`,
  );
}

/**
 * One batch worked out on what a demonstration has on hand. Its lots may be used up by now, and the machine may be busy:
 * then it is left out, for nothing of the service hangs on it.
 */
async function workedExample(desk: Desk): Promise<string | undefined> {
  const { plant, products } = desk.data;
  if (plant.demoDate === undefined || !products.has(WORKED_EXAMPLE.product)) return undefined;
  try {
    const { sheet, label } = await sheetAndLabel(desk, WORKED_EXAMPLE);
    return `${batchSheetText(sheet)}\n\n${labelText(label)}`;
  } catch (error) {
    if (error instanceof Problem) return `No worked example: ${error.message}`;
    throw error;
  }
}

/** How people get in. The set-up code goes to the terminal alone, never into the log. */
async function entranceLines({ access, address }: Service): Promise<string[]> {
  if (await access.isOpen()) {
    return ['A demonstration without accounts: whoever is on this machine may do everything.'];
  }
  const code = (await access.isSetUpNeeded()) ? access.setUp.code() : undefined;
  if (code === undefined) return [];
  return [
    `This plant has no admin yet. Set-up code: ${code}   (good for 30 minutes; a new start prints a new one)`,
    `Open ${address} in a browser and write it there, or: POST ${address}/v1/set-up {"code": "${code}", "name": "...", "password": "..."}`,
  ];
}

main().catch((error: unknown) => {
  console.error(explain(error));
  process.exit(1);
});

function explain(error: unknown): string {
  const { code, message, stack } = error as NodeJS.ErrnoException;
  if (code === 'EADDRINUSE')
    return `The port is taken. Choose another, for example: PORT=8090 npm start\n(${message})`;
  if (code === 'ENOENT') return `A file is missing: ${message}`;
  return ['Error', 'TableError', 'StoreFault'].includes((error as Error).name) ? message : (stack ?? message);
}
