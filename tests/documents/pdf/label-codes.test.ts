import { describe, expect, test } from 'vitest';
import { packLabelPdf } from '../../../src/documents/pdf/label/label.ts';
import { LABEL_STOCKS, type LabelStock } from '../../../src/documents/pdf/label/label-stock.ts';
import type { PackLabel } from '../../../src/labels/packs/pack-label.ts';
import {
  beefBrick,
  cookedLinks,
  shortNumber,
  smallPack,
  verifiedPrice,
  weighedCase,
  weighedTray,
} from './pack-labels.ts';
import { linearCodesOf, MISSING_READERS, matrixCodesOf, picturesOfPdf } from './reading.ts';

/** Every code on every stock, as label printers of 203 and 300 dots to the inch would put it down, read by scanners. */

const SMALL = ['roll-58x40', 'a4-70x51'];
const LOW = ['roll-76x51', 'letter-102x51', 'roll-102x76'];

function labelFor({ id }: LabelStock): PackLabel {
  if (SMALL.includes(id)) return smallPack();
  if (LOW.includes(id)) return cookedLinks();
  return id === 'roll-102x102' ? beefBrick() : weighedTray();
}

/** What a scanner gives of the linear codes. */
function linearOf({ codes }: PackLabel): string[] {
  return codes.flatMap(({ symbology, data }) => {
    if (symbology === 'upc-a') return [`UPC-A:${data}`];
    if (symbology === 'ean-13') return [`EAN-13:${data}`];
    if (symbology === 'ean-8') return [`EAN-8:${data}`];
    return symbology === 'gs1-128' ? [`CODE-128:${scanned(data)}`] : [];
  });
}

/** Identifiers without brackets; the price is the one of variable length before the last. */
function scanned(data: string, separator = ''): string {
  return data.replace(/(\(3922\)\d+)/, `$1${separator}`).replace(/\((\d+)\)/g, '$1');
}

const SEPARATOR = '\u001d';

const missing = MISSING_READERS.length > 0 ? ` (needs ${MISSING_READERS.join(', ')})` : '';

describe.skipIf(MISSING_READERS.length > 0)(`codes are read by scanners${missing}`, () => {
  const read = async (label: PackLabel, stock: LabelStock, dotsPerInch: number) => {
    const [page] = await picturesOfPdf(await packLabelPdf(label, { stock, copies: 1 }), dotsPerInch);
    if (!page) throw new Error('no page');
    const [linear, matrix] = await Promise.all([linearCodesOf(page), matrixCodesOf(page)]);
    expect(linear.sort()).toEqual(linearOf(label).sort());
    const data = label.codes.find(({ symbology }) => symbology === 'gs1-datamatrix')?.data ?? '';
    // The reader shows the sign for functions as a separator, also that at the start.
    expect(matrix).toEqual([SEPARATOR + scanned(data, SEPARATOR)]);
  };

  test.each(LABEL_STOCKS.map((stock) => [stock.id, stock] as const))('on %s', async (_, stock) => {
    // Sheets come from office printers, which are finer than either: the coarser one shows enough.
    for (const dotsPerInch of stock.sheet ? [203] : [203, 300]) {
      await read(labelFor(stock), stock, dotsPerInch);
    }
  });

  test.each([203, 300])('a short number, and a price with its verifier, at %d dots', async (dotsPerInch) => {
    const stock = LABEL_STOCKS.find(({ id }) => id === 'roll-102x76') as LabelStock;
    await read(shortNumber(), stock, dotsPerInch);
    await read(verifiedPrice(), stock, dotsPerInch);
  });

  test.each([203, 300])('long ones of a case at %d dots', async (dotsPerInch) => {
    const stock = LABEL_STOCKS.find(({ id }) => id === 'roll-102x76') as LabelStock;
    await read(weighedCase(), stock, dotsPerInch);
  });
});
