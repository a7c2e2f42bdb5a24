import type { Material } from '../../batch/material.ts';
import { Refused } from '../../ledger/refused.ts';
import { findLot } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import { lastRevision, revise } from '../../store/revisions.ts';
import type { RevisionRow } from '../../store/schema.ts';
import { materialIssues } from '../../tables/products.ts';
import type { Books } from '../books.ts';
import { type MaterialInput, materialSchema } from '../contract/blend-request.ts';
import type { Answer, Call } from '../endpoint.ts';
import { type RequestIssue, withOwnMaterials } from '../own-inputs.ts';
import { parseOrProblem } from '../parse.ts';
import { materialsOf, type PlantBooks, productsOf } from '../plant-of-store.ts';
import { changedFields } from './changed-fields.ts';
import { refuseIssues } from './issues.ts';
import { noMaterial, shownMaterial } from './material-view.ts';
import { refuseAbsent, type State, withdrawn, writeState } from './revised.ts';

/** The plant's own materials are added, changed and withdrawn, as long as what uses them still can. */

export async function addMaterial(books: Books, call: Call): Promise<Answer> {
  const input = parseOrProblem(materialSchema, call.body);
  const what = { action: 'material added', subject: { kind: 'material', id: input.id } };
  return writeState(books, call, what, async ({ db }, state, { tables }) => {
    if (state || (await lastRevision(db, 'rework', input.id))) {
      const message = `There is a material "${input.id}" already; give this one another id`;
      throw new Refused('taken', message, ['id']);
    }
    if (await findLot(db, input.id)) {
      throw new Refused('unfit', `"${input.id}" is the id of a lot; give the material another id`, ['id']);
    }
    const material = ownMaterial(input, tables);
    return {
      body: material,
      says: `${input.name} was added`,
      answer: (version) => ({
        body: shownMaterial(material, true, version),
        version,
        location: `/materials/${input.id}`,
      }),
    };
  });
}

export async function replaceMaterial(books: Books, call: Call): Promise<Answer> {
  const { id = '' } = call.params;
  const input = parseOrProblem(materialSchema, call.body);
  const what = { action: 'material changed', subject: { kind: 'material', id } };
  return writeState(books, call, what, async ({ db }, state, data) => {
    const before = ownOrRefuse(state, id, data);
    if (input.id !== id) {
      const message = `"${input.id}" is not "${id}"; the id of a material stays, add another material instead`;
      throw new Refused('unfit', message, ['id']);
    }
    const material = ownMaterial(input, data.tables);
    await refuseMisfit(db, data, material);
    return {
      body: material,
      says: `${input.name} changed: ${changedFields(JSON.parse(before.body) as object, material)}`,
      answer: (version) => ({ body: shownMaterial(material, true, version), version }),
    };
  });
}

export async function withdrawMaterial(books: Books, call: Call): Promise<Answer> {
  const { id = '' } = call.params;
  const what = { action: 'material withdrawn', subject: { kind: 'material', id } };
  return writeState(books, call, what, async (writing, state, data) => {
    const { db } = writing;
    const row = ownOrRefuse(state, id, data);
    await refuseInUse(db, data, id);
    const price = await lastRevision(db, 'price', id);
    if (price?.withdrawn === 0) {
      await revise(writing, 'price', id, JSON.parse(price.body), { withdrawn: true });
    }
    return withdrawn(row, `${id} was withdrawn${price?.withdrawn === 0 ? ', with its price' : ''}`);
  });
}

/** @throws Problem with what is wrong with it, one of the tables' ids among that. */
function ownMaterial(input: MaterialInput, tables: PlantBooks['tables']): Material {
  const issues: RequestIssue[] = [];
  const material = withOwnMaterials(tables, [input], issues).get(input.id);
  // The issues are those of a list of materials.
  refuseIssues(issues.map(({ path, message }) => ({ path: path.slice(2), message })));
  if (!material) throw new Error(`material ${input.id} was lost`);
  return material;
}

/** @throws Refused 'unknown', or 'unfit' for what the plant does not write itself. */
function ownOrRefuse(state: State, id: string, { tables }: PlantBooks): RevisionRow {
  if (tables.has(id)) {
    const message = `"${id}" stands in the ingredient tables, which stay as they are; add a material of your own under another id.`;
    throw new Refused('unfit', message);
  }
  return refuseAbsent(state, noMaterial(id));
}

/** A product must not come to name a material that has no place where it stands. */
async function refuseMisfit(db: Db, { tables }: PlantBooks, material: Material): Promise<void> {
  const before = await materialsOf(db, tables);
  const after = new Map(before);
  after.set(material.id, material);
  for (const { product } of (await productsOf(db, before)).values()) {
    const [issue] = materialIssues(product, after);
    if (issue) {
      const message = `product ${product.id}, ${issue.path.join('.')}: ${issue.message}`;
      throw new Refused('unfit', message, ['kind']);
    }
  }
}

async function refuseInUse(db: Db, { tables }: PlantBooks, id: string): Promise<void> {
  const lots = await db
    .selectFrom('lots')
    .select('id')
    .where('kind', '=', 'material')
    .where('ofId', '=', id)
    .where('onHandUg', '>', 0)
    .orderBy('id')
    .execute();
  const materials = await materialsOf(db, tables);
  const products = await productsOf(db, materials);
  materials.delete(id);
  const using = [...products.values()].filter(({ product }) => materialIssues(product, materials).length > 0);
  const users = [
    ...lots.map((lot) => `lot ${lot.id}`),
    ...using.map(({ product }) => `product ${product.id}`),
  ];
  if (users.length === 0) return;
  throw new Refused('out of turn', `"${id}" is in use: ${users.join(', ')}. Change or use up those first.`);
}
