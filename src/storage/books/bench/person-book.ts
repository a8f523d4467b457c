import type { Person, Role } from '../../../domain/bench/person.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PersonRow } from '../../rows/bench/person.row.js';
import { keptIn, type Reading, type Writing } from '../../session.js';

const fold = (name: string): string => name.normalize('NFKC').trim().toLowerCase();

export type PersonWords = Omit<Person, 'id' | 'version'>;

/** The people whose minutes are kept. */
export const personBook = {
  /** Everybody, those who left last, then by when they came. */
  async all(reading: Reading): Promise<Person[]> {
    return keptIn(reading, 'people', async () => {
      const rows = await reading.manager.find(PersonRow, { order: { has_left: 'ASC', id: 'ASC' } });
      return rows.map(personOf);
    });
  },

  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Person> {
    const row = await reading.manager.findOneBy(PersonRow, { id });
    if (!row) throw new NotFound('person');
    return personOf(row);
  },

  async ofAccount(reading: Reading, accountId: string): Promise<Person | undefined> {
    return (await this.all(reading)).find((person) => person.accountId === accountId);
  },

  async named(reading: Reading, name: string): Promise<Person | undefined> {
    const row = await reading.manager.findOneBy(PersonRow, { folded: fold(name) });
    return row ? personOf(row) : undefined;
  },

  /** The person behind this visit; made at their first minute, as the owner who signed in before there were persons. */
  async mine(writing: Writing): Promise<Person> {
    const { who } = writing.visit;
    const known = await writing.manager.findOneBy(PersonRow, { account_id: who.id });
    if (known) return personOf(known);
    const namesake = await writing.manager.findOneBy(PersonRow, { folded: fold(who.name) });
    if (namesake && !namesake.account_id) {
      return personOf(await writing.update(PersonRow, namesake.id, { account_id: who.id }));
    }
    const name = namesake ? `${who.name} (${who.id.slice(-4)})` : who.name;
    return this.add(writing, { name, role: 'owner', accountId: who.id, seesPrices: true, left: false });
  },

  async add(writing: Writing, words: PersonWords): Promise<Person> {
    return personOf(await writing.insert(PersonRow, { id: writing.newId(), ...columnsOf(words) }));
  },

  /** @throws Stale when they have changed since `seen` */
  async correct(writing: Writing, id: string, words: PersonWords, seen?: number): Promise<Person> {
    return personOf(await writing.update(PersonRow, id, columnsOf(words), seen));
  },
};

const personOf = (row: PersonRow): Person => ({
  id: row.id,
  version: row.version,
  name: row.name,
  role: row.role as Role,
  accountId: row.account_id ?? undefined,
  seesPrices: row.sees_prices,
  left: row.has_left,
});

const columnsOf = (words: PersonWords): Omit<PersonRow, 'id' | 'version'> => ({
  name: words.name.trim(),
  folded: fold(words.name),
  role: words.role,
  account_id: words.accountId ?? null,
  sees_prices: words.seesPrices,
  has_left: words.left,
});
