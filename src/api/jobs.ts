import { correct } from '../correct/correct.ts';
import type { Correction, CorrectionRequest } from '../correct/correction.ts';
import type { Formulation } from '../formulate/blend.ts';
import { type Along, type CostCurve, costCurve } from '../formulate/curve.ts';
import { workOut } from '../formulate/work-out.ts';
import type { UsePlan, UsePlanRequest } from '../plan/use-plan.ts';
import { planUse } from '../plan/use-up.ts';
import type { Engine } from '../solver/model.ts';
import type { BlendTask } from './blend-task.ts';
import { type ReadFileDone, type ReadFileTask, readFileOrRefuse } from './exchange/read-file.ts';

/** What can be worked out, by name: plain data in, plain data out, so that it may happen in another thread. */
export interface Jobs {
  readonly blend: { readonly of: BlendTask; readonly gives: Formulation };
  readonly curve: { readonly of: CurveTask; readonly gives: CostCurve };
  readonly correction: { readonly of: CorrectionTask; readonly gives: Correction };
  readonly 'use plan': { readonly of: UsePlanTask; readonly gives: UsePlan };
  readonly 'read file': { readonly of: ReadFileTask; readonly gives: ReadFileDone };
}

export type JobName = keyof Jobs;

/** A correction made ready. */
export interface CorrectionTask extends Omit<CorrectionRequest, 'engines'> {
  /** Which text of the rules was read. */
  readonly edition: string;
}

export type UsePlanTask = Omit<UsePlanRequest, 'engines'>;

export interface CurveTask {
  readonly task: BlendTask;
  readonly along: Along;
}

/** Works out one thing with the engines there are. */
export type Worker = <Name extends JobName>(name: Name, of: Jobs[Name]['of']) => Promise<Jobs[Name]['gives']>;

type Doers = {
  readonly [Name in JobName]: (
    of: Jobs[Name]['of'],
    engines: readonly Engine[],
  ) => Jobs[Name]['gives'] | Promise<Jobs[Name]['gives']>;
};

const DOERS: Doers = {
  blend: (task, engines) => workOut({ ...task, engines }),
  curve: ({ task, along }, engines) => costCurve({ ...task, engines }, along),
  correction: (task, engines) => correct({ ...task, engines }),
  'use plan': (task, engines) => planUse({ ...task, engines }),
  'read file': readFileOrRefuse,
};

/** @throws SolverFault, ModelFault. */
export async function doJob<Name extends JobName>(
  name: Name,
  of: Jobs[Name]['of'],
  engines: readonly Engine[],
): Promise<Jobs[Name]['gives']> {
  return DOERS[name](of, engines);
}
