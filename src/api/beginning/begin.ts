import type { z } from 'zod';
import { Refused } from '../../ledger/refused.ts';
import type { Db } from '../../store/open.ts';
import { addPerson, hasAdmin } from '../../store/people.ts';
import { presentOf, revise } from '../../store/revisions.ts';
import type { Act, Writing } from '../../store/store.ts';
import { type PlantFile, plantSchema } from '../../tables/plant.ts';
import { productSchema } from '../../tables/products.ts';
import type { Access } from '../access/access.ts';
import { sessionToken } from '../access/cookies.ts';
import { enter, told, viewOf } from '../access/entering.ts';
import { refusePassword } from '../access/passwords.ts';
import { withoutSecret } from '../access/without-secret.ts';
import { type Books, momentOf } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { refuseIssues } from '../stock/issues.ts';
import { plantIssues } from '../stock/plant.ts';
import { standardIssues } from '../stock/products.ts';
import { beginningSchema, type beginningStateAnswer } from './contract.ts';
import { BEGUN, materialsNamed, putLotsAway, withdrawOthers, withdrawTests, workBooked } from './put-away.ts';

/** How the service is started on a store of its own: that one is founded anew. */
export const ANOTHER_STORE = 'STORE=my-plant.sqlite npm start';

/** Whether the plant can be begun anew, and if not why. */
export async function readBeginning(books: Books): Promise<z.output<typeof beginningStateAnswer>> {
  const { plant } = await books.plant();
  const { work, needsAdmin } = await books.store.read(async (db) => ({
    work: await workBooked(db),
    needsAdmin: !(await hasAdmin(db)),
  }));
  return {
    isPossible: work.length === 0,
    ...(work.length > 0 && { says: bookedText(work), command: ANOTHER_STORE }),
    ...(plant.demoDate !== undefined && { standsStillAt: plant.demoDate }),
    needsAdmin,
  };
}

function bookedText(work: readonly string[]): string {
  return `Work stands in the books (${work.join(', ')}), and nothing in them is ever lost. Start the service on another store and begin there: ${ANOTHER_STORE}`;
}

type Beginning = z.output<typeof beginningSchema>;

/** What is told of a beginning beside the session. */
interface Begun {
  readonly lotsPutAway: number;
  readonly testsWithdrawn: number;
  readonly productsKept: number;
  readonly pricesKept: number;
}

/**
 * Puts a plant of one's own in place of the one that the books were founded with, in one entry.
 * @throws Refused 'out of turn' once work is booked, or for a first admin where there is one; 'unfit' without one.
 */
export async function begin(books: Books, access: Access, call: Call): Promise<Answer> {
  const beginning = parseOrProblem(beginningSchema, call.body);
  const { plant, keeps, admin } = beginning;
  refuseIssues(beginningIssues(books, beginning));
  if (admin) refusePassword(admin.password, admin.name, 'admin/password');
  const { demoDate } = (await books.plant()).plant;
  const isTrial = keeps === 'all' && demoDate !== undefined;
  const settings = { ...(call.body as { plant: object }).plant, ...(isTrial && { demoDate }) };
  const person = admin && {
    name: admin.name,
    role: 'admin',
    password: await access.passwords.hash(admin.password),
  };
  const { caller, idempotency } = withoutSecret(call, { plant, keeps, admin: admin?.name }, 'beginning');
  const act: Act = {
    by: { id: caller.id, name: caller.name },
    ...momentOf({ plant: plantSchema.parse(settings) }, books.now()),
    action: BEGUN,
    subject: { kind: 'plant', id: 'plant' },
    ...(idempotency && { idempotency }),
  };
  const { id, ...begun } = await books.store.write(act, async (writing) => {
    await refuseLate(writing.db, beginning, isTrial);
    await revise(writing, 'plant', 'plant', settings);
    const counts = keeps === 'all' ? await allKept(writing.db) : await putAway(writing, plant, keeps);
    const added = person && (await addPerson(writing, person));
    return { says: saysOf(plant, counts), result: { ...counts, id: added?.id ?? null } };
  });
  if (!person || id === null) return told({ session: await viewOf(access, caller), ...begun });
  const { body, ...entered } = await enter(
    books,
    access,
    { ...person, id },
    sessionToken(call.incoming.headers),
  );
  return { ...entered, body: { session: body, ...begun } };
}

function beginningIssues(books: Books, { plant, keeps }: Beginning) {
  const { jurisdiction, demoDate } = plant;
  const message = 'stands still for a demonstration alone; take it out';
  return [
    ...plantIssues(books, plant, ['plant']),
    ...(demoDate === undefined ? [] : [{ path: ['plant', 'demoDate'], message }]),
    ...(keeps === 'all' ? [] : keeps.products).flatMap(({ productClass }, index) =>
      productClass === undefined
        ? []
        : standardIssues({ jurisdiction, productClass }, books.ruleSets).map((issue) => ({
            ...issue,
            path: ['keeps', 'products', index, 'productClass'],
          })),
    ),
  ];
}

/** What only the books know. A plant that is no demonstration and has no admin could not be entered any more. */
async function refuseLate(db: Db, { admin }: Beginning, isTrial: boolean): Promise<void> {
  const work = await workBooked(db);
  if (work.length > 0) throw new Refused('out of turn', bookedText(work));
  const isAdminThere = await hasAdmin(db);
  if (admin && isAdminThere) {
    throw new Refused('out of turn', 'There is an admin already, who adds the others. Leave admin out.', [
      'admin',
    ]);
  }
  if (!admin && !isAdminThere && !isTrial) {
    const message = 'is missing; whoever is to log in to the new plant first must have a name and a password';
    throw new Refused('unfit', message, ['admin']);
  }
}

async function allKept(db: Db): Promise<Begun> {
  const [products, prices] = [await presentOf(db, 'product'), await presentOf(db, 'price')];
  return { lotsPutAway: 0, testsWithdrawn: 0, productsKept: products.length, pricesKept: prices.length };
}

async function putAway(
  writing: Writing,
  { jurisdiction }: PlantFile,
  { products }: Exclude<Beginning['keeps'], 'all'>,
): Promise<Begun> {
  const wanted = new Map(products.map(({ id, productClass }) => [id, productClass]));
  const known = await withdrawOthers(writing, 'product', ({ id }) => wanted.has(id));
  products.forEach(({ id }, index) => {
    if (known.some((row) => row.id === id)) return;
    throw new Refused('unknown', `There is no product "${id}" to keep`, ['keeps', 'products', index, 'id']);
  });
  for (const { id, body } of known) {
    const productClass = wanted.get(id);
    if (productClass === undefined) continue;
    await revise(writing, 'product', id, { ...JSON.parse(body), standard: { jurisdiction, productClass } });
  }
  const named = materialsNamed(known.map(({ body }) => productSchema.parse(JSON.parse(body))));
  const prices = await withdrawOthers(writing, 'price', ({ id }) => named.has(id));
  await withdrawOthers(writing, 'house rules', () => false);
  return {
    lotsPutAway: await putLotsAway(writing),
    testsWithdrawn: await withdrawTests(writing),
    productsKept: known.length,
    pricesKept: prices.length,
  };
}

function saysOf({ name }: PlantFile, { lotsPutAway, productsKept }: Begun): string {
  const lots = lotsPutAway === 0 ? '' : `; ${lotsPutAway} lots of the demonstration put away`;
  return `${name} was begun with ${productsKept} products${lots}`;
}
