import { parse } from 'csv-parse/sync';
import { DELIMITERS, type Delimiter, type Grid, MOST_COLUMNS, MOST_ROWS, SheetError } from './grid.ts';
import { unguarded } from './write-csv.ts';

/** Longest row in characters; a quote that is never closed would take in the rest of the file. */
const LONGEST_ROW = 2_000_000;

/**
 * Rows of a text with delimiters. The delimiter is the one that the header has most of.
 * @throws SheetError where quotes do not match, and for more than can be read.
 */
export function readDelimited(text: string): Grid {
  const delimiter = delimiterOf(text);
  const records = parsed(text, delimiter);
  if (records.length > MOST_ROWS) throw tooMany(`more than ${MOST_ROWS} rows`);
  if (records.some((cells) => cells.length > MOST_COLUMNS))
    throw tooMany(`more than ${MOST_COLUMNS} columns`);
  return {
    rows: records.map((cells, index) => ({ row: index + 1, cells: cells.map(unguarded) })),
    delimiter,
    unreadable: [],
  };
}

export function tooMany(what: string): SheetError {
  return new SheetError(`The file has ${what}. Split it into several.`);
}

function parsed(text: string, delimiter: Delimiter): string[][] {
  try {
    return parse(text, {
      delimiter,
      trim: true,
      relax_column_count: true,
      skip_empty_lines: false,
      max_record_size: LONGEST_ROW,
      to: MOST_ROWS + 1,
    });
  } catch (error) {
    const { message } = error as Error;
    throw new SheetError(`The file cannot be read as CSV: ${message}. Look for a quote that has no partner.`);
  }
}

/** Of the first line that is not blank, outside of quotes. */
function delimiterOf(text: string): Delimiter {
  const header = /^[\s,;]*(?<line>(?:"(?:[^"]|"")*"|[^\r\n])*)/.exec(text)?.groups?.line ?? '';
  const bare = header.replaceAll(/"(?:[^"]|"")*"/g, '');
  const counted = DELIMITERS.map((delimiter) => ({ delimiter, count: bare.split(delimiter).length }));
  return counted.reduce((most, one) => (one.count > most.count ? one : most)).delimiter;
}
