import { type BatchSheet, batchSheet } from '../documents/batch-sheet.ts';
import type { Blend } from '../formulate/blend.ts';
import { type Declaration, declare } from '../labels/declaration.ts';
import type { RuleSet } from '../rules/standard.ts';
import type { PlantData } from '../tables/plant-folder.ts';
import { blendAnswer } from './answers.ts';
import { type BlendTask, prepareBlend } from './blend-task.ts';
import type { BlendAnswer } from './contract/blend-answer.ts';
import { type BlendRequest, blendRequestSchema } from './contract/blend-request.ts';
import type { Solving } from './jobs.ts';
import type { RequestIssue } from './own-inputs.ts';
import { parseOrProblem } from './parse.ts';
import { fieldErrors, Problem } from './problem.ts';

/** What the use-cases draw on; the HTTP service and the terminal each bring their own. */
export interface Desk {
  readonly data: PlantData;
  readonly ruleSets: readonly RuleSet[];
  /** The day at the plant, YYYY-MM-DD. */
  readonly today: () => string;
  /** Works out a job, here or in another thread. */
  readonly work: Solving;
  /** Answers not believed since the start, by engine. */
  readonly doubts?: () => Readonly<Record<string, number>>;
}

/** A blend, or why there is none. @throws Problem when the request cannot be used. */
export async function blend(desk: Desk, body: unknown): Promise<BlendAnswer> {
  const { task, formulation } = await formulated(desk, parseOrProblem(blendRequestSchema, body));
  return blendAnswer(task, formulation);
}

/** A batch sheet. @throws Problem, 'no-blend' among them. */
export async function sheet(desk: Desk, body: unknown): Promise<BatchSheet> {
  const { task, blend: settled } = await settledBlend(desk, body);
  return batchSheet({ ...task, blend: settled });
}

/** A label declaration. @throws Problem, 'no-blend' among them. */
export async function label(desk: Desk, body: unknown): Promise<Declaration> {
  const { task, blend: settled } = await settledBlend(desk, body);
  return declare(task.product, task.standard, settled, task.plant, task.casing);
}

/** Sheet and label of the same blend. @throws Problem, 'no-blend' among them. */
export async function sheetAndLabel(
  desk: Desk,
  body: unknown,
): Promise<{ sheet: BatchSheet; label: Declaration }> {
  const { task, blend: settled } = await settledBlend(desk, body);
  return {
    sheet: batchSheet({ ...task, blend: settled }),
    label: declare(task.product, task.standard, settled, task.plant, task.casing),
  };
}

async function formulated(desk: Desk, request: BlendRequest) {
  const prepared = prepareBlend(request, desk.data, desk.ruleSets, desk.today());
  if (!prepared.ok) throw unusable(prepared.issues, request);
  const formulation = await desk.work('blend', prepared.task);
  if (formulation.outcome === 'refused') throw unusable(formulation.issues, request);
  return { task: prepared.task, formulation };
}

/** Ways out that a problem names; a blend asked for by itself has them all. */
const MOST_WAYS_OUT = 3;

/** A blend with the task that it answers. @throws Problem, 'no-blend' among them. */
export async function settledBlend(desk: Desk, body: unknown): Promise<{ task: BlendTask; blend: Blend }> {
  // Neither paper nor plan says what anything is worth.
  const request: BlendRequest = { ...parseOrProblem(blendRequestSchema, body), worth: 'none' };
  const { task, formulation } = await formulated(desk, request);
  if (formulation.outcome === 'blend') return { task, blend: formulation.blend };
  const because = formulation.because.map(({ message }) => message);
  const repairs = (formulation.wayOut?.repairs ?? []).slice(0, MOST_WAYS_OUT).map(({ says }) => says);
  const waysOut = repairs.length > 0 ? [`Any one of these leads to a blend: ${repairs.join(' Or: ')}`] : [];
  throw new Problem('no-blend', [...because, ...waysOut].join(' '));
}

/** @param place where in the body the request for a blend stands. */
export function unusable(
  issues: readonly RequestIssue[],
  request: Pick<BlendRequest, 'product'>,
  place: (path: RequestIssue['path']) => RequestIssue['path'] = (path) => path,
): Problem {
  const detail =
    issues.length === 1 ? 'One thing stands in the way.' : `${issues.length} things stand in the way.`;
  return new Problem('cannot-be-used', detail, {
    errors: fieldErrors(
      issues.map((issue) => {
        const { path, message } = atWhatWasSent(issue, request);
        return { path: place(path), message };
      }),
    ),
  });
}

/** A product sent by its id has no fields in the request: the fault is named at the id. */
function atWhatWasSent(
  { path, message }: RequestIssue,
  { product }: Pick<BlendRequest, 'product'>,
): RequestIssue {
  const [first, ...inside] = path;
  if (first !== 'product' || inside.length === 0 || typeof product !== 'string') return { path, message };
  return { path: ['product'], message: `${product}, ${inside.join('.')}: ${message}` };
}
