import { Refused } from '../../ledger/refused.ts';
import { personNamed, setPassword } from '../../store/people.ts';
import { lastRevision } from '../../store/revisions.ts';
import type { Store } from '../../store/store.ts';
import { readPlant } from '../../tables/plant.ts';
import { momentOf } from '../books.ts';
import { PROGRAM } from '../found-plant.ts';
import { type Passwords, passwordsOf } from './passwords.ts';
import { newCode } from './secrets.ts';

export interface PasswordReset {
  readonly personId: string;
  readonly name: string;
  /** To be shown once, and changed by the person: four groups of four, 78 bits. */
  readonly password: string;
}

/**
 * Gives someone a new random password, for whoever is at the machine itself; every session of the person ends.
 * @throws Refused 'unknown' when nobody has the name, 'out of turn' for someone who may log in no more.
 */
export async function resetPassword(
  store: Store,
  name: string,
  { now = new Date(), passwords = passwordsOf() }: { now?: Date; passwords?: Passwords } = {},
): Promise<PasswordReset> {
  const { person, plant } = await store.read(async (db) => ({
    person: await personNamed(db, name),
    plant: await lastRevision(db, 'plant', 'plant'),
  }));
  if (!person || !plant) throw new Refused('unknown', `There is nobody called "${name}" in this store`);
  if (person.active === 0) {
    throw new Refused('out of turn', `${person.name} may log in no more. Let an admin change that first.`);
  }
  const password = newCode(4);
  const hash = await passwords.hash(password);
  const act = {
    by: PROGRAM,
    ...momentOf({ plant: readPlant('plant', plant.body) }, now),
    action: 'password reset',
    subject: { kind: 'person', id: person.id },
  };
  await store.write(act, async (writing) => {
    await setPassword(writing, person.id, hash);
    return { says: `${person.name} got a new password at the machine of the service`, result: null };
  });
  return { personId: person.id, name: person.name, password };
}
