import type { z } from 'zod';
import { Refused } from '../../ledger/refused.ts';
import { findStandard, type RuleSet } from '../../rules/standard.ts';
import type { Db } from '../../store/open.ts';
import { presentOf } from '../../store/revisions.ts';
import type { FieldIssue } from '../../tables/json.ts';
import { materialIssues, productSchema } from '../../tables/products.ts';
import type { Books } from '../books.ts';
import { productAnswer, productsAnswer, productsQuery, withdrawnAnswer } from '../contract/resources.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { materialsOf, type PlantBooks } from '../plant-of-store.ts';
import { pageOf } from '../resources.ts';
import { changedFields } from './changed-fields.ts';
import { refuseIssues, stockIssues } from './issues.ts';
import { presentState, refuseAbsent, withdrawn, writeState } from './revised.ts';

/** What the plant makes, in the form that its files and its requests have. */
export function productEndpoints(books: Books): Endpoint[] {
  const tag = 'Products and materials';
  return [
    {
      method: 'GET',
      path: '/products',
      tag,
      says: 'Products of the plant',
      may: 'read',
      query: productsQuery,
      gives: productsAnswer,
      handle: async ({ query }) => ({
        body: await listProducts(books, query as z.output<typeof productsQuery>),
      }),
    },
    {
      method: 'GET',
      path: '/products/:id',
      tag,
      says: 'One product',
      may: 'read',
      gives: productAnswer,
      handle: ({ params }) => readProduct(books, params.id ?? ''),
    },
    {
      method: 'POST',
      path: '/products',
      tag,
      says: 'Add a product',
      may: 'plan',
      takes: productSchema,
      example: EXAMPLE_PRODUCT,
      gives: productAnswer,
      status: 201,
      handle: (call) => addProduct(books, call),
    },
    {
      method: 'PUT',
      path: '/products/:id',
      tag,
      says: 'Write a product anew, all of it',
      may: 'plan',
      takes: productSchema,
      gives: productAnswer,
      needsVersion: true,
      handle: (call) => replaceProduct(books, call),
    },
    {
      method: 'DELETE',
      path: '/products/:id',
      tag,
      says: 'Withdraw a product; batches made of it stay as they are',
      may: 'plan',
      gives: withdrawnAnswer,
      handle: (call) => withdrawProduct(books, call),
    },
  ];
}

export const EXAMPLE_PRODUCT = {
  id: 'ground-beef-85-15',
  name: 'Ground beef 85/15',
  standard: { jurisdiction: 'us', productClass: 'ground-beef' },
  meatBlock: [{ name: 'beef', kinds: ['skeletal meat'], species: ['beef'], minFraction: 1 }],
  seasoning: [],
  targets: [{ measure: 'fat', min: 0.14, max: 0.15 }],
  process: {
    cooking: 'raw',
    smoked: false,
    yieldFraction: 1,
    fatLossFraction: 0,
    grindPlates: ['3/8 in', '1/8 in'],
    mixing: ['mix 2 min'],
  },
  form: { shape: 'bulk' },
  label: {
    leanPercent: 85,
    storage: 'keep refrigerated',
    packs: [{ id: 'brick-2-lb', netWeight: { value: '2', unit: 'lb' } }],
  },
};

async function listProducts(books: Books, page: z.output<typeof productsQuery>) {
  const rows = await books.store.read((db) => presentOf(db, 'product'));
  return {
    ...pageOf(rows, page, ({ body }) => JSON.parse(body) as unknown),
    versions: Object.fromEntries(rows.map(({ id, revision }) => [id, revision])),
  };
}

async function readProduct(books: Books, id: string): Promise<Answer> {
  const [row, known] = await books.store.read(async (db) => [
    await presentState(db, 'product', id),
    await idsOf(db),
  ]);
  const { body, revision } = refuseAbsent(row, noProduct(id, known));
  return { body: JSON.parse(body) as unknown, version: revision };
}

async function idsOf(db: Db): Promise<string> {
  return (await presentOf(db, 'product')).map(({ id }) => id).join(', ');
}

function noProduct(id: string, known: string): string {
  return `No product has the id "${id}". The products are ${known}.`;
}

async function addProduct(books: Books, call: Call): Promise<Answer> {
  const { id, name } = parseOrProblem(productSchema, call.body);
  const what = { action: 'product added', subject: { kind: 'product', id } };
  return writeState(books, call, what, async ({ db }, state, data) => {
    if (state) {
      throw new Refused('taken', `There is a product "${id}" already; give this one another id`, ['id']);
    }
    refuseIssues(await productIssues(books, db, data, call.body));
    return {
      body: call.body,
      says: `${name} was added`,
      answer: (version) => ({ body: call.body, version, location: `/products/${id}` }),
    };
  });
}

async function replaceProduct(books: Books, call: Call): Promise<Answer> {
  const { id = '' } = call.params;
  const product = parseOrProblem(productSchema, call.body);
  const what = { action: 'product changed', subject: { kind: 'product', id } };
  return writeState(books, call, what, async ({ db }, state, data) => {
    const { body: before } = refuseAbsent(state, noProduct(id, await idsOf(db)));
    if (product.id !== id) {
      const message = `"${product.id}" is not "${id}"; the id of a product stays, add another product instead`;
      throw new Refused('unfit', message, ['id']);
    }
    refuseIssues(await productIssues(books, db, data, call.body));
    return {
      body: call.body,
      says: `${product.name} changed: ${changedFields(JSON.parse(before) as object, call.body as object)}`,
      answer: (version) => ({ body: call.body, version }),
    };
  });
}

async function withdrawProduct(books: Books, call: Call): Promise<Answer> {
  const { id = '' } = call.params;
  const what = { action: 'product withdrawn', subject: { kind: 'product', id } };
  return writeState(books, call, what, async ({ db }, state) =>
    withdrawn(refuseAbsent(state, noProduct(id, await idsOf(db))), `${id} was withdrawn`),
  );
}

/** What the schema of a product cannot see: its materials and its standard. */
async function productIssues(
  { ruleSets }: Books,
  db: Db,
  { tables }: PlantBooks,
  body: unknown,
): Promise<FieldIssue[]> {
  const product = productSchema.parse(body);
  return [
    ...materialIssues(product, await materialsOf(db, tables)),
    ...standardIssues(product.standard, ruleSets),
    ...(product.label.packs ?? []).flatMap(({ labelStock }, index) =>
      stockIssues(labelStock, ['label', 'packs', index, 'labelStock']),
    ),
  ];
}

export function standardIssues(
  { jurisdiction, productClass }: { readonly jurisdiction: string; readonly productClass: string },
  ruleSets: readonly RuleSet[],
): FieldIssue[] {
  const ruleSet = ruleSets.find((known) => known.jurisdiction === jurisdiction);
  if (!ruleSet) {
    const known = ruleSets.map((one) => one.jurisdiction).join(', ');
    const message = `"${jurisdiction}" has no rules here; the jurisdictions are ${known}`;
    return [{ path: ['standard', 'jurisdiction'], message }];
  }
  if (findStandard(ruleSet, productClass)) return [];
  const known = ruleSet.standards.map((one) => one.productClass).join(', ');
  const message = `"${productClass}" is no product class of ${ruleSet.says}; the classes are ${known}`;
  return [{ path: ['standard', 'productClass'], message }];
}
