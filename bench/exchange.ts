import { performance } from 'node:perf_hooks';
import { pino } from 'pino';
import { startService } from '../src/api/service.ts';
import { readSettings } from '../src/api/settings.ts';
import { print } from './timing.ts';
import { BATCHES_A_DAY, DAYS_A_YEAR, writeDays } from './year.ts';

/** Spreadsheets of a large plant: how long they take, what memory they need, and how long others wait meanwhile. */

const LOTS = 50_000;

/** Fifty thousand lots in and out, and everything of so many years out. */
export async function exchange(years: number): Promise<void> {
  const settings = {
    ...readSettings({ PORT: '0', STORE: ':memory:', SOLVE_SECONDS: '60' }),
    requestsPerMinute: 1e6,
  };
  const service = await startService(settings, pino({ level: 'silent' }));
  const csv = { 'content-type': 'text/csv' };
  const xlsx = { 'content-type': 'application/octet-stream' };
  const path = (of: string) => `${service.address}/v1/${of}`;
  const send = (of: string, body: string | Uint8Array<ArrayBuffer>, headers: Record<string, string>) =>
    fetch(path(of), { method: 'POST', body, headers });
  try {
    const file = lotsFile();
    for (const [name, of] of [
      ['dry run', 'imports/lots?dryRun=true'],
      ['taken in', 'imports/lots'],
      ['all unchanged', 'imports/lots'],
    ] as const) {
      await measured(`${LOTS} lots as CSV, ${name}`, service.address, () => send(of, file, csv));
    }
    await measured(`${LOTS} lots out as CSV`, service.address, () => fetch(path('exports/lots')));
    const workbook = await measured(`${LOTS} lots out as XLSX`, service.address, () =>
      fetch(path('exports/lots?form=xlsx')),
    );
    await measured(`${LOTS} lots as XLSX, all unchanged`, service.address, () =>
      send('imports/lots?dryRun=true', new Uint8Array(workbook), xlsx),
    );
    await writeDays(service.books.store, 0, years * DAYS_A_YEAR);
    const of = { batches: years * DAYS_A_YEAR * BATCHES_A_DAY };
    await measured('movements out as CSV', service.address, () => fetch(path('exports/movements')), of);
    await measured('everything out as XLSX', service.address, () => fetch(path('exports/all')), of);
  } finally {
    await service.stop();
  }
}

function lotsFile(): string {
  const rows = Array.from(
    { length: LOTS },
    (_, n) =>
      `X${n},beef-trim-73,${600 + (n % 100)}.5,lb,2.05,lb,2026-11-20,2026-12-05,chilled,00001,A-${n},Cooler ${n % 9}`,
  );
  const header =
    'lot_id,material_id,on_hand,unit,cost,cost_per,received_date,use_by_date,state,supplier_establishment,supplier_lot,location';
  return [header, ...rows].join('\n');
}

/** Runs a request while another one asks for the plant again and again. */
async function measured(
  name: string,
  address: string,
  ask: () => Promise<Response>,
  of: Readonly<Record<string, number>> = {},
): Promise<ArrayBuffer> {
  let isDone = false;
  let mostMb = 0;
  const waiting = (async () => {
    let longest = 0;
    while (!isDone) {
      const start = performance.now();
      await (await fetch(`${address}/v1/plant`)).arrayBuffer();
      longest = Math.max(longest, performance.now() - start);
      mostMb = Math.max(mostMb, process.memoryUsage().rss / 2 ** 20);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
    return longest;
  })();
  const start = performance.now();
  const answer = await ask();
  const bytes = await answer.arrayBuffer();
  isDone = true;
  if (!answer.ok) throw new Error(`${name}: ${answer.status} ${Buffer.from(bytes).toString('utf8', 0, 500)}`);
  print(name, (performance.now() - start) / 1000, 's', { ...of, megabytes: bytes.byteLength / 2 ** 20 });
  print(`${name}: longest wait of others`, (await waiting) / 1000, 's', of);
  print(`${name}: most memory of the process`, mostMb, 'MB', of);
  return bytes;
}
