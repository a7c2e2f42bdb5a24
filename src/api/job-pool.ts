import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import type { EngineName } from '../solver/engine-names.ts';
import type { Worker } from './all-jobs.ts';
import type { Done, Doubt } from './job-worker.ts';
import { Problem } from './problem.ts';

/** Threads that work things out, with a limit on time and on how many jobs are under way. */
export interface JobPool {
  /** @throws Problem 'too-slow' or 'busy'. */
  readonly run: Worker;
  readonly close: () => Promise<void>;
}

export interface JobPoolSettings {
  /** Longest time for one job, waiting included; the thread is then ended. */
  readonly solveSeconds: number;
  /** The one engine to use; the choice is by problem when absent. */
  readonly engine?: EngineName;
  /** Told of the answers of engines that were not believed, job by job. */
  readonly doubted: (doubts: readonly Doubt[]) => void;
}

const MOST_WAITING = 64;

/** Least time that a file is given to be read: a large one takes as long as it takes, and finds nothing sooner. */
const READ_SECONDS = 60;

/** Starts the threads. */
export function jobPool({ solveSeconds, engine, doubted }: JobPoolSettings): JobPool {
  // The same module runs from its source in tests and from the build in the service.
  const fromSource = import.meta.url.endsWith('.ts');
  const pool = new Piscina({
    filename: fileURLToPath(new URL(`./job-worker.${fromSource ? 'ts' : 'js'}`, import.meta.url)),
    minThreads: 1,
    maxThreads: Math.max(1, availableParallelism() - 1),
    idleTimeout: 60_000,
    workerData: { engine },
    ...(fromSource && { execArgv: ['--import', 'tsx'] }),
  });
  let underWay = 0;
  const run: Worker = async (name, of) => {
    // The pool does not count tasks that can be aborted, so they are counted here.
    if (underWay >= MOST_WAITING) throw busy();
    underWay++;
    const isFile = name === 'read file';
    const seconds = isFile ? Math.max(solveSeconds, READ_SECONDS) : solveSeconds;
    try {
      const done = (await pool.run({ name, of }, { signal: AbortSignal.timeout(seconds * 1000) })) as Done;
      if (done.doubts.length > 0) doubted(done.doubts);
      return done.result as never;
    } catch (error) {
      throw asProblem(error, seconds, isFile);
    } finally {
      underWay--;
    }
  };
  return { run, close: () => pool.close({ force: true }) };
}

function asProblem(error: unknown, seconds: number, isFile: boolean): unknown {
  const { name = '' } = error instanceof Error ? error : {};
  if (name !== 'AbortError' && name !== 'TimeoutError') return error;
  const message = isFile
    ? `The file was not read in ${seconds} seconds. Try again in a moment, or split it into several.`
    : `Nothing was found in ${seconds} seconds. Try again in a moment, or with fewer lots.`;
  return new Problem('too-slow', message, { headers: { 'Retry-After': '5' } });
}

function busy(): Problem {
  return new Problem('busy', 'Too many blends are being worked out at once. Try again in a moment.', {
    headers: { 'Retry-After': '1' },
  });
}
