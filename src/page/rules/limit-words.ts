import { words } from '../words/words.ts';

/** How a limit is said, wherever it stands. */
export const LIMIT_WORDS = words(
  {
    atMost: (bound: string) => `at most ${bound}`,
    atLeast: (bound: string) => `at least ${bound}`,
    just: (bound: string) => `just ${bound}`,
    mustBe: 'must be there',
    noneMay: 'none',
    law: 'law',
    house: 'house',
    toOne: 'to 1',
    reads: {
      official: 'read in the official text',
      secondary: 'read in a text that quotes it',
      'from memory': 'from memory: verify in the rule itself',
    },
  },
  {
    atMost: (bound) => `como máximo ${bound}`,
    atLeast: (bound) => `al menos ${bound}`,
    just: (bound) => `justo ${bound}`,
    mustBe: 'debe estar',
    noneMay: 'nada',
    law: 'ley',
    house: 'planta',
    toOne: 'a 1',
    reads: {
      official: 'leído en el texto oficial',
      secondary: 'leído en un texto que lo cita',
      'from memory': 'de memoria: verifique en la regla misma',
    },
  },
);
