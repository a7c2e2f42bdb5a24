import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';

/** The built service as a process of its own, so that it can be ended without warning. */

const ROOT = join(import.meta.dirname, '../../..');
const STARTS_WITHIN_MS = 60_000;

export interface ServiceProcess {
  readonly address: string;
  /** Ends it at once (SIGKILL). */
  readonly kill: () => Promise<void>;
  /** Ends it in order (SIGTERM). @returns its exit code. */
  readonly stop: () => Promise<number | null>;
}

/** @throws Error with what the process printed when it does not come up. */
export function startProcess(storeUrl: string): Promise<ServiceProcess> {
  const child = spawn(process.execPath, ['dist/main.js'], {
    cwd: ROOT,
    env: { ...process.env, STORE: storeUrl, PORT: '0', LOG_LEVEL: 'silent', REQUESTS_PER_MINUTE: '1000000' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  return new Promise((resolve, reject) => {
    let printed = '';
    const timer = setTimeout(() => {
      child.kill('SIGKILL');
      reject(new Error(`the service did not start within ${STARTS_WITHIN_MS} ms:\n${printed}`));
    }, STARTS_WITHIN_MS);
    const read = (chunk: Buffer) => {
      printed += chunk.toString('utf8');
      const [, address] = /serves .* at (http:\S+)/.exec(printed) ?? [];
      if (!address) return;
      clearTimeout(timer);
      resolve({ address, kill: end(child, ended, 'SIGKILL'), stop: end(child, ended, 'SIGTERM') });
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    ended.then((code) => {
      clearTimeout(timer);
      reject(new Error(`the service ended with ${code} before it listened:\n${printed}`));
    });
  });
}

function end<Result>(child: ChildProcess, ended: Promise<Result>, signal: NodeJS.Signals) {
  return async (): Promise<never> => {
    child.kill(signal);
    return (await ended) as never;
  };
}
