/** A copy that was not made: what is wrong with the backup or the target, and what to do. The target is as it was. */
export class CopyRefused extends Error {
  constructor(message: string, cause?: unknown) {
    super(message, { cause });
    this.name = 'CopyRefused';
  }
}
