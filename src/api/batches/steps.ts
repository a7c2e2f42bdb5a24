import type { Writing, Written } from '../../store/store.ts';
import type { Answer } from '../endpoint.ts';
import { openedBatch } from './opened.ts';
import { batchView } from './view.ts';

/** After a step: the batch as it stands now, and the sentence for the audit. */
export async function answered(writing: Writing, id: string, says: string): Promise<Written<Answer>> {
  const view = batchView(await openedBatch(writing.db, id));
  return { says, result: { body: view, version: view.version } };
}
