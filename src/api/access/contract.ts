import { z } from 'zod';
import { choiceField, record, remedy } from '../../tables/json.ts';
import { followed, following, query } from '../contract/pages.ts';
import { dateSchema, textSchema } from '../contract/quantities.ts';
import { PERMISSIONS, ROLES } from './roles.ts';

/** People, sessions, keys and the audit as they travel in JSON. */

/** What must not be repeated in any message. */
const secret = z
  .string({
    error: ({ input }) => (input === undefined ? 'is missing; it must be a text' : 'must be a text'),
  })
  .max(1000, { error: 'must have at most 1000 characters' });

const passwordSchema = secret.meta({
  description: 'At least 10 characters, at most 200; any characters, and not the name.',
});

/** As people are called: it stands in the books and on sheets. */
const nameSchema = textSchema(60)
  .regex(/^[^\p{Cc}\p{Cf}]*$/u, remedy('must have no control characters'))
  .transform((name) => name.normalize('NFC').trim().replaceAll(/\s+/g, ' '));

const roleSchema = choiceField(ROLES).meta({
  description:
    'floor: receives, weighs, tests, packs. formulator: also plans, prices and closes. inspector: reads. admin: everything.',
});

export const setUpSchema = record(
  { code: secret, name: nameSchema, password: passwordSchema },
  'must hold code, name and password',
);

export const loginSchema = record({ name: textSchema(200), password: secret }, 'must hold name and password');

export const sessionAnswer = z
  .object({
    entrance: z.enum(['open', 'login', 'set-up']).meta({
      description:
        'open: a demonstration, nobody logs in. login: people log in. set-up: the first admin is made with the code on the terminal.',
    }),
    caller: z
      .object({
        id: z.string(),
        name: z.string(),
        role: z.enum(ROLES),
        via: z.enum(['session', 'key', 'demo']),
        may: z.array(z.enum(PERMISSIONS)),
      })
      .optional()
      .meta({ description: 'Who you are; absent when you have not logged in.' }),
  })
  .meta({ id: 'Session' });

export const newPersonSchema = record(
  { name: nameSchema, role: roleSchema, password: passwordSchema },
  'must hold name, role and password',
);

export const personChangeSchema = record(
  {
    name: nameSchema.optional(),
    role: roleSchema.optional(),
    active: z.boolean(remedy('must be true or false')).optional(),
    password: passwordSchema.optional(),
  },
  'must hold what changes',
).refine((change) => Object.values(change).some((value) => value !== undefined), {
  error: 'changes nothing; give name, role, active or password',
});

export const ownPasswordSchema = record({ old: secret, new: passwordSchema }, 'must hold old and new');

export const personAnswer = z
  .object({
    id: z.string(),
    name: z.string(),
    role: z.enum(ROLES),
    active: z.boolean(),
    version: z.int(),
  })
  .meta({ id: 'Person' });

export const peopleAnswer = z.object({ items: z.array(personAnswer) });

export const newKeySchema = record(
  {
    name: nameSchema.meta({ description: 'What it is for; it stands in the books.' }),
    role: roleSchema,
  },
  'must hold name and role',
);

export const keyAnswer = z
  .object({
    id: z.string(),
    name: z.string(),
    role: z.enum(ROLES),
    createdBy: z.string(),
    createdAt: z.string(),
    revokedAt: z.string().optional(),
  })
  .meta({ id: 'Key' });

export const madeKeyAnswer = keyAnswer.extend({
  key: z
    .string()
    .optional()
    .meta({ description: 'The key itself: shown this once, also when the same request is sent again.' }),
});

export const keysAnswer = z.object({ items: z.array(keyAnswer) });

export const entriesQuery = query({
  person: textSchema(80).optional().meta({ description: 'Id, or name as it was then.' }),
  action: textSchema(80).optional(),
  subjectKind: textSchema(40).optional(),
  subjectId: textSchema(120).optional(),
  fromDay: dateSchema.optional(),
  toDay: dateSchema.optional(),
  order: choiceField(['newest', 'oldest']).default('newest'),
  ...following,
});

export const entryAnswer = z
  .object({
    seq: z.int(),
    at: z.string(),
    day: z.string(),
    person: z.object({ id: z.string(), name: z.string() }),
    action: z.string(),
    subject: z.object({ kind: z.string(), id: z.string() }),
    says: z.string(),
    previousHash: z.string(),
    hash: z
      .string()
      .meta({ description: 'SHA-256 of the entry, of the rows it wrote and of the hash before.' }),
  })
  .meta({ id: 'Entry' });

export const entriesAnswer = followed(entryAnswer);
