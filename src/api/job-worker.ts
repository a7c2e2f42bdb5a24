import { workerData } from 'node:worker_threads';
import type { EngineName } from '../solver/engine-names.ts';
import { loadEngines } from '../solver/engines/load.ts';
import { doAnyJob, type JobName, type Jobs } from './all-jobs.ts';

/** An answer of an engine that was not believed. */
export interface Doubt {
  readonly engine: string;
  readonly why: string;
}

export interface Done {
  readonly result: Jobs[JobName]['gives'];
  readonly doubts: readonly Doubt[];
}

/** More than these are counted by the engine alone: one model can be asked very often. */
const MOST_DOUBTS = 200;

const { engine } = (workerData ?? {}) as { engine?: EngineName };
let doubts: Doubt[] = [];
let loaded = load();

/** Runs in a thread of its own: an engine that does not come back can then be ended. */
export default async function job({ name, of }: { name: JobName; of: Jobs[JobName]['of'] }): Promise<Done> {
  // An engine whose memory is spoilt is loaded anew before the next job.
  if ((await loaded).isBroken()) loaded = load();
  const { engines } = await loaded;
  doubts = [];
  const result = await doAnyJob(name, of as never, engines);
  return { result, doubts };
}

function load() {
  return loadEngines(engine, (name, why) => {
    if (doubts.length < MOST_DOUBTS) doubts.push({ engine: name, why: why.slice(0, 300) });
  });
}
