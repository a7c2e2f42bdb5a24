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

/** The service as it was built, and as it stands in its source. */
export const BUILT = ['dist/main.js'];
export const FROM_SOURCE = ['--import', 'tsx', 'src/main.ts'];

function launch(storeUrl: string, program: readonly string[]): ChildProcess {
  return spawn(process.execPath, [...program], {
    cwd: ROOT,
    env: { ...process.env, STORE: storeUrl, PORT: '0', LOG_LEVEL: 'silent', REQUESTS_PER_MINUTE: '1000000' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

/** Starts the service and ends it without warning a while later, wherever it has got to by then. */
export async function startAndKill(storeUrl: string, afterMs: number): Promise<void> {
  const child = launch(storeUrl, BUILT);
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.stdout?.resume();
  child.stderr?.resume();
  await new Promise((resolve) => setTimeout(resolve, afterMs));
  child.kill('SIGKILL');
  await ended;
}

/** @throws Error with what the process printed when it does not come up. */
export function startProcess(storeUrl: string, program: readonly string[] = BUILT): Promise<ServiceProcess> {
  const child = launch(storeUrl, program);
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
