import { type Client, foldForSearch } from '../../domain/clients/client.js';
import type { PaperLanguage } from '../../domain/house/paper-choices.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { ClientRow } from '../rows/clients/client.row.js';
import { ClientPaperRow } from '../rows/clients/client-paper.row.js';
import { keptIn, type Reading, type Writing } from '../session.js';
import { seriesBook } from './series-book.js';

/** What people say about a client; the code is the studio's. */
export type ClientWords = Omit<Client, 'id' | 'version' | 'code' | 'paperLanguage'> &
  Partial<Pick<Client, 'paperLanguage'>>;

/** A page of a list, by key. */
export type PageOf<T> = { readonly items: readonly T[]; readonly next: string | undefined };

/** The book of clients. */
export const clientBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Client> {
    const row = await reading.manager.findOneBy(ClientRow, { id });
    if (!row) throw new NotFound('client');
    const paper = await reading.manager.findOneBy(ClientPaperRow, { id });
    return clientOf({ ...row, language: paper?.language ?? '' });
  },

  /**
   * Clients whose name, code, phone or email hold every word asked for, by name; nobody who was erased.
   *
   * @param after the last key of the page before
   */
  async find(reading: Reading, asked: string, limit = 20, after = ''): Promise<PageOf<Client>> {
    return keptIn(reading, `clients ${limit} ${after} ${asked}`, () => found(reading, asked, limit, after));
  },

  /** Who is there already, to notice a second entry for the same person. */
  async everybody(reading: Reading): Promise<Pick<Client, 'id' | 'code' | 'name' | 'email'>[]> {
    return reading.manager.find(ClientRow, { select: { id: true, code: true, name: true, email: true } });
  },

  async count(reading: Reading): Promise<number> {
    return reading.manager.count(ClientRow);
  },

  async add(writing: Writing, words: ClientWords): Promise<Client> {
    const code = codeOf(await seriesBook.take(writing, 'client'));
    const id = writing.newId();
    const row = await writing.insert(ClientRow, { id, code, ...columnsOf(words, code) });
    if (words.paperLanguage) await writing.insert(ClientPaperRow, { id, language: words.paperLanguage });
    return clientOf({ ...row, language: words.paperLanguage ?? '' });
  },

  /** Adds many at once, numbered in their order. */
  async addAll(writing: Writing, people: readonly ClientWords[]): Promise<Client[]> {
    const first = await seriesBook.takeMany(writing, 'client', people.length);
    const rows = people.map((words, place) => {
      const code = codeOf(first + place);
      return { id: writing.newId(), code, ...columnsOf(words, code) };
    });
    const added = await writing.insertAll(ClientRow, rows);
    const papers = added.flatMap(({ id }, place) => {
      const language = people[place]?.paperLanguage ?? '';
      return language ? [{ id, language }] : [];
    });
    await writing.insertAll(ClientPaperRow, papers);
    return added.map((row, place) => clientOf({ ...row, language: people[place]?.paperLanguage ?? '' }));
  },

  /** @throws Stale when somebody corrected it meanwhile */
  async correct(writing: Writing, id: string, words: ClientWords, seen?: number): Promise<Client> {
    const { code } = await this.one(writing, id);
    const row = await writing.update(ClientRow, id, columnsOf(words, code), seen);
    const language = await keepLanguage(writing, id, words.paperLanguage);
    return clientOf({ ...row, language });
  },
};

/** Keeps what was said; the language stays where nothing was. */
const keepLanguage = async (writing: Writing, id: string, said: string | undefined): Promise<string> => {
  const present = await writing.manager.findOneBy(ClientPaperRow, { id });
  const kept = present?.language ?? '';
  if (said === undefined || kept === said) return kept;
  if (present) await writing.update(ClientPaperRow, id, { language: said });
  else await writing.insert(ClientPaperRow, { id, language: said });
  return said;
};

const codeOf = (number: number): string => `C-${String(number).padStart(4, '0')}`;

const found = async (
  reading: Reading,
  asked: string,
  limit: number,
  after: string,
): Promise<PageOf<Client>> => {
  const query = reading.manager
    .createQueryBuilder(ClientRow, 'client')
    // Nothing is left to find an erased one by.
    .where("client.folded <> ''")
    .orderBy('client.folded')
    .addOrderBy('client.id');
  foldForSearch(asked)
    .split(' ')
    .filter((word) => word !== '')
    .slice(0, 8)
    .forEach((word, index) => {
      const pattern = `%${word.replace(/[\\%_]/g, '\\$&')}%`;
      query.andWhere(`client.folded LIKE :word${index} ESCAPE '\\'`, { [`word${index}`]: pattern });
    });
  if (after) {
    const last = await reading.manager.findOneBy(ClientRow, { id: after });
    if (last) {
      query.andWhere('(client.folded > :folded OR (client.folded = :folded AND client.id > :id))', {
        folded: last.folded,
        id: last.id,
      });
    }
  }
  // Raw rows: a list has no use for whole entities, and they cost several times as much.
  const rows = await query
    .select(COLUMNS.map((column) => `client.${column} AS ${column}`))
    .leftJoin(ClientPaperRow, 'paper', 'paper.id = client.id')
    .addSelect('paper.language AS language')
    .limit(limit + 1)
    .getRawMany<WholeRow>();
  return {
    items: rows.slice(0, limit).map(clientOf),
    next: rows.length > limit ? rows[limit - 1]?.id : undefined,
  };
};

const COLUMNS = [
  ...['id', 'version', 'code', 'name', 'address', 'country', 'email', 'phone', 'tax_number', 'notes'],
  ...['is_child', 'birth_date', 'guardian'],
];

/** A client's row with the language of their papers, which has a row of its own where it was ever said. */
type WholeRow = ClientRow & { readonly language: string | null };

const clientOf = (row: WholeRow): Client => ({
  id: row.id,
  version: row.version,
  code: row.code,
  name: row.name,
  address: row.address,
  country: row.country,
  email: row.email,
  phone: row.phone,
  taxNumber: row.tax_number,
  notes: row.notes,
  isChild: Boolean(row.is_child),
  birthDate: row.birth_date ?? undefined,
  guardian: row.guardian,
  paperLanguage: (row.language ?? '') as PaperLanguage | '',
});

const columnsOf = (words: ClientWords, code: string): Omit<ClientRow, 'id' | 'version' | 'code'> => ({
  name: words.name,
  folded: foldForSearch([words.name, code, words.email, words.phone.replace(/[\s()-]/g, '')].join(' ')),
  address: words.address,
  country: words.country,
  email: words.email,
  phone: words.phone,
  tax_number: words.taxNumber,
  notes: words.notes,
  is_child: words.isChild,
  birth_date: words.birthDate ?? null,
  guardian: words.guardian,
});
