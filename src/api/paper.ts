import type { Language, Paper, Plant } from '../batch/plant.ts';
import type { BatchSheet } from '../documents/batch-sheet.ts';
import { batchSheetText } from '../documents/batch-sheet-text.ts';
import { declarationReport } from '../documents/declaration-report.ts';
import { labelText } from '../documents/label-text.ts';
import type { Printed } from '../documents/pdf/page-frame.ts';
import { type ReportPrinted, reportPaper } from '../documents/pdf/report-paper.ts';
import { batchSheetPaper } from '../documents/pdf/sheet/batch-sheet-paper.ts';
import type { Report } from '../documents/report.ts';
import type { Declaration } from '../labels/declaration.ts';
import { sha256 } from '../store/hash.ts';
import { openedBatch } from './batches/opened.ts';
import { type Books, momentOf } from './books.ts';
import type { PaperQuery, SheetQuery } from './contract/printing.ts';
import type { Call, Form } from './endpoint.ts';
import { Problem } from './problem.ts';

/** Forms of answers on paper: how the plant prints where the request says nothing else. */

export const PDF = 'application/pdf';

interface Wanted {
  readonly paper?: Paper | undefined;
  readonly language?: Language | undefined;
}

/** How a document is printed: as it is asked for, or else as the plant prints. */
export function printedBy({ printing = {} }: Pick<Plant, 'printing'>, { paper, language }: Wanted): Printed {
  return {
    paper: paper ?? printing.paper ?? 'letter',
    language: language ?? printing.language ?? 'en',
  };
}

async function printedFor(books: Pick<Books, 'plant'>, wanted: Wanted): Promise<Printed> {
  return printedBy((await books.plant()).plant, wanted);
}

/** More would keep the service from answering others while it draws; 2,000 rows took 1.2 s. */
const MOST_ROWS = 3000;

/**
 * A report on paper, as the plant prints where the request says nothing else.
 * @throws Problem when it has too many rows.
 */
export async function reportOnPaper(
  books: Pick<Books, 'plant'>,
  report: Report,
  { paper }: Pick<Wanted, 'paper'>,
  printed: Omit<ReportPrinted, 'paper'>,
): Promise<Uint8Array> {
  const rows = report.parts.reduce((count, { table }) => count + (table?.rows.length ?? 0), 0);
  if (rows > MOST_ROWS) {
    throw new Problem(
      'invalid-request',
      `${rows} rows are too many for paper; ask for fewer days, or for another form (text/csv).`,
    );
  }
  return reportPaper(report, { ...printed, paper: (await printedFor(books, { paper })).paper });
}

/** The hash of a document as the record keeps it: of its JSON. */
export function hashOfDocument(document: unknown): string {
  return sha256(JSON.stringify(document));
}

/** A batch sheet as text and on paper. The place :id names the batch, where there is one. */
export function sheetForms(books: Pick<Books, 'plant'>): Readonly<Record<string, Form>> {
  return {
    'text/plain': ((sheet: BatchSheet, { language }: SheetQuery) => batchSheetText(sheet, language)) as Form,
    [PDF]: (async (sheet: BatchSheet, query: SheetQuery, { id }: Call['params']) =>
      batchSheetPaper(sheet, {
        ...(await printedFor(books, query)),
        hash: hashOfDocument(sheet),
        withCost: query.cost === 'true',
        batchId: id,
      })) as Form,
  };
}

/** What a label must say as text and on paper. The place :id names the batch, where there is one. */
export function labelForms(books: Books): Readonly<Record<string, Form>> {
  return {
    'text/plain': labelText as Form,
    [PDF]: (async (label: Declaration, query: PaperQuery, { id: batchId }: Call['params']) => {
      const batch =
        batchId === undefined ? undefined : await books.store.read((db) => openedBatch(db, batchId));
      const data = await books.plant();
      // A plant that has another name since made this batch under the old one.
      const { name: plant, establishment } = batch?.basis.plant ?? data.plant;
      return reportOnPaper(books, declarationReport(label, { plant, establishment, batchId }), query, {
        isLandscape: false,
        day: batch?.row.day ?? momentOf(data, books.now()).day,
        hash: hashOfDocument(label),
      });
    }) as Form,
  };
}
