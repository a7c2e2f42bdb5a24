import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

export const ROOT = join(import.meta.dirname, '..');

/** Builds where a source has changed since the last time, so that tests can start the built programs. */
export function build(): void {
  execFileSync(process.execPath, ['src/launch.mjs', 'build'], { cwd: ROOT, stdio: 'ignore' });
}
