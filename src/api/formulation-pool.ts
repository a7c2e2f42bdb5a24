import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import type { Formulation } from '../formulate/blend.ts';
import type { BlendTask } from './blend-task.ts';
import { Problem } from './problem.ts';

/** Threads that formulate, with a limit on time and on how many blends are under way. */
export interface FormulationPool {
  /** @throws Problem 'too-slow' or 'busy'. */
  readonly run: (task: BlendTask) => Promise<Formulation>;
  readonly close: () => Promise<void>;
}

const MOST_WAITING = 64;

/**
 * Starts the threads. @param solveSeconds longest time for one blend, waiting included; the thread is then ended.
 */
export function formulationPool(solveSeconds: number): FormulationPool {
  // The same module runs from its source in tests and from the build in the service.
  const fromSource = import.meta.url.endsWith('.ts');
  const pool = new Piscina({
    filename: fileURLToPath(new URL(`./formulation-worker.${fromSource ? 'ts' : 'js'}`, import.meta.url)),
    minThreads: 1,
    maxThreads: Math.max(1, availableParallelism() - 1),
    idleTimeout: 60_000,
    ...(fromSource && { execArgv: ['--import', 'tsx'] }),
  });
  let underWay = 0;
  return {
    run: async (task) => {
      // The pool does not count tasks that can be aborted, so they are counted here.
      if (underWay >= MOST_WAITING) throw busy();
      underWay++;
      try {
        return (await pool.run(task, { signal: AbortSignal.timeout(solveSeconds * 1000) })) as Formulation;
      } catch (error) {
        throw asProblem(error, solveSeconds);
      } finally {
        underWay--;
      }
    },
    close: () => pool.close({ force: true }),
  };
}

function asProblem(error: unknown, solveSeconds: number): unknown {
  const { name = '' } = error instanceof Error ? error : {};
  if (name !== 'AbortError' && name !== 'TimeoutError') return error;
  return new Problem(
    'too-slow',
    `No blend was found in ${solveSeconds} seconds. Try again in a moment, or with fewer lots.`,
    {
      headers: { 'Retry-After': '5' },
    },
  );
}

function busy(): Problem {
  return new Problem('busy', 'Too many blends are being worked out at once. Try again in a moment.', {
    headers: { 'Retry-After': '1' },
  });
}
