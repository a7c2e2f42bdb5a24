import { Refused } from '../../ledger/refused.ts';
import { addPerson, hasAdmin } from '../../store/people.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { Problem } from '../problem.ts';
import type { Access } from './access.ts';
import type { Caller } from './caller.ts';
import { loginSchema, sessionAnswer, setUpSchema } from './contract.ts';
import { noCookie, sessionToken } from './cookies.ts';
import { enter, told, viewOf, whoeverProves } from './entering.ts';
import { refusePassword } from './passwords.ts';
import { stopSession } from './sessions.ts';

/** Logging in and out, and the first admin. */
export function sessionEndpoints(books: Books, access: Access): Endpoint[] {
  const shared = { tag: 'People and access', may: 'anyone', gives: sessionAnswer } as const;
  return [
    {
      ...shared,
      method: 'GET',
      path: '/session',
      says: 'Who you are, and whether login or set-up is needed',
      handle: async ({ caller }) => told(await viewOf(access, caller.id === '' ? undefined : caller)),
    },
    {
      ...shared,
      method: 'POST',
      path: '/session',
      says: 'Log in',
      takes: loginSchema,
      example: { name: 'Ana', password: 'a few words of your own' },
      handle: (call) => login(books, access, call),
    },
    {
      ...shared,
      method: 'DELETE',
      path: '/session',
      says: 'Log out',
      handle: async ({ incoming }) => {
        await stopSession(books, sessionToken(incoming.headers));
        return told(await viewOf(access, undefined), noCookie({ secure: access.secureCookie }));
      },
    },
    {
      ...shared,
      method: 'POST',
      path: '/set-up',
      says: 'Make the first admin with the code on the terminal of the service, and log in',
      takes: setUpSchema,
      example: { code: 'K7QM-4XTR-9HWP', name: 'Ana', password: 'a few words of your own' },
      handle: (call) => setUp(books, access, call),
    },
  ];
}

async function login(books: Books, access: Access, { body, incoming }: Call): Promise<Answer> {
  const { name, password } = parseOrProblem(loginSchema, body);
  const person = await whoeverProves(books, access, { name, password, address: incoming.remoteAddress });
  return enter(books, access, person, sessionToken(incoming.headers));
}

/** Whoever has read the terminal of the machine; the books know nobody yet. */
const SET_UP_CALLER: Caller = { id: 'set-up', name: 'set-up code', role: 'admin', via: 'session' };

const ADMIN_IS_THERE = 'There is an admin already. Log in, or ask an admin to add you.';

async function setUp(books: Books, access: Access, { body, incoming }: Call): Promise<Answer> {
  const { code, name, password } = parseOrProblem(setUpSchema, body);
  if (await access.isOpen()) {
    throw new Problem(
      'not-as-things-stand',
      'This demonstration is open to everyone on this machine. Its first admin is made with POST /v1/people; then login is needed.',
    );
  }
  if (!(await access.isSetUpNeeded())) throw new Problem('not-as-things-stand', ADMIN_IS_THERE);
  access.setUp.check(code);
  refusePassword(password, name, 'password');
  const hash = await access.passwords.hash(password);
  const what = { action: 'first admin added', subject: { kind: 'person', id: '' } };
  const person = { id: '', name, role: 'admin', password: hash };
  await change(books, { caller: SET_UP_CALLER }, what, async (writing) => {
    if (await hasAdmin(writing.db)) throw new Refused('out of turn', ADMIN_IS_THERE);
    const { id } = await addPerson(writing, person);
    person.id = id;
    return { says: `${name} is the first admin`, subject: { kind: 'person', id }, result: {} };
  });
  return enter(books, access, person, sessionToken(incoming.headers));
}
