import { Refused } from '../../ledger/refused.ts';
import { refuseChanged } from '../../store/history.ts';
import {
  addPerson,
  editPerson,
  hasAdmin,
  listPeople,
  type PersonChange,
  personOrRefuse,
  setPassword,
} from '../../store/people.ts';
import type { PersonRow } from '../../store/schema.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { Problem } from '../problem.ts';
import type { Access } from './access.ts';
import {
  newPersonSchema,
  ownPasswordSchema,
  peopleAnswer,
  personAnswer,
  personChangeSchema,
  sessionAnswer,
} from './contract.ts';
import { enter, whoeverProves } from './entering.ts';
import { NO_STORE } from './no-store.ts';
import { refusePassword } from './passwords.ts';
import type { Role } from './roles.ts';
import { withoutSecret } from './without-secret.ts';

/** People of the plant: who they are, what they may do and how they prove it. */
export function peopleEndpoints(books: Books, access: Access): Endpoint[] {
  const shared = { tag: 'People and access', may: 'manage', gives: personAnswer } as const;
  return [
    {
      ...shared,
      method: 'GET',
      path: '/people',
      says: 'Everyone who has an account, by name',
      gives: peopleAnswer,
      handle: async () => {
        const rows = await books.store.read(listPeople);
        return { body: { items: rows.map(viewOf) }, headers: NO_STORE };
      },
    },
    {
      ...shared,
      method: 'POST',
      path: '/people',
      says: 'Add someone. The first person is an admin; from then on everyone logs in',
      takes: newPersonSchema,
      example: { name: 'Ana', role: 'admin', password: 'a few words of your own' },
      status: 201,
      handle: (call) => add(books, access, call),
    },
    {
      ...shared,
      method: 'GET',
      path: '/people/:id',
      says: 'One person',
      handle: async ({ params }) =>
        answered(await books.store.read((db) => personOrRefuse(db, params.id ?? ''))),
    },
    {
      ...shared,
      method: 'PATCH',
      path: '/people/:id',
      says: 'Change a name or a role, let someone in no more, or give a new password',
      takes: personChangeSchema,
      example: { role: 'inspector' },
      needsVersion: true,
      handle: (call) => edit(books, access, call),
    },
    {
      ...shared,
      method: 'PUT',
      path: '/people/me/password',
      says: 'Change your own password; every other session of yours ends',
      may: 'read',
      takes: ownPasswordSchema,
      example: { old: 'a few words of your own', new: 'a few other words' },
      gives: sessionAnswer,
      handle: (call) => changeOwn(books, access, call),
    },
  ];
}

async function add(books: Books, access: Access, call: Call): Promise<Answer> {
  const { name, role, password: plain } = parseOrProblem(newPersonSchema, call.body);
  refusePassword(plain, name, 'password');
  const password = await access.passwords.hash(plain);
  const what = { action: 'person added', subject: { kind: 'person', id: '' } };
  return change(books, withoutSecret(call, { name, role }), what, async (writing) => {
    if (role !== 'admin' && !(await hasAdmin(writing.db))) {
      throw new Refused('unfit', 'the first person must be an admin, who then adds the others', ['role']);
    }
    const row = await addPerson(writing, { name, role, password });
    return {
      says: `${name}, ${role}`,
      subject: { kind: 'person', id: row.id },
      result: { ...answered(row), location: `/people/${row.id}` },
    };
  });
}

async function edit(books: Books, access: Access, call: Call): Promise<Answer> {
  const { password: plain, ...wanted } = parseOrProblem(personChangeSchema, call.body);
  const { id = '' } = call.params;
  const before = await books.store.read((db) => personOrRefuse(db, id));
  if (plain !== undefined) refusePassword(plain, wanted.name ?? before.name, 'password');
  const password = plain === undefined ? undefined : await access.passwords.hash(plain);
  const { plant } = await books.plant();
  const subject = { kind: 'person', id };
  const act = { action: 'person changed', subject };
  return change(books, withoutSecret(call, wanted), act, async (writing) => {
    const row = await personOrRefuse(writing.db, id);
    await refuseChanged(writing.db, subject, row.revision, call.ifVersion, plant.timeZone);
    const edited = Object.keys(wanted).length === 0 ? row : await editPerson(writing, id, wanted);
    if (password !== undefined) await setPassword(writing, id, password);
    return { says: changeText(row, wanted, password !== undefined), result: answered(edited) };
  });
}

function changeText(row: PersonRow, { name, role, active }: PersonChange, hasNewPassword: boolean): string {
  const told = [
    ...(name === undefined || name === row.name ? [] : [`now called ${name}`]),
    ...(role === undefined || role === row.role ? [] : [`${role}, was ${row.role}`]),
    ...(active === undefined || Number(active) === row.active
      ? []
      : [active ? 'may log in again' : 'may log in no more']),
    ...(hasNewPassword ? ['a new password'] : []),
  ];
  return `${row.name}: ${told.join('; ') || 'nothing new'}`;
}

async function changeOwn(books: Books, access: Access, call: Call): Promise<Answer> {
  const { old, new: plain } = parseOrProblem(ownPasswordSchema, call.body);
  const { caller, incoming } = call;
  if (caller.via !== 'session') {
    throw new Problem('not-as-things-stand', `${caller.name} has no password. Log in as a person first.`);
  }
  const claim = { name: caller.name, password: old, address: incoming.remoteAddress };
  const person = await provesAnew(books, access, claim);
  refusePassword(plain, person.name, 'new');
  const password = await access.passwords.hash(plain);
  const what = { action: 'password changed', subject: { kind: 'person', id: person.id } };
  await change(books, { caller }, what, async (writing) => {
    const row = await personOrRefuse(writing.db, person.id);
    if (row.password !== person.password || row.active === 0) {
      throw new Refused('changed meanwhile', 'Your account was changed in the meantime. Log in again.');
    }
    await setPassword(writing, person.id, password);
    return { says: `${person.name} has a new password`, result: {} };
  });
  return enter(books, access, { ...person, password });
}

/** A wrong old password is no lost login: the session goes on. */
async function provesAnew(...args: Parameters<typeof whoeverProves>): Promise<PersonRow> {
  try {
    return await whoeverProves(...args);
  } catch (error) {
    if (!(error instanceof Problem && error.kind === 'not-logged-in')) throw error;
    const message = 'is not your password; type the one you have now';
    throw new Problem('cannot-be-used', 'The old password is wrong.', {
      errors: [{ pointer: '/old', message }],
    });
  }
}

function answered(row: PersonRow): Answer {
  return { body: viewOf(row), version: row.revision, headers: NO_STORE };
}

function viewOf({ id, name, role, active, revision }: PersonRow) {
  return { id, name, role: role as Role, active: active === 1, version: revision };
}
