import { crc32, createDeflateRaw } from 'node:zlib';

/** A file of an archive, whose content comes piece by piece. */
export interface ZipFile {
  readonly name: string;
  readonly content: AsyncIterable<string> | Iterable<string>;
}

/** A date that every archive has, so that the same content gives the same bytes: 1 January 1980. */
const DOS_DATE = 0x0021;
const VERSION = 20;
/** UTF-8 names; sizes follow the content. */
const UTF8 = 0x0800;
const FLAGS = UTF8 | 0x0008;
const STORED = 0;
const DEFLATED = 8;

/** Pieces that are packed at once. */
const PIECE = 256 * 1024;

/**
 * A zip archive (PKWARE APPNOTE 6.3), piece by piece: no more of it is in memory than what is being packed. None of the
 * files may be larger than 4 GB.
 */
export async function* zipped(files: AsyncIterable<ZipFile> | Iterable<ZipFile>): AsyncGenerator<Uint8Array> {
  const listed: Buffer[] = [];
  let offset = 0;
  for await (const { name, content } of files) {
    const place = offset;
    const fileName = Buffer.from(name, 'utf8');
    const local = header(
      0x04034b50,
      [VERSION, FLAGS, DEFLATED, 0, DOS_DATE],
      [0, 0, 0],
      [fileName.length, 0],
    );
    yield Buffer.concat([local, fileName]);
    offset += local.length + fileName.length;

    const sum = { crc: 0, size: 0, packedSize: 0 };
    for await (const piece of deflated(content, sum)) {
      offset += piece.length;
      yield piece;
    }
    const sizes = [sum.crc, sum.packedSize, sum.size];
    const descriptor = header(0x08074b50, [], sizes, []);
    yield descriptor;
    offset += descriptor.length;
    const entry = header(
      0x02014b50,
      [VERSION, VERSION, FLAGS, DEFLATED, 0, DOS_DATE],
      sizes,
      [fileName.length, 0, 0, 0, 0],
      [0, place],
    );
    listed.push(Buffer.concat([entry, fileName]));
  }
  const directory = Buffer.concat(listed);
  yield directory;
  yield header(0x06054b50, [0, 0, listed.length, listed.length], [directory.length, offset], [0]);
}

async function* deflated(
  content: ZipFile['content'],
  sum: { crc: number; size: number; packedSize: number },
): AsyncGenerator<Uint8Array> {
  const deflate = createDeflateRaw();
  const feed = (async () => {
    for await (const text of joined(content)) {
      const bytes = Buffer.from(text, 'utf8');
      sum.crc = crc32(bytes, sum.crc);
      sum.size += bytes.length;
      if (!deflate.write(bytes)) await new Promise((resolve) => deflate.once('drain', resolve));
    }
    deflate.end();
  })();
  feed.catch((error: Error) => deflate.destroy(error));
  for await (const piece of deflate as AsyncIterable<Uint8Array>) {
    sum.packedSize += piece.length;
    yield piece;
  }
  await feed;
}

async function* joined(content: ZipFile['content']): AsyncGenerator<string> {
  let text = '';
  for await (const piece of content) {
    text += piece;
    if (text.length < PIECE) continue;
    yield text;
    text = '';
  }
  if (text !== '') yield text;
}

/** The same for files that are in memory already, unpacked. */
export function storedZip(files: ReadonlyMap<string, Uint8Array>): Buffer {
  const parts: Uint8Array[] = [];
  const listed: Buffer[] = [];
  let offset = 0;
  for (const [name, content] of files) {
    const fileName = Buffer.from(name, 'utf8');
    const sizes = [crc32(content), content.length, content.length];
    const local = header(0x04034b50, [VERSION, UTF8, STORED, 0, DOS_DATE], sizes, [fileName.length, 0]);
    const entry = header(
      0x02014b50,
      [VERSION, VERSION, UTF8, STORED, 0, DOS_DATE],
      sizes,
      [fileName.length, 0, 0, 0, 0],
      [0, offset],
    );
    parts.push(local, fileName, content);
    listed.push(entry, fileName);
    offset += local.length + fileName.length + content.length;
  }
  const directory = Buffer.concat(listed);
  const end = header(0x06054b50, [0, 0, files.size, files.size], [directory.length, offset], [0]);
  return Buffer.concat([...parts, directory, end]);
}

/** Numbers of two and of four bytes in turn, little end first. */
function header(signature: number, ...fields: readonly (readonly number[])[]): Buffer {
  const buffer = Buffer.alloc(
    4 + fields.reduce((size, group, turn) => size + group.length * (turn % 2 ? 4 : 2), 0),
  );
  let at = buffer.writeUInt32LE(signature);
  fields.forEach((group, turn) => {
    for (const field of group)
      at = turn % 2 ? buffer.writeUInt32LE(field, at) : buffer.writeUInt16LE(field, at);
  });
  return buffer;
}
