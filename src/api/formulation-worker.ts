import type { Formulation } from '../formulate/blend.ts';
import { formulate } from '../formulate/formulate.ts';
import { loadEngines } from '../solver/engines/load.ts';
import type { BlendTask } from './blend-task.ts';

/** Runs in a thread of its own: an engine that does not come back can then be ended. */
export default async function formulateTask(task: BlendTask): Promise<Formulation> {
  return formulate({ ...task, engines: await engines() });
}

let loaded = loadEngines();

/** An engine whose memory is spoilt is loaded anew before the next task. */
async function engines() {
  if ((await loaded).isBroken()) loaded = loadEngines();
  return (await loaded).engines;
}
