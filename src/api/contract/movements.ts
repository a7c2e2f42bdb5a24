import { z } from 'zod';
import { MOVEMENT_KINDS } from '../../ledger/movement.ts';
import { choiceField, record, remedy, shown } from '../../tables/json.ts';
import { wholeLotAnswer } from './lots.ts';
import { followed, following, query } from './pages.ts';
import {
  dateSchema,
  idSchema,
  listSchema,
  massSchema,
  reasonSchema,
  stockSchema,
  textSchema,
} from './quantities.ts';

/** Movements of lots as they are asked for, booked and shown. */

export const movementsQuery = query({
  lotId: idSchema.optional(),
  batchId: idSchema.optional(),
  kind: choiceField(MOVEMENT_KINDS).optional(),
  fromDay: dateSchema.optional(),
  toDay: dateSchema.optional(),
  ...following,
});

const weight = z.object({ kg: z.number(), lb: z.number() });

export const movementAnswer = z
  .object({
    seq: z.int(),
    lotId: z.string(),
    kind: z.enum(MOVEMENT_KINDS),
    mass: weight.meta({ description: 'What it added to the lot; below 0 for what it took.' }),
    reserved: weight.meta({ description: 'What it added to the part that is promised to batches.' }),
    after: z.object({ onHand: weight, reserved: weight }),
    batchId: z.string().optional(),
    otherLotId: z.string().optional(),
    reverses: z.int().optional().meta({ description: 'The movement that it takes back.' }),
    reversedBy: z.int().optional().meta({ description: 'The movement that took it back.' }),
    reason: z.string().optional(),
    to: z.string().optional(),
    document: z.string().optional(),
    packs: z.int().optional(),
    pieces: z.int().optional(),
    boxes: z.int().optional(),
    entered: z
      .object({ value: z.string(), unit: z.string() })
      .optional()
      .meta({ description: 'The weight as it was entered.' }),
    at: z.string(),
    day: z.string(),
    by: z.string(),
  })
  .meta({ id: 'Movement' });

export const movementsAnswer = followed(movementAnswer);

const cautions = z
  .array(z.string())
  .meta({ description: 'What to see to before it leaves, such as a batch that nobody has reviewed.' });

export const bookedAnswer = z
  .object({ movement: movementAnswer, lot: wholeLotAnswer, cautions })
  .meta({ description: 'The movement, and the lot after it.' });

const count = z
  .int(remedy('must be a whole number'))
  .min(1, remedy('must be at least 1'))
  .max(1e6, remedy('must be at most 1000000'));

const taken = {
  mass: z
    .union(
      [massSchema, z.literal('all')],
      remedy('must be a mass with its unit, such as {"value": 500, "unit": "lb"}, or "all"'),
    )
    .optional()
    .meta({ description: 'What leaves the lot; "all" for all that no batch was promised.' }),
  packs: count.optional().meta({ description: 'Packs, in place of mass.' }),
  pieces: count.optional().meta({ description: 'Pieces, cases or the like, as a note.' }),
};
const to = textSchema(120).meta({ description: 'Name of who gets it.' });
const document = textSchema(80).meta({ description: 'Number of the delivery note or invoice.' });

/** Exactly one way of saying how much. */
function refuseUncertain(
  { mass, packs }: { readonly mass?: unknown; readonly packs?: unknown },
  context: z.RefinementCtx,
): void {
  if ((mass === undefined) !== (packs === undefined)) return;
  const message = mass === undefined ? 'is missing; give mass or packs' : 'stands beside packs; keep one';
  context.addIssue({ code: 'custom', path: ['mass'], message });
}

const HAND_KINDS = ['adjusted', 'discarded', 'sold', 'shipped'] as const;

export const movementSchema = z
  .discriminatedUnion(
    'kind',
    [
      record(
        {
          kind: z.literal('adjusted'),
          counted: stockSchema
            .optional()
            .meta({ description: 'What is really there; the difference is booked.' }),
          countedPacks: z
            .int(remedy('must be a whole number'))
            .min(0, remedy('must not be negative'))
            .max(1e6, remedy('must be at most 1000000'))
            .optional()
            .meta({ description: 'Packs that are really there, in place of counted.' }),
          reason: reasonSchema,
        },
        'must say what was counted',
      ).superRefine(({ counted, countedPacks }, context) => {
        if ((counted === undefined) !== (countedPacks === undefined)) return;
        const message =
          counted === undefined
            ? 'is missing; give counted, such as {"value": 500, "unit": "lb"}, or countedPacks'
            : 'stands beside countedPacks; keep one';
        context.addIssue({ code: 'custom', path: ['counted'], message });
      }),
      record({ kind: z.literal('discarded'), ...taken, reason: reasonSchema }, 'must say what').superRefine(
        refuseUncertain,
      ),
      record(
        { kind: z.literal('sold'), ...taken, to: to.optional(), document: document.optional() },
        'must say what',
      ).superRefine(refuseUncertain),
      record({ kind: z.literal('shipped'), ...taken, to, document }, 'must say what').superRefine(
        refuseUncertain,
      ),
    ],
    {
      error: ({ input }) =>
        `${shown((input as { kind?: unknown } | null)?.kind ?? input)}: its kind must be one of: ${HAND_KINDS.join(', ')}; what batches do is booked by them alone`,
    },
  )
  .meta({ id: 'MovementInput' });

const { mass, packs, pieces } = taken;

export const shipmentSchema = record(
  {
    to,
    document,
    lines: listSchema(
      record({ lotId: idSchema, mass, packs, pieces }, 'must name a lot and its mass or packs').superRefine(
        refuseUncertain,
      ),
      200,
      'lines such as {"lotId": "…", "packs": 40}',
    ).min(1, remedy('must hold at least one line')),
  },
  'must be a shipment with to, document and lines',
).meta({ id: 'ShipmentInput' });

export const shipmentAnswer = z
  .object({
    to: z.string(),
    document: z.string(),
    total: weight,
    movements: z.array(movementAnswer),
    cautions,
  })
  .meta({ id: 'Shipment' });

export type MovementRequest = z.output<typeof movementSchema>;
export type Taken = { readonly [Key in keyof typeof taken]?: z.output<(typeof taken)[Key]> };
export type MovementAnswer = z.output<typeof movementAnswer>;
