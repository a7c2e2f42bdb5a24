import { Readable } from 'node:stream';
import { ZipFile } from 'yazl';

/** A file of an archive, whose content comes piece by piece. */
export interface ArchiveFile {
  readonly name: string;
  readonly content: AsyncIterable<string> | Iterable<string>;
}

/** The same content gives the same bytes on any day: archives say 1 January 1980, their earliest. */
const OPTIONS = { mtime: new Date(1980, 0, 1), forceDosTimestamp: true, mode: 0o100644 };

/** Pieces that are packed at once. */
const PIECE = 256 * 1024;

/** A zip archive, piece by piece: no more of it is in memory than what is being packed. */
export function zipped(files: Iterable<ArchiveFile>): AsyncIterable<Uint8Array> {
  const zip = new ZipFile();
  const output = zip.outputStream as Readable;
  for (const { name, content } of files) {
    zip.addReadStreamLazy(name, OPTIONS, (use) => {
      const source = Readable.from(joined(content), { objectMode: false });
      source.on('error', (error) => output.destroy(error));
      use(null, source);
    });
  }
  zip.end();
  return output;
}

/** The same of files that are in memory already, unpacked. */
export async function storedZip(files: ReadonlyMap<string, Uint8Array>): Promise<Buffer> {
  const zip = new ZipFile();
  for (const [name, content] of files) {
    zip.addBuffer(Buffer.from(content.buffer, content.byteOffset, content.length), name, {
      ...OPTIONS,
      compress: false,
    });
  }
  zip.end();
  const pieces: Buffer[] = [];
  for await (const piece of zip.outputStream as AsyncIterable<Buffer>) pieces.push(piece);
  return Buffer.concat(pieces);
}

async function* joined(content: ArchiveFile['content']): AsyncGenerator<string> {
  let text = '';
  for await (const piece of content) {
    text += piece;
    if (text.length < PIECE) continue;
    yield text;
    text = '';
  }
  if (text !== '') yield text;
}
