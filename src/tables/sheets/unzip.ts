import { inflateRawSync } from 'node:zlib';
import { SheetError } from './grid.ts';

/**
 * Files of a zip archive by name (PKWARE APPNOTE 6.3). Only what the directory at its end lists is looked at, and no
 * file may unpack to more than it declares there, so that a small archive cannot fill the memory.
 * @param mostBytes that the wanted files may unpack to, all together.
 * @throws SheetError for what is no archive, is encrypted, split, or larger.
 */
export function unzip(
  bytes: Uint8Array,
  mostBytes: number,
  isWanted: (name: string) => boolean,
): Map<string, Uint8Array> {
  const archive = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const entries = directory(archive).filter(({ name }) => isWanted(name));
  const declared = entries.reduce((total, { size }) => total + size, 0);
  if (declared > mostBytes) {
    const megabytes = Math.round(mostBytes / 1_000_000);
    throw new SheetError(`The workbook unpacks to more than ${megabytes} MB. Split it, or send CSV.`);
  }
  return new Map(entries.map((entry) => [entry.name, unpacked(archive, entry)]));
}

interface Entry {
  readonly name: string;
  readonly method: number;
  readonly packedSize: number;
  readonly size: number;
  readonly offset: number;
}

const END = 0x06054b50;
const LISTED = 0x02014b50;
const LOCAL = 0x04034b50;
const MOST_ENTRIES = 2000;

function directory(archive: Buffer): Entry[] {
  const end = endOf(archive);
  const count = archive.readUInt16LE(end + 10);
  let at = archive.readUInt32LE(end + 16);
  // 0xFFFF and 0xFFFFFFFF stand for an archive of more than 4 GB.
  if (count > MOST_ENTRIES) throw damaged('it lists too many files');
  const entries: Entry[] = [];
  for (let index = 0; index < count; index++) {
    if (at + 46 > archive.length || archive.readUInt32LE(at) !== LISTED)
      throw damaged('its directory is cut off');
    if ((archive.readUInt16LE(at + 8) & 1) === 1)
      throw damaged('it is encrypted; save it without a password');
    const nameLength = archive.readUInt16LE(at + 28);
    entries.push({
      name: archive.toString('utf8', at + 46, at + 46 + nameLength),
      method: archive.readUInt16LE(at + 10),
      packedSize: archive.readUInt32LE(at + 20),
      size: archive.readUInt32LE(at + 24),
      offset: archive.readUInt32LE(at + 42),
    });
    at += 46 + nameLength + archive.readUInt16LE(at + 30) + archive.readUInt16LE(at + 32);
  }
  return entries;
}

function endOf(archive: Buffer): number {
  for (let at = archive.length - 22; at >= Math.max(0, archive.length - 22 - 0xffff); at--) {
    if (archive.readUInt32LE(at) === END) return at;
  }
  throw damaged('its end is missing');
}

function unpacked(archive: Buffer, { name, method, packedSize, size, offset }: Entry): Uint8Array {
  if (offset + 30 > archive.length || archive.readUInt32LE(offset) !== LOCAL)
    throw damaged(`"${name}" is not where it should be`);
  const start = offset + 30 + archive.readUInt16LE(offset + 26) + archive.readUInt16LE(offset + 28);
  const packed = archive.subarray(start, start + packedSize);
  const content = method === 0 ? packed : method === 8 ? inflated(packed, name, size) : undefined;
  if (!content) throw damaged(`"${name}" is packed in a way that is not known here`);
  if (content.length !== size) throw damaged(`"${name}" is not as large as it says`);
  return content;
}

function inflated(packed: Buffer, name: string, size: number): Uint8Array {
  if (size === 0) return new Uint8Array();
  try {
    return inflateRawSync(packed, { maxOutputLength: size });
  } catch {
    throw damaged(`"${name}" does not unpack to what it says`);
  }
}

function damaged(why: string): SheetError {
  return new SheetError(
    `The file is no .xlsx workbook that can be read: ${why}. Save it again, or send CSV.`,
  );
}
