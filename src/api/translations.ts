import { inSpanish } from '../documents/words/desk/in-spanish.ts';
import {
  type TranslationAnswer,
  translationAnswerSchema,
  translationRequestSchema,
} from './contract/translation.ts';
import type { Endpoint } from './endpoint.ts';
import { parseOrProblem } from './parse.ts';

/**
 * What the service says is English, and stays so in every answer, so that what is read and sent back is what was said. Whoever
 * reads Spanish has it put into Spanish here, for display alone.
 */
export function translationEndpoints(): Endpoint[] {
  return [
    {
      method: 'POST',
      path: '/translations',
      tag: 'Plant and rules',
      says: 'Sentences of the service in another language, for display',
      // Whoever cannot log in reads why.
      may: 'anyone',
      takes: translationRequestSchema,
      example: { language: 'es', sentences: ['Log in first', 'Hamburger holds at most 30 % fat.'] },
      gives: translationAnswerSchema,
      handle: async ({ body }) => ({ body: await translated(body) }),
    },
  ];
}

/**
 * Sentences of the service take a moment, what was made up to take long may take long: anyone may ask, so the others get
 * their turn in between, and what is not done by then comes back as it is.
 */
const TURN_MS = 20;
const DONE_WITHIN_MS = 3_000;

async function translated(body: unknown): Promise<TranslationAnswer> {
  const { language, sentences } = parseOrProblem(translationRequestSchema, body);
  if (language !== 'es') return { language, sentences };
  const begun = performance.now();
  let turn = begun;
  const said: string[] = [];
  for (const sentence of sentences) {
    said.push(performance.now() - begun > DONE_WITHIN_MS ? sentence : inSpanish(sentence));
    if (performance.now() - turn < TURN_MS) continue;
    await new Promise((resolve) => setImmediate(resolve));
    turn = performance.now();
  }
  return { language, sentences: said };
}
