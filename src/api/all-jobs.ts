import type { Engine } from '../solver/model.ts';
import { type ReadFileDone, type ReadFileTask, readFileOrRefuse } from './exchange/read-file.ts';
import { doJob, type SolvingJobs } from './jobs.ts';

/** Everything that the service does in another thread: what is solved, and files that take long to read. */
export interface Jobs extends SolvingJobs {
  readonly 'read file': { readonly of: ReadFileTask; readonly gives: ReadFileDone };
}

export type JobName = keyof Jobs;

/** Does one thing, here or elsewhere. */
export type Worker = <Name extends JobName>(name: Name, of: Jobs[Name]['of']) => Promise<Jobs[Name]['gives']>;

/** @throws SolverFault, ModelFault. */
export async function doAnyJob<Name extends JobName>(
  name: Name,
  of: Jobs[Name]['of'],
  engines: readonly Engine[],
): Promise<Jobs[Name]['gives']> {
  if (name === 'read file') return readFileOrRefuse(of as ReadFileTask);
  return doJob(name as keyof SolvingJobs, of as SolvingJobs[keyof SolvingJobs]['of'] as never, engines);
}
