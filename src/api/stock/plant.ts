import type { FieldIssue } from '../../tables/json.ts';
import { type PlantFile, plantSchema } from '../../tables/plant.ts';
import { type Books, momentOf } from '../books.ts';
import { plantAnswer } from '../contract/resources.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { changedFields } from './changed-fields.ts';
import { refuseIssues, stockIssues } from './issues.ts';
import { presentState, refuseAbsent, writeState } from './revised.ts';

/** The plant itself: its name, its day, its mixer and its scales. */
export function plantItselfEndpoints(books: Books): Endpoint[] {
  const tag = 'Plant and rules';
  return [
    {
      method: 'GET',
      path: '/plant',
      tag,
      says: 'The plant and its scales',
      may: 'read',
      gives: plantAnswer,
      handle: () => readPlant(books),
    },
    {
      method: 'PUT',
      path: '/plant',
      tag,
      says: 'Write the plant anew, all of it',
      may: 'manage',
      takes: plantSchema,
      gives: plantAnswer,
      needsVersion: true,
      handle: (call) => replacePlant(books, call),
    },
  ];
}

const NO_PLANT = 'The store has no plant yet.';

async function readPlant(books: Books): Promise<Answer> {
  const row = await books.store.read((db) => presentState(db, 'plant', 'plant'));
  const { body, revision } = refuseAbsent(row, NO_PLANT);
  return shownPlant(books, JSON.parse(body), revision);
}

/** @param settings the plant as its file has it. */
function shownPlant(books: Books, settings: unknown, version: number): Answer {
  const plant: PlantFile = plantSchema.parse(settings);
  const { name, establishment, jurisdiction, currency, units, timeZone, mixerCapacityKg, scales } = plant;
  const { address, printing } = plant;
  const { day } = momentOf({ plant }, books.now());
  return {
    body: {
      name,
      establishment,
      jurisdiction,
      currency,
      units,
      timeZone,
      today: day,
      mixerCapacityKg,
      scales,
      ...(address && { address }),
      ...(printing && { printing }),
      version,
      settings,
    },
    version,
  };
}

/** What the schema of a plant cannot see: whether its market has rules here, and its labels a stock. */
export function plantIssues(
  { ruleSets }: Pick<Books, 'ruleSets'>,
  { jurisdiction, printing }: PlantFile,
  at: FieldIssue['path'] = [],
): FieldIssue[] {
  const known = ruleSets.map((one) => one.jurisdiction);
  const message = `"${jurisdiction}" has no rules here; the jurisdictions are ${known.join(', ')}`;
  return [
    ...(known.includes(jurisdiction) ? [] : [{ path: [...at, 'jurisdiction'], message }]),
    ...stockIssues(printing?.labelStock, [...at, 'printing', 'labelStock']),
  ];
}

async function replacePlant(books: Books, call: Call): Promise<Answer> {
  const plant = parseOrProblem(plantSchema, call.body);
  const { name } = plant;
  refuseIssues(plantIssues(books, plant));
  const what = { action: 'plant changed', subject: { kind: 'plant', id: 'plant' } };
  return writeState(books, call, what, async (_writing, state) => {
    const { body: before } = refuseAbsent(state, NO_PLANT);
    return {
      body: call.body,
      says: `${name} changed: ${changedFields(JSON.parse(before) as object, call.body as object)}`,
      answer: (version) => shownPlant(books, call.body, version),
    };
  });
}
