import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Service } from '../../../src/api/service.ts';
import type { Settings } from '../../../src/api/settings.ts';
import type { Dataset } from '../../../src/tables/sheets/read-dataset.ts';
import { type Json, type Received, ROOT, send, startDemo } from '../running.ts';

/** A plant that has nothing yet, and ways to send it files. */

const NO_LOTS = 'lot_id,material_id,on_hand,unit,cost,cost_per,received_date,state\n';

/** The demo plant without prices and products, and without lots unless some are given. Its folder is only read at the start. */
export async function startEmpty(settings: Partial<Settings> = {}, lots = NO_LOTS): Promise<Service> {
  const folder = mkdtempSync(join(tmpdir(), 'meatblock-empty-'));
  cpSync(join(ROOT, 'demo-data/plant.json'), join(folder, 'plant.json'));
  mkdirSync(join(folder, 'products'));
  writeFileSync(join(folder, 'lots.csv'), lots);
  writeFileSync(join(folder, 'prices.csv'), 'material_id,cost,cost_per\n');
  try {
    return await startDemo({ plantFolder: folder, ...settings });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export const CSV = 'text/csv';
export const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

export interface Sending {
  readonly dryRun?: boolean;
  readonly key?: string;
  readonly type?: string;
}

/** Sends a file. */
export async function sendFile(
  { address }: Pick<Service, 'address'>,
  dataset: Dataset,
  file: string | Buffer,
  { dryRun = false, key, type = CSV }: Sending = {},
): Promise<{ readonly status: number; readonly body: Json }> {
  const { status, text } = await send(address, {
    path: `/v1/imports/${dataset}?dryRun=${dryRun}`,
    headers: { 'content-type': type, ...(key !== undefined && { 'idempotency-key': key }) },
    raw: file,
  });
  return { status, body: JSON.parse(text) };
}

/** Fetches a table. */
export function fetchTable(
  { address }: Pick<Service, 'address'>,
  path: string,
  headers: Readonly<Record<string, string>> = {},
): Promise<Received> {
  return send(address, { method: 'GET', path: `/v1/exports/${path}`, headers });
}
