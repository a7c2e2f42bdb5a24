import { spawn } from 'node:child_process';
import { join } from 'node:path';

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The built terminal program, run beside a service that goes on answering. */
export function meatblockIn(root: string): (...args: string[]) => Promise<Ended> {
  return (...args) =>
    new Promise((resolve, reject) => {
      const child = spawn(process.execPath, [join(root, 'dist/cli.js'), ...args], { cwd: root });
      let [out, err] = ['', ''];
      child.stdout.setEncoding('utf8').on('data', (text: string) => {
        out += text;
      });
      child.stderr.setEncoding('utf8').on('data', (text: string) => {
        err += text;
      });
      child.on('error', reject);
      child.on('close', (code) => resolve({ code, out, err }));
    });
}
