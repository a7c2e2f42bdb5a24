/**
 * Writes trim-lines.csv from usda/usda-sr.csv and prints the errors on rows that were not fitted.
 * With --check it writes nothing and fails when the file differs from what it computes.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { errorTable, fitTrimLines, nutrientErrorTable, readUsdaRows, trimLinesCsv } from './fit.ts';

const target = new URL('trim-lines.csv', import.meta.url);
const rows = readUsdaRows(readFileSync(new URL('usda/usda-sr.csv', import.meta.url), 'utf8'));
const computed = trimLinesCsv(fitTrimLines(rows));

if (!process.argv.includes('--check')) {
  writeFileSync(target, computed);
  process.stdout.write(`${errorTable(rows)}\n${nutrientErrorTable(rows)}`);
} else if (readFileSync(target, 'utf8') !== computed) {
  process.stderr.write('trim-lines.csv differs from its fit; run fit-trim-lines.ts and look at the change\n');
  process.exitCode = 1;
}
