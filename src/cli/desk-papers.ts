import { type Desk, label, sheet } from '../api/blending.ts';
import { printQuery } from '../api/labels/contract.ts';
import { labelOfBlend, printedLabel } from '../api/labels/make.ts';
import { hashOfDocument, printedBy } from '../api/paper.ts';
import { parseOrProblem } from '../api/parse.ts';
import { declarationReport } from '../documents/declaration-report.ts';
import { reportPaper } from '../documents/pdf/report-paper.ts';
import { batchSheetPaper } from '../documents/pdf/sheet/batch-sheet-paper.ts';
import type { Options } from './arguments.ts';
import type { PaperOptions } from './paper-options.ts';
import { writeWhole } from './whole-file.ts';

/** What was worked out, into a file as a PDF. @param command sheet, label or pack-label. */
export async function printDesk(
  command: string,
  desk: Desk,
  request: unknown,
  paper: PaperOptions & { readonly file: string },
  options: Options,
): Promise<void> {
  await writeWhole(paper.file, await pdfOf(command, desk, request, paper, options));
  console.log(`Written: ${paper.file}`);
}

async function pdfOf(
  command: string,
  desk: Desk,
  request: unknown,
  paper: PaperOptions,
  options: Options,
): Promise<Uint8Array> {
  const printed = printedBy(desk.data.plant, paper);
  if (command === 'sheet') {
    const answer = await sheet(desk, request);
    return batchSheetPaper(answer, {
      ...printed,
      withCost: options.cost ?? false,
      hash: hashOfDocument(answer),
    });
  }
  if (command === 'label') {
    const answer = await label(desk, request);
    const { name: plant, establishment } = desk.data.plant;
    const report = declarationReport(answer, { plant, establishment });
    const hash = hashOfDocument(answer);
    return reportPaper(report, { ...printed, isLandscape: false, day: desk.today(), hash });
  }
  const { stock, part, copies, start, guides } = options;
  const asked = { stock, part, copies, start, guides: guides ? 'true' : undefined };
  const given = Object.fromEntries(Object.entries(asked).filter(([, value]) => value !== undefined));
  return printedLabel(await labelOfBlend(desk, request), parseOrProblem(printQuery, given));
}
