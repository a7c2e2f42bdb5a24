import { closeSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';

/** Files that are written whole or not at all: whoever had one of that name keeps it until the new one is there. */

/** @throws Error that names the file, with the code of the operating system. */
export function writeWhole(file: string, bytes: Uint8Array): void {
  const part = partOf(file);
  try {
    writeFileSync(part, bytes, { flag: 'wx' });
    renameSync(part, file);
  } catch (error) {
    throw notWritten(file, part, error);
  }
}

/**
 * The same of what comes piece by piece, however much it is.
 * @returns bytes written.
 * @throws whatever the pieces throw; Error that names the file, with the code of the operating system.
 */
export async function writeWholeInPieces(
  file: string,
  pieces: AsyncIterable<string | Uint8Array>,
): Promise<number> {
  const part = partOf(file);
  try {
    let bytes = 0;
    const open = openSync(part, 'wx');
    try {
      for await (const piece of pieces) {
        writeFileSync(open, piece);
        bytes += Buffer.byteLength(piece);
      }
    } finally {
      closeSync(open);
    }
    renameSync(part, file);
    return bytes;
  } catch (error) {
    throw notWritten(file, part, error);
  }
}

function partOf(file: string): string {
  return `${file}.${process.pid}.part`;
}

/** Takes away what was begun. @returns what to throw: a fault of the disk names the file, any other stays as it is. */
function notWritten(file: string, part: string, error: unknown): unknown {
  rmSync(part, { force: true });
  const { code, syscall } = error as NodeJS.ErrnoException;
  if (syscall === undefined) return error;
  return Object.assign(new Error(`${file} cannot be written (${code}).`, { cause: error }), { code });
}
