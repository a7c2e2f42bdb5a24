import type { z } from 'zod';
import { LANGUAGES, PAPERS } from '../../batch/plant.ts';
import { choiceField } from '../../tables/json.ts';
import { query } from './pages.ts';

/** How a document is wanted on paper: query parameters of every answer that also comes as a PDF. */

export const paperField = choiceField(PAPERS)
  .optional()
  .meta({ description: "For a PDF; the plant's own when absent, or else letter." });

export const languageField = choiceField(LANGUAGES).optional().meta({
  description:
    "Of what the floor reads. When absent a PDF is in the plant's own, or else in en; a text is in en.",
});

export const sheetQuery = query({
  paper: paperField,
  language: languageField,
  cost: choiceField(['true', 'false'])
    .default('false')
    .meta({ description: 'Whether a PDF shows prices: a sheet for the floor does not.' }),
});

export const paperQuery = query({ paper: paperField });

export type SheetQuery = z.output<typeof sheetQuery>;
export type PaperQuery = z.output<typeof paperQuery>;
