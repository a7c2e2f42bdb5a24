import type { z } from 'zod';
import type { Material } from '../../batch/material.ts';
import { presentOf } from '../../store/revisions.ts';
import type { Books } from '../books.ts';
import { materialSchema } from '../contract/blend-request.ts';
import { materialAnswer, materialsAnswer, materialsQuery, withdrawnAnswer } from '../contract/resources.ts';
import type { Answer, Endpoint } from '../endpoint.ts';
import { Problem } from '../problem.ts';
import { pageOf } from '../resources.ts';
import { noMaterial, shownMaterial } from './material-view.ts';
import { presentState } from './revised.ts';
import { addMaterial, replaceMaterial, withdrawMaterial } from './write-material.ts';

/** Materials of the ingredient tables, which stand, and the plant's own, which it keeps itself. */
export function materialEndpoints(books: Books): Endpoint[] {
  const tag = 'Products and materials';
  return [
    {
      method: 'GET',
      path: '/materials',
      tag,
      says: "Materials of the ingredient tables and the plant's own",
      may: 'read',
      query: materialsQuery,
      gives: materialsAnswer,
      handle: async ({ query }) => ({
        body: await listMaterials(books, query as z.output<typeof materialsQuery>),
      }),
    },
    {
      method: 'GET',
      path: '/materials/:id',
      tag,
      says: 'One material',
      may: 'read',
      gives: materialAnswer,
      handle: ({ params }) => readMaterial(books, params.id ?? ''),
    },
    {
      method: 'POST',
      path: '/materials',
      tag,
      says: "Add a material of the plant's own",
      may: 'plan',
      takes: materialSchema,
      example: {
        id: 'house-smoked-paprika',
        name: 'House smoked paprika',
        declaredName: 'paprika',
        kind: 'spice',
        composition: {
          waterFraction: 0.1,
          fatFraction: 0.13,
          proteinFraction: 0.14,
          carbohydrateFraction: 0.54,
          ashFraction: 0.08,
        },
        source: 'certificate of the supplier',
      },
      gives: materialAnswer,
      status: 201,
      handle: (call) => addMaterial(books, call),
    },
    {
      method: 'PUT',
      path: '/materials/:id',
      tag,
      says: "Write a material of the plant's own anew, all of it",
      may: 'plan',
      takes: materialSchema,
      gives: materialAnswer,
      needsVersion: true,
      handle: (call) => replaceMaterial(books, call),
    },
    {
      method: 'DELETE',
      path: '/materials/:id',
      tag,
      says: "Withdraw a material of the plant's own that nothing uses",
      may: 'plan',
      gives: withdrawnAnswer,
      handle: (call) => withdrawMaterial(books, call),
    },
  ];
}

async function listMaterials(books: Books, query: z.output<typeof materialsQuery>) {
  const { kind, species, search = '', ...page } = query;
  const wanted = search.toLowerCase();
  const data = await books.plant();
  const written = await books.store.read((db) => presentOf(db, 'material'));
  const versions = new Map(written.map(({ id, revision }) => [id, revision]));
  const materials = new Map(data.materials);
  for (const { id, body } of written) materials.set(id, JSON.parse(body) as Material);
  const found = [...materials.values()].filter(
    (material) =>
      (!kind || material.kind === kind) &&
      (!species || material.species === species) &&
      (material.name.toLowerCase().includes(wanted) || material.id.includes(wanted)),
  );
  return pageOf(found, page, (material) =>
    shownMaterial(material, !data.tables.has(material.id), versions.get(material.id)),
  );
}

async function readMaterial(books: Books, id: string): Promise<Answer> {
  const data = await books.plant();
  const written = await books.store.read((db) => presentState(db, 'material', id));
  if (written) {
    const { body, revision } = written;
    return { body: shownMaterial(JSON.parse(body) as Material, true, revision), version: revision };
  }
  const material = data.materials.get(id);
  if (!material) throw new Problem('not-found', noMaterial(id));
  return { body: shownMaterial(material, !data.tables.has(id), undefined) };
}
