import { correct } from '../correct/correct.ts';
import type { Correction, CorrectionRequest } from '../correct/correction.ts';
import type { Formulation } from '../formulate/blend.ts';
import { type Along, type CostCurve, costCurve } from '../formulate/curve.ts';
import { workOut } from '../formulate/work-out.ts';
import type { UsePlan, UsePlanRequest } from '../plan/use-plan.ts';
import { planUse } from '../plan/use-up.ts';
import type { Engine } from '../solver/model.ts';
import type { BlendTask } from './blend-task.ts';

/** What is solved, by name: plain data in, plain data out, so that it may happen in another thread. */
export interface SolvingJobs {
  readonly blend: { readonly of: BlendTask; readonly gives: Formulation };
  readonly curve: { readonly of: CurveTask; readonly gives: CostCurve };
  readonly correction: { readonly of: CorrectionTask; readonly gives: Correction };
  readonly 'use plan': { readonly of: UsePlanTask; readonly gives: UsePlan };
}

type JobName = keyof SolvingJobs;

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
export type Solving = <Name extends JobName>(
  name: Name,
  of: SolvingJobs[Name]['of'],
) => Promise<SolvingJobs[Name]['gives']>;

type Doers = {
  readonly [Name in JobName]: (
    of: SolvingJobs[Name]['of'],
    engines: readonly Engine[],
  ) => SolvingJobs[Name]['gives'];
};

const DOERS: Doers = {
  blend: (task, engines) => workOut({ ...task, engines }),
  curve: ({ task, along }, engines) => costCurve({ ...task, engines }, along),
  correction: (task, engines) => correct({ ...task, engines }),
  'use plan': (task, engines) => planUse({ ...task, engines }),
};

/** @throws SolverFault, ModelFault. */
export function doJob<Name extends JobName>(
  name: Name,
  of: SolvingJobs[Name]['of'],
  engines: readonly Engine[],
): SolvingJobs[Name]['gives'] {
  return DOERS[name](of, engines);
}
