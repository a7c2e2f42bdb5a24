import { fromWhereCalled } from '../api/settings.ts';
import { LANGUAGES, type Language, PAPERS, type Paper } from '../batch/plant.ts';
import { OF_PACK_LABELS, type Options, oneOf, UsageError } from './arguments.ts';

/** What a document is printed on, and where to. */
export interface PaperOptions {
  readonly file?: string;
  readonly paper?: Paper;
  readonly language?: Language;
}

/** Commands whose answer also comes as a PDF. */
const PRINTED: readonly string[] = ['sheet', 'label', 'pack-label'];

/** @throws UsageError for what the command does not print. */
export function paperOf(command: string, { pdf, paper, language, cost, ...values }: Options): PaperOptions {
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
