import type { z } from 'zod';
import type { beginningAnswer, beginningStateAnswer } from '../../api/beginning/contract.ts';

export type Beginning = z.output<typeof beginningStateAnswer>;
export type Begun = z.output<typeof beginningAnswer>;
