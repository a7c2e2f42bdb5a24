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
      handle: async ({ body }) => ({ body: translated(body) }),
    },
  ];
}

function translated(body: unknown): TranslationAnswer {
  const { language, sentences } = parseOrProblem(translationRequestSchema, body);
  return { language, sentences: language === 'es' ? sentences.map(inSpanish) : sentences };
}
