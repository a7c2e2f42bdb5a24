import { pino } from 'pino';
import { sheetAndLabel } from './api/blending.ts';
import { deskOf } from './api/books.ts';
import { startService } from './api/service.ts';
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
  if (desk.data.products.has(WORKED_EXAMPLE.product)) {
    const { sheet, label } = await sheetAndLabel(desk, WORKED_EXAMPLE);
    console.log(`${batchSheetText(sheet)}\n\n${labelText(label)}\n`);
  }
  console.log(`meatblock serves ${desk.data.plant.name} at ${service.address}`);
  console.log(
    `Rules of every market: ${service.address}/rules   API documentation: ${service.address}/docs   Stop: Ctrl-C`,
  );
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
