import type { Formulation } from '../formulate/blend.ts';
import { formulate } from '../formulate/formulate.ts';
import { javascriptLpSolver } from '../solver/engines/javascript-lp-solver.ts';
import type { BlendTask } from './blend-task.ts';

/** Runs in a thread of its own: an engine that does not come back can then be ended. */
export default function formulateTask(task: BlendTask): Formulation {
  return formulate({ ...task, engines: [javascriptLpSolver] });
}
