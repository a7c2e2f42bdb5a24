import { type Entry, fromBufferPromise, type ZipFile } from 'yauzl';
import { SheetError } from './grid.ts';

const MOST_ENTRIES = 2000;

/**
 * Files of a zip archive by name. Only what the directory at its end lists is looked at, and no file may unpack to
 * another size than it declares there, so that a small archive cannot fill the memory.
 * @param mostBytes that the wanted files may unpack to, all together.
 * @throws SheetError for what is no archive, is encrypted, or larger.
 */
export async function unzip(
  bytes: Uint8Array,
  mostBytes: number,
  isWanted: (name: string) => boolean,
): Promise<Map<string, Uint8Array>> {
  try {
    const archive = await fromBufferPromise(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength));
    if (archive.entryCount > MOST_ENTRIES) throw new Error('it lists too many files');
    const wanted: Entry[] = [];
    for await (const entry of archive.eachEntry()) if (isWanted(entry.fileName)) wanted.push(entry);
    refuseLarge(wanted, mostBytes);
    const files = new Map<string, Uint8Array>();
    for (const entry of wanted) files.set(entry.fileName, await contentOf(archive, entry));
    return files;
  } catch (error) {
    if (error instanceof SheetError) throw error;
    throw new SheetError(
      `The file is no .xlsx workbook that can be read: ${(error as Error).message}. Save it again without a password, or send CSV.`,
    );
  }
}

function refuseLarge(entries: readonly Entry[], mostBytes: number): void {
  const declared = entries.reduce((total, { uncompressedSize }) => total + uncompressedSize, 0);
  if (declared <= mostBytes) return;
  const megabytes = Math.round(mostBytes / 1_000_000);
  throw new SheetError(`The workbook unpacks to more than ${megabytes} MB. Split it, or send CSV.`);
}

async function contentOf(archive: ZipFile, entry: Entry): Promise<Uint8Array> {
  const pieces: Buffer[] = [];
  const stream = await archive.openReadStreamPromise(entry);
  for await (const piece of stream as AsyncIterable<Buffer>) pieces.push(piece);
  return Buffer.concat(pieces);
}
