import { SheetError } from './grid.ts';

/**
 * The text of a file: by its byte order mark UTF-8 or UTF-16, without one UTF-8 where it is that, else windows-1252, in
 * which spreadsheet programs of the West save text.
 * @throws SheetError for bytes that are no text.
 */
export function decodeText(bytes: Uint8Array): string {
  const text = decoded(bytes);
  if (!text.includes('\0')) return text;
  throw noText();
}

function noText(): SheetError {
  return new SheetError('The file holds bytes that are no text. Save it as CSV (UTF-8) or as .xlsx.');
}

function decoded(bytes: Uint8Array): string {
  const marked = MARKS.find(({ mark }) => mark.every((byte, index) => bytes[index] === byte));
  if (marked) return strictly(marked.encoding, bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return windows1252(bytes);
  }
}

const MARKS = [
  { mark: [0xef, 0xbb, 0xbf], encoding: 'utf-8' },
  { mark: [0xff, 0xfe], encoding: 'utf-16le' },
  { mark: [0xfe, 0xff], encoding: 'utf-16be' },
] as const;

function strictly(encoding: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    throw new SheetError(
      `The file begins as ${encoding.toUpperCase()} and is not; it is damaged. Save it again.`,
    );
  }
}

/** Bytes 80 to 9F, which Latin-1 has no characters for (Encoding Standard, index windows-1252); U+FFFD where there is none. */
const UPPER =
  '\u20AC\uFFFD\u201A\u0192\u201E\u2026\u2020\u2021\u02C6\u2030\u0160\u2039\u0152\uFFFD\u017D\uFFFD' +
  '\uFFFD\u2018\u2019\u201C\u201D\u2022\u2013\u2014\u02DC\u2122\u0161\u203A\u0153\uFFFD\u017E\u0178';

/** Some releases of Node read windows-1252 as Latin-1, so the table stands here. */
function windows1252(bytes: Uint8Array): string {
  return Buffer.from(bytes)
    .toString('latin1')
    .replace(/[\u0080-\u009F]/g, (character) => {
      const meant = UPPER[character.charCodeAt(0) - 0x80];
      if (meant === undefined || meant === '\uFFFD') throw noText();
      return meant;
    });
}
