import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';

/** Files that are written whole or not at all: whoever had one of that name keeps it until the new one is there. */

/** @throws Error that names the file, with the code of the operating system. */
export async function writeWhole(file: string, bytes: Uint8Array): Promise<void> {
  await writeWholeInPieces(file, [bytes]);
}

/**
 * The same of what comes piece by piece, however much it is.
 * @returns bytes written.
 * @throws whatever the pieces throw; Error that names the file, with the code of the operating system.
 */
export async function writeWholeInPieces(
  file: string,
  pieces: AsyncIterable<string | Uint8Array> | Iterable<Uint8Array>,
): Promise<number> {
  const part = `${file}.${process.pid}.part`;
  // What lies there already is another's: it is neither written over nor taken away.
  const open = naming(file, () => openSync(part, 'wx'));
  try {
    let bytes = 0;
    try {
      for await (const piece of pieces) {
        naming(file, () => writeFileSync(open, piece));
        bytes += Buffer.byteLength(piece);
      }
      // A name that points at bytes which are not yet on the disk would be an empty file after a power cut.
      naming(file, () => fsyncSync(open));
    } finally {
      closeSync(open);
    }
    naming(file, () => renameSync(part, file));
    return bytes;
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
}

/** A fault of the disk names the file that was asked for, not the one on the way to it. */
function naming<Result>(file: string, act: () => Result): Result {
  try {
    return act();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw Object.assign(new Error(`${file} cannot be written (${code}).`, { cause: error }), { code });
  }
}
