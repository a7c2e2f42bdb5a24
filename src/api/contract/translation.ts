import { z } from 'zod';
import { LANGUAGES } from '../../batch/plant.ts';
import { choiceField, record, remedy } from '../../tables/json.ts';
import { listSchema } from './quantities.ts';

/** Sentences of the service in the language of whoever reads them. */

/** Most sentences in one request. */
export const MOST_SENTENCES = 500;

export const translationRequestSchema = record(
  {
    language: choiceField(LANGUAGES),
    sentences: listSchema(
      z.string(remedy('must be a text')).max(4000, remedy('must have at most 4000 characters')),
      MOST_SENTENCES,
      'sentences',
    ),
  },
  'must hold language and sentences',
).meta({ id: 'TranslationRequest' });

export const translationAnswerSchema = z
  .object({
    language: z.enum(LANGUAGES),
    sentences: z.array(z.string()).meta({
      description:
        'In the order asked for; a sentence that is not known in that language comes back as it is.',
    }),
  })
  .meta({ id: 'TranslationAnswer' });

export type TranslationAnswer = z.output<typeof translationAnswerSchema>;
