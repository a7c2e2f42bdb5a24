import { beforeAll, describe, expect, it } from 'vitest';
import { entryHash } from '../../src/store/hash.ts';
import { book } from '../../src/store/lots.ts';
import type { Db } from '../../src/store/open.ts';
import { addKey, revokeKey } from '../../src/store/people.ts';
import type { EntryRow } from '../../src/store/schema.ts';
import { snapshot } from '../../src/store/snapshot.ts';
import { openStore } from '../../src/store/store.ts';
import type { StoreUrl } from '../../src/store/store-url.ts';
import { type Verdict, verifyStore } from '../../src/store/verify.ts';
import { onEachDatabase } from './databases.ts';
import { act, fillSmallPlant, receiveLot, seenTampered, statements, tamper } from './small-plant.ts';

interface Tampering {
  readonly what: string;
  readonly change: (db: Db) => Promise<void>;
  /** Kind, table and key of every finding. */
  readonly finds: readonly string[];
}

const INSERTED_MOVEMENT = `insert into movements
  (seq, lot_id, kind, mass_ug, reserved_ug, on_hand_after_ug, reserved_after_ug, at, day, person_id, entry) values
  (100, 'B', 'received', 5, 0, 10000000005, 0, '2026-03-02T08:00:00.000Z', '2026-03-02', 'ana'`;

const TAMPERINGS: readonly Tampering[] = [
  {
    what: 'a movement altered',
    change: statements("update movements set reason = 'none' where seq = 1"),
    finds: ['altered movements 1'],
  },
  {
    what: 'the weight of a movement altered, and its balances with it',
    change: statements(
      'update movements set mass_ug = 9, on_hand_after_ug = 9 where seq = 2',
      "update lots set on_hand_ug = 9 where id = 'B'",
    ),
    finds: ['altered movements 2', 'does not add up movements 5', 'does not add up movements 7'],
  },
  {
    what: 'a movement taken out',
    change: statements(
      'delete from movements where seq = 3',
      "update lots set on_hand_ug = 0 where id = 'ß/ü'",
    ),
    finds: ['removed movements 3'],
  },
  {
    what: 'a movement put in, with its balance',
    change: statements(`${INSERTED_MOVEMENT}, 7)`, "update lots set on_hand_ug = 10000000005 where id = 'B'"),
    finds: ['inserted movements 100'],
  },
  {
    what: 'a movement put in under an entry that is not there',
    change: statements(
      `${INSERTED_MOVEMENT}, 70)`,
      "update lots set on_hand_ug = 10000000005 where id = 'B'",
    ),
    finds: ['inserted movements 100'],
  },
  {
    what: 'a movement given to another entry',
    change: statements('update movements set entry = 3 where seq = 1'),
    finds: ['altered movements 1'],
  },
  {
    what: 'a balance altered',
    change: statements("update lots set on_hand_ug = on_hand_ug + 1 where id = 'A'"),
    finds: ['does not add up lots A'],
  },
  {
    what: 'a reserved weight altered',
    change: statements("update lots set reserved_ug = 1 where id = 'A'"),
    finds: ['does not add up lots A'],
  },
  ...['held = 1', "use_by_day = '2030-01-01'", "body = '{}'", "of_id = 'pork'", 'entry = 1'].map(
    (column) => ({
      what: `a lot's ${column}`,
      change: statements(`update lots set ${column} where id = 'A'`),
      finds: ['altered lots A'],
    }),
  ),
  {
    what: "a lot's body that is no JSON any more",
    change: statements('drop index lots_by_supplier_lot', "update lots set body = 'no JSON' where id = 'A'"),
    finds: ['altered lots A'],
  },
  {
    what: "a lot's version",
    change: statements("update lots set version = version - 1 where id = 'A'"),
    finds: ['does not add up lots A'],
  },
  {
    what: 'the name that somebody logs in with',
    change: statements("update people set name_key = 'somebody else'"),
    finds: ['altered people ana'],
  },
  {
    what: 'a lot taken out with its movements',
    change: statements("delete from movements where lot_id = 'ß/ü'", "delete from lots where id = 'ß/ü'"),
    finds: ['removed movements 3', 'removed lots ß/ü'],
  },
  {
    what: 'a lot put in',
    change: statements(
      "insert into lots select 'C', kind, of_id, batch_id, body, revision, received_day, use_by_day, held, 0, 0, 1, 5 from lots where id = 'A'",
    ),
    finds: ['inserted lots C'],
  },
  {
    what: 'the last revision of a lot altered, and the lot with it',
    change: statements(
      `update revisions set body = replace(body, 'cold', 'warm') where id = 'A'`,
      `update lots set body = replace(body, 'cold', 'warm') where id = 'A'`,
    ),
    finds: ['altered revisions lot/A/2'],
  },
  {
    what: 'the last revision of a lot taken out, and the lot set back',
    change: statements(
      `delete from revisions where id = 'A' and revision = 2`,
      `update lots set revision = 1, body = '{"supplier":"Demo supplier","padding":""}' where id = 'A'`,
    ),
    finds: ['removed revisions lot/A/2'],
  },
  {
    what: 'a document altered',
    change: statements("update documents set body = '{}'"),
    finds: ['altered documents'],
  },
  { what: 'a test altered', change: statements("update tests set body = '{}'"), finds: ['altered tests 1'] },
  {
    what: 'a record taken out',
    change: statements('delete from records where seq = 2'),
    finds: ['removed records 2'],
  },
  {
    what: 'a step of a batch altered',
    change: statements("update batch_steps set person_id = 'tomas' where number = 2"),
    finds: ['altered batchSteps one/2'],
  },
  {
    what: 'steps of a batch miscounted',
    change: statements('update batches set steps = 1'),
    finds: ['does not add up batches one'],
  },
  {
    what: 'the state of a batch altered',
    change: statements("update batches set state = 'closed'"),
    finds: ['altered batches one'],
  },
  {
    what: 'a batch said to be of another product',
    change: statements("update batches set product_id = 'q'"),
    finds: ['altered batches one'],
  },
  { what: 'a batch taken out', change: statements('delete from batches'), finds: ['removed batches one'] },
  {
    what: 'a role altered',
    change: statements("update people set role = 'worker'"),
    finds: ['altered people ana'],
  },
  { what: 'a person taken out', change: statements('delete from people'), finds: ['removed people ana'] },
  {
    what: 'an entry altered',
    change: statements("update entries set person = 'Tomas' where seq = 3"),
    finds: ['altered entries 3'],
  },
  {
    what: 'an entry altered, its hash written anew',
    change: (db) => rewrite(db, 3, { person: 'Tomas' }),
    finds: ['chain broken entries 4'],
  },
  {
    what: 'the last entry altered, its hash written anew',
    change: (db) => rewrite(db, 7, { person: 'Tomas' }),
    finds: ['chain broken head 1'],
  },
  {
    what: 'an entry that no longer names its rows',
    change: statements("update entries set row_hashes = 'x' where seq = 3"),
    finds: ['altered entries 3', 'inserted revisions lot/B/1', 'inserted movements 2'],
  },
  {
    what: 'an entry in the middle taken out',
    change: statements('delete from entries where seq = 5'),
    finds: ['removed entries 5', 'inserted revisions lot/A/2'],
  },
  {
    what: 'the last entry taken out',
    change: statements('delete from entries where seq = 7', 'delete from tests', 'delete from records'),
    finds: [
      'removed entries 7',
      'inserted movements 6',
      'inserted movements 7',
      'inserted movements 8',
      'inserted batchSteps one/2',
    ],
  },
  {
    what: 'an entry put in at the end',
    change: statements(
      "insert into entries select 8, at, day, person_id, person, action, subject_kind, subject_id, says, '[]', hash, hash from entries where seq = 7",
    ),
    finds: ['altered entries 8', 'inserted entries 8'],
  },
  {
    what: 'an entry put in before the first',
    change: statements(
      "insert into entries select 0, at, day, person_id, person, action, subject_kind, subject_id, says, '[]', hash, hash from entries where seq = 7",
    ),
    finds: ['inserted entries 0'],
  },
  {
    what: 'the head altered',
    change: statements("update head set hash = 'x'"),
    finds: ['chain broken head 1'],
  },
  { what: 'the head taken out', change: statements('delete from head'), finds: ['removed head 1'] },
];

/** Alters an entry and gives it the hash that fits, as somebody could who knows how the chain is made. */
async function rewrite(db: Db, seq: number, change: Partial<EntryRow>): Promise<void> {
  const entry = await db.selectFrom('entries').selectAll().where('seq', '=', seq).executeTakeFirstOrThrow();
  const altered = { ...entry, ...change };
  await db
    .updateTable('entries')
    .set({ ...change, hash: entryHash(altered) })
    .where('seq', '=', seq)
    .execute();
}

const verdictOn = (url: StoreUrl, expectHead?: string): Promise<Verdict> =>
  snapshot(url, (db) => verifyStore(db, expectHead === undefined ? {} : { expectHead }));

const shortened = ({ findings }: Verdict) =>
  findings.map(({ kind, table, key }) => `${kind} ${table} ${table === 'documents' ? '' : key}`.trim());

onEachDatabase((newStoreUrl) => {
  let url: StoreUrl;
  beforeAll(async () => {
    url = await newStoreUrl();
    const store = await openStore(url);
    await fillSmallPlant(store);
    await store.close();
  });

  it('finds nothing in a store that is as it was written, and counts what it compared', async () => {
    const verdict = await verdictOn(url);
    expect(verdict).toMatchObject({ entries: 7, findings: [], findingsCount: 0, head: { length: 7 } });
    // 7 entries, 1 document, 5 revisions, 8 movements, 2 steps, 1 test, 2 records; 3 lots, 1 batch, 1 person.
    expect(verdict.rowsChecked).toBe(7 + 1 + 5 + 8 + 2 + 1 + 2 + 3 + 1 + 1);
  });

  it('finds nothing in an empty store', async () => {
    const url = await newStoreUrl();
    await (await openStore(url)).close();
    expect(await verdictOn(url)).toMatchObject({ entries: 0, rowsChecked: 0, findings: [] });
  });

  it('refuses to change a protected row while its triggers stand', async () => {
    const store = await openStore(url);
    await expect(store.note((db) => statements('delete from records')(db))).rejects.toThrow(
      'rows are never changed or taken out',
    );
    await store.close();
  });

  describe('tampering', () => {
    it.each(TAMPERINGS)('$what', async ({ change, finds }) => {
      const verdict = await seenTampered(url, change, (db) => verifyStore(db));
      for (const finding of finds) expect(shortened(verdict)).toContain(finding);
      expect(verdict.findingsCount).toBe(verdict.findings.length);
      for (const { says } of verdict.findings) expect(says).toMatch(/^[^\n]+\.$/);
    });
  });

  it('tells of a weight that no double holds', async () => {
    const change = statements('update movements set mass_ug = 9007199254740993 where seq = 8');
    const { findings } = await seenTampered(url, change, (db) => verifyStore(db));
    expect(findings[0]).toMatchObject({ kind: 'altered' });
    expect(findings[0]?.says).toMatch(/9007199254740993|movements 8 is not as entry 7 wrote it/);
  });

  describe('entries cut off cleanly', () => {
    let url: StoreUrl;
    let head: string;
    beforeAll(async () => {
      url = await newStoreUrl();
      const store = await openStore(url);
      for (const id of ['A', 'B', 'C']) await receiveLot(store, id);
      await store.close();
      head = (await verdictOn(url)).head.hash;
      await tamper(
        url,
        statements(
          'delete from entries where seq = 3',
          'delete from movements where entry = 3',
          'delete from revisions where entry = 3',
          'delete from lots where entry = 3',
          'update head set length = 2, hash = (select hash from entries where seq = 2)',
        ),
      );
    });

    it('leave a chain in which nothing is wrong', async () => {
      expect((await verdictOn(url)).findings).toEqual([]);
    });

    it('are found by the head that was written down', async () => {
      const verdict = await verdictOn(url, head);
      expect(shortened(verdict)).toEqual([`removed entries ${head}`]);
      expect(verdict.findings[0]?.says).toContain('taken off the end');
    });

    it('are not found by an older head, which is in the chain still', async () => {
      const older = (await verdictOn(url)).head.hash;
      const asOnPaper = (older.slice(0, 16).toUpperCase().match(/.{4}/g) ?? []).join(' ');
      expect((await verdictOn(url, asOnPaper)).findings).toEqual([]);
    });
  });

  it('says what is wrong with a head that is none', async () => {
    await expect(verdictOn(url, 'abc')).rejects.toThrow(/"abc" is no hash of a head; write its 64 digits/);
  });

  it('counts what it does not list, over more entries than a page has', async () => {
    const url = await newStoreUrl();
    const store = await openStore(url);
    for (let number = 1; number <= 520; number += 1) await receiveLot(store, `L${number}`);
    await store.close();
    expect((await verdictOn(url)).findings).toEqual([]);
    await tamper(url, statements("update movements set person_id = 'tomas'"));
    const verdict = await verdictOn(url);
    expect(verdict.findings).toHaveLength(200);
    expect(verdict.findingsCount).toBe(520);
  });

  it.each(['a\0b', 'a\ud800b'])('never holds a text that would come back as another: %j', async (reason) => {
    const url = await newStoreUrl();
    const store = await openStore(url);
    await receiveLot(store, 'A');
    const spoil = store.write(act('lot', 'A'), async (writing) => {
      await book(writing, { lotId: 'A', kind: 'discarded', massUg: -1, reservedUg: 0, reason });
      return { says: 'discarded', result: null };
    });
    await expect(spoil).rejects.toThrow('movements.reason holds a character that no store keeps');
    const said = store.write(act('lot', 'A'), async () => ({ says: reason, result: null }));
    await expect(said).rejects.toThrow('entries.says holds a character that no store keeps');
    await store.close();
    expect(await verdictOn(url)).toMatchObject({ entries: 1, findings: [] });
  });

  describe('keys of programs', () => {
    let url: StoreUrl;
    beforeAll(async () => {
      url = await newStoreUrl();
      const store = await openStore(url);
      for (const name of ['scale', 'printer']) {
        await store.write(act('key', name), async (writing) => {
          await addKey(writing, { name, role: 'floor', keyHash: `hash of ${name}` });
          return { says: `${name} made`, result: null };
        });
      }
      await store.write(act('key', 'K2'), async (writing) => {
        await revokeKey(writing, 'K2');
        return { says: 'printer revoked', result: null };
      });
      await store.close();
    });

    it('are as they were made and revoked', async () => {
      expect((await verdictOn(url)).findings).toEqual([]);
    });

    it.each([
      ["role = 'admin'", 'K1'],
      ["key_hash = 'of another'", 'K1'],
      ["created_by = 'nobody'", 'K1'],
      ["created_at = '2020-01-01T00:00:00.000Z'", 'K1'],
      ["revoked_at = '2026-03-02T08:00:00.000Z'", 'K1'],
      ['revoked_at = null', 'K2'],
      ["revoked_at = '2030-01-01T00:00:00.000Z'", 'K2'],
    ])('is not with %s', async (column, id) => {
      const change = statements(`update api_keys set ${column} where id = '${id}'`);
      const verdict = await seenTampered(url, change, (db) => verifyStore(db));
      expect(shortened(verdict)).toEqual([`altered apiKeys ${id}`]);
    });
  });

  it('takes in what other checks find', async () => {
    const finding = {
      kind: 'does not add up',
      table: 'batches',
      key: 'one',
      says: 'Its state is wrong.',
    } as const;
    const verdict = await snapshot(url, (db) => verifyStore(db, { extraChecks: async () => [finding] }));
    expect(verdict.findings).toEqual([finding]);
  });
});
